// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Characteristic curves with few parameters, fitted to the readings of a strip; every figure read off a fitted curve
 * has an uncertainty.
 *
 * <p>Start at {@link org.tonewedge.fitting.parametric.StripFit}. {@code StripFit.of(strip)} fits toe, straight line and
 * shoulder, and judges whether the curve follows the readings; if not, it takes another family or a smoothing spline.
 * {@link org.tonewedge.fitting.parametric.CurveFits} fits without a verdict: {@code CurveFits.toeShoulder(strip)} fits
 * one family, {@code CurveFits.best(strip)} all of them. {@link org.tonewedge.fitting.parametric.CurveFit} has the
 * options, and the result is a {@link org.tonewedge.fitting.parametric.FittedCurve}.
 *
 * <p>Rules for a fit:
 *
 * <ol>
 *   <li>Every reading counts: repeat readings one by one, and those of base plus fog as readings without exposure. Read
 *       base plus fog on an unexposed part: ten readings and more about halve the error of the speed point of a median
 *       strip, three that of the worst strips (<a href="doc-files/fit-quality.html">measured</a>).
 *   <li>A fit that fails throws a {@link org.tonewedge.fitting.parametric.CurveFitException} with a reason; it never
 *       returns a poor curve. Falling (reversal) strips are refused.
 *   <li>A strip that shows no shoulder, or no toe, is fitted without one, and the result says so.
 *   <li>The weak prior on softness is used only if the readings do not determine a softness, and the result says so.
 *   <li>The curve answers over the measured exposures, as every curve does.
 * </ol>
 *
 * <p>Three pages give figures: the engine against <a href="doc-files/nist-regression.html">certified values</a>, the
 * <a href="doc-files/fit-quality.html">quality of the fits</a>, and their <a href="doc-files/speed.html">speed beside other
 * libraries</a>.
 *
 * <p>All types are immutable and thread safe.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.fitting.parametric;
