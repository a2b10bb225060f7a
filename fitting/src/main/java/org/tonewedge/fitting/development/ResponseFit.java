// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.fitting.internal.Bounds;
import org.tonewedge.fitting.internal.LeastSquares;
import org.tonewedge.fitting.internal.LeastSquaresProblem;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.numeric.AkaikeCriterion;
import org.tonewedge.fitting.numeric.DeltaMethod;
import org.tonewedge.fitting.numeric.Distributions;

/**
 * A response to time, fitted to figures of strips at one or several temperatures, with its covariance and tested range.
 *
 * <p>With stated uncertainties the covariance comes from them. If the strips scatter so much more that chance explains
 * it less than once in 20, it is enlarged to the scatter found. Without stated uncertainties it comes from the
 * residuals.
 */
final class ResponseFit {

    private static final double SCATTER_CONFIDENCE = 0.95;
    /** The step for derivatives with respect to parameters, in standard uncertainties. */
    private static final double STEP = 1e-3;
    /** The ratio of the sum of squared residuals to that of the figures below which it is only rounding. */
    private static final double EXACT = 1e-20;

    private final List<DevelopedFigure> figures;
    private final TimeResponse response;
    private final RateWarp warp;
    private final LeastSquaresSolution solution;
    private final double[] p;
    /** Null if the uncertainty is not known. */
    private final double[][] covariance;

    private final double degreesOfFreedom;
    private final double criterion;
    private final List<String> notes = new ArrayList<>();
    private final double shortest;
    private final double longest;

    private ResponseFit(
            List<DevelopedFigure> figures, TimeResponse response, RateWarp warp, LeastSquaresSolution solution) {
        this.figures = figures;
        this.response = response;
        this.warp = warp;
        this.solution = solution;
        p = solution.parameters();
        double[][] unscaled = solution.unscaledCovariance();
        for (int j = 0; j < unscaled.length; j++) {
            if (!Double.isFinite(unscaled[j][j])) {
                throw new DevelopmentException(
                        DevelopmentFailure.NOT_DETERMINED,
                        names(figures) + " do not determine the model: develop strips for more times"
                                + (warp.size() > 0 ? " and temperatures" : ""));
            }
        }
        int freedom = solution.degreesOfFreedom();
        double sum = solution.residualSumOfSquares();
        double scale = 1;
        double known = Double.POSITIVE_INFINITY;
        if (!isStated(figures)) {
            known = freedom;
            scale = freedom > 0 ? sum / freedom : Double.NaN;
        } else if (freedom > 0 && sum > Distributions.chiSquared(SCATTER_CONFIDENCE, freedom)) {
            known = freedom;
            scale = sum / freedom;
            notes.add("The strips scatter " + String.format(Locale.ROOT, "%.1f", Math.sqrt(scale))
                    + " times as much as their uncertainties allow; all uncertainties are enlarged accordingly."
                    + " Look for a wrong time or temperature, or uneven agitation.");
        }
        degreesOfFreedom = known;
        for (double[] row : unscaled) {
            for (int j = 0; j < row.length; j++) {
                row[j] *= scale;
            }
        }
        covariance = Double.isNaN(scale) ? null : unscaled;
        criterion = criterion(figures.size(), p.length, sum, isStated(figures));
        double[] minutes = equivalentMinutes();
        shortest = Arrays.stream(minutes).min().orElseThrow();
        longest = Arrays.stream(minutes).max().orElseThrow();
    }

