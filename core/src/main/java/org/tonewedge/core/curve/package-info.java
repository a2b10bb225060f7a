// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The characteristic curve: density as a function of log exposure, and what you can read off it.
 *
 * <p>Start at {@link org.tonewedge.core.curve.CharacteristicCurve}. {@code CharacteristicCurve.through(strip)} draws a
 * monotone cubic through the readings; {@link org.tonewedge.core.curve.CharacteristicCurve#of} wraps a curve fitted
 * elsewhere. {@link org.tonewedge.core.curve.CurveAnatomy} divides a curve into toe, straight line and shoulder by a
 * stated criterion.
 *
 * <p>Rules for every curve:
 *
 * <ol>
 *   <li>It answers within the measured exposures and throws
 *       {@link org.tonewedge.core.curve.OutsideMeasuredRangeException} outside them, unless you asked for
 *       {@linkplain org.tonewedge.core.curve.CharacteristicCurve#extrapolatedStraight extrapolation}.
 *   <li>If several exposures give a density, asking for its exposure throws
 *       {@link org.tonewedge.core.curve.AmbiguousDensityException}. A curve that reverses still answers for densities
 *       that it reaches only once.
 *   <li>Curves may rise (negatives) or fall (reversal materials).
 * </ol>
 *
 * <p>For scans of millions of samples, {@link org.tonewedge.core.curve.CurveTable} and
 * {@link org.tonewedge.core.curve.InverseCurveTable} turn a curve into look-up tables with stated errors, and
 * {@link org.tonewedge.core.scan.ScanCodeTable} reads whole-number codes. No array method allocates.
 *
 * <table>
 * <caption>Nanoseconds per sample for 10 million random samples, in one run (JMH, Java 17, two cores)</caption>
 * <tr><th>job</th><th>here</th><th>Commons Math 3.6.1</th><th>ratio</th><th>times array copy (0.50 ns)</th></tr>
 * <tr><td>density, table</td><td>1.93</td><td>29.3</td><td>15.2</td><td>3.9</td></tr>
 * <tr><td>density, exact monotone cubic</td><td>3.78</td><td>29.3</td><td>7.8</td><td>7.6</td></tr>
 * <tr><td>log exposure, inverse table</td><td>1.65</td><td>65.2</td><td>39.4</td><td>3.3</td></tr>
 * <tr><td>16-bit code to density</td><td>0.92</td><td></td><td></td><td>1.9</td></tr>
 * <tr><td>building a cubic of 21 readings</td><td>188</td><td>439</td><td>2.3</td><td></td></tr>
 * </table>
 *
 * <p>Measured by {@code mvn -B -Pbenchmark -pl core -am verify -DskipTests -Dmaven.javadoc.skip=true}, which prints the
 * ratios; the ratios to Commons Math are steadier than those to the copy. Random 16-bit codes read a table of half a
 * megabyte, more than a first-level cache can store.
 *
 * <p>All types are immutable and thread safe. A curve is not serialisable: ship its strip, and draw it again.
 *
 * @serial exclude
 */
package org.tonewedge.core.curve;
