// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * What all published methods share: the {@link org.tonewedge.standards.Determination} that they return, the
 * {@link org.tonewedge.standards.Criterion} that they apply, the {@link org.tonewedge.standards.Condition}s that they
 * set, and the {@link org.tonewedge.standards.ReadingUncertainty} of their figures.
 *
 * <table>
 * <caption>Which class for which question</caption>
 * <tr><th scope="col">question</th><th scope="col">class</th></tr>
 * <tr><td>speed of a black-and-white negative film</td><td>{@link org.tonewedge.standards.film.Iso6}</td></tr>
 * <tr><td>speed of a colour negative film</td><td>{@link org.tonewedge.standards.film.Iso5800}</td></tr>
 * <tr><td>speed of a colour reversal film</td><td>{@link org.tonewedge.standards.film.Iso2240}</td></tr>
 * <tr><td>mean over samples, rounding</td><td>{@link org.tonewedge.standards.film.SpeedMean}, {@link
 * org.tonewedge.standards.film.IsoSpeed}</td></tr>
 * <tr><td>older criteria and scales</td><td>{@link org.tonewedge.standards.film.FractionalGradient}, {@link
 * org.tonewedge.standards.film.DeltaX}, {@link org.tonewedge.standards.film.Inertia}, {@link
 * org.tonewedge.standards.film.PlateSpeed}, {@link org.tonewedge.standards.film.HistoricalScale}</td></tr>
 * <tr><td>contrast of a negative</td><td>{@link org.tonewedge.core.curve.CurveAnatomy#gamma()}, {@link
 * org.tonewedge.standards.contrast.AverageGradient}, {@link org.tonewedge.standards.contrast.ContrastIndex}</td></tr>
 * <tr><td>speed and range of a paper</td><td>{@link org.tonewedge.standards.paper.Iso6846}</td></tr>
 * <tr><td>radiographic films</td><td>{@link org.tonewedge.standards.radiography.RadiographicSpeed}, {@link
 * org.tonewedge.standards.radiography.RadiographicGradient}, {@link
 * org.tonewedge.standards.radiography.IndustrialFilmClass}</td></tr>
 * <tr><td>exposure at the film</td><td>{@link org.tonewedge.standards.exposure.FocalPlaneExposure}, {@link
 * org.tonewedge.standards.exposure.ExposureMeter}, {@link org.tonewedge.standards.exposure.Reciprocity}</td></tr>
 * <tr><td>what kind of density was measured</td><td>{@link org.tonewedge.standards.density.DensityKind},
 * {@link org.tonewedge.core.quantity.SpectralResponse}</td></tr>
 * <tr><td>exchange of density data</td><td>{@link org.tonewedge.standards.exchange.DensityExchange}</td></tr>
 * </table>
 *
 * <p>Every method documents what its source requires, what is unclear there and what is done here. The
 * <a href="doc-files/verification.html">verification table</a> compares the methods with published figures, row by row.
 *
 * <p>Words used for sources: <em>verified</em> means that the figure was read in the source named, which is often a
 * secondary one; <em>from memory</em> means that it was not. If nothing is said about a clause, it was not read.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards;
