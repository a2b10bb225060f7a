package org.tonewedge.standards;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Checks;

/**
 * What a determination rests on: the rule, the points the curve was read at, the conditions the rule sets, and the
 * standard uncertainty of the figure where it is known.
 *
 * @param criterion the rule with its source
 * @param points the points, in the order in which the rule names them
 * @param conditions the conditions, met or not; empty if the rule sets none
 * @param standardUncertainty the standard uncertainty of the figure, in its unit; empty if unknown
 */
public record Evidence(
        Criterion criterion, List<CurvePoint> points, List<Condition> conditions, OptionalDouble standardUncertainty) {

    /**
     * Copies the lists and checks the uncertainty.
     *
     * @param criterion the rule with its source
     * @param points the points
     * @param conditions the conditions
     * @param standardUncertainty the standard uncertainty, finite, 0 or more
     * @throws IllegalArgumentException if the uncertainty is negative or not finite
     */
    public Evidence {
        Objects.requireNonNull(criterion, "criterion");
        points = List.copyOf(points);
        conditions = List.copyOf(conditions);
        standardUncertainty.ifPresent(
                u -> Checks.within("standard uncertainty of a determination", u, 0, Double.MAX_VALUE, ""));
    }

    /**
     * Returns evidence without an uncertainty.
     *
     * @param criterion the rule with its source
     * @param points the points
     * @param conditions the conditions, met or not
     * @return the evidence
     */
    public static Evidence of(Criterion criterion, List<CurvePoint> points, List<Condition> conditions) {
        return new Evidence(criterion, points, conditions, OptionalDouble.empty());
    }

    /**
     * Returns a copy with an uncertainty.
     *
     * @param uncertainty the standard uncertainty, finite, 0 or more
     * @return the copy
     * @throws IllegalArgumentException if the uncertainty is negative or not finite
     */
    public Evidence withUncertainty(double uncertainty) {
        return new Evidence(criterion, points, conditions, OptionalDouble.of(uncertainty));
    }
}
