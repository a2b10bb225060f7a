/**
 * What the loupe sees: sharpness of edges, modulation transfer and resolving power of a film, from scans held as arrays.
 *
 * <p>Enter from {@link org.tonewedge.standards.detail.SlantedEdge}.
 */
package org.tonewedge.standards.detail;
