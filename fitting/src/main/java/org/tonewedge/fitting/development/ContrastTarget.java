// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A contrast to develop for, such as ΔD over 1.30 = 0.80: a measure, the value wanted, and a name that says what it is
 * for.
 *
 * <p>Immutable and thread safe.
 */
public final class ContrastTarget {

    private final String name;
    private final ContrastMeasure measure;
    private final double value;
    private final OptionalDouble tolerance;

    private ContrastTarget(String name, ContrastMeasure measure, double value, OptionalDouble tolerance) {
        this.name = Checks.notBlank("name of a target", name);
        this.measure = Objects.requireNonNull(measure, "measure");
        this.value = Checks.positive("target contrast", value);
        this.tolerance = tolerance;
    }

    /**
     * Returns a target that you define.
     *
     * @param name what the target is for, shown in tables
     * @param measure how contrast is read
     * @param value the contrast wanted, above 0
     * @return the target
     * @throws IllegalArgumentException if the name is blank or the value not a finite number above 0
     */
    public static ContrastTarget of(String name, ContrastMeasure measure, double value) {
        return new ContrastTarget(name, measure, value, OptionalDouble.empty());
    }

    /**
     * Returns the contrast condition of ISO 6:1993: density rises by 0.80 ± 0.05 over 1.30 log units from the speed point.
     *
     * @return the target
     * @source ISO 6:1993 (0.80 over 1.30 verified in a secondary text; the tolerance of 0.05 from memory)
     */
    public static ContrastTarget isoContrastCondition() {
        return new ContrastTarget(
                "ISO contrast condition",
                ContrastMeasure.RISE_OVER_130,
                MethodFigures.CONTRAST,
                OptionalDouble.of(MethodFigures.CONTRAST_TOLERANCE));
    }

    /**
     * Returns the average gradient of another film's curve as a target.
     *
     * @param reference the curve of the reference film
     * @return the target, by {@link ContrastMeasure#AVERAGE_GRADIENT}
     * @throws org.tonewedge.core.curve.NotDeterminableException if the curve has no average gradient
     */
    public static ContrastTarget sameAverageGradientAs(CharacteristicCurve reference) {
        return of(
                "average gradient of " + reference.name(),
                ContrastMeasure.AVERAGE_GRADIENT,
                ContrastMeasure.AVERAGE_GRADIENT.contrastOf(reference));
    }

    /**
     * Returns the contrast at which a subject exactly fills the scale of a paper. Over the range of the image, counted
     * from the speed point, density then rises by the log exposure range of the paper. It assumes that the enlarger
     * sees the densities that were measured. Common practice, no source.
     *
     * @param subject the luminance range of the subject
     * @param flare how much flare shortens the subject range at the film, 0 or more
     * @param paper the log exposure range of the paper
     * @return the target
     * @throws IllegalArgumentException if flare is negative or leaves nothing of the subject range, or the paper has no
     *     range
     */
    public static ContrastTarget ofSubject(ExposureInterval subject, ExposureInterval flare, ExposureInterval paper) {
        Objects.requireNonNull(subject, "subject");
        Objects.requireNonNull(paper, "paper");
        if (flare.logUnits() < 0 || !(flare.compareTo(subject) < 0)) {
            throw new IllegalArgumentException("flare must be 0 or more and less than the range of the subject, was "
                    + flare + " with a subject of " + subject);
        }
        ExposureInterval image = subject.minus(flare);
        return of(
                "subject of " + unsigned(subject) + ", flare " + unsigned(flare) + ", paper range "
                        + Figures.plain(paper.logUnits()),
                ContrastMeasure.riseOver(image),
                Checks.positive("log exposure range of the paper", paper.logUnits()));
    }

    /**
     * Returns the contrast that puts two zones, each one stop wide, on stated densities.
     *
     * @param shadowZone the number of the darker zone, such as 1
     * @param shadow its density above base plus fog, such as 0.10
     * @param highlightZone the number of the lighter zone, such as 8
     * @param highlight its density above base plus fog, such as 1.30
     * @return the target
     * @throws IllegalArgumentException if the lighter zone or its density is not above the darker
     */
    public static ContrastTarget ofZones(
            int shadowZone, DensityDifference shadow, int highlightZone, DensityDifference highlight) {
        Objects.requireNonNull(shadow, "shadow");
        Objects.requireNonNull(highlight, "highlight");
        if (highlightZone <= shadowZone) {
            throw new IllegalArgumentException(
                    "the lighter zone must be above the darker, was " + highlightZone + " with " + shadowZone);
        }
        return of(
                "zone " + shadowZone + " at " + Figures.plain(shadow.value()) + ", zone " + highlightZone + " at "
                        + Figures.plain(highlight.value()),
                ContrastMeasure.riseOver(shadow, ExposureInterval.ofStops(highlightZone - shadowZone)),
                Checks.positive("rise of density from zone to zone", highlight.value() - shadow.value()));
    }

    /**
     * Returns the usual zone placements: zone I at 0.10 and zone VIII at 1.30 above base plus fog (common practice;
     * from memory, with an aim of 1.25 to 1.35 for zone VIII).
     *
     * @return the target
     */
    public static ContrastTarget usualZones() {
        return ofZones(1, ContrastMeasure.SPEED_POINT, 8, DensityDifference.of(1.30));
    }

    /** The same target under another name. */
    ContrastTarget named(String other) {
        return new ContrastTarget(other, measure, value, tolerance);
    }

    private static String unsigned(ExposureInterval interval) {
        return interval.toString().replace("+", "");
    }

    /**
     * Returns the name of the target.
     *
     * @return the name
     */
    public String name() {
        return name;
    }

    /**
     * Returns the measure of contrast.
     *
     * @return the measure
     */
    public ContrastMeasure measure() {
        return measure;
    }

    /**
     * Returns the contrast wanted.
     *
     * @return the value, above 0
     */
    public double value() {
        return value;
    }

    /**
     * Returns how far a contrast may be from the value.
     *
     * @return the tolerance in either direction, or empty if none is stated
     */
    public OptionalDouble tolerance() {
        return tolerance;
    }

    /**
     * Returns the target in words.
     *
     * @return for example {@code ISO contrast condition (ΔD over 1.30 = 0.80)}
     */
    @Override
    public String toString() {
        return name + " (" + measure + " = " + Figures.plain(value) + ")";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ContrastTarget that
                && Objects.equals(name, that.name)
                && Objects.equals(measure, that.measure)
                && Double.compare(value, that.value) == 0
                && Objects.equals(tolerance, that.tolerance);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, measure, value, tolerance);
    }
}
