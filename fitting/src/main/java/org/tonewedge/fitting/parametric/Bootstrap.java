// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.fitting.internal.Readings;
import org.tonewedge.fitting.internal.ShapeMinimiser;
import org.tonewedge.fitting.numeric.Distributions;

/**
 * Curves refitted to simulated readings, made by {@link FittedCurve#parametricBootstrap} or
 * {@link FittedCurve#caseBootstrap}. The spread of a figure over these curves is the spread that the readings give it.
 * Each refit ends within a hundredth of the standard errors of its parameters, which widens the spread by one part in
 * 20,000. Refits with a robust loss keep the standard deviation of the original fit. With Tukey's loss a speck of dust
 * that is drawn several times therefore hardly misleads them; Huber's loss withstands less.
 *
 * <p>Immutable and thread safe.
 */
public final class Bootstrap {

    private final FittedCurve original;
    private final List<double[]> refits;
    private final int replicates;

    private Bootstrap(FittedCurve original, List<double[]> refits, int replicates) {
        this.original = original;
        this.refits = refits;
        this.replicates = replicates;
    }

    /** The fitted curve with new random errors. */
    static Bootstrap parametric(FittedCurve original, CurveFit settings, FitInput input, long seed, int replicates) {
        double[] fitted = fitted(original, input);
        double variance = original.shapeFit().readingVariance();
        double[] deviations = new double[fitted.length];
        Arrays.setAll(deviations, i -> Math.sqrt(variance / input.readings().weights()[i]));
        return of(
                original,
                settings,
                input,
                random -> disturbed(fitted, deviations, input.readings(), random),
                seed,
                replicates);
    }

    /** Readings drawn with replacement. */
    static Bootstrap ofCases(FittedCurve original, CurveFit settings, FitInput input, long seed, int replicates) {
        return of(original, settings, input, random -> drawn(input.readings(), random), seed, replicates);
    }

    private static Bootstrap of(
            FittedCurve original,
            CurveFit settings,
            FitInput input,
            Function<Random, Readings> resampling,
            long seed,
            int replicates) {
        if (replicates < 2) {
            throw new IllegalArgumentException("a bootstrap needs 2 or more replicates, was " + replicates);
        }
        Random random = new Random(seed);
        ShapeMinimiser minimiser = new ShapeMinimiser(original.family().kind(), input.readings());
        List<double[]> refits = new ArrayList<>(replicates);
        for (int i = 0; i < replicates; i++) {
            Readings readings = resampling.apply(random);
            try {
                refit(original, settings, input.with(readings), minimiser).ifPresent(refits::add);
            } catch (IllegalArgumentException e) {
                // Readings below what a density can be: one of the failures.
            }
        }
        return new Bootstrap(original, refits, replicates);
    }

    /** The density that the fit gives at each reading. */
    private static double[] fitted(FittedCurve original, FitInput input) {
        double[] x = input.readings().logExposures();
        double[] fitted = new double[input.readings().size()];
        Arrays.fill(fitted, original.curve().basePlusFog().value());
        for (int i = 0; i < x.length; i++) {
            fitted[i] = original.form().density(x[i]);
        }
        return fitted;
    }

