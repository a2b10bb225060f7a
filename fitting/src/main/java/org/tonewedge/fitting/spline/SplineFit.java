package org.tonewedge.fitting.spline;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/**
 * The smoothing spline of a strip: its curve, how uncertain it is, and how the smoothing came out.
 *
 * <p>Immutable and thread safe.
 */
public final class SplineFit {

    private final Strip strip;
    private final CharacteristicCurve curve;
    private final SplineSolution solution;
    private final Optional<SmoothingCriterion> criterion;

    SplineFit(Strip strip, CharacteristicCurve curve, SplineSolution solution, Optional<SmoothingCriterion> criterion) {
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
     * Returns the curve. It answers between the least and the greatest exposure of the strip; its form goes on as a
     * straight line beyond them, for those who {@linkplain CharacteristicCurve#extrapolated extrapolate} it.
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
     * for the spline between its knots, Silverman 1985): σ (c<sup>T</sup>(W + λQR<sup>−1</sup>Q<sup>T</sup>)<sup>−1</sup>c)
     * <sup>1/2</sup>, where c holds the weights of the values at the knots in the density asked for; at a step of w
     * readings that is σ (A<sub>ii</sub>/w)<sup>1/2</sup> with the diagonal of the smoother matrix A. It takes the
     * smoothing as given. σ is the stated repeatability, or else the {@linkplain #residualStandardDeviation() residual
     * standard deviation}. A band of ±1.96 standard errors covers the true curve at about 95 % of the exposures,
     * <em>averaged along the curve</em> (Nychka 1988): less often where it bends sharply, more often where it is
     * straight. On simulated strips it did so at 93 to 97 % with a repeatability stated, at 11, 21 and 31 steps, and
     * without one at 21 and 31 steps ({@code SimulatedStripsTest}); a strip of about a dozen readings shows too little of
     * its own noise, so state the repeatability there. A monotone curve is given the standard errors of the free one,
     * which are rather too great where the shape holds it.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the density and its standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if it was not measured there
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
     * Returns the pointwise standard error of the density, as {@link #densityAt} explains it.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if it was not measured there
     * @units density
     */
    public double standardErrorAt(LogExposure logExposure) {
        return densityAt(logExposure).standardUncertainty();
    }

    /**
     * Returns the gradient of the curve with its pointwise standard error, found as that of the density is. The prior of
     * the spline lets gradients vary more than those of film do, so that this error is rather great.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the gradient and its standard error
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if it was not measured there
     */
    public Estimate gradientAt(LogExposure logExposure) {
        return Estimate.of(
                curve.gradientAt(logExposure).value(),
                solution.standardErrorOfGradient(logExposure.value()),
                solution.freedomOfVariance());
    }

    /**
     * Returns the smoothing λ of the curve, in the terms of {@link SmoothingSpline}: with weights that add up to the
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
     * @return the criterion, or nothing if the smoothing or the degrees of freedom were stated
     */
    public Optional<SmoothingCriterion> criterion() {
        return criterion;
    }

    /**
     * Returns the effective degrees of freedom: the trace of the matrix that turns the step means into the densities of
     * the free curve of this smoothing.
     *
     * @return from 2, a straight line, to the number of steps, a curve through all of them
     */
    public double degreesOfFreedom() {
        return solution.degreesOfFreedom();
    }

    /**
     * Returns the number of readings, repeats included, less the effective degrees of freedom.
     *
     * @return what is left to judge the noise by; figures that rest on less than about 4 are worth little
     */
    public double residualDegreesOfFreedom() {
        return solution.residualDegreesOfFreedom();
    }

    /**
     * Returns the standard deviation of a reading as the residuals show it: the root of the weighted sum of squares of
     * all readings about the free curve, divided by the {@linkplain #residualDegreesOfFreedom() residual degrees of freedom}.
     * Where the stated repeatability differs between steps, it is that of a step of weight 1.
     *
     * @return the standard deviation
     * @units density
     */
    public double residualStandardDeviation() {
        return Math.sqrt(solution.residualVariance());
    }

    /**
     * Returns the residuals: of each step, the mean of its readings less the density of the curve.
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
}
