// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * One tone followed from the subject to the print: a point in each of the four quadrants.
 *
 * <p>Immutable and thread safe; equal by value.
 */
public final class ReproducedTone {

    private final SubjectTone tone;
    private final LogExposure filmExposure;
    private final Density negativeDensity;
    private final LogExposure paperExposure;
    private final Density printDensity;
    private final Gradient gradient;

    ReproducedTone(
            SubjectTone tone,
            LogExposure filmExposure,
            Density negativeDensity,
            LogExposure paperExposure,
            Density printDensity,
            Gradient gradient) {
        this.tone = tone;
        this.filmExposure = filmExposure;
        this.negativeDensity = negativeDensity;
        this.paperExposure = paperExposure;
        this.printDensity = printDensity;
        this.gradient = gradient;
    }

    /**
     * Returns the tone of the subject.
     *
     * @return the tone
     */
    public SubjectTone tone() {
        return tone;
    }

    /**
     * Returns its exposure at the film, including flare.
     *
     * @return the film exposure
     */
    public LogExposure filmExposure() {
        return filmExposure;
    }

    /**
     * Returns the gross density it gives in the negative.
     *
     * @return the negative density
     */
    public Density negativeDensity() {
        return negativeDensity;
    }

    /**
     * Returns the exposure it gives on the paper.
     *
     * @return the paper exposure
     */
    public LogExposure paperExposure() {
        return paperExposure;
    }

    /**
     * Returns the density it gives in the print.
     *
     * @return the print density
     */
    public Density printDensity() {
        return printDensity;
    }

    /**
     * Returns the gradient of reproduction.
     *
     * @return the change of log<sub>10</sub> of the print's reflectance per change of log<sub>10</sub> of the subject's
     *     luminance; 1 if contrast is preserved
     */
    public Gradient gradient() {
        return gradient;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if all parts are equal
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ReproducedTone that
                && tone.equals(that.tone)
                && filmExposure.equals(that.filmExposure)
                && negativeDensity.equals(that.negativeDensity)
                && paperExposure.equals(that.paperExposure)
                && printDensity.equals(that.printDensity)
                && gradient.equals(that.gradient);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(tone, filmExposure, negativeDensity, paperExposure, printDensity, gradient);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return tone, density of the negative and of the print
     */
    @Override
    public String toString() {
        return tone + ": negative " + negativeDensity + ", print " + printDensity;
    }

    /**
     * Returns the reflectance of the print.
     *
     * @return 10 to the power of −print density
     */
    public double reflectance() {
        return printDensity.transmittance();
    }
}
