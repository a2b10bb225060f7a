/**
 * Development: from a few test strips to "develop for this long". Enter at
 * {@link org.tonewedge.fitting.development.DevelopmentSeries} with the strips of one film in one developer.
 *
 * <pre>{@code
 * DevelopmentSeries series = DevelopmentSeries.of(strips); // two to five strips, developed for different times
 * ContrastFit fit = series.contrast(ContrastMeasure.RISE_OVER_130).best();
 * PredictedTime time = fit.timeFor(ContrastTarget.isoContrastCondition()); // prints like 9 min 15 s
 * CharacteristicCurve there = series.family().curveAt(time.time());
 * }</pre>
 *
 * <p>What holds throughout:
 *
 * <ol>
 *   <li>Contrast is a figure read off a curve by a stated {@link org.tonewedge.fitting.development.ContrastMeasure}; it
 *       grows with time towards a ceiling, C(t) = C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>))).
 *   <li>Temperature changes the rate alone: t minutes at T do what t · r(T) minutes do at the reference temperature. So
 *       equivalent times compose, and a time changed to another temperature and back is the time. Induction time shortens
 *       in the same proportion. Real developers with two developing agents depart from this; test at the temperature used.
 *   <li>Beyond the tested times and temperatures nothing is answered unless
 *       {@link org.tonewedge.fitting.development.DevelopmentSeries#withExtrapolation()} asks for it; then the answer is
 *       flagged.
 *   <li>Standard uncertainties hold what the strips tell. They do not hold what all strips share, such as a thermometer
 *       that reads 0.5 °C low.
 *   <li>Wherever a time is given out its {@linkplain org.tonewedge.fitting.development.Caution cautions} go with it.
 * </ol>
 */
package org.tonewedge.fitting.development;
