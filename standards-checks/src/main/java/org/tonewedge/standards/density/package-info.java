/**
 * The kinds of density: {@link org.tonewedge.standards.density.DensityKind geometry and spectral response} as types, so
 * that different kinds of density do not mix, and the {@link org.tonewedge.standards.density.SpectralResponse}s that
 * turn a spectrum into a density.
 */
package org.tonewedge.standards.density;
