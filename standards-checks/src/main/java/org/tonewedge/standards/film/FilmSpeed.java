// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.FigureDetermination;

/**
 * A speed with its evidence, as an arithmetic speed and as a logarithmic speed in degrees: ten degrees to the decade,
 * close to three to the stop. Its {@link #figure()} is the logarithmic speed before rounding, so its uncertainty is one
 * of log exposure.
 *
 * <p>It may carry the name of its standard only if {@link #conditionsMet()}. Only an {@link IsoFilmSpeed} can be
 * rounded to a speed as printed on a box.
 *
 * @param <D> the speed itself
 */
public interface FilmSpeed<D extends FilmSpeed<D>> extends FigureDetermination<D> {

    /** The degrees of logarithmic speed in one log unit of exposure. */
    double DEGREES_PER_LOG_UNIT = 10;

    /**
     * Returns the arithmetic speed before rounding.
     *
     * @return S, a constant of the method divided by the exposure H<sub>m</sub>
     * @units reciprocal lux seconds
     */
    double exact();

    /**
     * Returns the logarithmic speed before rounding.
     *
     * @return S° = 1 + 10 log<sub>10</sub> S
     * @units degrees
     */
    default double exactDegrees() {
        return 1 + DEGREES_PER_LOG_UNIT * Math.log10(exact());
    }

    /**
     * Returns the logarithmic speed before rounding.
     *
     * @return {@link #exactDegrees()}
     * @units degrees
     */
    @Override
    default double figure() {
        return exactDegrees();
    }

    /**
     * Returns the arithmetic speed with its standard uncertainty, u(S) = S u(S°) ln 10 / 10.
     *
     * @return the estimate; empty if no uncertainty is attached
     * @units reciprocal lux seconds
     * @source propagation of uncertainty to first order: JCGM 100:2008, 5.1.2
     */
    default Optional<Estimate> exactEstimate() {
        return estimate()
                .map(e -> Estimate.of(
                        exact(),
                        exact() * e.standardUncertainty() * Math.log(10) / DEGREES_PER_LOG_UNIT,
                        e.degreesOfFreedom()));
    }

    /**
     * Returns how much faster this film is than another whose speed was found by the same method,
     * (S°<sub>1</sub> − S°<sub>2</sub>) / (10 log<sub>10</sub> 2) stops, with the uncertainty of their
     * {@linkplain Estimate#minus difference}.
     *
     * @param other the speed of the other film
     * @return positive if this film is faster; empty if a speed has no uncertainty attached
     * @units stops
     */
    default Optional<Estimate> stopsFasterThan(FilmSpeed<?> other) {
        double stop = DEGREES_PER_LOG_UNIT * Math.log10(2);
        Optional<Estimate> theirs = other.estimate();
        return estimate()
                .flatMap(mine -> theirs.map(mine::minus))
                .map(degrees -> Estimate.of(
                        degrees.value() / stop, degrees.standardUncertainty() / stop, degrees.degreesOfFreedom()));
    }

    @Override
    default String unit() {
        return "degrees";
    }

    /**
     * Returns the speed as named values: {@code speed} with its uncertainty, {@code figure} in degrees, and what every
     * determination has.
     *
     * @return the records
     */
    @Override
    default List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofNumber("speed", exact(), exactEstimate(), "1/(lx·s)"));
        records.addAll(FigureDetermination.super.records());
        return List.copyOf(records);
    }
}
