// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.internal.Checks;

/**
 * The evidence for a determination: the rule, the points at which the curve was read, the conditions that the rule
 * sets, and the standard uncertainty of the figure if it is known.
 *
 * @param criterion the rule with its source
 * @param points the points, in the order in which the rule names them
 * @param conditions the conditions, met or not; empty if the rule sets none
 * @param standardUncertainty the standard uncertainty of the figure, in its unit; empty if unknown
 * @param degreesOfFreedom the degrees of freedom of the standard uncertainty; infinite if it is taken as exactly known,
 *     or unknown
 */
public record Evidence(
        Criterion criterion,
        List<CurvePoint> points,
        List<Condition> conditions,
        OptionalDouble standardUncertainty,
        double degreesOfFreedom) {

    /**
     * Copies the lists and checks the uncertainty.
     *
     * @param criterion the rule with its source
     * @param points the points
     * @param conditions the conditions
     * @param standardUncertainty the standard uncertainty, finite, 0 or more
     * @param degreesOfFreedom the degrees of freedom of the standard uncertainty, above 0, possibly infinite
     * @throws IllegalArgumentException if a number is out of range
     */
    public Evidence {
        Objects.requireNonNull(conditions, "conditions");
        Objects.requireNonNull(points, "points");
        Objects.requireNonNull(criterion, "criterion");
        points = List.copyOf(points);
        conditions = List.copyOf(conditions);
        if (standardUncertainty.isPresent()) {
            Checks.within(
                    "standard uncertainty of a determination",
                    standardUncertainty.getAsDouble(),
                    0,
                    Double.MAX_VALUE,
                    "");
        }
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(
                    "degrees of freedom of a determination must be above 0, were " + degreesOfFreedom);
        }
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
        Objects.requireNonNull(points, "points");
        Objects.requireNonNull(conditions, "conditions");
        return new Evidence(criterion, points, conditions, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
    }

    /**
     * Returns a copy with an uncertainty.
     *
     * @param uncertainty the standard uncertainty, finite, 0 or more
     * @param freedom its degrees of freedom, above 0, possibly infinite
     * @return the copy
     * @throws IllegalArgumentException if a number is out of range
     */
    public Evidence withUncertainty(double uncertainty, double freedom) {
        return new Evidence(criterion, points, conditions, OptionalDouble.of(uncertainty), freedom);
    }
}