    private static Readings disturbed(double[] fitted, double[] deviations, Readings readings, Random random) {
        double[] densities = new double[fitted.length];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = fitted[i] + deviations[i] * random.nextGaussian();
        }
        return readings.withDensities(densities);
    }

    private static Readings drawn(Readings readings, Random random) {
        int exposed = readings.exposed();
        int[] from = new int[readings.size()];
        for (int i = 0; i < from.length; i++) {
            from[i] = i < exposed ? random.nextInt(exposed) : exposed + random.nextInt(from.length - exposed);
        }
        Arrays.sort(from);
        double[] x = new double[exposed];
        double[] d = new double[from.length];
        double[] w = new double[from.length];
        for (int i = 0; i < from.length; i++) {
            if (i < exposed) {
                x[i] = readings.logExposures()[from[i]];
            }
            d[i] = readings.densities()[from[i]];
            w[i] = readings.weights()[from[i]];
        }
        return new Readings(x, d, w);
    }

    /** The parameters of a refit; empty if it failed. */
    private static Optional<double[]> refit(
            FittedCurve original, CurveFit settings, FitInput input, ShapeMinimiser minimiser) {
        int fitted = original.shapeFit().shape().length + 2;
        if (input.readings().levels() < fitted) {
            return Optional.empty();
        }
        Optional<double[]> refit = settings.refit(input, original.shapeFit(), minimiser);
        if (original.family().kind().shape().reachesBase()) {
            return refit;
        }
        return refit.map(found -> {
            double[] parameters = Arrays.copyOf(found, fitted + 1);
            parameters[fitted] =
                    input.basePlusFog(settings.loss()).orElseThrow().value();
            return parameters;
        });
    }

    /**
     * Returns the number of simulated sets of readings.
     *
     * @return the number asked for
     */
    public int replicates() {
        return replicates;
    }

    /**
     * Returns the number of sets that could not be fitted; they are left out.
     *
     * @return the number of failures
     */
    public int failures() {
        return replicates - refits.size();
    }

    /**
     * Returns a figure with its spread over the refitted curves as the standard uncertainty.
     *
     * @param figure reads the figure off a curve
     * @return the figure of the original curve, and the standard deviation of the figure over the refits
     * @throws NotDeterminableException if the original curve, or more than a tenth of the refits, do not give the
     *     figure, whatever exception reading it throws
     */
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        Objects.requireNonNull(figure, "figure");
        double value = read(figure, original.curve());
        double[] figures = figures(figure);
        double mean = Arrays.stream(figures).average().orElseThrow();
        double sum = Arrays.stream(figures).map(f -> (f - mean) * (f - mean)).sum();
        return Estimate.of(value, Math.sqrt(sum / (figures.length - 1)), original.degreesOfFreedom());
    }

    /** Reads a figure off a curve, whatever exception that throws; a number that is not finite is not a figure. */
    private static double read(ToDoubleFunction<CharacteristicCurve> figure, CharacteristicCurve curve) {
        double value;
        try {
            value = figure.applyAsDouble(curve);
        } catch (NotDeterminableException e) {
            throw e;
        } catch (RuntimeException e) {
            NotDeterminableException failure =
                    new NotDeterminableException(curve.name() + ": the figure cannot be read off: " + e.getMessage());
            failure.initCause(e);
            throw failure;
        }
        if (!Double.isFinite(value)) {
            throw new NotDeterminableException(curve.name() + ": the figure read off is " + value);
        }
        return value;
    }

    /**
     * Returns the interval that contains the central part of the figure's values over the refits (percentile interval).
     *
     * @param figure reads the figure off a curve
     * @param confidence such as 0.95
     * @return the interval
     * @throws IllegalArgumentException if the confidence is not between 0 and 1
     * @throws NotDeterminableException if more than a tenth of the refits do not give the figure, whatever exception
     *     reading it throws
     */
    public CoverageInterval interval(ToDoubleFunction<CharacteristicCurve> figure, double confidence) {
        Objects.requireNonNull(figure, "figure");
        double outside = 0.5 * (1 - Checks.confidence(confidence));
        double[] figures = figures(figure);
        return new CoverageInterval(
                Distributions.ofSample(figures, outside), Distributions.ofSample(figures, 1 - outside), confidence);
    }

    private double[] figures(ToDoubleFunction<CharacteristicCurve> figure) {
        double[] figures = new double[refits.size()];
        int count = 0;
        String last = "the readings could not be fitted";
        for (double[] refit : refits) {
            try {
                figures[count] = read(figure, original.curveAt(refit));
                count++;
            } catch (NotDeterminableException | IllegalArgumentException e) {
                last = e.getMessage();
            }
        }
        if (count < 2 || count < 0.9 * replicates) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    original.curve().name() + ": only " + count + " of " + replicates
                            + " resampled curves give the figure, too few for its uncertainty; the last that did not: "
                            + last);
        }
        return Arrays.copyOf(figures, count);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the number of replicates and failures
     */
    @Override
    public String toString() {
        return replicates + " replicates, " + failures() + " of them without a fit";
    }
}
