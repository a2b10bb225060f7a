// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.io.Serializable;
import java.util.Collections;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * An error of densities that is known at knots: between two, a straight line and a parabola that is 0 at both. Beyond the last
 * knots the line ends; the parabola goes on as its size.
 *
 * @param knots the densities of the knots
 * @param starts the error at the start of each piece
 * @param ends the error at the end of each piece
 * @param bulges the factor of (D − D<sub>i</sub>) (D<sub>i+1</sub> − D) in each piece
 */
record PiecewiseError(List<Double> knots, List<Double> starts, List<Double> ends, List<Double> bulges)
        implements DoubleUnaryOperator, Serializable {

    /** Straight lines between the values at knots. */
    static PiecewiseError along(List<Double> knots, List<Double> values) {
        int pieces = knots.size() - 1;
        return new PiecewiseError(
                knots, values.subList(0, pieces), values.subList(1, pieces + 1), Collections.nCopies(pieces, 0.0));
    }

    PiecewiseError {
        knots = List.copyOf(knots);
        starts = List.copyOf(starts);
        ends = List.copyOf(ends);
        bulges = List.copyOf(bulges);
    }

    @Override
    public double applyAsDouble(double density) {
        int i = 0;
        while (i < starts.size() - 1 && density >= knots.get(i + 1)) {
            i++;
        }
        double before = density - knots.get(i);
        double after = knots.get(i + 1) - density;
        double share = Math.max(0, Math.min(1, before / (before + after)));
        return starts.get(i) + share * (ends.get(i) - starts.get(i)) + bulges.get(i) * Math.abs(before * after);
    }
}
