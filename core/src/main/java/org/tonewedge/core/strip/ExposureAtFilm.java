package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.LogExposure;

/** Computes the exposure at the film from camera settings, for a camera that photographs an evenly lit target. */
@FunctionalInterface
public interface ExposureAtFilm {

    /**
     * Returns the exposure at the film.
     *
     * @param luminance the luminance of the target in cd/m²
     * @param seconds the exposure time
     * @param fNumber the f-number
     * @return the exposure
     */
    LogExposure of(double luminance, double seconds, double fNumber);
}
