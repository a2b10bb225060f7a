// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.tone.SchwarzschildExponent;
import org.tonewedge.fitting.numeric.DeltaMethod;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.numeric.LinearFit;

/**
 * The failure of reciprocity of a film, fitted to strips that were exposed for different times and developed together:
 *
 * <pre>{@code
 * DensityDifference density = DensityDifference.of(0.60);
 * ReciprocityFit fit = ReciprocityFit.schwarzschild(List.of(
 *         TimedExposure.at(density, Duration.ofSeconds(1), curveAt1s, 0.01),
 *         TimedExposure.at(density, Duration.ofSeconds(10), curveAt10s, 0.01),
 *         TimedExposure.at(density, Duration.ofSeconds(100), curveAt100s, 0.01)));
 * fit.correctedSeconds(Duration.ofSeconds(30)); // for 30 s by the meter
 * }</pre>
 *
 * <p>What is fitted is the exposure H = E t that gives one density, against the time t:
 *
 * <table>
 * <caption>Forms</caption>
 * <tr><td>{@link #schwarzschild schwarzschild}</td><td>log H = c + (1 − p) log t</td></tr>
 * <tr><td>{@link #catenary catenary}</td><td>H = H<sub>0</sub> cosh (a ln (E / E<sub>0</sub>)), least at the illuminance
 *     E<sub>0</sub></td></tr>
 * </table>
 *
 * <p>A time by the meter counts from the reference time, the shortest of the strips, at which the meter is taken to be right:
 * the corrected time for the metered time t is that at which the illuminance H(t<sub>ref</sub>) / t gives the density. A
 * catenary is solved for the time, which counts as exact.
 *
 * <p>The standard uncertainties are those stated for the exposures; where none is stated, the scatter about the curve, with
 * its degrees of freedom. Strips that are not developed together add their own variation. Contrast often changes with the
 * time too: fit at a shadow and at a highlight density, and correct development by the difference.
 *
 * <p>How well it finds a known law is checked by {@code ReciprocitySimulation} in the tests of this module: of 10,000
 * simulated sets of six times, 95 % intervals of Schwarzschild's exponent include the truth in 94.8 % (uncertainties stated)
 * and 95.0 % (from the scatter). A catenary needs clearer data; where noise hides its minimum, it is refused.
 *
 * <p>Immutable and thread safe.
 *
 * @source effective exposure E t<sup>p</sup>: K. Schwarzschild 1899, through an encyclopedia's article on reciprocity
 *     (secondary); the catenary of Kron and Halm: from memory; weighted least squares: textbook formula
 */
public final class ReciprocityFit implements Recorded {

    private static final double FEWEST_RATIO = 2;
    private static final int PASSES = 40;
    private static final double STEP = 1e-6;
    private static final double LEAST_PROBABLE = 0.05;
    private static final int CATENARY_PARAMETERS = 3;
    private static final double MOST_STEEP = 0.9;

    private final String form;
    private final List<TimedExposure> strips;
    private final double[] parameters;
    private final double[][] covariance;
    private final double degreesOfFreedom;
    private final double probability;
    /** log H against log t, for parameters and log t. */
    private final Law law;

    private interface Law {
        double logExposure(double[] parameters, double logTime);
    }

