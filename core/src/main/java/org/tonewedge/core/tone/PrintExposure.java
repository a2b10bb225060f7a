// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * The change of printing exposure that makes two negatives print alike.
 *
 * <p>A negative of density D passes 10<sup>−D</sup> of the light that falls on it; a negative that is denser by ΔD
 * needs 10<sup>ΔD</sup> times the exposure for the same print.
 *
 * <p>A change is an {@link ExposureInterval}: it is given in stops, its ratio is the factor on the exposure, and
 * changes add. {@link PrintTime} converts them to seconds.
 *
 * <pre>{@code
 * ExposureInterval change = PrintExposure.forBasePlusFog(film, reference).
 *         plus(PrintExposure.forMagnification(8, 5));
 * PrintTime.of(Duration.ofSeconds(12)).changedBy(change); // the new time
 * }</pre>
 *
 * @source C. E. K. Mees, The Fundamentals of Photography (1920/21), "Positive Printing": printing exposure proportional
 *     to the opacity to be printed through
 */
public final class PrintExposure {

    private static final double LARGEST_MAGNIFICATION = 1000;

    private PrintExposure() {}

    /**
     * Returns the change of printing exposure for a difference in base plus fog, so that the unexposed film of both
     * negatives prints to the same tone.
     *
     * @param basePlusFog base plus fog of the negative to print
     * @param referenceBasePlusFog base plus fog of the negative whose printing exposure is known
     * @return the change: positive for more exposure; {@link ExposureInterval#ratio()} is the factor on the time
     */
    public static ExposureInterval forBasePlusFog(Density basePlusFog, Density referenceBasePlusFog) {
        Objects.requireNonNull(basePlusFog, "basePlusFog");
        Objects.requireNonNull(referenceBasePlusFog, "referenceBasePlusFog");
        return forDensity(basePlusFog, referenceBasePlusFog);
    }

    /**
     * Returns the change of printing exposure that prints a density of one negative to the same tone as a density of
     * another, such as two renderings of one grey patch.
     *
     * @param density a gross density of the negative to print
     * @param referenceDensity the gross density that must print alike, on the negative whose printing exposure is known
     * @return the change: positive for more exposure
     */
    public static ExposureInterval forDensity(Density density, Density referenceDensity) {
        Objects.requireNonNull(referenceDensity, "referenceDensity");
        return ExposureInterval.ofLogUnits(density.minus(referenceDensity).value());
    }

    /**
     * Returns the change of printing exposure for another magnification, with the same lamp and lens aperture.
     *
     * <p>The illuminance on the paper is proportional to F<sup>2</sup> / (N<sup>2</sup> i<sup>2</sup>) with the image
     * distance i = F (1 + m), so the factor on the exposure is [(1 + m) / (1 + m<sub>reference</sub>)]<sup>2</sup>. It
     * is valid for a lens of pupil magnification 1 and a light source that fills the aperture evenly, but not for a
     * condenser that moves with the magnification.
     *
     * @param magnification print size divided by negative size, above 0 and at most 1000
     * @param referenceMagnification the magnification of the known exposure
     * @return the change: positive for more exposure
     * @throws IllegalArgumentException if a magnification is out of range
     * @source image illuminance by image distance: focal-plane exposure in the form of ISO 12232:2006, H = q L t
     *     F<sup>2</sup> / (N<sup>2</sup> i<sup>2</sup>), as given by a general imaging library; i = F (1 + m) is the
     *     thin-lens equation
     */
    public static ExposureInterval forMagnification(double magnification, double referenceMagnification) {
        return ExposureInterval.ofRatio(
                Math.pow((1 + magnification(magnification)) / (1 + magnification(referenceMagnification)), 2));
    }

    private static double magnification(double value) {
        return Checks.within(
                "magnification",
                value,
                Double.MIN_VALUE,
                LARGEST_MAGNIFICATION,
                "give print size divided by negative size");
    }
}
