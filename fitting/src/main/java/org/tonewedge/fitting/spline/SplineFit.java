// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.DoubleFunction;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Strip;

/**
 * The smoothing spline of a strip: its curve, its uncertainty, and the smoothing that was found.
 *
 * <p>Immutable and thread safe.
 */
public final class SplineFit implements Recorded {

    /** The step for the derivatives of a figure, in standard deviations of a step's mean. */
    private static final double STEP = 0.05;

    /** With this share of the smoothing the intervals of {@code StripFit} cover simulated strips better than with all of it. */
    private static final double LESS_SMOOTHED = 0.1;

    /** The key of the rougher curve among the changed ones: no other is changed without end. */
    private static final List<Double> KEY_OF_LESS_SMOOTHED = List.of(-1.0, Double.POSITIVE_INFINITY);

    private final SmoothingSpline settings;
    private final Strip strip;
    private final CharacteristicCurve curve;
    private final SplineSolution solution;
    private final Optional<SmoothingCriterion> criterion;

    /** Slightly changed curves, made once: who reads many figures may keep what was read off each. */
    private final Map<List<Double>, CharacteristicCurve> beside = new ConcurrentHashMap<>();

    SplineFit(
            SmoothingSpline settings,
            Strip strip,
            CharacteristicCurve curve,
            SplineSolution solution,
            Optional<SmoothingCriterion> criterion) {
        this.settings = settings;
        this.strip = strip;
        this.curve = curve;
        this.solution = solution;
        this.criterion = criterion;
    }

    /**
     * Returns the strip.
     *
     * @return the strip the curve was drawn for
     */
    public Strip strip() {
        return strip;
    }

    /**
     * Returns the curve. It answers between the least and the greatest exposure of the strip. Beyond them its form
     * continues as a straight line, for callers who {@linkplain CharacteristicCurve#extrapolated extrapolate} it.
     *
     * @return the curve
     */
    public CharacteristicCurve curve() {
        return curve;
    }

    /**
     * Returns the density of the curve with its pointwise standard error.
     *
     * <p>The standard error is the posterior standard deviation of the spline seen as a Bayesian estimate (Wahba 1983;
     * for the spline between its knots, Silverman 1985): σ (c<sup>T</sup>(W +
     * λQR<sup>−1</sup>Q<sup>T</sup>)<sup>−1</sup>c) <sup>1/2</sup>, where c contains the weights with which the values
     * at the knots make up the density asked for; at a step of w readings it is σ (A<sub>ii</sub>/w)<sup>1/2</sup> with
     * the diagonal of the smoother matrix A. The smoothing is taken as known. σ is the stated repeatability or, without
     * one, the {@linkplain #residualStandardDeviation() residual standard deviation}. A band of ±1.96 standard errors
     * covers the true curve at about 95 % of the exposures, <em>averaged along the curve</em> (Nychka 1988). It covers
     * less often where the curve bends sharply, more often where it is straight. On simulated strips it covered 93 to
     * 97 % with a repeatability stated, at 11, 21 and 31 steps, and without one at 21 and 31 steps
     * ({@code SimulatedStripsTest}); a strip of about a dozen readings shows too little of its own noise, so state the
     * repeatability there. A monotone curve has the standard errors of the free one, which are somewhat too large where
     * the constraint acts.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the density and its standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     * @source G. Wahba, Bayesian confidence intervals for the cross-validated smoothing spline, Journal of the Royal
     *     Statistical Society B 45 (1983) 133–150; B. W. Silverman, Some aspects of the spline smoothing approach to
     *     non-parametric regression curve fitting, same journal, 47 (1985) 1–52; D. Nychka, Bayesian confidence intervals
     *     for smoothing splines, Journal of the American Statistical Association 83 (1988) 1134–1143 (citations from
     *     memory)
     */
    public Estimate densityAt(LogExposure logExposure) {
        return Estimate.of(
                curve.densityAt(logExposure).value(),
                solution.standardErrorOfDensity(logExposure.value()),
                solution.freedomOfVariance());
    }

