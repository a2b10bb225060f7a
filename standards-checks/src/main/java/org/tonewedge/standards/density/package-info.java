// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The kinds of density: {@link org.tonewedge.standards.density.DensityKind geometry and spectral response} as types, so
 * that different kinds of density do not mix, and the {@link org.tonewedge.core.quantity.SpectralResponse}s that
 * turn a spectrum into a density.
 *
 * <p>For printing, {@link org.tonewedge.standards.density.PrintingChannel} takes the density closest to what paper sees, and
 * {@link org.tonewedge.standards.density.CallierFactor} turns diffuse densities into those of an enlarger with a condenser.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.density;
