// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * A figure predicted from test strips, such as contrast 0.80 ± 0.01, with its standard uncertainty if the strips
 * determine it. With as many strips as parameters and no stated uncertainties they do not.
 *
 * <p>Immutable and thread safe.
 */
public final class PredictedFigure {

    private final double value;
    private final OptionalDouble standardUncertainty;
    private final double degreesOfFreedom;
    private final Scope scope;

    PredictedFigure(double value, OptionalDouble standardUncertainty, double degreesOfFreedom, Scope scope) {
        this.value = value;
        this.standardUncertainty = standardUncertainty;
        this.degreesOfFreedom = degreesOfFreedom;
        this.scope = scope;
    }

    /**
     * Returns the figure.
     *
     * @return its value
     */
    public double value() {
        return value;
    }

    /**
     * Returns the standard uncertainty.
     *
     * @return the uncertainty, or empty if the strips do not determine it
     */
    public OptionalDouble standardUncertainty() {
        return standardUncertainty;
    }

    /**
     * Returns the interval that contains the true figure with a confidence: value ± t u.
     *
     * @param confidence such as 0.95
     * @return the interval, with Student's t for uncertainties that come from residuals
     * @throws IllegalArgumentException if the confidence is not between 0 and 1
     * @throws IllegalStateException if the uncertainty is not known
     * @source JCGM 100:2008, G.3.3
     */
    public CoverageInterval interval(double confidence) {
        double u = standardUncertainty.orElseThrow(() -> new IllegalStateException("the strips give no uncertainty:"
                + " state those of their figures, or develop more strips than the model has parameters"));
        // The interval itself refuses a confidence that is none.
        CoverageInterval atValue = new CoverageInterval(value, value, confidence);
        double reach = StudentT.coverageFactor(confidence, degreesOfFreedom) * u;
        return new CoverageInterval(value - reach, value + reach, atValue.confidence());
    }

    /**
     * Tells whether the figure lies beyond the tested range.
     *
     * @return true if it was extrapolated on request
     */
    public boolean isExtrapolated() {
        return scope == Scope.EXTRAPOLATED;
    }

    /** Another figure that depends on this one, given its derivative with respect to this one. */
    PredictedFigure mapped(double other, double derivative) {
        return new PredictedFigure(
                other,
                standardUncertainty.isPresent()
                        ? OptionalDouble.of(Math.abs(derivative) * standardUncertainty.getAsDouble())
                        : OptionalDouble.empty(),
                degreesOfFreedom,
                scope);
    }

    /** The same figure with an additional uncertainty. */
    PredictedFigure widenedBy(double deviation) {
        return standardUncertainty.isPresent()
                ? withStandardUncertainty(Math.hypot(standardUncertainty.getAsDouble(), deviation))
                : this;
    }

    /** The same figure with another uncertainty. */
    PredictedFigure withStandardUncertainty(double other) {
        return new PredictedFigure(value, OptionalDouble.of(other), degreesOfFreedom, scope);
    }

    Scope scope() {
        return scope;
    }

    double degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Returns the figure with its standard uncertainty.
     *
     * @return for example {@code 0.800 ± 0.010 (k = 1)}
     */
    @Override
    public String toString() {
        return (standardUncertainty.isPresent()
                        ? Estimate.of(value, standardUncertainty.getAsDouble()).toString()
                        : Figures.plain(value) + " (uncertainty not known)")
                + (isExtrapolated() ? ", extrapolated" : "");
    }

    ResultRecord record(String name, String unit) {
        return ResultRecord.ofNumber(
                name,
                value(),
                standardUncertainty().isPresent()
                        ? Optional.of(Estimate.of(value(), standardUncertainty().getAsDouble(), degreesOfFreedom))
                        : Optional.empty(),
                unit);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof PredictedFigure that
                && Double.compare(value, that.value) == 0
                && Objects.equals(standardUncertainty, that.standardUncertainty)
                && Double.compare(degreesOfFreedom, that.degreesOfFreedom) == 0
                && Objects.equals(scope, that.scope);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(value, standardUncertainty, degreesOfFreedom, scope);
    }
}
