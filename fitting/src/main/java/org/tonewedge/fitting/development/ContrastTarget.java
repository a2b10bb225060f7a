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
 * A contrast to develop for, such as ΔD over 1.30 = 0.80: a measure, the value wanted of it, and why.
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
     * Returns a target of one's own.
     *
     * @param name what it is for, in tables
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
     * Returns the average gradient of another film's curve.
     *
     * @param reference the curve of the reference film
     * @return the target, by {@link ContrastMeasure#AVERAGE_GRADIENT}
     * @throws org.tonewedge.core.curve.NotDeterminableException if the curve has no average gradient
     */
    public static ContrastTarget sameAverageGradientAs(CharacteristicCurve reference) {
        return of(
                "average gradient of " + reference.name(),
                ContrastMeasure.AVERAGE_GRADIENT,
                ContrastMeasure.AVERAGE_GRADIENT.of(reference));
    }

    /**
     * Returns the contrast with which a subject just fills the scale of a paper: over the range of the image, counted from
     * the speed point, density rises by the log exposure range of the paper. Common practice, no source; it takes the
     * enlarger to see the densities that were measured.
     *
     * @param subject the luminance range of the subject
     * @param flare by how much flare shortens it at the film, 0 or more
     * @param paper the log exposure range of the paper
     * @return the target
     * @throws IllegalArgumentException if flare leaves nothing of the subject, is negative, or the paper has no range
     */
    public static ContrastTarget ofSubject(ExposureInterval subject, ExposureInterval flare, ExposureInterval paper) {
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
     * Returns the contrast that puts two zones, one stop each, on stated densities.
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
     * Returns usual zone placements: zone I at 0.10 and zone VIII at 1.30 above base plus fog (common practice; from
     * memory, where the aim for zone VIII is 1.25 to 1.35).
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
     * Returns what the target is for.
     *
     * @return the name
     */
    public String name() {
        return name;
    }

    /**
     * Returns how contrast is read.
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
     * Returns how far from the value a contrast may be.
     *
     * @return the tolerance to either side, or nothing if none is stated
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
}
