// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Density data in the open text format of ISO 28178, formerly ANSI CGATS.17, as an alternative to the readings table:
 * {@link org.tonewedge.standards.exchange.DensityExchange} reads and writes it.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.exchange;