    /** Fits a response, whose form may depend on the times, in minutes at the reference temperature. */
    static ResponseFit of(
            List<DevelopedFigure> figures, Function<double[], TimeResponse> responseOf, RateWarp warp, String model) {
        double[] first = new double[warp.size()];
        if (warp.size() > 0) {
            first[0] = warp.start();
        }
        double[] minutes = figures.stream()
                .mapToDouble(figure -> equivalentMinutes(warp, first, figure))
                .toArray();
        double[] values = figures.stream().mapToDouble(DevelopedFigure::value).toArray();
        TimeResponse response = responseOf.apply(minutes);
        int n = response.size() + warp.size();
        if (figures.size() < n) {
            throw new DevelopmentException(
                    DevelopmentFailure.TOO_FEW_STRIPS,
                    model + " has " + n + " parameters, but there "
                            + (figures.size() == 1 ? "is 1 strip: " : "are " + figures.size() + " strips: ")
                            + names(figures) + "; develop more strips or choose a simpler model");
        }
        double[] begin = response.start(minutes, values);
        if (begin == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.NOT_DETERMINED, names(figures) + " do not determine " + model);
        }
        double[] start = Arrays.copyOf(begin, n);
        double[] lower = new double[n];
        double[] upper = new double[n];
        double[] sizes = new double[n];
        response.limit(minutes, lower, upper);
        response.sizes(minutes, values, sizes);
        if (warp.size() > 0) {
            start[n - 1] = first[0];
            sizes[n - 1] = first[0];
            lower[n - 1] = Double.NEGATIVE_INFINITY;
            upper[n - 1] = Double.POSITIVE_INFINITY;
        }
        LeastSquaresSolution solution = LeastSquares.withDefaults()
                .withBounds(Bounds.of(lower, upper))
                .solve(new Problem(figures, response, warp, sizes), start);
        if (!solution.stopReason().isConverged() && !isExact(solution, figures)) {
            throw new DevelopmentException(
                    DevelopmentFailure.NOT_DETERMINED,
                    model + ": the search for the least sum of squares failed for " + names(figures)
                            + "; look for a wrong time or contrast, or choose a simpler model");
        }
        return new ResponseFit(figures, response, warp, solution);
    }

    /** Whether the residuals are down to rounding; a search that started there cannot improve. */
    private static boolean isExact(LeastSquaresSolution solution, List<DevelopedFigure> figures) {
        double sum = 0;
        for (DevelopedFigure figure : figures) {
            double scaled = figure.value() / figure.standardUncertainty().orElse(1);
            sum += scaled * scaled;
        }
        return solution.residualSumOfSquares() <= EXACT * sum;
    }

    /** The residuals, divided by the uncertainties if these are stated. */
    private static final class Problem implements LeastSquaresProblem {

        /** The step relative to a parameter, or to its usual size if it is near 0; differences are of fourth order. */
        private static final double RELATIVE_STEP = 1e-4;

        private final List<DevelopedFigure> figures;
        private final TimeResponse response;
        private final RateWarp warp;
        private final double[] sizes;

        Problem(List<DevelopedFigure> figures, TimeResponse response, RateWarp warp, double[] sizes) {
            this.figures = figures;
            this.response = response;
            this.warp = warp;
            this.sizes = sizes;
        }

        @Override
        public int parameterCount() {
            return response.size() + warp.size();
        }

        @Override
        public int residualCount() {
            return figures.size();
        }

        @Override
        public void residuals(double[] parameters, double[] residuals) {
            for (int i = 0; i < residuals.length; i++) {
                DevelopedFigure figure = figures.get(i);
                double model = response.value(parameters, equivalentMinutes(warp, parameters, figure));
                residuals[i] =
                        (model - figure.value()) / figure.standardUncertainty().orElse(1);
            }
        }

        @Override
        public boolean jacobian(double[] parameters, double[][] columns) {
            double[] p = parameters.clone();
            double[] beside = new double[figures.size()];
            for (int j = 0; j < p.length; j++) {
                double step = RELATIVE_STEP * Math.max(Math.abs(parameters[j]), sizes[j]);
                double[] column = columns[j];
                Arrays.fill(column, 0);
                for (int k = -2; k <= 2; k++) {
                    if (k != 0) {
                        p[j] = parameters[j] + k * step;
                        residuals(p, beside);
                        double weight = (Math.abs(k) == 1 ? 8 : -1) * Integer.signum(k) / (12 * step);
                        for (int i = 0; i < beside.length; i++) {
                            column[i] += weight * beside[i];
                        }
                    }
                }
                p[j] = parameters[j];
            }
            return true;
        }
    }

    /**
     * Akaike's criterion: χ² + 2 p with known uncertainties, otherwise AICc = n ln(RSS/n) + 2 k + 2 k (k + 1)/(n − k −
     * 1), k = p + 1; infinite if there are too few strips.
     */
    static double criterion(int n, int parameters, double sum, boolean stated) {
        if (stated) {
            return sum + 2 * parameters;
        }
        return AkaikeCriterion.corrected(n, parameters + 1, AkaikeCriterion.misfit(n, sum, Double.MIN_NORMAL));
    }

    static boolean isStated(List<DevelopedFigure> figures) {
        return figures.get(0).standardUncertainty().isPresent();
    }

    static String names(List<DevelopedFigure> figures) {
        return String.join("; ", figures.stream().map(DevelopedFigure::toString).toList());
    }

    /** The temperatures of the figures, rising; empty if none is known. */
    static List<Temperature> temperatures(List<DevelopedFigure> figures) {
        return figures.stream()
                .map(DevelopedFigure::temperature)
                .flatMap(Optional::stream)
                .distinct()
                .sorted()
                .toList();
    }

    /** The tested temperature nearest to the mean of all; null if none is known. */
    static Temperature reference(List<DevelopedFigure> figures) {
        double mean = figures.stream()
                .map(DevelopedFigure::temperature)
                .flatMap(Optional::stream)
                .mapToDouble(Temperature::celsius)
                .average()
                .orElse(Double.NaN);
        return temperatures(figures).stream()
                .min(Comparator.comparingDouble(at -> Math.abs(at.celsius() - mean)))
                .orElse(null);
    }

    /** The time of a strip in minutes at the reference temperature. */
    static double equivalentMinutes(RateWarp warp, double[] p, DevelopedFigure figure) {
        return figure.minutes()
                * figure.temperature().map(at -> warp.factor(p, at)).orElse(1.0);
    }

    private double equivalentMinutes(double[] parameters, DevelopedFigure figure) {
        return equivalentMinutes(warp, parameters, figure);
    }

    TimeResponse response() {
        return response;
    }

    RateWarp warp() {
        return warp;
    }

    List<DevelopedFigure> figures() {
        return figures;
    }

    double parameter(int index) {
        return p[index];
    }

    boolean isHeld(int index) {
        return solution.isAtBound(index);
    }

    TemperatureLaw law() {
        return warp.law(p);
    }

    /** The law if its parameter is greater by its standard uncertainty, as far as it was fitted and that is known. */
    TemperatureLaw lawOff() {
        double[] off = p.clone();
        if (warp.size() > 0 && covariance != null) {
            off[p.length - 1] += Math.sqrt(covariance[p.length - 1][p.length - 1]);
        }
        return warp.law(off);
    }

    double criterion() {
        return criterion;
    }

    double sumOfSquares() {
        return solution.residualSumOfSquares();
    }

    int residualFreedom() {
        return solution.degreesOfFreedom();
    }

    List<String> notes() {
        return notes;
    }

    /** The times of the strips in minutes at the reference temperature. */
    double[] equivalentMinutes() {
        return figures.stream()
                .mapToDouble(figure -> equivalentMinutes(p, figure))
                .toArray();
    }

    double shortest() {
        return shortest;
    }

    double longest() {
        return longest;
    }

    /** The covariance of the parameters, or empty if it is not known. */
    Optional<double[][]> covariance() {
        return Optional.ofNullable(covariance);
    }

    /** Minutes at the reference temperature that are equivalent to minutes at another temperature. */
    double equivalentMinutes(double minutes, Temperature at) {
        return minutes * factor(p, at);
    }

    private double factor(double[] parameters, Temperature at) {
        return at == null ? 1 : warp.factor(parameters, at);
    }

    private TestedRange range() {
        return new TestedRange(figures, law(), warp.reference(), shortest, longest);
    }

    /** The temperature meant by a question, which may name none. */
    Temperature temperatureOf(Temperature asked) {
        return range().temperatureOf(asked);
    }

    /** Whether a temperature was tested; refused if it was not and extrapolation is not allowed. */
    Scope scopeOf(Temperature at, BeyondTested beyond) {
        return range().scopeOf(at, beyond);
    }

    /** Whether a time was tested, in minutes at the reference temperature. */
    Scope scopeOf(double minutes, Temperature at, BeyondTested beyond, String question) {
        return range().scopeOf(minutes, factor(p, at), at, beyond, question);
    }

    /** The figure after a time at a temperature. */
    PredictedFigure at(double minutes, Temperature asked, BeyondTested temperatures, BeyondTested times) {
        Temperature at = temperatureOf(asked);
        Scope scope = scopeOf(at, temperatures).and(scopeOf(equivalentMinutes(minutes, at), at, times, ""));
        return unguarded(minutes, at, scope);
    }

    /** The figure after a time whose position among the tested times is known. */
    PredictedFigure unguarded(PredictedTime time) {
        return unguarded(
                DevelopmentTimes.minutes(time.time()), time.temperature().orElse(null), time.scope());
    }

    /** The figure after a time at a temperature, with known position among the tested times. */
    PredictedFigure unguarded(double minutes, Temperature at, Scope scope) {
        return predict(parameters -> response.inside(parameters, minutes * factor(parameters, at)), scope);
    }

    /** The value after a time at a temperature, tested or not. */
    double value(double minutes, Temperature at) {
        return response.inside(p, minutes * factor(p, at));
    }

    /** ln of the minutes at a temperature for a value; NaN if the value is not reached. */
    double logMinutes(double value, Temperature at) {
        return Math.log(response.inverse(p, value) / factor(p, at));
    }

    /** ln of the minutes at a temperature for a value, which must be reachable. */
    PredictedFigure logMinutesFor(double value, Temperature at, Scope scope) {
        return predict(parameters -> Math.log(response.inverse(parameters, value) / factor(parameters, at)), scope);
    }

    /**
     * A prediction of this fit, including the uncertainty of having chosen it among others. Its variance is increased
     * by Σ w (y − y<sub>this</sub>)² over all of them, weighted by exp(−Δ/2) of their criteria. Fits without an answer
     * do not count.
     */
    PredictedFigure withChoice(
            PredictedFigure prediction, List<ResponseFit> rivals, ToDoubleFunction<ResponseFit> predictionOf) {
        double weights = 1;
        double squares = 0;
        for (ResponseFit rival : rivals) {
            double deviation = predictionOf.applyAsDouble(rival) - prediction.value();
            if (Double.isFinite(rival.criterion) && Double.isFinite(deviation)) {
                double weight = Math.exp(-0.5 * (rival.criterion - criterion));
                weights += weight;
                squares += weight * deviation * deviation;
            }
        }
        return prediction.widenedBy(Math.sqrt(squares / weights));
    }

    /** A function of the parameters, with its uncertainty by the delta method. */
    PredictedFigure predict(ToDoubleFunction<double[]> function, Scope scope) {
        double value = function.applyAsDouble(p);
        return new PredictedFigure(value, uncertainty(function, value), degreesOfFreedom, scope);
    }

    private OptionalDouble uncertainty(ToDoubleFunction<double[]> function, double value) {
        if (covariance == null) {
            return OptionalDouble.empty();
        }
        double[] steps = new double[p.length];
        Arrays.setAll(steps, j -> STEP * Math.sqrt(covariance[j][j]));
        double variance = DeltaMethod.variance(DeltaMethod.gradient(function, value, p, steps), covariance);
        return Double.isFinite(variance) ? OptionalDouble.of(Math.sqrt(variance)) : OptionalDouble.empty();
    }

    /** Refuses figures that do not belong together; returns them as an unmodifiable list. */
    static List<DevelopedFigure> checked(List<DevelopedFigure> given) {
        List<DevelopedFigure> figures = List.copyOf(Objects.requireNonNull(given, "figures"));
        if (figures.isEmpty()) {
            throw new DevelopmentException(
                    DevelopmentFailure.UNUSABLE_STRIPS, "there is no strip: develop at least two for different times");
        }
        requireAllOrNone(
                figures, figures.stream().filter(f -> f.temperature().isEmpty()).toList(), "temperature");
        requireAllOrNone(
                figures,
                figures.stream().filter(f -> f.standardUncertainty().isEmpty()).toList(),
                "standard uncertainty");
        return figures;
    }

    private static void requireAllOrNone(List<DevelopedFigure> all, List<DevelopedFigure> without, String what) {
        if (!without.isEmpty() && without.size() < all.size()) {
            throw new DevelopmentException(
                    DevelopmentFailure.UNUSABLE_STRIPS,
                    "some strips have a " + what + " but these have none: " + names(without)
                            + "; state it for all strips or for none");
        }
    }
}
