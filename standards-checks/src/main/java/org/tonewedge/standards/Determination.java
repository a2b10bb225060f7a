// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.List;
import java.util.Optional;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The result of a published method. The implementing class names the figure; this interface gives the evidence for it.
 *
 * <p>Implementations are immutable and thread safe.
 */
public interface Determination extends Recorded {

    /**
     * Returns the rule that was applied.
     *
     * @return the criterion with its source
     */
    Criterion criterion();

    /**
     * Returns the points at which the curve was read.
     *
     * @return the points, in the order in which the method names them
     */
    List<CurvePoint> points();

    /**
     * Returns the conditions that the method sets for its result.
     *
     * @return the conditions, met or not; empty if the method sets none
     */
    List<Condition> conditions();

    /**
     * Tells whether the result may carry the method's name.
     *
     * @return true if every condition was met
     */
    default boolean conditionsMet() {
        for (Condition condition : conditions()) {
            if (!condition.isMet()) {
                return false;
            }
        }
        return true;
    }

    /**
     * Returns the figure with its standard uncertainty.
     *
     * @return the estimate, in the unit of the figure; empty if no uncertainty was computed or given
     */
    default Optional<Estimate> estimate() {
        return Optional.empty();
    }

    /**
     * Returns the determination as named values: {@code criterion}, {@code source}, each {@code point}, each
     * {@code condition} and {@code conditions_met}. A {@link FigureDetermination} begins with {@code figure}.
     *
     * @return the records
     */
    @Override
    default List<ResultRecord> records() {
        return DeterminationRecords.of(this);
    }
}
