// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * One tone followed from the subject to the print: a point in each of the four quadrants.
 *
 * @param tone the tone of the subject
 * @param filmExposure its exposure at the film, including flare
 * @param negativeDensity the gross density it gives in the negative
 * @param paperExposure the exposure it gives on the paper
 * @param printDensity the density it gives in the print
 * @param gradient the gradient of reproduction: the change of log<sub>10</sub> of the print's reflectance per change of
 *     log<sub>10</sub> of the subject's luminance; 1 if contrast is preserved
 */
public record ReproducedTone(
        SubjectTone tone,
        LogExposure filmExposure,
        Density negativeDensity,
        LogExposure paperExposure,
        Density printDensity,
        Gradient gradient) {

    /**
     * Returns the reflectance of the print.
     *
     * @return 10 to the power of −print density
     */
    public double reflectance() {
        return printDensity.transmittance();
    }
}
