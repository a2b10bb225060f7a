package org.tonewedge.standards.comparison;

import java.util.function.DoubleBinaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.tone.PrintExposure;

/**
 * One strip beside the reference: its own figures, how much faster it is, and how much more printing exposure it needs.
 *
 * <p>Immutable and thread safe.
 */
public final class StripComparison {

    private final StripFigures figures;
    private final StripFigures reference;

    private StripComparison(StripFigures figures, StripFigures reference) {
        this.figures = figures;
        this.reference = reference;
    }

    /**
     * Sets a strip beside a reference.
     *
     * @param strip the figures of the strip
     * @param reference the figures of the reference
     * @return the comparison
     * @throws IllegalArgumentException if the two strips are on different exposure axes
     */
    public static StripComparison of(StripFigures strip, StripFigures reference) {
        reference.strip().axis().requireSame(strip.strip().axis(), "compare " + strip.strip() + " with the reference");
        return new StripComparison(strip, reference);
    }

    /**
     * Returns the figures of the strip.
     *
     * @return the figures
     */
    public StripFigures figures() {
        return figures;
    }

    /**
     * Returns how much faster the strip is than the reference, on an absolute or a shared relative axis.
     *
     * @return stops between the speed points, positive if the strip needs less exposure
     */
    public Figure stopsFromReference() {
        return combine(
                figures.speedPointLogExposure(),
                reference.speedPointLogExposure(),
                (own, other) -> ExposureInterval.ofLogUnits(other - own).stops());
    }

    /**
     * Returns the change of printing exposure for the difference of base plus fog.
     *
     * @return stops, positive if the strip needs more exposure than the reference; see
     *     {@link PrintExposure}
     */
    public Figure printStopsFromReference() {
        return combine(
                figures.basePlusFog(),
                reference.basePlusFog(),
                (own, other) -> PrintExposure.forBasePlusFog(Density.of(own), Density.of(other))
                        .stops());
    }

    private Figure combine(Figure own, Figure other, DoubleBinaryOperator difference) {
        if (own.value().isEmpty()) {
            return own;
        }
        if (other.value().isEmpty()) {
            return Figure.missing("the reference lacks it: " + other.reason());
        }
        return Figure.of(difference.applyAsDouble(
                own.value().getAsDouble(), other.value().getAsDouble()));
    }

    /**
     * Returns the comparison in words.
     *
     * @return the figures of the strip and how many stops faster it is than the reference
     */
    @Override
    public String toString() {
        return figures + "; against the reference " + stopsFromReference();
    }
}
