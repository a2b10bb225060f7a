// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.EnumSet;
import java.util.Set;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;

/**
 * How much a figure of a strip differs from that of the reference, and whether the readings show that it does.
 *
 * <pre>{@code
 * row.differences().stream().
 *         filter(FigureDifference::isSignificant).
 *         forEach(System.out::println); // The toe is 0.31 ± 0.05 log units longer than the reference's.
 * }</pre>
 *
 * <p>A difference is significant if its 95 % interval does not contain 0. Each figure is judged by itself: on average,
 * one of twenty figures that do not differ would be called significant. In fact fewer are, since the uncertainties include
 * the distance of the fit from a curve that assumes no family: of 4,000 simulated pairs of strips of one film, 0.4 % (gamma)
 * to 1.5 % (toe length, ΔD over 1.30) were called different ({@code FigureDifferenceTest 4000 5} of the tests, run as a
 * program). The readings do not show the variation of exposure and development between two strips of one film: see
 * {@link FilmMean}.
 *
 * <p>Immutable and thread safe.
 *
 * @source the interval of a difference of two means: JCGM 100:2008, G.3.2 and G.4.1
 */
public final class FigureDifference {

    private static final double CONFIDENCE = 0.95;

    /** What deserves a sentence: speed once, and nothing that depends on how far the readings happen to extend. */
    private static final Set<FilmFigure> SAID = EnumSet.complementOf(EnumSet.of(
            FilmFigure.MAXIMUM_DENSITY,
            FilmFigure.SPEED_POINT,
            FilmFigure.EXACT_SPEED,
            FilmFigure.STOPS_FROM_BOX_SPEED));

    private final FilmFigure figure;
    private final Estimate difference;

    FigureDifference(FilmFigure figure, Estimate difference) {
        this.figure = figure;
        this.difference = difference;
    }

    static boolean isSaid(FilmFigure figure) {
        return SAID.contains(figure);
    }

    /**
     * Returns which figure it is.
     *
     * @return the figure
     */
    public FilmFigure figure() {
        return figure;
    }

    /**
     * Returns the difference.
     *
     * @return the figure of the strip less that of the reference, in the unit of the figure, with the uncertainty of both
     */
    public Estimate estimate() {
        return difference;
    }

    /**
     * Tells whether the readings show a difference at 95 %.
     *
     * @return true if the 95 % interval of the difference does not contain 0
     */
    public boolean isSignificant() {
        CoverageInterval interval = difference.interval(CONFIDENCE);
        return interval.lower() > 0 || interval.upper() < 0;
    }

    /**
     * Returns the difference as a sentence.
     *
     * @return for example {@code The toe is 0.31 ± 0.05 log units longer than the reference's.} with the standard uncertainty
     */
    @Override
    public String toString() {
        boolean more = difference.value() > 0;
        String amount = figure.amount(difference);
        return switch (figure) {
            case STOPS_FROM_REFERENCE ->
                "It is " + amount + " stops " + (more ? "faster" : "slower") + " than the reference.";
            case CONTRAST_OVER_130 ->
                ofReference("The contrast over 1.30 log units is " + amount + (more ? " higher" : " lower"));
            case AVERAGE_GRADIENT -> ofReference("The average gradient is " + amount + (more ? " higher" : " lower"));
            case CONTRAST_INDEX -> ofReference("The contrast index is " + amount + (more ? " higher" : " lower"));
            case GAMMA -> ofReference("Gamma is " + amount + (more ? " higher" : " lower"));
            case TOE_LENGTH -> ofReference("The toe is " + amount + " log units" + (more ? " longer" : " shorter"));
            case STRAIGHT_LINE_LENGTH ->
                ofReference("The straight line is " + amount + " log units" + (more ? " longer" : " shorter"));
            case SHOULDER_START_DENSITY ->
                ofReference("The shoulder begins at a density " + amount + (more ? " higher" : " lower"));
            case BASE_PLUS_FOG -> ofReference("Base plus fog is " + amount + (more ? " denser" : " thinner"));
            case PRINT_STOPS_FROM_REFERENCE ->
                "It needs " + amount + " stops " + (more ? "more" : "less") + " printing exposure than the reference.";
            case MAXIMUM_DENSITY, SPEED_POINT, EXACT_SPEED, STOPS_FROM_BOX_SPEED ->
                throw new IllegalStateException(figure + " is not said");
        };
    }

    private static String ofReference(String what) {
        return what + " than the reference's.";
    }
}