    /**
     * Returns a figure read off the curve with its standard uncertainty, by the delta method. The figure is read off
     * curves with slightly different densities at the steps and another base plus fog; the covariance of the Bayesian
     * estimate, explained at {@link #densityAt densityAt}, gives its uncertainty. It includes how far the smoothing may bend the
     * curve off the true one, averaged along the curve; where it bends a figure more than that average, the distance d to
     * the figure of the {@linkplain #lessSmoothed() less smoothed} spline shows it, so that u² = u<sub>spline</sub>² + d².
     *
     * @param figure how to read the figure off a curve; it should change smoothly with the curve
     * @return the estimate, in the units of the figure
     * @throws NotDeterminableException if the curve does not give the figure
     * @source propagation of uncertainty: JCGM 100:2008, 5.2.2
     */
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        double value = figure.applyAsDouble(curve);
        int steps = strip.steps().size();
        double[] derivatives = new double[steps];
        for (int i = 0; i < steps; i++) {
            int knot = i;
            double change = STEP * solution.standardDeviationOfStep(i);
            derivatives[i] =
                    derivative(figure, value, change, by -> beside(knot, by, () -> solution.splineWith(knot, by), 0));
        }
        double ofBase = Math.sqrt(
                solution.readingVariance() / strip.basePlusFogReadings().size());
        double byBase = derivative(figure, value, STEP * ofBase, by -> beside(-1, by, solution::spline, by));
        double byReadings = Math.hypot(solution.standardError(derivatives), byBase * ofBase);
        return Estimate.of(value, Math.hypot(byReadings, bendOf(figure, value)), solution.freedomOfVariance());
    }

    /** How far a figure lies from that of the rougher spline; 0 if that does not give it. */
    private double bendOf(ToDoubleFunction<CharacteristicCurve> figure, double value) {
        try {
            CharacteristicCurve rougher = beside.computeIfAbsent(
                    KEY_OF_LESS_SMOOTHED, any -> lessSmoothed().curve());
            return figure.applyAsDouble(rougher) - value;
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return 0;
        }
    }

    private CharacteristicCurve beside(int knot, double by, Supplier<CurveForm> form, double base) {
        return beside.computeIfAbsent(
                List.of((double) knot, by),
                any -> CharacteristicCurve.of(
                        curve.name(),
                        form.get(),
                        curve.lowestExposure(),
                        curve.highestExposure(),
                        Density.of(curve.basePlusFog().value() + base)));
    }

    /** A central difference, or a one-sided one if the changed curve gives the figure on one side only. */
    private static double derivative(
            ToDoubleFunction<CharacteristicCurve> figure,
            double value,
            double change,
            DoubleFunction<CharacteristicCurve> curveChangedBy) {
        if (change == 0) {
            return 0;
        }
        double above;
        try {
            above = figure.applyAsDouble(curveChangedBy.apply(change));
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return (value - figure.applyAsDouble(curveChangedBy.apply(-change))) / change;
        }
        try {
            return (above - figure.applyAsDouble(curveChangedBy.apply(-change))) / (2 * change);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return (above - value) / change;
        }
    }

    /**
     * Returns the pointwise standard error of the density, explained at {@link #densityAt densityAt}.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     * @units density
     */
    public double standardErrorAt(LogExposure logExposure) {
        return densityAt(logExposure).standardUncertainty();
    }

    /**
     * Returns the gradient of the curve with its pointwise standard error, found in the same way as that of the
     * density. The prior of the spline lets gradients vary more than those of film do, so this error is rather large.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the gradient and its standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public Estimate gradientAt(LogExposure logExposure) {
        return Estimate.of(
                curve.gradientAt(logExposure).value(),
                solution.standardErrorOfGradient(logExposure.value()),
                solution.freedomOfVariance());
    }

    /**
     * Returns the spline of the same strip with a tenth of the smoothing. It follows the readings more closely, so that
     * how far a figure moves shows what the smoothing may have bent.
     *
     * @return a less smoothed curve
     * @throws SmoothingFailedException if no monotone curve was found
     */
    public SplineFit lessSmoothed() {
        return settings.withSmoothing(LESS_SMOOTHED * smoothing()).fit(strip);
    }

    /**
     * Returns the smoothing λ of the curve as defined in {@link SmoothingSpline}, with weights that add up to the
     * number of readings.
     *
     * @return λ
     * @units cubed log units
     */
    public double smoothing() {
        return solution.smoothing();
    }

    /**
     * Returns the criterion that chose the smoothing.
     *
     * @return the criterion, or empty if the smoothing or the degrees of freedom were stated
     */
    public Optional<SmoothingCriterion> criterion() {
        return criterion;
    }

    /**
     * Returns the effective degrees of freedom: the trace of the matrix that turns the step means into the densities of
     * the free curve at this smoothing.
     *
     * @return from 2, a straight line, to the number of steps, a curve through all of them
     */
    public double degreesOfFreedom() {
        return solution.degreesOfFreedom();
    }

    /**
     * Returns the number of readings, including repeat readings, minus the effective degrees of freedom.
     *
     * @return the degrees of freedom left to judge the noise; figures that rest on fewer than about 4 are worth little
     */
    public double residualDegreesOfFreedom() {
        return solution.residualDegreesOfFreedom();
    }

    /**
     * Returns the standard deviation of a reading as the residuals show it: the square root of the weighted sum of
     * squares of all readings about the free curve, divided by the {@linkplain #residualDegreesOfFreedom() residual
     * degrees of freedom}. If the stated repeatability differs between steps, it applies to a step of weight 1.
     *
     * @return the standard deviation
     * @units density
     */
    public double residualStandardDeviation() {
        return Math.sqrt(solution.residualVariance());
    }

    /**
     * Returns the residual of each step: the mean of its readings minus the density of the curve.
     *
     * @return the residuals, in the order of {@link Strip#steps()}
     */
    public List<DensityDifference> residuals() {
        return IntStream.range(0, strip.steps().size())
                .mapToObj(step -> DensityDifference.of(solution.residual(step)))
                .toList();
    }

    /**
     * Returns the fit in words.
     *
     * @return the strip, the degrees of freedom and the residual standard deviation
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "smoothing spline of %s: %.1f degrees of freedom, residual standard deviation %.4f",
                strip,
                degreesOfFreedom(),
                residualStandardDeviation());
    }

    /**
     * Returns the fit as named values: its smoothing, degrees of freedom and how well the readings were met.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofNumber("smoothing", smoothing(), "log10^3"),
                ResultRecord.ofNumber("degrees_of_freedom", degreesOfFreedom(), ""),
                ResultRecord.ofNumber("residual_degrees_of_freedom", residualDegreesOfFreedom(), ""),
                ResultRecord.ofNumber("residual_standard_deviation", residualStandardDeviation(), "density"));
    }
}
