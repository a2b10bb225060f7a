// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.FitSettings;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.internal.ShapeMinimiser;
import org.tonewedge.fitting.internal.ShapeSearch;

/**
 * The definition of a curve fit: the family and the options. A fit is weighted nonlinear least squares over all
 * readings, including each repeat reading. Readings of base plus fog count as readings without exposure.
 *
 * <pre>{@code
 * FittedCurve fit = CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY).fit(strip);
 * CharacteristicCurve curve = fit.curve();
 * Estimate gradient = fit.parameter(CurveParameter.GRADIENT);
 * }</pre>
 *
 * <p>Defaults: {@link RobustLoss#NONE}; all readings are equally good, and their standard deviation is that of the
 * residuals, which includes the errors of the densitometer, the exposures and the family itself. If a strip does not show
 * everything that a family describes, the part that it shows is fitted, and the result says so.
 *
 * <p>If your densitometer reads high densities less well, state that ({@link #with(Repeatability) with(Repeatability)}): readings
 * taken as equally good then say too much of the dense end and too little of the toe. With errors of 0.005 + 1 % of the density,
 * 95 % intervals contain gamma of 89 % of simulated strips and the start of the shoulder of 84 %; with these errors stated, of 94
 * and 93 % (<a href="doc-files/fit-quality.html">Quality of the fits</a>).
 *
 * <p>The <em>softness prior</em> is used only if the readings hardly determine the softness of a toe or shoulder (its
 * standard error is larger than the softness itself), or the plain search does not end. It holds the softness near the
 * usual value: 0.2 log units, within a factor of e (one standard deviation; common practice, no source). It counts as one
 * more reading with the variance of the residuals, or with the stated one if a repeatability is stated. So it moves no fit to
 * exact readings, unless their repeatability is stated.
 *
 * <p>Base plus fog is never fitted below 0, or below the lowest reading if that is negative. The distance from toe to
 * shoulder is never less than 0.1 log units.
 *
 * <p>Immutable and thread safe; each {@code with} method returns a copy.
 */
public final class CurveFit {

    /** The greatest {@link org.tonewedge.core.quantity.Density}. */
    private static final double MOST_DENSITY = 10;

    private static final double MOST_INFLATION = 1e14;

    private final CurveFamily family;
    private final RobustLoss loss;
    private final Optional<Repeatability> repeatability;
    private final boolean wholeFamily;
    private final boolean softnessPrior;

    private CurveFit(
            CurveFamily family,
            RobustLoss loss,
            Optional<Repeatability> repeatability,
            boolean wholeFamily,
            boolean softnessPrior) {
        this.family = Objects.requireNonNull(family, "family");
        this.loss = Objects.requireNonNull(loss, "loss");
        this.repeatability = repeatability;
        this.wholeFamily = wholeFamily;
        this.softnessPrior = softnessPrior;
    }

    /**
     * Returns the fit of a family with the default options.
     *
     * @param family the family
     * @return the fit
     */
    public static CurveFit of(CurveFamily family) {
        return new CurveFit(family, RobustLoss.NONE, Optional.empty(), false, true);
    }

    /**
     * Returns this fit for another family.
     *
     * @param family the family
     * @return a copy
     */
    public CurveFit with(CurveFamily family) {
        Objects.requireNonNull(family, "family");
        return new CurveFit(family, loss, repeatability, wholeFamily, softnessPrior);
    }

    /**
     * Returns this fit with another loss.
     *
     * @param loss the loss
     * @return a copy
     */
    public CurveFit with(RobustLoss loss) {
        Objects.requireNonNull(loss, "loss");
        return new CurveFit(family, loss, repeatability, wholeFamily, softnessPrior);
    }

    /**
     * Returns this fit with a stated repeatability, or one from repeat readings, in place of the residuals. It sets the
     * weights of the readings and the size of the uncertainties.
     *
     * @param repeatability the standard deviation of a reading, above 0 at the densities read
     * @return a copy
     */
    public CurveFit with(Repeatability repeatability) {
        Objects.requireNonNull(repeatability, "repeatability");
        return new CurveFit(family, loss, Optional.of(repeatability), wholeFamily, softnessPrior);
    }