    private ReciprocityFit(
            String form, List<TimedExposure> strips, double[] parameters, double[][] rows, double[] weights, Law law) {
        this.form = form;
        this.strips = strips;
        this.parameters = parameters;
        this.law = law;
        double[] left = new double[weights.length];
        for (int i = 0; i < left.length; i++) {
            left[i] = strips.get(i).logExposure().value()
                    - law.logExposure(parameters, strips.get(i).logTime());
        }
        boolean stated = StatedWeights.areStated(logExposures(strips));
        LinearFit fit = fit(rows, left, weights);
        int degrees = strips.size() - parameters.length;
        if (!stated && degrees < 1) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "the " + form + " needs one time more than its " + parameters.length
                            + " parameters where no uncertainties are stated; state those of the exposures, or expose for more"
                            + " times");
        }
        double scale = stated ? 1 : fit.weightedSquares() / degrees;
        degreesOfFreedom = stated ? Double.POSITIVE_INFINITY : degrees;
        probability =
                stated && degrees > 0 ? Distributions.chiSquaredExceeds(fit.weightedSquares(), degrees) : Double.NaN;
        covariance = new double[parameters.length][parameters.length];
        for (int i = 0; i < parameters.length; i++) {
            for (int j = 0; j < parameters.length; j++) {
                covariance[i][j] = scale * fit.cofactor(i, j);
            }
        }
    }

    /**
     * Fits Schwarzschild's law.
     *
     * @param exposures the exposures that give one density, at two or more times that span a factor of two
     * @return the fit
     * @throws IllegalArgumentException if two exposures have one time, or some state an uncertainty and others none
     * @throws NotDeterminableException if there are too few times, or they are too alike
     */
    public static ReciprocityFit schwarzschild(List<TimedExposure> exposures) {
        Objects.requireNonNull(exposures, "exposures");
        List<TimedExposure> strips = sorted(exposures, 2);
        double[][] rows = new double[strips.size()][];
        double[] y = new double[rows.length];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = new double[] {1, strips.get(i).logTime()};
            y[i] = strips.get(i).logExposure().value();
        }
        double[] weights = weights(strips);
        LinearFit fit = fit(rows, y, weights);
        return new ReciprocityFit(
                "Schwarzschild law",
                strips,
                new double[] {fit.parameter(0), fit.parameter(1)},
                rows,
                weights,
                (p, logTime) -> p[0] + p[1] * logTime);
    }

    /**
     * Fits a catenary, the curve of a hanging chain: log H against log E has its lowest point where the film is at its
     * fastest, and rises towards both long and very short times. Take it where the strips lie on both sides of that time, or
     * so close to it that the law is curved.
     *
     * @param exposures the exposures that give one density, at three or more times that span a factor of two
     * @return the fit
     * @throws IllegalArgumentException as {@link #schwarzschild schwarzschild} does
     * @throws NotDeterminableException if there are too few times, or they do not show where the film is at its fastest
     */
    public static ReciprocityFit catenary(List<TimedExposure> exposures) {
        Objects.requireNonNull(exposures, "exposures");
        List<TimedExposure> strips = sorted(exposures, CATENARY_PARAMETERS);
        double[] parameters = start(strips);
        double[] weights = weights(strips);
        double[][] rows = new double[strips.size()][];
        double[] left = new double[rows.length];
        double change = 1;
        for (int pass = 0; pass < PASSES && change > 1e-9; pass++) {
            linearise(strips, parameters, rows, left);
            LinearFit step = fit(rows, left, weights);
            double before = squares(strips, parameters, weights);
            double[] next = moved(parameters, step, 1);
            for (double part = 0.5; part > 1e-4 && !(squares(strips, next, weights) <= before); part /= 2) {
                next = moved(parameters, step, part);
            }
            change = 0;
            for (int j = 0; j < parameters.length; j++) {
                change = Math.max(change, Math.abs(next[j] - parameters[j]));
            }
            parameters = squares(strips, next, weights) <= before ? next : parameters;
        }
        if (!(change <= 1e-6 && Math.abs(parameters[2]) < MOST_STEEP)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    "the exposures do not show the time at which the film is most sensitive; fit the law of"
                            + " Schwarzschild, or expose for times on both sides of the one at which the film is fastest");
        }
        linearise(strips, parameters, rows, left);
        return new ReciprocityFit("catenary", strips, parameters, rows, weights, ReciprocityFit::onCatenary);
    }

    private static double[] moved(double[] parameters, LinearFit step, double part) {
        double[] moved = parameters.clone();
        for (int j = 0; j < moved.length; j++) {
            moved[j] += part * Math.max(-0.5, Math.min(0.5, step.parameter(j)));
        }
        moved[2] = Math.max(1e-3, Math.min(MOST_STEEP, moved[2]));
        return moved;
    }

    private static double squares(List<TimedExposure> strips, double[] parameters, double[] weights) {
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            double left = strips.get(i).logExposure().value()
                    - onCatenary(parameters, strips.get(i).logTime());
            sum += weights[i] * left * left;
        }
        return sum;
    }

    /** log H₀, log E₀ and a, by trying where the least may be. */
    private static double[] start(List<TimedExposure> strips) {
        double[] best = {0, 0, 0};
        double least = Double.POSITIVE_INFINITY;
        double from = strips.get(strips.size() - 1).logIlluminance();
        double to = strips.get(0).logIlluminance();
        double span = to - from;
        for (double e = from - span; e <= to + span; e += span / 20) {
            for (double a = 0.02; a < MOST_STEEP; a += 0.02) {
                double sum = 0;
                double squares = 0;
                for (TimedExposure strip : strips) {
                    double above =
                            strip.logExposure().value() - logCosh(a * Math.log(10) * (strip.logIlluminance() - e));
                    sum += above;
                    squares += above * above;
                }
                double left = squares - sum * sum / strips.size();
                if (left < least) {
                    least = left;
                    best = new double[] {sum / strips.size(), e, a};
                }
            }
        }
        return best;
    }

    private static void linearise(List<TimedExposure> strips, double[] parameters, double[][] rows, double[] left) {
        for (int i = 0; i < rows.length; i++) {
            double logTime = strips.get(i).logTime();
            double value = onCatenary(parameters, logTime);
            rows[i] = DeltaMethod.gradient(
                    p -> onCatenary(p, logTime), value, parameters, new double[] {STEP, STEP, STEP});
            left[i] = strips.get(i).logExposure().value() - value;
        }
    }

    /** The exposure of a time: h = h₀ + log cosh (a ln10 (h − log t − e₀)), by iteration; it contracts as a is below 1. */
    private static double onCatenary(double[] p, double logTime) {
        double h = p[0];
        for (int i = 0; i < 200; i++) {
            double next = p[0] + logCosh(p[2] * Math.log(10) * (h - logTime - p[1]));
            if (Math.abs(next - h) < 1e-14) {
                return next;
            }
            h = next;
        }
        return h;
    }

    private static double logCosh(double x) {
        double size = Math.abs(x);
        return (size + Math.log1p(Math.exp(-2 * size)) - Math.log(2)) / Math.log(10);
    }

    private static LinearFit fit(double[][] rows, double[] y, double[] weights) {
        try {
            return LinearFit.of(rows, y, weights);
        } catch (ArithmeticException e) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS, "the times are too alike for the law: " + e.getMessage());
        }
    }

    private static List<TimedExposure> sorted(List<TimedExposure> exposures, int fewest) {
        List<TimedExposure> strips = new ArrayList<>(exposures);
        strips.sort(Comparator.comparingDouble(TimedExposure::logTime));
        if (strips.size() < fewest) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "a law of reciprocity with " + fewest + " parameters needs as many times at least, had "
                            + strips.size());
        }
        for (int i = 1; i < strips.size(); i++) {
            if (strips.get(i).time().equals(strips.get(i - 1).time())) {
                throw new IllegalArgumentException("two exposures have the time "
                        + Figures.plain(strips.get(i).seconds()) + " s; give their mean");
            }
        }
        double ratio = strips.get(strips.size() - 1).seconds() / strips.get(0).seconds();
        if (!(ratio >= FEWEST_RATIO)) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "the times span a factor of " + Figures.plain(ratio)
                            + ", too little for a law of reciprocity; expose for times that span a factor of 2 or more");
        }
        StatedWeights.areStated(logExposures(strips)); // refuses a mixture
        return List.copyOf(strips);
    }

    private static List<Estimate> logExposures(List<TimedExposure> strips) {
        return strips.stream().map(TimedExposure::logExposure).toList();
    }

    private static double[] weights(List<TimedExposure> strips) {
        return StatedWeights.of(logExposures(strips));
    }

    /**
     * Returns Schwarzschild's exponent: of the law, or of a catenary at its longest time.
     *
     * @return p = 1 − d log H / d log t
     */
    public Estimate exponent() {
        double at = last().logTime();
        return estimate(p -> 1 - (law.logExposure(p, at) - law.logExposure(p, at - 1e-3)) / 1e-3);
    }

    /**
     * Returns the exponent for printing and for camera exposures.
     *
     * @return {@link #exponent()} as the law's
     * @throws IllegalArgumentException if it is not from 0.1 to 1, as where reciprocity holds and noise alone shows
     */
    public SchwarzschildExponent schwarzschildExponent() {
        return SchwarzschildExponent.of(exponent().value());
    }

    /**
     * Tells whether the strips show a failure of reciprocity at all, at 95 %.
     *
     * @return false if the exposures at the shortest and the longest time do not differ significantly
     */
    public boolean isSignificant() {
        Estimate change = estimate(p -> law.logExposure(p, last().logTime()) - law.logExposure(p, first().logTime()));
        return !change.interval(0.95).contains(0);
    }

    /**
     * Returns how probable departures from the law as large as these are where the stated uncertainties alone are at work.
     *
     * @return the probability; nothing without stated uncertainties or with as many parameters as times
     */
    public OptionalDouble probability() {
        return Double.isNaN(probability) ? OptionalDouble.empty() : OptionalDouble.of(probability);
    }

    /**
     * Tells whether the law does not describe the strips.
     *
     * @return true if {@link #probability()} is below 5 %: fit the other form, or take a table
     */
    public boolean lacksFit() {
        return probability < LEAST_PROBABLE;
    }

    /**
     * Returns the time to expose for.
     *
     * @param metered the time by the meter, from the shortest time of the strips on
     * @return the corrected time with its uncertainty
     * @throws IllegalArgumentException if the time is shorter than that of all strips, or the corrected one is longer
     * @units seconds
     */
    public Estimate correctedSeconds(Duration metered) {
        law().correctedTime(metered); // refuses what was not tested
        double logMetered = Math.log10(Reciprocity.seconds(metered));
        Estimate log = estimate(p -> logCorrected(p, logMetered));
        double value = Math.pow(10, log.value());
        return Estimate.of(value, value * Math.log(10) * log.standardUncertainty(), log.degreesOfFreedom());
    }

    /** log t with log H(t) − log t = log H(t_ref) − log t_metered; the left side falls with t. */
    private double logCorrected(double[] p, double logMetered) {
        double wanted = law.logExposure(p, first().logTime()) - logMetered;
        double low = logMetered - 1;
        double high = logMetered + 6;
        for (int i = 0; i < 80; i++) {
            double middle = 0.5 * (low + high);
            if (law.logExposure(p, middle) - middle > wanted) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    /**
     * Returns the law, for metered times from the shortest of the strips to the one whose corrected time is the longest.
     *
     * @return the law
     * @throws IllegalArgumentException if the longest strip needs less exposure than the shortest by more than its time
     */
    public Reciprocity law() {
        double longest = Math.pow(
                10,
                last().logTime()
                        - law.logExposure(parameters, last().logTime())
                        + law.logExposure(parameters, first().logTime()));
        return Reciprocity.fitted(
                form,
                first().seconds(),
                longest,
                seconds -> Math.pow(10, logCorrected(parameters, Math.log10(seconds))));
    }

    /**
     * Returns a table straight from the strips, without a law: the time of each is the corrected one for t H(t<sub>ref</sub>)
     * / H(t).
     *
     * @param exposures the exposures that give one density, at two or more times
     * @return the table
     * @throws IllegalArgumentException if the times do not make a table, as when a longer time needs less exposure
     * @throws NotDeterminableException if there are fewer than two times
     */
    public static Reciprocity table(List<TimedExposure> exposures) {
        Objects.requireNonNull(exposures, "exposures");
        List<TimedExposure> strips = sorted(exposures, 2);
        double reference = strips.get(0).logExposure().value();
        return Reciprocity.ofTable(
                strips.stream()
                        .mapToDouble(strip -> strip.seconds()
                                * Math.pow(10, reference - strip.logExposure().value()))
                        .toArray(),
                strips.stream().mapToDouble(TimedExposure::seconds).toArray());
    }

    private TimedExposure first() {
        return strips.get(0);
    }

    private TimedExposure last() {
        return strips.get(strips.size() - 1);
    }

    private Estimate estimate(ToDoubleFunction<double[]> figure) {
        double value = figure.applyAsDouble(parameters);
        double[] steps = new double[parameters.length];
        for (int j = 0; j < steps.length; j++) {
            steps[j] = Math.max(1e-7, 0.1 * Math.sqrt(covariance[j][j]));
        }
        double[] gradient = DeltaMethod.gradient(figure, value, parameters, steps);
        return Estimate.of(value, Math.sqrt(DeltaMethod.variance(gradient, covariance)), degreesOfFreedom);
    }

    /**
     * Returns the fit in words.
     *
     * @return the form, the exponent and the times
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "%s with p = %.3f from %s to %s s",
                form,
                exponent().value(),
                Figures.plain(first().seconds()),
                Figures.plain(last().seconds()));
    }

    /**
     * An exposure that gives a stated density, and its time.
     *
     * @param time the time of the exposure
     * @param logExposure the logarithm of the exposure, illuminance times time, on one axis for all strips
     */
    public record TimedExposure(Duration time, Estimate logExposure) {

        /**
         * Checks the time.
         *
         * @param time the time of the exposure, above 0
         * @param logExposure the logarithm of the exposure
         * @throws IllegalArgumentException if the time is not above 0
         */
        public TimedExposure {
            Checks.positive("time of an exposure in seconds", Reciprocity.seconds(time));
            Checks.finite("log exposure", logExposure.value());
        }

        /**
         * Reads the exposure off the curve of a strip.
         *
         * @param aboveBasePlusFog the density
         * @param time the time the strip was exposed for
         * @param curve its curve, on an axis that all strips share
         * @param standardUncertainty the standard uncertainty of the log exposure, 0 if it is not known
         * @return the exposure
         * @throws NotDeterminableException if the curve does not reach the density
         */
        public static TimedExposure at(
                DensityDifference aboveBasePlusFog,
                Duration time,
                CharacteristicCurve curve,
                double standardUncertainty) {
            Objects.requireNonNull(time, "time");
            return new TimedExposure(
                    time,
                    Estimate.of(curve.pointAbove(aboveBasePlusFog).logExposure().value(), standardUncertainty));
        }

        double seconds() {
            return Reciprocity.seconds(time);
        }

        double logTime() {
            return Math.log10(seconds());
        }

        double logIlluminance() {
            return logExposure.value() - logTime();
        }
    }

    /**
     * Returns the fit as named values: {@code form}, {@code exponent}, whether the failure is {@code significant}, the
     * {@code probability} or why there is none, whether the law {@code lacks_fit}; for each exposure by time
     * {@code exposure.N.time} and {@code .log_exposure}, with its uncertainty if one was stated.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("form", form));
        records.add(ResultRecord.ofEstimate("exponent", exponent(), ""));
        records.add(ResultRecord.ofText("significant", Boolean.toString(isSignificant())));
        records.add(
                probability().isPresent()
                        ? ResultRecord.ofNumber("probability", probability, "")
                        : ResultRecord.ofMissing(
                                "probability",
                                "",
                                "it needs stated uncertainties and more times than the law has parameters"));
        records.add(ResultRecord.ofText("lacks_fit", Boolean.toString(lacksFit())));
        boolean stated = StatedWeights.areStated(logExposures(strips));
        int number = 1;
        for (TimedExposure each : strips) {
            String name = "exposure." + number++;
            records.add(ResultRecord.ofNumber(name + ".time", each.seconds(), "s"));
            records.add(ResultRecord.ofNumber(
                    name + ".log_exposure",
                    each.logExposure().value(),
                    Optional.of(each.logExposure()).filter(known -> stated),
                    "log10"));
        }
        return List.copyOf(records);
    }
}
