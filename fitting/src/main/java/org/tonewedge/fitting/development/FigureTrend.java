// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Temperature;

/**
 * A figure other than contrast as a function of the time of development, such as base plus fog or the log exposure of
 * the speed point. It is a constant, a straight line or a parabola in ln t, whichever Akaike's criterion prefers (with
 * fewer than five strips and no stated uncertainties, the straight line). It assumes no law and no direction. The
 * variance of a figure is a mean over these degrees, weighted by the square root of the evidence, exp(−Δ/4), because the
 * evidence of a few strips is itself uncertain: of the variance of each, plus the squared difference of its figure. A few
 * strips hardly distinguish a parabola from a line, which makes the figure more uncertain.
 *
 * <p>Strips at several temperatures need a law. The figure is then assumed to depend only on the equivalent time. Fog,
 * which rises faster with temperature, does not quite follow this. If the law was found from the strips, its
 * uncertainty is included: the trend is fitted again with the law off by its standard uncertainty, and the change of the
 * figure counts as another standard uncertainty.
 *
 * <p>In 3,000 simulated tests of six strips, three each at 18 and 24 °C, the 95 % intervals of the speed point contain the
 * true one in 91.9 to 94.8 % of tests, those of base plus fog in 95.4 to 98.2 % ({@code TrendSimulation 3000} in the tests; a
 * slice of it is a test). Where the trend bends, a straight line is a little off in the middle, so that the speed point is
 * contained somewhat too seldom.
 *
 * <p>Immutable and thread safe.
 *
 * @source S. T. Buckland, K. P. Burnham and N. H. Augustin, Model selection: an integral part of inference, Biometrics 53
 *     (1997), 603–618, for the uncertainty of the choice (from memory)
 */
public final class FigureTrend {

    private static final int HIGHEST_DEGREE = 2;

    private final ResponseFit fit;
    /** The trends of other degrees among which this one was chosen. */
    private final List<ResponseFit> rivals;
    /** The trend if the law of temperature is off by its standard uncertainty; this one if the law is exact. */
    private final ResponseFit off;

    private final BeyondTested beyond;

    private FigureTrend(ResponseFit fit, List<ResponseFit> rivals, ResponseFit off, BeyondTested beyond) {
        this.fit = fit;
        this.rivals = rivals;
        this.off = off;
        this.beyond = beyond;
    }

