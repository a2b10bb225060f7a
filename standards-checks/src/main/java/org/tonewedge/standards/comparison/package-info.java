/**
 * The whole reading of a strip, and its comparison with a reference.
 *
 * <p>Enter at {@link org.tonewedge.standards.comparison.FilmComparison}.
 */
package org.tonewedge.standards.comparison;
