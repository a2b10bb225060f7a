/**
 * From the light at the meter to the exposure at the film: {@link org.tonewedge.standards.exposure.FocalPlaneExposure},
 * {@link org.tonewedge.standards.exposure.ExposureMeter}, marked times and apertures, reciprocity, sensitometric
 * illuminants, and the certificates of step tablets.
 */
package org.tonewedge.standards.exposure;
