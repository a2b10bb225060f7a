// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Strips read through several filters: the {@link org.tonewedge.standards.colour.Channel}s, the strip that has one
 * series of readings for each, and the three curves of a colour film.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.colour;
