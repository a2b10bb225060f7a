// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The setting of the printer: the exposure on the paper without a negative.
 *
 * <p>Under density D of the negative the paper receives log H = log H<sub>open</sub> − D, where D is the density as the
 * printer sees it. An enlarger with a condenser sees a higher density than a diffuse densitometer reads (Callier
 * effect). If that matters, give densities as the printer projects them.
 *
 * <p>Immutable and thread safe.
 *
 * @param openExposure the exposure on the paper without a negative
 */
public record Printing(LogExposure openExposure) {

    /**
     * Checks the setting.
     *
     * @param openExposure the exposure on the paper without a negative
     */
    public Printing {
        Objects.requireNonNull(openExposure, "openExposure");
    }

    /**
     * Returns the setting that prints a given density of the negative to a given density of the print.
     *
     * @param negative a gross density of the negative
     * @param paper the paper's curve
     * @param print the density wanted in the print
     * @return the setting
     * @throws org.tonewedge.core.curve.NotDeterminableException if the paper does not give the density, or gives it at
     *     several exposures
     */
    public static Printing matching(Density negative, CharacteristicCurve paper, Density print) {
        Objects.requireNonNull(print, "print");
        return new Printing(paper.logExposureAt(print).plus(ExposureInterval.ofLogUnits(negative.value())));
    }

    /**
     * Returns a setting with more or less exposure.
     *
     * @param change the change, such as {@link PrintExposure#forBasePlusFog PrintExposure.forBasePlusFog}
     * @return the new setting
     */
    public Printing changedBy(ExposureInterval change) {
        Objects.requireNonNull(change, "change");
        return new Printing(openExposure.plus(change));
    }

    /**
     * Returns the exposure on the paper under a density of the negative.
     *
     * @param negative a gross density of the negative
     * @return the exposure on the paper
     */
    public LogExposure exposureUnder(Density negative) {
        return openExposure.minus(ExposureInterval.ofLogUnits(negative.value()));
    }

    /** From the density of the negative to the exposure on the paper. */
    ToneStage<Density, LogExposure> stage() {
        return ToneStage.of("printing", this::exposureUnder, density -> -1);
    }
}