    /**
     * Returns this fit with the whole family for every strip, whatever values the parameters of invisible parts take.
     * It affects {@link CurveFamily#TOE_SHOULDER}.
     *
     * @return a copy
     */
    public CurveFit withWholeFamily() {
        return new CurveFit(family, loss, repeatability, true, softnessPrior);
    }

    /**
     * Returns this fit without the weak prior on softness; it affects families with a softness.
     *
     * @return a copy
     */
    public CurveFit withoutSoftnessPrior() {
        return new CurveFit(family, loss, repeatability, wholeFamily, false);
    }

    /**
     * Returns the family.
     *
     * @return the family
     */
    public CurveFamily family() {
        return family;
    }

    /**
     * Returns the repeatability of the readings.
     *
     * @return what was {@linkplain #with(Repeatability) stated}, or empty if it comes from the residuals
     */
    public Optional<Repeatability> repeatability() {
        return repeatability;
    }

    /**
     * Fits a strip.
     *
     * @param strip the strip
     * @return the fitted curve
     * @throws CurveFitException if the strip cannot be fitted; its {@link CurveFitException#failure()} says why
     */
    public FittedCurve fit(Strip strip) {
        return fit(FitInput.of(strip, repeatability));
    }

    /**
     * Fits plain readings in any order; several readings at one exposure are repeat readings.
     *
     * @param name what they are, for messages
     * @param axis the axis of the exposures
     * @param logExposures log<sub>10</sub> H of each reading
     * @param densities the gross density of each
     * @param basePlusFog readings of the unexposed, processed material, if any
     * @return the fitted curve
     * @throws IllegalArgumentException if the numbers of exposures and densities differ, or a number is out of range
     * @throws CurveFitException as {@link #fit(Strip)} does
     */
    public FittedCurve fit(
            String name, ExposureAxis axis, double[] logExposures, double[] densities, double... basePlusFog) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(axis, "axis");
        return fit(FitInput.of(name, axis, logExposures, densities, basePlusFog, repeatability));
    }

    /**
     * Fits many strips on the threads of an executor.
     *
     * @param strips the strips
     * @param executor runs one task for each strip; may be a fixed thread pool, which the caller shuts down
     * @return the fitted curves in the order of the strips, identical to the last bit to those of {@link #fit(Strip)}
     * @throws CurveFitException if a strip cannot be fitted: the failure of the first such strip, with those of the
     *     others suppressed in it; all strips are tried first
     */
    public List<FittedCurve> fitAll(List<Strip> strips, Executor executor) {
        Objects.requireNonNull(executor, "executor");
        List<CompletableFuture<FittedCurve>> tasks = strips.stream()
                .map(strip -> CompletableFuture.supplyAsync(() -> fit(strip), executor))
                .toList();
        // one wait for all: a caller that wakes for each strip takes turns with the threads that fit
        CompletableFuture.allOf(tasks.toArray(CompletableFuture[]::new))
                .handle((all, failed) -> null)
                .join();
        List<FittedCurve> fits = new ArrayList<>();
        List<RuntimeException> failures = new ArrayList<>();
        for (CompletableFuture<FittedCurve> task : tasks) {
            try {
                fits.add(task.join());
            } catch (CompletionException e) {
                if (!(e.getCause() instanceof RuntimeException failure)) {
                    throw e;
                }
                failures.add(failure);
            }
        }
        if (!failures.isEmpty()) {
            RuntimeException first = failures.get(0);
            failures.stream().skip(1).forEach(first::addSuppressed);
            throw first;
        }
        return List.copyOf(fits);
    }

    RobustLoss loss() {
        return loss;
    }

    FittedCurve fit(FitInput input) {
        if (family == CurveFamily.TOE_SHOULDER && !wholeFamily) {
            return VisibleParts.fit(this, input);
        }
        return fitted(input, family, search(input, family));
    }

    /**
     * Refits other readings of the same strip, starting from an earlier fit. Returns offset, scale and shape
     * parameters; empty if the search did not converge.
     */
    Optional<double[]> refit(FitInput input, ShapeFit earlier, ShapeMinimiser minimiser) {
        return ShapeSearch.refit(earlier, input.readings(), settings(input), minimiser);
    }

    ShapeFit search(FitInput input, CurveFamily sought) {
        input.requireFittable(sought);
        return search(input, sought, ShapeSearch.start(sought.kind(), input.readings()));
    }

    ShapeFit search(FitInput input, CurveFamily sought, double[] start) {
        return ShapeSearch.fit(sought.kind(), input.readings(), settings(input), start);
    }

    private FitSettings settings(FitInput input) {
        double least = 0;
        for (double density : input.readings().densities()) {
            least = density < least ? density : least;
        }
        OptionalDouble known =
                input.isVarianceKnown() ? OptionalDouble.of(input.knownVariance()) : OptionalDouble.empty();
        return new FitSettings(loss.loss(), known, softnessPrior, least);
    }

    /** Turns a search into a curve, or refuses it with the reason. */
    FittedCurve fitted(FitInput input, CurveFamily reached, ShapeFit fit) {
        if (!fit.search().stopReason().isConverged()) {
            throw new CurveFitException(
                    FitFailure.NOT_CONVERGED,
                    what(input, reached) + ": the search for the least sum of squares did not end within "
                            + fit.search().iterations()
                            + " iterations: look for bad readings, use a robust loss, or fit a family with fewer"
                            + " parameters");
        }
        int held = fit.search().heldParameter();
        if (held >= 0 && !fit.kind().isRun(held)) {
            CurveParameter parameter = reached.parameters().get(held + 2);
            double value = fit.kind().natural(fit.shape())[held];
            throw new CurveFitException(
                    FitFailure.BOUND_HIT,
                    what(input, reached) + ": " + parameter + " reached the end of its range, " + Figures.plain(value)
                            + ", so the readings do not determine it: " + remedy(parameter));
        }
        double[][] covariance = fit.unscaledCovariance();
        for (int k = 0; k < covariance.length; k++) {
            if (!(covariance[k][k] < MOST_INFLATION)) {
                throw new CurveFitException(
                        FitFailure.ILL_CONDITIONED,
                        what(input, reached)
                                + ": the readings do not separate the parameters: read steps over a longer range, or fit a"
                                + " family with fewer parameters");
            }
        }
        if (reached.kind().shape().reachesBase() && fit.offset() > MOST_DENSITY) {
            throw new CurveFitException(
                    FitFailure.BASE_PLUS_FOG_UNKNOWN,
                    what(input, reached) + ": base plus fog would come out at " + Figures.plain(fit.offset())
                            + ", above all readings, so it is not determined: read an unexposed, processed part of the film, and"
                            + " look for bad readings");
        }
        if (!reached.kind().shape().reachesBase() && input.basePlusFog(loss).isEmpty()) {
            throw new CurveFitException(
                    FitFailure.BASE_PLUS_FOG_UNKNOWN,
                    what(input, reached)
                            + ": the strip shows no toe and has no base-plus-fog reading, so base plus fog is unknown: read"
                            + " an unexposed, processed part of the film");
        }
        return new FittedCurve(this, input, reached, fit);
    }

    private static String what(FitInput input, CurveFamily reached) {
        return input.name() + " (" + reached + ")";
    }

    private static String remedy(CurveParameter parameter) {
        return switch (parameter) {
            case TOE_SOFTNESS, SHOULDER_SOFTNESS ->
                "read more steps in the toe and the shoulder, or allow the softness" + " prior";
            case ASYMMETRY -> "fit a family without asymmetry";
            default -> "read steps over a longer range, or fit a family with fewer parameters";
        };
    }

    /**
     * Returns the fit in words.
     *
     * @return the family and the options
     */
    @Override
    public String toString() {
        return family + ", loss " + loss + ", repeatability from "
                + repeatability.map(Repeatability::toString).orElse("the residuals")
                + (wholeFamily ? ", always the whole family" : "")
                + (softnessPrior ? "" : ", no softness prior");
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof CurveFit that
                && Objects.equals(family, that.family)
                && Objects.equals(loss, that.loss)
                && Objects.equals(repeatability, that.repeatability)
                && wholeFamily == that.wholeFamily
                && softnessPrior == that.softnessPrior;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(family, loss, repeatability, wholeFamily, softnessPrior);
    }
}
