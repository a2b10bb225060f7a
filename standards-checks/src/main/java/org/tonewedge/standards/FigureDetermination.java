// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * A determination of one figure, to which an uncertainty can be attached: by {@link ReadingUncertainty}, or from a fit
 * that gives the uncertainty of {@link #figure()}.
 *
 * <p>Implementations are immutable and thread safe.
 *
 * @param <D> the determination itself
 */
public interface FigureDetermination<D extends FigureDetermination<D>> extends Determination {

    /**
     * Returns the figure before rounding, as a plain number; the implementing class states its unit.
     *
     * @return the figure
     */
    double figure();

    /**
     * Returns the evidence for the figure.
     *
     * @return the evidence
     */
    Evidence evidence();

    /**
     * Returns a copy with an uncertainty that is taken as exactly known.
     *
     * @param standardUncertainty the standard uncertainty of {@link #figure()}, in its unit, finite, 0 or more
     * @return the copy
     * @throws IllegalArgumentException if the uncertainty is negative or not finite
     */
    default D withUncertainty(double standardUncertainty) {
        return withUncertainty(standardUncertainty, Double.POSITIVE_INFINITY);
    }

    /**
     * Returns a copy with an uncertainty that was itself estimated from few readings.
     *
     * @param standardUncertainty the standard uncertainty of {@link #figure()}, in its unit, finite, 0 or more
     * @param degreesOfFreedom those of the standard uncertainty, above 0, possibly infinite
     * @return the copy
     * @throws IllegalArgumentException if a number is out of range
     */
    D withUncertainty(double standardUncertainty, double degreesOfFreedom);

    @Override
    default Criterion criterion() {
        return evidence().criterion();
    }

    @Override
    default List<CurvePoint> points() {
        return evidence().points();
    }

    @Override
    default List<Condition> conditions() {
        return evidence().conditions();
    }

    @Override
    default Optional<Estimate> estimate() {
        return evidence().standardUncertainty().isPresent()
                ? Optional.of(Estimate.of(
                        figure(),
                        evidence().standardUncertainty().getAsDouble(),
                        evidence().degreesOfFreedom()))
                : Optional.empty();
    }

    /**
     * Returns the unit of {@link #figure()}.
     *
     * @return for example {@code degrees}; empty for a number without one
     */
    default String unit() {
        return "";
    }

    @Override
    default List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofNumber("figure", figure(), estimate(), unit()));
        records.addAll(DeterminationRecords.of(this));
        return List.copyOf(records);
    }
}
