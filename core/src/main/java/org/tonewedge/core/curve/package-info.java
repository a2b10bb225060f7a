// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The characteristic curve: density as a function of log exposure, and what you can read off it.
 *
 * <p>Start at {@link org.tonewedge.core.curve.CharacteristicCurve}. {@code CharacteristicCurve.through(strip)} draws a
 * monotone cubic through the readings; {@link org.tonewedge.core.curve.CharacteristicCurve#of CharacteristicCurve.of} wraps a curve fitted
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
 * <p>The page {@code speed.html} of the package {@code org.tonewedge.fitting.parametric} says how fast they are beside a copy
 * of the array and beside another library; the class {@code SpeedTable} of its tests measures them.
 *
 * <p>All types are immutable and thread safe. A curve is not serialisable: ship its strip, and draw it again.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 *
 * @serial exclude
 */
package org.tonewedge.core.curve;
