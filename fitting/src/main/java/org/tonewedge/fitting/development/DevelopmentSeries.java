// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.numeric.LinearFit;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.FittedCurve;

/**
 * Two to five test strips of one film in one developer, developed for different times and perhaps at different
 * temperatures. From them follow contrast, speed, base plus fog and whole curves for times in between, and a
 * development plan.
 *
 * <pre>{@code
 * DevelopmentSeries series = DevelopmentSeries.of(strips);
 * DevelopmentPlan plan = series.plan(
 *         List.of(ContrastTarget.isoContrastCondition()), List.of(Temperature.ofCelsius(20)));
 * }</pre>
 *
 * <p>Each strip is first fitted by itself (by default with {@link CurveFamily#TOE_SHOULDER}), which gives its figures
 * with uncertainties. These include what the readings show, enlarged if the readings are few, so that a figure ± 1.96
 * standard uncertainties is the 95 % interval of its strip. If development itself does not repeat exactly, say so with
 * {@link #withDevelopmentRepeatability}. Strips that scatter more than their uncertainties allow enlarge the
 * uncertainties in any case.
 *
 * <p>The fits of all strips are judged together. If they do not follow the readings, as with a film of two emulsions, figures
 * of strips are read off monotone smoothing splines, the {@link #family()} adds its distance from these to its uncertainties,
 * and {@link #notes()} say so, also where the readings are too few for splines.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy.
 */
public final class DevelopmentSeries {

    private static final double CONFIDENCE = 0.95;

    /** Keeps the uncertainty of noise-free readings above 0. */
    private static final double LEAST_UNCERTAINTY = 1e-6;

    private final StripCurves curves;
    private final ContrastFitting fitting;
    private final double repeatability;
    private final BeyondTested beyond;

    private DevelopmentSeries(StripCurves curves, ContrastFitting fitting, double repeatability, BeyondTested beyond) {
        this.curves = curves;
        this.fitting = fitting;
        this.repeatability = repeatability;
        this.beyond = beyond;
    }

    /**
     * Returns a series, its strips fitted by {@link CurveFamily#TOE_SHOULDER}.
     *
     * @param strips the strips of one film in one developer, each with its time
     * @return the series
     * @throws DevelopmentException if strips do not belong together or a time is missing
     *     ({@link DevelopmentFailure#UNUSABLE_STRIPS})
     * @throws org.tonewedge.fitting.parametric.CurveFitException if a strip cannot be fitted
     */
    public static DevelopmentSeries of(List<Strip> strips) {
        return of(strips, CurveFit.of(CurveFamily.TOE_SHOULDER));
    }

    /**
     * Returns a series whose strips are fitted with stated options.
     *
     * @param strips the strips of one film in one developer, each with its time
     * @param curveFit how each strip is fitted
     * @return the series
     * @throws DevelopmentException as {@link #of(List)} does
     * @throws org.tonewedge.fitting.parametric.CurveFitException if a strip cannot be fitted
     */
    public static DevelopmentSeries of(List<Strip> strips, CurveFit curveFit) {
        Objects.requireNonNull(strips, "strips");
        Objects.requireNonNull(curveFit, "curveFit");
        List<Strip> checked = List.copyOf(strips);
        requireOne("film", checked, strip -> Optional.of(strip.film()));
        requireOne("developer", checked, strip -> strip.processing().developer());
        ResponseFit.checked(
                checked.stream().map(strip -> StripTimes.figure(strip, 0)).toList());
        return new DevelopmentSeries(
                StripCurves.of(checked, curveFit), ContrastFitting.withDefaults(), 0, BeyondTested.REFUSE);
    }

    private static void requireOne(
            String what, List<Strip> strips, java.util.function.Function<Strip, Optional<String>> label) {
        List<String> labels = strips.stream()
                .map(label)
                .map(found -> found.orElse("not stated"))
                .distinct()
                .toList();
        if (labels.size() > 1) {
            throw new DevelopmentException(
                    DevelopmentFailure.UNUSABLE_STRIPS,
                    "a development series needs strips of one " + what + ", these have " + String.join("; ", labels)
                            + ": choose the strips of one"
                            + (strips.stream().allMatch(strip -> strip.film().equals(strip.id()))
                                    ? ", and state the film of each, without which a strip counts as a film of its own"
                                    : ""));
        }
    }

    /**
     * Returns this series with another temperature rule, whose parameter is fitted if strips were developed at several
     * temperatures. The default is {@link TemperatureRule#ARRHENIUS}.
     *
     * @param fitted the rule
     * @return a copy
     */
    public DevelopmentSeries with(TemperatureRule fitted) {
        return new DevelopmentSeries(curves, fitting.with(fitted), repeatability, beyond);
    }

