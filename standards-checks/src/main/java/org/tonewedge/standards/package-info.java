/**
 * What all published methods share: the {@link org.tonewedge.standards.Determination} they return, the
 * {@link org.tonewedge.standards.Criterion} they apply, the {@link org.tonewedge.standards.Condition}s they set, and the
 * {@link org.tonewedge.standards.ReadingUncertainty} of their figures.
 *
 * <table>
 * <caption>How does ISO do it?</caption>
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
 * <tr><td>what a density is a density of</td><td>{@link org.tonewedge.standards.density.DensityKind}, {@link
 * org.tonewedge.standards.density.SpectralResponse}</td></tr>
 * <tr><td>exchange of density data</td><td>{@link org.tonewedge.standards.exchange.DensityExchange}</td></tr>
 * </table>
 *
 * <p>Every method says in its documentation what its source asks for, what is unclear there and what is done here. The <a
 * href="doc-files/verification.html">verification table</a> sets the methods against published figures, row by row.
 *
 * <p>Words used of sources: <em>verified</em> means that the figure was read in the source named, which often is a
 * secondary one; <em>from memory</em> means that it was not; where nothing is said of a clause, it was not read.
 */
package org.tonewedge.standards;
