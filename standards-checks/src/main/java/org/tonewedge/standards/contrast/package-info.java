// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Measures of contrast: {@link org.tonewedge.standards.contrast.AverageGradient} and
 * {@link org.tonewedge.standards.contrast.ContrastIndex}; gamma comes with {@link org.tonewedge.core.curve.CurveAnatomy}, the
 * contrast of ISO 6 with {@link org.tonewedge.standards.film.Iso6Contrast}.
 *
 * <p>On a straight line all of them agree; on real curves they do not, and none can replace another.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.contrast;
