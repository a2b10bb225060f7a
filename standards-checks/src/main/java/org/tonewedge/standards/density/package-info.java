/**
 * What a density is a density of: {@link org.tonewedge.standards.density.DensityKind geometry and spectral response} as
 * types, so that unlike densities do not mix, and the {@link org.tonewedge.standards.density.SpectralResponse}s by which
 * a density follows from a spectrum.
 */
package org.tonewedge.standards.density;
