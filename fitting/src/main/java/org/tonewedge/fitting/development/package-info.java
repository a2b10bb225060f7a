// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Development: from a few test strips to "develop for this long". Start at
 * {@link org.tonewedge.fitting.development.DevelopmentSeries} with the strips of one film in one developer.
 *
 * <pre>{@code
 * DevelopmentSeries series = DevelopmentSeries.of(strips); // two to five strips, developed for different times
 * ContrastFit fit = series.contrast(ContrastMeasure.RISE_OVER_130).best();
 * PredictedTime time = fit.timeFor(ContrastTarget.isoContrastCondition()); // prints like 9 min 15 s
 * CharacteristicCurve there = series.family().curveAt(time.time());
 * }</pre>
 *
 * <p>These rules apply throughout:
 *
 * <ol>
 *   <li>Contrast is a figure read off a curve by a stated {@link org.tonewedge.fitting.development.ContrastMeasure}; it
 *       grows with time towards a ceiling, C(t) = C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>))).
 *   <li>Temperature changes only the rate: t minutes at T are equivalent to t · r(T) minutes at the reference
 *       temperature. Equivalent times therefore compose, and a time converted to another temperature and back is
 *       unchanged. The induction time shortens in the same proportion. Real developers with two developing agents
 *       depart from this, so test at the temperature that you use.
 *   <li>Beyond the tested times and temperatures every question is refused, unless
 *       {@link org.tonewedge.fitting.development.DevelopmentSeries#withExtrapolation()} allows an answer; the answer is
 *       then flagged.
 *   <li>Standard uncertainties include what the strips show. They do not include errors that all strips share, such as
 *       a thermometer that reads 0.5 °C too low.
 *   <li>Every time comes with its {@linkplain org.tonewedge.fitting.development.Caution cautions}.
 * </ol>
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.fitting.development;
