// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.LogExposure;

/** Computes the exposure at the film from camera settings, for a camera that photographs an evenly lit target. */
@FunctionalInterface
public interface ExposureAtFilm {

    /**
     * Returns the exposure at the film.
     *
     * @param setting the f-number and the exposure time
     * @param luminance the luminance of the target
     * @return the exposure
     * @units candelas per square metre
     */
    LogExposure exposure(CameraSetting setting, double luminance);
}
