// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;

/**
 * A reading compared with the curve fitted to it.
 *
 * @param strip the name of what was fitted, such as {@code strip 'S07'}
 * @param exposure the exposure, or empty for a reading of base plus fog
 * @param density the gross density read
 * @param residual the density read minus the density of the curve
 * @param standardised the residual divided by the standard deviation of such a reading
 * @param trust the weight that a robust loss gave the reading, from 0 to 1; 1 without a robust loss
 */
public record FittedReading(
        String strip,
        Optional<LogExposure> exposure,
        Density density,
        DensityDifference residual,
        double standardised,
        double trust) {

    /**
     * Returns the reading in words.
     *
     * @return strip, exposure, density and residual
     */
    @Override
    public String toString() {
        return strip + ": " + density + " at "
                + exposure.map(LogExposure::toString).orElse("no exposure") + " is "
                + Figures.signed(residual.value()) + " off the curve ("
                + String.format(Locale.ROOT, "%.1f", Math.abs(standardised))
                + " standard deviations)";
    }
}
