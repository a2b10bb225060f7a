// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * All figures of a strip, and its comparison with a reference.
 *
 * <p>Start at {@link org.tonewedge.standards.comparison.FilmComparison}.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.comparison;
