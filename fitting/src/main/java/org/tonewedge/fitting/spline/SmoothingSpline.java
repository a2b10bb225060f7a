// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingFailedException.Failure;

/**
 * Draws a penalised cubic smoothing spline through a strip's readings: among all smooth curves g, the one with the
 * least
 *
 * <p>Σ w<sub>i</sub> (D<sub>i</sub> − g(x<sub>i</sub>))<sup>2</sup> + λ ∫ g″(x)<sup>2</sup> dx,
 *
 * <p>a natural cubic spline with a knot at every exposure. x is log<sub>10</sub> H, D<sub>i</sub> the mean of the readings
 * of step i. As λ goes to 0 the curve goes through every reading; as it grows, the curve becomes the least-squares line.
 *
 * <table>
 * <caption>Defaults</caption>
 * <tr><td>smoothing</td><td>by {@link SmoothingCriterion#UNBIASED_RISK} if a repeatability is given, otherwise by
 * {@link SmoothingCriterion#PENALISED_CROSS_VALIDATION}</td></tr>
 * <tr><td>shape</td><td>{@link SplineShape#FREE}</td></tr>
 * <tr><td>weights</td><td>every reading counts the same, so w<sub>i</sub> is the number of readings of the
 * step</td></tr>
 * </table>
 *
 * <p><b>Base plus fog</b> was read without exposure, which has no place on a logarithmic axis, so those readings are
 * not points of the curve. They become the curve's {@linkplain CharacteristicCurve#basePlusFog() base plus fog}, and
 * with {@link SplineShape#MONOTONE_FROM_BASE_PLUS_FOG} the limit at which it begins. Their spread is not used: it shows
 * the repeatability at one density, and nothing about uneven exposure or development along the strip.
 *
 * <p><b>Standard errors</b> are those of the spline as a Bayesian estimate: see {@link SplineFit#densityAt SplineFit.densityAt}.
 *
 * <p><b>Shape.</b> The smoothing is chosen for the free curve. The monotone curve is then the one with the least
 * penalised sum of squares, at that smoothing, among the natural splines on the same knots whose gradient never changes
 * sign. If the free curve is monotone already, the two are the same.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source C. H. Reinsch, Smoothing by spline functions, Numerische Mathematik 10 (1967) 177–183; P. J. Green and B. W.
 *     Silverman, Nonparametric Regression and Generalized Linear Models (1994), chapter 2 (citations from memory)
 */
public final class SmoothingSpline {

    /**
     * How far a step may lie on the wrong side of base plus fog: in standard deviations, and at least this much in
     * density.
     */
    private static final double CONTRADICTION = 4;

    private static final double LEAST_CONTRADICTION = 0.02;

    private static final SmoothingSpline DEFAULTS = new SmoothingSpline(
            Optional.empty(), OptionalDouble.empty(), OptionalDouble.empty(), SplineShape.FREE, Optional.empty());

    private final Optional<SmoothingCriterion> criterion;
    private final OptionalDouble statedDegreesOfFreedom;
    private final OptionalDouble statedSmoothing;
    private final SplineShape shape;
    private final Optional<Repeatability> repeatability;

    private SmoothingSpline(
            Optional<SmoothingCriterion> criterion,
            OptionalDouble statedDegreesOfFreedom,
            OptionalDouble statedSmoothing,
            SplineShape shape,
            Optional<Repeatability> repeatability) {
        this.criterion = criterion;
        this.statedDegreesOfFreedom = statedDegreesOfFreedom;
        this.statedSmoothing = statedSmoothing;
        this.shape = shape;
        this.repeatability = repeatability;
    }

    /**
     * Returns the defaults of the table above.
     *
     * @return the spline
     */
    public static SmoothingSpline withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy that chooses its smoothing by a criterion.
     *
     * @param choice the criterion
     * @return the copy
     */
    public SmoothingSpline with(SmoothingCriterion choice) {
        Objects.requireNonNull(choice, "choice");
        return new SmoothingSpline(
                Optional.of(choice), OptionalDouble.empty(), OptionalDouble.empty(), shape, repeatability);
    }

