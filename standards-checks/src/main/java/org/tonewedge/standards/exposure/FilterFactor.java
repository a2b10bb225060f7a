// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The factor of a filter on one film: how much more exposure gives the same density through it, from a strip exposed with and
 * one without, developed together.
 *
 * <pre>{@code
 * FilterFactor yellow = FilterFactor.at(DensityDifference.of(0.6), without, with, 0.02);
 * yellow.stops(); // 1.02 ± 0.09
 * }</pre>
 *
 * <p>The exposures of both curves are those that fall on the filter, so that a strip behind the filter lies to the right. A
 * factor holds for the light, the film and the density: where the two strips differ in contrast, {@link #changesWithDensity changesWithDensity}
 * says so.
 *
 * <p>Immutable and thread safe.
 *
 * @source ratio of the exposures that give one density: common practice, no source
 */
public final class FilterFactor implements Recorded {

    private final Estimate logFactor;

    private FilterFactor(Estimate logFactor) {
        this.logFactor = logFactor;
    }

    /**
     * Returns the factor of two exposures that give one density.
     *
     * @param logWithout the log exposure without the filter
     * @param logWith the log exposure with it, before the filter
     * @return the factor
     */
    public static FilterFactor of(Estimate logWithout, Estimate logWith) {
        return new FilterFactor(logWith.minus(Objects.requireNonNull(logWithout, "logWithout")));
    }

    /**
     * Returns the factor of two strips at a density.
     *
     * @param aboveBasePlusFog the density
     * @param without the curve without the filter
     * @param with the curve with it, on the axis of the first, before the filter
     * @param standardUncertainty the standard uncertainty of each log exposure, from 0 to 1
     * @return the factor
     * @throws IllegalArgumentException if the axes differ or the uncertainty is out of range
     * @throws org.tonewedge.core.curve.NotDeterminableException if a curve does not reach the density
     */
    public static FilterFactor at(
            DensityDifference aboveBasePlusFog,
            CharacteristicCurve without,
            CharacteristicCurve with,
            double standardUncertainty) {
        Objects.requireNonNull(without, "without");
        Checks.within("standard uncertainty of a log exposure", standardUncertainty, 0, 1, "");
        double log = with.pointAbove(aboveBasePlusFog)
                .logExposure()
                .minus(without.pointAbove(aboveBasePlusFog).logExposure())
                .logUnits();
        return new FilterFactor(Estimate.of(log, Math.sqrt(2) * standardUncertainty));
    }

    /**
     * Returns the factor.
     *
     * @return the exposure with the filter over that without
     */
    public Estimate factor() {
        double value = Math.pow(10, logFactor.value());
        return Estimate.of(value, value * Math.log(10) * logFactor.standardUncertainty(), logFactor.degreesOfFreedom());
    }

    /**
     * Returns the factor in stops.
     *
     * @return the stops to open by
     */
    public Estimate stops() {
        return Estimate.of(
                ExposureInterval.ofLogUnits(logFactor.value()).stops(),
                ExposureInterval.ofLogUnits(logFactor.standardUncertainty()).stops(),
                logFactor.degreesOfFreedom());
    }

    /**
     * Tells whether the factor at another density differs significantly, at 95 %: the filter then changes contrast, and one
     * factor does not serve both densities.
     *
     * @param other the factor of the same strips at another density
     * @return true if the difference is significant; false where no uncertainty is stated and the two are equal
     */
    public boolean changesWithDensity(FilterFactor other) {
        return !other.logFactor.minus(logFactor).interval(0.95).contains(0);
    }

    /**
     * Returns the factor in words.
     *
     * @return the factor and its stops
     */
    @Override
    public String toString() {
        EstimateFormat format = EstimateFormat.withDefaults();
        return "filter factor " + format.format(factor()) + ", " + format.format(stops()) + " stops";
    }

    /**
     * Returns the factor as named values: {@code factor}, {@code stops}, and its logarithm {@code log_factor}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofEstimate("factor", factor(), ""),
                ResultRecord.ofEstimate("stops", stops(), "stops"),
                ResultRecord.ofEstimate("log_factor", logFactor, "log10"));
    }
}