    /**
     * Returns this series with a stated temperature law, taken as exact. A temperature outside those of the strips needs
     * {@link #withExtrapolation()} too.
     *
     * @param stated the law
     * @return a copy
     */
    public DevelopmentSeries with(TemperatureLaw stated) {
        return new DevelopmentSeries(curves, fitting.with(stated), repeatability, beyond);
    }

    /**
     * Returns this series with answers beyond the tested times and temperatures too. They come from the model and are
     * flagged as extrapolated; an interpolation still refuses.
     *
     * @return a copy
     */
    public DevelopmentSeries withExtrapolation() {
        return new DevelopmentSeries(curves, fitting, repeatability, BeyondTested.FLAG);
    }

    /**
     * Returns this series with a stated repeatability of development: how much the contrast differs between strips that
     * are developed alike. It is added to the uncertainty of each contrast and of the figures that vary with contrast:
     * the speed point, base plus fog and the figures of the {@link #family()}. If strips do scatter and you do not
     * state it, a few of them estimate it poorly, and intervals contain the truth less often than stated.
     *
     * @param relativeStandardDeviation the standard deviation as a fraction of the contrast, from 0 to 0.5; 0.02 for 2
     *     %
     * @return a copy
     * @throws IllegalArgumentException if it is out of range
     */
    public DevelopmentSeries withDevelopmentRepeatability(double relativeStandardDeviation) {
        return new DevelopmentSeries(curves, fitting, requireRepeatability(relativeStandardDeviation), beyond);
    }

    static double requireRepeatability(double relativeStandardDeviation) {
        return Checks.within(
                "relative repeatability of development", relativeStandardDeviation, 0, 0.5, "give 0.02 for 2 %");
    }

    /**
     * Returns the strips.
     *
     * @return the strips
     */
    public List<Strip> strips() {
        return curves.strips();
    }

    /**
     * Returns the fitted curve of each strip.
     *
     * @return the fits in the order of the strips
     */
    public List<FittedCurve> fits() {
        return curves.fits();
    }

    /**
     * Returns what to know before you use figures of the series.
     *
     * @return a sentence if the fitted curves do not follow the strips, as with a film of two emulsions; otherwise nothing.
     *     The lines of a plan repeat it
     */
    public List<String> notes() {
        return curves.notes();
    }

    /**
     * Returns the temperatures of the strips.
     *
     * @return the temperatures, rising; empty if they are not known
     */
    public List<Temperature> temperatures() {
        return ResponseFit.temperatures(
                strips().stream().map(strip -> StripTimes.figure(strip, 0)).toList());
    }

    /**
     * Returns the contrast of each strip.
     *
     * @param measure how contrast is read
     * @return the contrasts in the order of the strips
     * @throws NotDeterminableException if the curve of a strip does not give it
     */
    public List<DevelopedFigure> contrasts(ContrastMeasure measure) {
        Objects.requireNonNull(measure, "measure");
        return figures(measure::contrastOf, measure::contrastOf);
    }

    /**
     * The figure of each strip; the other function is its derivative with respect to the relative error of contrast.
     */
    private List<DevelopedFigure> figures(
            ToDoubleFunction<CharacteristicCurve> figure, ToDoubleFunction<CharacteristicCurve> byContrast) {
        List<DevelopedFigure> figures = new ArrayList<>();
        for (int i = 0; i < strips().size(); i++) {
            Estimate estimate = curves.estimate(i, figure);
            // With few readings their noise is uncertain too: a normal error of this size has the 95 % interval of the
            // estimate.
            double fitted = estimate.standardUncertainty()
                    * StudentT.coverageFactor(CONFIDENCE, estimate.degreesOfFreedom())
                    / StudentT.coverageFactor(CONFIDENCE, Double.POSITIVE_INFINITY);
            double development = repeatability > 0 ? repeatability * byContrast.applyAsDouble(curves.curve(i)) : 0;
            figures.add(StripTimes.figure(strips().get(i), estimate.value())
                    .withStandardUncertainty(Math.max(LEAST_UNCERTAINTY, Math.hypot(fitted, development))));
        }
        return List.copyOf(figures);
    }

    /**
     * Returns contrast against time and temperature, by the model that the evidence supports best.
     *
     * @param measure how contrast is read
     * @return the choice
     * @throws NotDeterminableException if the curve of a strip does not give the contrast, or no model fits the
     *     contrasts
     */
    public ContrastChoice contrast(ContrastMeasure measure) {
        Objects.requireNonNull(measure, "measure");
        return fitting.choose(measure, contrasts(measure)).with(beyond);
    }