    /**
     * Returns a copy with a smoothing that gives the curve stated effective degrees of freedom: the trace of the matrix
     * that turns the step means into fitted densities. A straight line has 2; a curve through every step has as many as
     * there are steps.
     *
     * @param degreesOfFreedom above 2, and below the number of exposures of the strip
     * @return the copy
     * @throws IllegalArgumentException if it is not a finite number above 2
     */
    public SmoothingSpline withDegreesOfFreedom(double degreesOfFreedom) {
        if (!(degreesOfFreedom > 2 && degreesOfFreedom < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("degrees of freedom must be a finite number above 2, was "
                    + degreesOfFreedom + ": 2 is a straight line");
        }
        return new SmoothingSpline(
                criterion, OptionalDouble.of(degreesOfFreedom), OptionalDouble.empty(), shape, repeatability);
    }

    /**
     * Returns a copy with a stated smoothing λ.
     *
     * @param smoothing the smoothing, above 0
     * @return the copy
     * @throws IllegalArgumentException if it is not a finite number above 0
     * @units cubed log units
     */
    public SmoothingSpline withSmoothing(double smoothing) {
        return new SmoothingSpline(
                criterion,
                OptionalDouble.empty(),
                OptionalDouble.of(Checks.positive("smoothing", smoothing)),
                shape,
                repeatability);
    }

    /**
     * Returns a copy with another constraint on shape.
     *
     * @param known what is known about the shape
     * @return the copy
     */
    public SmoothingSpline with(SplineShape known) {
        return new SmoothingSpline(
                criterion,
                statedDegreesOfFreedom,
                statedSmoothing,
                Objects.requireNonNull(known, "known"),
                repeatability);
    }

    /**
     * Returns a copy with a stated repeatability, or one from repeat readings, in place of the residuals. The weight of a
     * reading is the reciprocal of its variance, and standard errors come from the repeatability.
     *
     * @param deviation the standard deviation of one reading, above 0 at the mean density of every step
     * @return the copy
     */
    public SmoothingSpline with(Repeatability deviation) {
        return new SmoothingSpline(
                criterion,
                statedDegreesOfFreedom,
                statedSmoothing,
                shape,
                Optional.of(Objects.requireNonNull(deviation, "deviation")));
    }

    /**
     * Draws the curve of a strip.
     *
     * @param strip the strip, with at least {@link CharacteristicCurve#FEWEST_STEPS} exposures and a base-plus-fog
     *     reading
     * @return the curve with a record of how it was made
     * @throws SmoothingFailedException if the strip does not allow it; the exception names the strip and the reason
     */
    public SplineFit fit(Strip strip) {
        List<ExposedStep> steps = strip.steps();
        int n = steps.size();
        if (n < CharacteristicCurve.FEWEST_STEPS) {
            throw failure(
                    strip,
                    Failure.TOO_FEW_EXPOSURES,
                    "has " + Figures.counted(n, "exposure") + "; a smoothing spline needs at least "
                            + CharacteristicCurve.FEWEST_STEPS + ": expose and read more steps");
        }
        Density basePlusFog = strip.basePlusFog()
                .orElseThrow(() -> failure(
                        strip,
                        Failure.NO_BASE_PLUS_FOG,
                        "has no base-plus-fog reading; read an unexposed, processed part of the film and enter it with"
                                + " an empty exposure"));
        double[] x = new double[n];
        double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = steps.get(i).exposure().value();
            y[i] = steps.get(i).density().value();
        }
        WeightedReadings readings = WeightedReadings.of(strip, y, repeatability.map(given -> known(strip, given)));
        ReinschSystem system = new ReinschSystem(x, y, readings.weights);
        Optional<SmoothingCriterion> used = criterionFor(strip, readings);
        SplineSolution free = SplineSolution.of(system, readings, smoothing(strip, system, readings, used));
        SplineSolution drawn = shape == SplineShape.FREE ? free : monotone(strip, free, basePlusFog);
        CharacteristicCurve curve = CharacteristicCurve.of(
                strip.toString(),
                drawn.spline(),
                steps.get(0).exposure(),
                steps.get(n - 1).exposure(),
                basePlusFog);
        return new SplineFit(this, strip, curve, drawn, used);
    }

    private static Repeatability known(Strip strip, Repeatability given) {
        try {
            return given.over(List.of(strip));
        } catch (IllegalArgumentException e) {
            throw new SmoothingFailedException(strip.id(), Failure.NO_REPEATABILITY, e.getMessage());
        }
    }

