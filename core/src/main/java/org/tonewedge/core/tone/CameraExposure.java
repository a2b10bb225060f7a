// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * How the camera images the subject: the exposure of the metered tone, and flare.
 *
 * <p>A tone of luminance L exposes the film to H = H<sub>metered</sub> (L / L<sub>metered</sub> + f). The first term is
 * its image. The second is stray light spread evenly over the frame, f times the exposure of the image of the metered
 * tone. Flare compresses the shadows of the image.
 *
 * <p>Immutable and thread safe.
 *
 * @source flare as an exposure added everywhere: focal-plane exposure in the form of ISO 12232:2006, H = q L t
 *     F<sup>2</sup> / (N<sup>2</sup> i<sup>2</sup>) + H<sub>flare</sub>, as given by a general imaging library
 */
public final class CameraExposure {

    private static final double LARGEST_FLARE = 10;
    /** An image this faint relative to the metered tone is rounding error. */
    private static final double NO_IMAGE = 1e-10;

    private final LogExposure metered;
    private final double flare;

    private CameraExposure(LogExposure metered, double flare) {
        this.metered = metered;
        this.flare = flare;
    }

    /**
     * Returns a camera without flare.
     *
     * @param metered the exposure at the film of the image of the metered tone
     * @return the camera
     */
    public static CameraExposure metered(LogExposure metered) {
        return new CameraExposure(Objects.requireNonNull(metered, "metered"), 0);
    }

    /**
     * Returns a copy with another flare.
     *
     * @param fraction the exposure from stray light divided by that of the image of the metered tone, from 0 to 10,
     *     such as 0.02
     * @return the copy
     * @throws IllegalArgumentException if the fraction is out of range
     */
    public CameraExposure withFlare(double fraction) {
        return new CameraExposure(
                metered,
                Checks.within(
                        "flare",
                        fraction,
                        0,
                        LARGEST_FLARE,
                        "give it as a fraction of the exposure of the metered tone"));
    }

    /**
     * Returns a copy with more or less exposure.
     *
     * @param change the change, positive for more
     * @return the copy
     */
    public CameraExposure changedBy(ExposureInterval change) {
        Objects.requireNonNull(change, "change");
        return new CameraExposure(metered.plus(change), flare);
    }

    /**
     * Returns the exposure of the image of the metered tone.
     *
     * @return the exposure at the film, without flare
     */
    public LogExposure metered() {
        return metered;
    }

    /**
     * Returns the flare.
     *
     * @return the exposure from stray light divided by that of the image of the metered tone
     */
    public double flare() {
        return flare;
    }

    /**
     * Returns the exposure of a tone.
     *
     * @param tone the tone
     * @return its exposure at the film, including flare
     */
    public LogExposure exposureOf(SubjectTone tone) {
        return new LogExposure(metered.value() + Math.log10(ratio(tone) + flare), metered.axis());
    }

    /**
     * Returns how much of the subject's contrast remains in the image.
     *
     * @param tone the tone
     * @return the change of log exposure with log luminance, 1 without flare
     */
    public Gradient gradientAt(SubjectTone tone) {
        return Gradient.of(ratio(tone) / (ratio(tone) + flare));
    }

    private static double ratio(SubjectTone tone) {
        return Math.pow(10, tone.logLuminance());
    }

    /**
     * Returns the tone that gives an exposure.
     *
     * @param exposure an exposure at the film
     * @return the tone
     * @throws NotDeterminableException if flare alone gives that exposure or more
     * @throws IllegalArgumentException if the exposure is on another axis
     */
    public SubjectTone toneAt(LogExposure exposure) {
        double image = image(exposure);
        if (isFlareAlone(exposure)) {
            throw new NotDeterminableException("no tone of the subject gives " + exposure
                    + ": stray light alone gives as much or more; reduce the flare or look at a greater exposure");
        }
        return new SubjectTone(Math.log10(image));
    }

    /** Whether stray light alone gives an exposure or more. */
    boolean isFlareAlone(LogExposure exposure) {
        return !(image(exposure) > NO_IMAGE);
    }

    private double image(LogExposure exposure) {
        return exposure.minus(metered).ratio() - flare;
    }

    /**
     * Returns the flare factor: the luminance range of the subject divided by the exposure range of its image.
     *
     * @param darkest the darkest tone
     * @param lightest the lightest tone
     * @return the factor, 1 without flare
     * @throws IllegalArgumentException if the lightest tone is not lighter than the darkest
     * @source L. A. Jones and H. R. Condit's definition: from memory
     */
    public double flareFactor(SubjectTone darkest, SubjectTone lightest) {
        Objects.requireNonNull(darkest, "darkest");
        if (lightest.compareTo(darkest) <= 0) {
            throw new IllegalArgumentException(
                    "the lightest tone must be lighter than the darkest, were " + lightest + " and " + darkest);
        }
        double subject = lightest.logLuminance() - darkest.logLuminance();
        double image = exposureOf(lightest).minus(exposureOf(darkest)).logUnits();
        return ExposureInterval.ofLogUnits(subject - image).ratio();
    }

    /** From a tone to its exposure at the film. */
    ToneStage<SubjectTone, LogExposure> stage() {
        return ToneStage.of("camera", this::exposureOf, tone -> gradientAt(tone).value());
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof CameraExposure that
                && Objects.equals(metered, that.metered)
                && Double.compare(flare, that.flare) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(metered, flare);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the exposure of the metered tone and the flare
     */
    @Override
    public String toString() {
        return "metered tone at " + metered + ", flare " + Figures.plain(flare);
    }
}