    /**
     * Returns the log exposure of the speed point, 0.10 above base plus fog, against time. It falls as speed rises.
     *
     * @return the trend, in log<sub>10</sub> H on the axis of the strips
     * @throws NotDeterminableException if a strip does not reach the speed point, or there are not two times
     */
    public FigureTrend speedPoint() {
        return trend(curve ->
                curve.pointAbove(ContrastMeasure.SPEED_POINT).logExposure().value());
    }

    /**
     * Returns base plus fog against time.
     *
     * @return the trend, in density
     * @throws NotDeterminableException if there are not two times
     */
    public FigureTrend basePlusFog() {
        return trend(curve -> curve.basePlusFog().value());
    }

    private FigureTrend trend(ToDoubleFunction<CharacteristicCurve> figure) {
        double byContrast = repeatability > 0 ? byContrast(figure) : 0;
        List<DevelopedFigure> figures = figures(figure, curve -> byContrast);
        Laws laws = laws();
        FigureTrend trend =
                laws.law() == null ? FigureTrend.of(figures) : FigureTrend.of(figures, laws.law(), laws.off());
        return trend.with(beyond);
    }

    /**
     * How much a figure changes with ln contrast from strip to strip, by linear regression: an error of development
     * moves both together, as another time does. Contrast is the rise from base plus fog to the greatest exposure that
     * all strips have.
     */
    private double byContrast(ToDoubleFunction<CharacteristicCurve> figure) {
        List<CharacteristicCurve> drawn =
                IntStream.range(0, strips().size()).mapToObj(curves::curve).toList();
        double greatest = drawn.stream()
                .mapToDouble(curve -> curve.highestExposure().value())
                .min()
                .orElseThrow();
        double[] contrasts = drawn.stream()
                .mapToDouble(curve ->
                        Math.log(curve.density(greatest) - curve.basePlusFog().value()))
                .toArray();
        double[] figures = drawn.stream().mapToDouble(figure).toArray();
        boolean differ = Arrays.stream(contrasts).distinct().count() > 1;
        return differ ? LinearFit.polynomial(contrasts, figures, 1).parameter(1) : 0;
    }

    /**
     * Returns the temperature law: the one stated, or that of the contrast over 1.30 log units, or of the average
     * gradient if a strip is too short for it.
     *
     * @return the law; empty if none is stated and all strips were developed at one temperature, or if their temperature
     *     is not known
     * @throws NotDeterminableException if strips at several temperatures do not give a law
     */
    public Optional<TemperatureLaw> temperatureLaw() {
        List<Temperature> temperatures = temperatures();
        if (temperatures.size() < 2) {
            return temperatures.isEmpty() ? Optional.empty() : fitting.statedLaw();
        }
        return lawful().temperatureLaw();
    }

    /** Contrast against time and temperature as the law of temperature is taken from it. */
    private ContrastFit lawful() {
        return contrast(ContrastMeasure.RISE_OVER_130).best();
    }

    /** A law of temperature, and that law if it is off by its standard uncertainty; both are null if there is none. */
    private record Laws(TemperatureLaw law, TemperatureLaw off) {}

    private Laws laws() {
        if (temperatures().size() < 2) {
            TemperatureLaw law = temperatureLaw().orElse(null);
            return new Laws(law, law);
        }
        ContrastFit contrast = lawful();
        return new Laws(contrast.temperatureLaw().orElse(null), contrast.temperatureLawOff());
    }

    /**
     * Returns the family of curves of the strips. If their {@linkplain #temperatureLaw() law of temperature} is found from
     * them, its uncertainty is included in that of the figures.
     *
     * @return the family
     * @throws NotDeterminableException if the strips do not determine it
     */
    public DevelopmentFamily family() {
        Laws laws = laws();
        return DevelopmentFamily.fit(curves, laws.law(), laws.off())
                .withDevelopmentRepeatability(repeatability)
                .with(beyond);
    }

    /**
     * Returns the arithmetic speed for a speed point, S = 0.8 / H<sub>m</sub>. It is an effective speed; it is an ISO
     * speed only if the conditions of the standard are met.
     *
     * @param logExposure the log exposure of the speed point, in lux seconds, with its uncertainty
     * @return the speed
     */
    public static PredictedFigure effectiveSpeed(PredictedFigure logExposure) {
        double speed = MethodFigures.SPEED_CONSTANT / Math.pow(10, logExposure.value());
        return logExposure.mapped(speed, speed * Math.log(10));
    }

