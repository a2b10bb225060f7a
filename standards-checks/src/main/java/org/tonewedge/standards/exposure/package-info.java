// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * From the light at the meter to the exposure at the film: {@link org.tonewedge.standards.exposure.FocalPlaneExposure},
 * {@link org.tonewedge.standards.exposure.ExposureMeter}, marked times and apertures,
 * reciprocity, and sensitometric illuminants.
 *
 * <p>What one's own equipment and film do with it: {@link org.tonewedge.standards.exposure.ReciprocityFit} for long times,
 * {@link org.tonewedge.standards.exposure.CameraFlare} for strips exposed in a camera, {@link
 * org.tonewedge.standards.exposure.PersonalExposureIndex} for one's own meter, {@link
 * org.tonewedge.standards.exposure.FilterFactor} and {@link org.tonewedge.standards.exposure.SensitivityCurve} for filters and
 * spectra.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.exposure;
