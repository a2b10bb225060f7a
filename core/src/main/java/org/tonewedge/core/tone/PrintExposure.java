package org.tonewedge.core.tone;

import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * The change of printing exposure that makes two negatives print alike.
 *
 * <p>Light that passes a negative of density D is 10<sup>−D</sup> of what falls on it; a negative that is denser by ΔD
 * needs 10<sup>ΔD</sup> times the exposure for the same print.
 *
 * @source C. E. K. Mees, The Fundamentals of Photography (1920/21), "Positive Printing": printing exposure proportional
 *     to the opacity to be printed through
 */
public final class PrintExposure {

    private PrintExposure() {}

    /**
     * Returns the change of printing exposure for a difference of base plus fog, so that the unexposed film of both
     * negatives prints to the same tone.
     *
     * @param basePlusFog base plus fog of the negative to print
     * @param referenceBasePlusFog base plus fog of the negative whose exposure is known
     * @return the change: positive for more exposure; {@link ExposureInterval#ratio()} is the factor on the time
     */
    public static ExposureInterval forBasePlusFog(Density basePlusFog, Density referenceBasePlusFog) {
        return ExposureInterval.ofLogUnits(
                basePlusFog.minus(referenceBasePlusFog).value());
    }
}