    /**
     * Returns the trend of figures from strips at one temperature.
     *
     * @param figures the figure of each strip; a standard uncertainty for all or for none
     * @return the trend
     * @throws DevelopmentException if there are not two different times, or there are several temperatures
     */
    public static FigureTrend of(List<DevelopedFigure> figures) {
        List<DevelopedFigure> checked = ResponseFit.checked(figures);
        if (ResponseFit.temperatures(checked).size() > 1) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "strips were developed at several temperatures: state a temperature law for their trend");
        }
        RateWarp warp = RateWarp.none(ResponseFit.reference(checked));
        return of(checked, warp, warp);
    }

    /**
     * Returns the trend of figures from strips at several temperatures.
     *
     * @param figures the figure of each strip, all with a temperature; a standard uncertainty for all or for none
     * @param law how temperature changes the rate, taken as exact; the trends of a {@link DevelopmentSeries} take the
     *     law from the strips, with its uncertainty
     * @return the trend
     * @throws DevelopmentException if there are not two different times, or a temperature is not known
     */
    public static FigureTrend of(List<DevelopedFigure> figures, TemperatureLaw law) {
        return of(figures, law, law);
    }

    /** The same; the other law is the law if it is off by its standard uncertainty. */
    static FigureTrend of(List<DevelopedFigure> figures, TemperatureLaw law, TemperatureLaw off) {
        List<DevelopedFigure> checked = ResponseFit.checked(figures);
        Temperature reference = ResponseFit.reference(checked);
        if (reference == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "a temperature law needs the temperature of each strip, which is not known");
        }
        return of(
                checked,
                RateWarp.stated(reference, Objects.requireNonNull(law, "law")),
                RateWarp.stated(reference, off));
    }

    private static FigureTrend of(List<DevelopedFigure> figures, RateWarp warp, RateWarp warpOff) {
        if (figures.stream().map(DevelopedFigure::time).distinct().count() < 2) {
            throw new DevelopmentException(
                    DevelopmentFailure.ONE_TIME,
                    "a trend needs two different times of development: " + ResponseFit.names(figures));
        }
        long times = figures.stream()
                .mapToDouble(figure -> figure.minutes()
                        * figure.temperature()
                                .map(at -> warp.factor(new double[0], at))
                                .orElse(1.0))
                .distinct()
                .count();
        ResponseFit best = fit(figures, warp, 1);
        List<ResponseFit> rivals = new ArrayList<>();
        for (int degree = 0; degree <= Math.min(HIGHEST_DEGREE, times - 1); degree += 2) {
            ResponseFit next = fit(figures, warp, degree);
            boolean better = next.criterion() < best.criterion();
            rivals.add(better ? best : next);
            best = better ? next : best;
        }
        return new FigureTrend(
                best, rivals, fit(figures, warpOff, best.response().size() - 1), BeyondTested.REFUSE);
    }

    private static ResponseFit fit(List<DevelopedFigure> figures, RateWarp warp, int degree) {
        return ResponseFit.of(figures, minutes -> TimeResponse.polynomial(degree), warp, "a trend of degree " + degree);
    }

    /**
     * Returns this trend with answers beyond the tested times and temperatures too. They come from the model and are
     * flagged as extrapolated.
     *
     * @return a copy
     */
    public FigureTrend withExtrapolation() {
        return with(BeyondTested.FLAG);
    }

    FigureTrend with(BeyondTested other) {
        return new FigureTrend(fit, rivals, off, other);
    }

    /**
     * Returns the degree of the trend.
     *
     * @return 0 for a constant, 1 for a straight line in ln t, 2 for a parabola
     */
    public int degree() {
        return fit.response().size() - 1;
    }

    /**
     * Returns the figures to which the trend was fitted.
     *
     * @return the figures
     */
    public List<DevelopedFigure> figures() {
        return fit.figures();
    }

    /**
     * Returns the figure after a time, at the temperature of the strips.
     *
     * @param time the time of development
     * @return the figure
     * @throws DevelopmentException if the time was not tested, or strips were developed at several temperatures
     */
    public PredictedFigure after(Duration time) {
        return figure(time, null);
    }

    /**
     * Returns the figure after a time at a temperature.
     *
     * @param time the time of development
     * @param at the temperature
     * @return the figure
     * @throws DevelopmentException if the time or the temperature was not tested, or that of the strips is not known
     */
    public PredictedFigure after(Duration time, Temperature at) {
        return figure(time, Objects.requireNonNull(at, "at"));
    }

    private PredictedFigure figure(Duration time, Temperature at) {
        double minutes = Checks.positive("time of development in minutes", DevelopmentTimes.minutes(time));
        PredictedFigure figure = fit.at(minutes, at, beyond, beyond);
        return withDegree(figure, other -> other.unguarded(minutes, fit.temperatureOf(at), figure.scope()));
    }

    /** The figure after a time that is known to be tested, or flagged, before it was rounded. */
    PredictedFigure unguarded(PredictedTime time) {
        return withDegree(fit.unguarded(time), other -> other.unguarded(time));
    }

    /**
     * The variance is the mean over all degrees, weighted by the square root of the evidence, of the variance and the squared
     * distance from the figure; the squared change of the figure if the law of temperature is off is added.
     */
    private PredictedFigure withDegree(PredictedFigure figure, Function<ResponseFit, PredictedFigure> figureOf) {
        if (figure.standardUncertainty().isEmpty()) {
            return figure;
        }
        double own = figure.standardUncertainty().getAsDouble();
        double weights = 1;
        double squares = own * own;
        for (ResponseFit rival : rivals) {
            if (Double.isFinite(rival.criterion())) {
                PredictedFigure other = figureOf.apply(rival);
                double weight = Math.exp(-0.25 * (rival.criterion() - fit.criterion()));
                weights += weight;
                squares += weight
                        * (Math.pow(other.standardUncertainty().orElse(own), 2)
                                + Math.pow(other.value() - figure.value(), 2));
            }
        }
        return figure.withStandardUncertainty(Math.sqrt(squares / weights))
                .widenedBy(figureOf.apply(off).value() - figure.value());
    }

    /**
     * Returns what you should know before you use the trend.
     *
     * @return sentences; may be empty
     */
    public List<String> notes() {
        return List.copyOf(fit.notes());
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the degree and the number of strips
     */
    @Override
    public String toString() {
        return "trend of degree " + degree() + " over "
                + Figures.counted(figures().size(), "strip");
    }
}
