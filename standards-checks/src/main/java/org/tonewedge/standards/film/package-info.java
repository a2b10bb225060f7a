/**
 * Speed of camera films.
 *
 * <p>Enter at {@link org.tonewedge.standards.film.Iso6}; rounded speeds are {@link org.tonewedge.standards.film.IsoSpeed}.
 */
package org.tonewedge.standards.film;