    /**
     * Makes a plan: for each target and temperature it gives the time, rounded to 5 s, and what to expect. A target
     * that cannot be reached has a line too, which says why.
     *
     * @param targets the targets
     * @param temperatures the temperatures; if empty, those of the strips
     * @return the plan
     * @throws IllegalArgumentException if there is no target
     * @throws NotDeterminableException if the strips do not determine contrast, speed or base plus fog against time
     */
    public DevelopmentPlan plan(List<ContrastTarget> targets, List<Temperature> temperatures) {
        return DevelopmentPlan.of(this, targets, temperatures.isEmpty() ? temperatures() : temperatures);
    }

    /**
     * Makes the plan of contracted, normal and expanded development, N−2 to N+2.
     *
     * <p><b>Definition.</b> N is the development that meets the target of normal development, by default that of ISO 6.
     * At N a subject of the normal range R has a certain range of densities in the negative: the rise of the curve over
     * R from the speed point, 0.10 above base plus fog. N+n is the development at which a subject n stops
     * <em>shorter</em> has that same range of densities; at N−n a subject n stops longer has it. The time t solves
     *
     * <p>rise<sub>t</sub>(R − n stops) = rise<sub>N</sub>(R),
     *
     * <p>where each rise is counted from the speed point of its own curve, which moves with development. The equation
     * is solved on the {@link #family()} of curves, also for N. Because curves have toes and shoulders, the answer is
     * not a contrast multiplied by R/(R − n). If a time lies outside those tested, or the strips were not exposed over
     * the range needed, the line says so instead. Common practice, no source.
     *
     * <p>In 10,000 simulated tests of five strips with errors of 0.01, the bias of the times before rounding is at most
     * 0.1 %, and their 95 % intervals contain the true time in 94.7 to 95.3 % of tests ({@code ExpansionSimulation}; a
     * slice of it is a test). For the film of the demo, seven strips at two
     * temperatures with errors of 0.004, the intervals of N, N+1 and N+2 contain the truth in 95.4, 96.3 and 96.9 % of 1,000
     * tests, rounding to 5 s included ({@code DemoPlanSimulation} of the examples; a slice of it is a test). Of
     * 120 series of a film of two emulsions, 28 steps of 0.15 with errors of 0.01, 119 carry the {@linkplain #notes() note} that
     * the curves do not follow the strips; the widened intervals of N−2 to N+2 contain the truth in these 119, those of a
     * {@link #plan plan} by contrast in 107. With every other step read, 115 are noted, and the intervals contain it in 115 to 118
     * and 110; with every third, 10 a strip, 14 are noted, and they contain it in only 9 to 87 and 62: so few steps do not show a
     * second emulsion ({@code TwoEmulsionsTest 120}, {@code 120 2} and {@code 120 3}; a slice of it is a test).
     *
     * @param normal the target of normal development
     * @param normalRange R, the range of the normal subject, such as 7 stops
     * @param temperatures the temperatures; if empty, those of the strips
     * @return the plan, N−2 first; N alone if it cannot be reached, with the reason, or if the strips are too short for
     *     R, with a note that says so.
     *     {@link PlannedDevelopment#speedGain PlannedDevelopment.speedGain} compares two lines
     * @throws IllegalArgumentException if the range is not above 2 stops
     * @throws NotDeterminableException as {@link #plan plan} does
     */
    public DevelopmentPlan expansions(
            ContrastTarget normal, ExposureInterval normalRange, List<Temperature> temperatures) {
        Objects.requireNonNull(normal, "normal");
        Objects.requireNonNull(normalRange, "normalRange");
        return new DevelopmentPlan(
                Expansions.lines(this, normal, normalRange, temperatures.isEmpty() ? temperatures() : temperatures));
    }

    BeyondTested beyond() {
        return beyond;
    }

    /**
     * Returns how to change the development of a strip to reach another contrast.
     *
     * @param strip one of the strips, as developed at present
     * @param target the contrast wanted
     * @return the change, at the temperature of the strip
     * @throws IllegalArgumentException if the strip is not one of these
     * @throws DevelopmentException if the target is not reached within the tested times
     */
    public DevelopmentChange changeFor(Strip strip, ContrastTarget target) {
        Objects.requireNonNull(strip, "strip");
        Objects.requireNonNull(target, "target");
        int index = strips().indexOf(strip);
        if (index < 0) {
            throw new IllegalArgumentException(strip + " is not one of the strips of this series");
        }
        Duration now = strip.processing().time().orElseThrow();
        List<Temperature> at = strip.processing().temperature().map(List::of).orElse(List.of());
        PlannedDevelopment line = plan(List.of(target), at).developments().get(0);
        return line.changeFrom(now);
    }

    /**
     * Returns the series in words.
     *
     * @return the film and how many strips
     */
    @Override
    public String toString() {
        return "development series of " + strips().get(0).film() + ", " + Figures.counted(strips().size(), "strip");
    }
}
