/**
 * Characteristic curves with few parameters, fitted to the readings of a strip, with uncertainties that reach every
 * figure read off the curve.
 *
 * <p>Enter at {@link org.tonewedge.fitting.parametric.StripFit}: {@code StripFit.of(strip)} fits toe, straight line and
 * shoulder, judges whether the curve follows the readings, and takes another family or a smoothing spline where it does
 * not. {@link org.tonewedge.fitting.parametric.CurveFits} fits without a verdict: {@code CurveFits.toeShoulder(strip)} one
 * family, {@code CurveFits.best(strip)} all of them. Options are on {@link org.tonewedge.fitting.parametric.CurveFit}; the
 * result is a {@link org.tonewedge.fitting.parametric.FittedCurve}.
 *
 * <p>Rules of a fit:
 *
 * <ol>
 *   <li>Every reading is in it, repeats one by one and those of base plus fog as readings without exposure. Read base
 *       plus fog on an unexposed part: it halves the error of a speed point.
 *   <li>A fit that fails is a {@link org.tonewedge.fitting.parametric.CurveFitException} with a reason, never a poor
 *       curve. Falling (reversal) strips are refused.
 *   <li>A strip that shows no shoulder, or no toe, is fitted without one, and the result says so.
 *   <li>The weak prior on softness is used only where the readings leave a softness open, and the result says so.
 *   <li>The curve answers over the exposures that were read, as every curve does.
 * </ol>
 *
 * <p>How good the engine is: <a href="doc-files/nist-regression.html">certified values</a>; how good and how
 * fast the fits are: <a href="doc-files/fit-quality.html">fit quality</a>.
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.fitting.parametric;
