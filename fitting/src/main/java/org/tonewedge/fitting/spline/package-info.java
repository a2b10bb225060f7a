// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Smoothing splines: curves through a strip's readings that take their shape from the readings alone and smooth the
 * noise as much as the readings require.
 *
 * <p>Start at {@link org.tonewedge.fitting.spline.SmoothingSpline}; its result is a
 * {@link org.tonewedge.fitting.spline.SplineFit}.
 *
 * <pre>{@code
 * SplineFit fit = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE).fit(strip);
 * CharacteristicCurve curve = fit.curve();
 * Estimate density = fit.densityAt(LogExposure.ofLogLuxSeconds(-1.2)); // with its standard uncertainty
 * }</pre>
 *
 * <p>Monotone fits take as long as others. The <a href="../parametric/doc-files/speed.html">page on speed</a> has a fit
 * beside one of a family; {@code SplineBenchmark} of the tests sets it beside smooth.spline of R, if that is installed.
 *
 * <p>All types are immutable and thread safe.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.fitting.spline;