    /** The criterion to use; empty if the smoothing or the degrees of freedom are stated. */
    private Optional<SmoothingCriterion> criterionFor(Strip strip, WeightedReadings readings) {
        if (statedSmoothing.isPresent() || statedDegreesOfFreedom.isPresent()) {
            return Optional.empty();
        }
        boolean known = readings.statedVariance.isPresent();
        SmoothingCriterion used = criterion.orElse(
                known ? SmoothingCriterion.UNBIASED_RISK : SmoothingCriterion.PENALISED_CROSS_VALIDATION);
        if (used == SmoothingCriterion.UNBIASED_RISK && !known) {
            throw failure(
                    strip,
                    Failure.NO_REPEATABILITY,
                    "cannot be smoothed by unbiased risk without a stated repeatability: state one, or choose another"
                            + " criterion");
        }
        return Optional.of(used);
    }

    private double smoothing(
            Strip strip, ReinschSystem system, WeightedReadings readings, Optional<SmoothingCriterion> used) {
        if (statedSmoothing.isPresent()) {
            return statedSmoothing.getAsDouble();
        }
        SmoothingSearch search = new SmoothingSearch(system, readings);
        return used.map(search::best)
                .orElseGet(() -> search.forDegreesOfFreedom(reachable(strip, statedDegreesOfFreedom.getAsDouble())));
    }

    private SplineSolution monotone(Strip strip, SplineSolution free, Density basePlusFog) {
        OptionalDouble firstBound = shape == SplineShape.MONOTONE_FROM_BASE_PLUS_FOG
                ? OptionalDouble.of(agreed(strip, free, basePlusFog))
                : OptionalDouble.empty();
        return free.monotone(firstBound)
                .orElseThrow(() -> failure(
                        strip,
                        Failure.NO_MONOTONE_CURVE,
                        "did not yield a monotone curve in the steps allowed; look for swapped steps, or draw the free"
                                + " curve"));
    }

    /** Base plus fog, provided that no step lies on the wrong side of it by more than reading errors explain. */
    private static double agreed(Strip strip, SplineSolution free, Density basePlusFog) {
        double base = basePlusFog.value();
        for (int i = 0; i < strip.steps().size(); i++) {
            ExposedStep step = strip.steps().get(i);
            double beyond = free.trend() * (base - step.density().value());
            if (beyond > Math.max(LEAST_CONTRADICTION, CONTRADICTION * free.standardDeviationOfStep(i))) {
                throw failure(
                        strip,
                        Failure.BASE_PLUS_FOG_CONTRADICTED,
                        "reads " + step.density() + " at " + step.exposure() + ", on the wrong side of base plus fog, "
                                + basePlusFog
                                + ": read base plus fog again on the same strip, or draw the curve without"
                                + " it");
            }
        }
        return base;
    }

    private static double reachable(Strip strip, double degreesOfFreedom) {
        int n = strip.steps().size();
        if (!(degreesOfFreedom < n)) {
            throw failure(
                    strip,
                    Failure.DEGREES_OF_FREEDOM_OUT_OF_REACH,
                    "has " + n + " exposures; the degrees of freedom must be fewer than that, were " + degreesOfFreedom
                            + ": ask for fewer, or read more steps");
        }
        return degreesOfFreedom;
    }

    static SmoothingFailedException failure(Strip strip, Failure reason, String message) {
        return new SmoothingFailedException(strip.id(), reason, strip + " " + message);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof SmoothingSpline that
                && Objects.equals(criterion, that.criterion)
                && Objects.equals(statedDegreesOfFreedom, that.statedDegreesOfFreedom)
                && Objects.equals(statedSmoothing, that.statedSmoothing)
                && Objects.equals(shape, that.shape)
                && Objects.equals(repeatability, that.repeatability);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(criterion, statedDegreesOfFreedom, statedSmoothing, shape, repeatability);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the options
     */
    @Override
    public String toString() {
        String smoothing;
        if (statedSmoothing.isPresent()) {
            smoothing = "stated";
        } else if (statedDegreesOfFreedom.isPresent()) {
            smoothing = "by stated degrees of freedom";
        } else {
            smoothing = "by " + criterion.map(Object::toString).orElse("the usual criterion");
        }
        return shape + " smoothing spline, smoothing " + smoothing;
    }
}
