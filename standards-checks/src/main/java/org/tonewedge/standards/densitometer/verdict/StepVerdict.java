// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/**
 * The verdict on one step of the tablet: the readings, their difference from the certificate, and the difference
 * allowed.
 *
 * <p>Immutable and thread safe.
 */
public final class StepVerdict {

    private final StepTablet.Step step;
    private final StepOutcome outcome;
    private final double allowed;
    private final StepReadings readings;
    private final double uncertaintyOfMean;
    private final UncertaintyBudget budget;

    StepVerdict(
            StepTablet.Step step,
            StepOutcome outcome,
            double allowed,
            StepReadings readings,
            double uncertaintyOfMean,
            UncertaintyBudget budget) {
        this.step = step;
        this.outcome = outcome;
        this.allowed = allowed;
        this.readings = readings;
        this.uncertaintyOfMean = uncertaintyOfMean;
        this.budget = budget;
    }

    /**
     * Returns the step with its certified density.
     *
     * @return the step of the tablet
     */
    public StepTablet.Step step() {
        return step;
    }

    /**
     * Returns the outcome.
     *
     * @return pass, fail, undecided or not read
     */
    public StepOutcome outcome() {
        return outcome;
    }

    /**
     * Returns how far the mean may be from the certificate.
     *
     * @return the tolerance at this step
     * @units density
     */
    public double allowed() {
        return allowed;
    }

    /**
     * Returns what was read.
     *
     * @return the readings, or empty if the step was not read
     */
    public Optional<StepReadings> readings() {
        return Optional.ofNullable(readings);
    }

    /**
     * Returns the departure of the mean from the certificate.
     *
     * @return mean − certified density, or empty if the step was not read
     * @units density
     */
    public OptionalDouble error() {
        return readings == null ? OptionalDouble.empty() : OptionalDouble.of(readings.error());
    }

    /**
     * Returns the normalised error E<sub>n</sub> = (x − X) / √(U<sub>x</sub><sup>2</sup> + U<sub>X</sub><sup>2</sup>),
     * with the expanded uncertainties (k = 2) of the mean and of the certificate. Up to 1 in absolute value, error and
     * uncertainties agree.
     *
     * @return E<sub>n</sub>, or empty if the step was not read or neither uncertainty is known
     * @source ISO 13528 and ISO/IEC 17043, E<sub>n</sub> score, from memory
     */
    public OptionalDouble normalisedError() {
        double uncertainty = expandedUncertaintyOfError();
        return readings == null || !(uncertainty > 0)
                ? OptionalDouble.empty()
                : OptionalDouble.of(readings.error() / uncertainty);
    }

    /**
     * Returns the expanded uncertainty (k = 2) of the error: of the mean and of the certificate together.
     *
     * @return 2 √(u<sub>x</sub><sup>2</sup> + u<sub>X</sub><sup>2</sup>); that of the certificate alone if the step was
     *     not read
     * @units density
     */
    public double expandedUncertaintyOfError() {
        return 2 * Math.hypot(uncertaintyOfMean, step.standardUncertainty());
    }

    /**
     * Returns the probability that the true error of the mean is beyond the tolerance, given what was read: the specific
     * risk of wrong acceptance where the step passed; 1 − it, of wrong rejection where it failed. The error is taken as
     * normal about the measured one.
     *
     * @return 1 − Φ((T − e)/u) + Φ((−T − e)/u), or nothing if the step was not read
     * @source JCGM 106:2012, conformance probability with a normal distribution, from memory
     */
    public OptionalDouble probabilityOutOfTolerance() {
        if (readings == null) {
            return OptionalDouble.empty();
        }
        double error = Math.abs(readings.error());
        double uncertainty = expandedUncertaintyOfError() / 2;
        if (!(uncertainty > 0)) {
            return OptionalDouble.of(error > allowed ? 1 : 0);
        }
        return OptionalDouble.of(Distributions.normalBelow((error - allowed) / uncertainty)
                + Distributions.normalBelow(-(allowed + error) / uncertainty));
    }

    /**
     * Returns the uncertainty of a single reading here.
     *
     * @return the budget, or nothing if the step was not read
     */
    public Optional<UncertaintyBudget> budget() {
        return Optional.ofNullable(budget);
    }

    /**
     * Returns the verdict in words.
     *
     * @return for example {@code step 3: PASS, error +0.01 of 0.02 allowed}
     */
    @Override
    public String toString() {
        return "step " + step.number() + ": " + outcome
                + (readings == null
                        ? ""
                        : ", error " + Figures.signed(readings.error()) + " of " + Figures.plain(allowed) + " allowed");
    }
}
