// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Temperature;

/**
 * A figure other than contrast as a function of the time of development, such as base plus fog or the log exposure of
 * the speed point. It is a parabola in ln t. With three strips whose uncertainties are not stated, or without a strip in
 * the middle two thirds of the tested times (on the scale of ln t), it is a straight line. A straight trend is fitted as a
 * parabola too: a few strips can seldom tell them apart, and a line through a bent trend would look more certain than it
 * is.
 *
 * <p>The uncertainty includes a bend that the strips do not show: for a line, that the trend may bend but does not turn
 * within the tested times; for a parabola, that its bend may change but not its direction. A {@linkplain #notes() note}
 * says that the trend is a line for want of a strip in the middle.
 *
 * <p>Strips at several temperatures need a law. The figure is then assumed to depend only on the equivalent time. Fog,
 * which rises faster with temperature, does not quite follow this. If the law was found from the strips, its
 * uncertainty is included: the trend is fitted again with the law off by its standard uncertainty, and the change of the
 * figure counts as another standard uncertainty.
 *
 * <p>In simulated tests, 1,500 of each kind, with errors of 0.005 in the readings, the 95 % intervals of speed point and
 * base plus fog contain the true one in these parts of tests ({@code TrendSimulation 1500 7 0.005} in the tests; slices of
 * it are a test). They were read at the ends of the tested times, between them, and at the time of a plan.
 *
 * <table class="striped">
 * <caption>Coverage of 95 % intervals, %</caption>
 * <thead><tr><th scope="col">strips</th><th scope="col">straight, constant and gently bent trends</th>
 * <th scope="col">trends that saturate, turn or rise faster and faster</th></tr></thead>
 * <tbody>
 * <tr><th scope="row">six, at 18 and 24 °C</th><td>94.7–95.9</td><td>94.4–96.3</td></tr>
 * <tr><th scope="row">three to six, from 4 to 16 min at 20 °C</th><td>94.1–96.3</td><td>90.2–97.5</td></tr>
 * <tr><th scope="row">two, after 4 and 16 min at 20 °C</th><td>94.1–100</td><td>1.9–100</td></tr>
 * </tbody>
 * </table>
 *
 * <p>Two strips cannot show that speed falls again in between; three do. Where fog grows in proportion to time, or faster,
 * the parabola is a little off in the longer half of the times. This shows if the readings are more exact: with errors of
 * 0.001, parabolas of three to six strips are off by up to 0.0009 in density and 0.0041 in log exposure on average, so that
 * intervals contain the true figure in as few as 68.7 % of tests ({@code TrendSimulation 150 7 0.001}).
 *
 * <p>Immutable and thread safe.
 */
public final class FigureTrend {

    /** How much of the tested times, on the scale of their logarithms, counts as their middle. */
    private static final double MIDDLE = 2.0 / 3;

    private static final String BEND_NOT_SHOWN = "No strip between the shortest and the longest time shows whether the"
            + " trend bends; the uncertainty allows for a bend without a turn. Develop a strip about half way between.";

    private final ResponseFit fit;
    /** The trend if the law of temperature is off by its standard uncertainty; this one if the law is exact. */
    private final ResponseFit off;

    /** Null if the residuals show it. */
    private final UnseenBend unseen;

    private final BeyondTested beyond;

    private FigureTrend(ResponseFit fit, ResponseFit off, UnseenBend unseen, BeyondTested beyond) {
        this.fit = fit;
        this.off = off;
        this.unseen = unseen;
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
        int parabola = ResponseFit.isStated(figures) ? 3 : 4;
        boolean middle = hasMiddle(figures, warp);
        int degree = middle && figures.size() >= parabola ? 2 : 1;
        ResponseFit fit = fit(figures, warp, degree);
        UnseenBend unseen = degree == 1 && middle ? null : UnseenBend.of(fit, degree);
        return new FigureTrend(fit, fit(figures, warpOff, degree), unseen, BeyondTested.REFUSE);
    }

    /** Whether a strip lies so far from the shortest and the longest time that it shows whether the trend bends. */
    private static boolean hasMiddle(List<DevelopedFigure> figures, RateWarp warp) {
        double[] logs = figures.stream()
                .mapToDouble(figure -> Math.log(ResponseFit.equivalentMinutes(warp, new double[0], figure)))
                .toArray();
        double least = Arrays.stream(logs).min().orElseThrow();
        double most = Arrays.stream(logs).max().orElseThrow();
        return Arrays.stream(logs).anyMatch(log -> Math.abs(2 * log - least - most) <= MIDDLE * (most - least));
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
        return new FigureTrend(fit, off, unseen, other);
    }

    /**
     * Returns the degree of the trend.
     *
     * @return 1 for a straight line in ln t, 2 for a parabola
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
        return widened(fit.at(minutes, at, beyond, beyond), minutes, fit.temperatureOf(at));
    }

    /** The figure after a time that is known to be tested, or flagged, before it was rounded. */
    PredictedFigure unguarded(PredictedTime time) {
        return widened(
                fit.unguarded(time),
                DevelopmentTimes.minutes(time.time()),
                time.temperature().orElse(null));
    }

    /** The figure with the uncertainty of the law of temperature and of a bend that no strip shows. */
    private PredictedFigure widened(PredictedFigure figure, double minutes, Temperature at) {
        PredictedFigure widened = figure.widenedBy(off.value(minutes, at) - figure.value());
        return unseen == null ? widened : widened.widenedBy(unseen.uncertainty(fit.equivalentMinutes(minutes, at)));
    }

    /**
     * Returns what you should know before you use the trend.
     *
     * @return sentences; may be empty
     */
    public List<String> notes() {
        List<String> notes = new ArrayList<>(fit.notes());
        if (unseen != null && degree() == 1) {
            notes.add(BEND_NOT_SHOWN);
        }
        return List.copyOf(notes);
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
