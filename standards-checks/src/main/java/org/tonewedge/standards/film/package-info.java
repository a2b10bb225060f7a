// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Speed of camera films.
 *
 * <p>Start at {@link org.tonewedge.standards.film.Iso6} for black-and-white negatives,
 * {@link org.tonewedge.standards.film.Iso5800} for colour negatives and {@link org.tonewedge.standards.film.Iso2240}
 * for slides; rounded speeds are {@link org.tonewedge.standards.film.IsoSpeed}. Every speed is a
 * {@link org.tonewedge.standards.film.FilmSpeed}, so speeds by different criteria can be compared; only an
 * {@link org.tonewedge.standards.film.IsoFilmSpeed} is rounded to a box speed.
 *
 * <p>{@link org.tonewedge.standards.film.ProcessControl} watches a development process by control strips.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.film;
