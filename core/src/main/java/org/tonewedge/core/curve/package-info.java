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
 * <p>For scans of millions of samples, {@link org.tonewedge.core.curve.CurveTable} and
 * {@link org.tonewedge.core.curve.InverseCurveTable} write a curve out as look-up tables with stated errors, and
 * {@link org.tonewedge.core.curve.ScanCodeTable} reads whole-number codes; no bulk form allocates. {@code mvn -B
 * -Pbenchmark -pl core -am verify -DskipTests -Dmaven.javadoc.skip=true} measures them beside Commons Math 3.6.1 and a
 * copy of the array, and prints the ratios.
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.core.curve;
