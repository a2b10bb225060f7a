/**
 * The characteristic curve: density as a function of log exposure, and what can be read off it.
 *
 * <p>Enter at {@link org.tonewedge.core.curve.CharacteristicCurve}: {@code CharacteristicCurve.through(strip)} draws a
 * monotone cubic through the readings; curves fitted elsewhere are made with
 * {@link org.tonewedge.core.curve.CharacteristicCurve#of}. {@link org.tonewedge.core.curve.CurveAnatomy} divides a curve
 * into toe, straight line and shoulder by a stated criterion.
 *
 * <p>Rules of a curve:
 *
 * <ol>
 *   <li>It answers inside the exposures that were measured and refuses outside
 *       ({@link org.tonewedge.core.curve.OutsideMeasuredRangeException}), unless
 *       {@linkplain org.tonewedge.core.curve.CharacteristicCurve#extrapolated extrapolation} was asked for.
 *   <li>A density that is reached at more than one exposure is refused by name
 *       ({@link org.tonewedge.core.curve.AmbiguousDensityException}); a curve may reverse elsewhere.
 *   <li>Curves may rise (negatives) or fall (reversal materials).
 * </ol>
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.core.curve;
