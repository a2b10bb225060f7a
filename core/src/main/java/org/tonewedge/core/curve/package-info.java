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
 * {@link org.tonewedge.core.curve.ScanCodeTable} reads whole-number codes; no bulk form allocates.
 *
 * <table>
 * <caption>Nanoseconds for a sample of 10 million random ones, in one run (JMH, Java 17, two cores)</caption>
 * <tr><th>job</th><th>here</th><th>Commons Math 3.6.1</th><th>ratio</th><th>times array copy (0.43 ns)</th></tr>
 * <tr><td>density, table</td><td>2.07</td><td>28.0</td><td>13.5</td><td>4.9</td></tr>
 * <tr><td>density, exact monotone cubic</td><td>4.05</td><td>28.0</td><td>6.9</td><td>9.5</td></tr>
 * <tr><td>log exposure, inverse table</td><td>1.59</td><td>64.7</td><td>40.8</td><td>3.7</td></tr>
 * <tr><td>16-bit code to density</td><td>0.88</td><td></td><td></td><td>2.1</td></tr>
 * <tr><td>building a cubic of 21 readings</td><td>294</td><td>488</td><td>1.7</td><td></td></tr>
 * </table>
 *
 * <p>Measured by {@code mvn -B -Pbenchmark -pl core -am verify -DskipTests -Dmaven.javadoc.skip=true}, which prints the
 * ratios. In a second run the table took 2.9 ns; the ratios to Commons Math are steadier than those to the copy.
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.core.curve;
