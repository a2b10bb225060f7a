/**
 * Measures of contrast: {@link org.tonewedge.standards.contrast.AverageGradient} and
 * {@link org.tonewedge.standards.contrast.ContrastIndex}. Gamma, the slope of the straight line, comes with the anatomy
 * of a curve ({@link org.tonewedge.core.curve.CurveAnatomy#gamma()}); the contrast of ISO 6 with
 * {@link org.tonewedge.standards.film.Iso6Contrast}.
 *
 * <p>On a straight line all of them agree; on real curves they do not, and none may stand for another.
 */
package org.tonewedge.standards.contrast;
