/**
 * From the light at the meter to the exposure at the film: {@link org.tonewedge.standards.exposure.FocalPlaneExposure},
 * {@link org.tonewedge.standards.exposure.ExposureMeter}, marked times and apertures,
 * reciprocity, and sensitometric illuminants.
 */
package org.tonewedge.standards.exposure;
