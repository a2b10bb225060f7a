// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Roots;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.Bounds;
import org.tonewedge.fitting.internal.LeastSquares;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.numeric.DeltaMethod;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.CurveParameter;
import org.tonewedge.fitting.parametric.FittedCurve;

/**
 * The family of characteristic curves of one film in one developer: the whole curve after any time between those tested.
 *
 * <p>All readings of all strips are fitted at once by toe–straight-line–shoulder curves (by toe and straight line alone
 * if no strip shows a shoulder). The parameters of these curves change smoothly with time. The gradient follows the
 * exponential approach, with or without an induction time. Base plus fog, toe position, toe softness and the distance
 * from toe to shoulder are low-order polynomials in ln t. The softness of the shoulder is the same for all. AICc
 * chooses among these layouts, a richer one only if it is clearly better. Three times cannot show an induction time,
 * because it could not be distinguished from scatter of development.
 *
 * <p>Standard uncertainties include reading scatter and the variation between developments, which acts as if each strip
 * had a slightly wrong time. The variation is as {@linkplain #withDevelopmentRepeatability stated}; otherwise it is
 * what the strips differ from the family beyond their readings. State it if you can: a few strips estimate it poorly,
 * two not at all. In simulations with five strips whose contrast scatters by 2.5 %, the 95 % intervals of contrast,
 * densities and the speed point contain the truth in 91 to 99 % of tests if the variation is stated, and in 86 % or
 * more if not ({@code DevelopmentSeriesTest}). With three or four strips that do not state it, they contain it less
 * often. {@link #leaveOneOut()} shows how well the family predicts a strip.
 *
 * <p>If curves of this kind do not follow the readings of the strips, judged together, as with a film of two emulsions, the
 * uncertainty of a figure includes how far monotone smoothing splines through the strips lie from the family, as the root mean
 * square over the strips.
 *
 * <p>Immutable and thread safe.
 */
public final class DevelopmentFamily {

    private static final double LEAST_LOG_SOFTNESS = Math.log(0.01);
    private static final double MOST_LOG_SOFTNESS = Math.log(3);
    private static final double LEAST_RUN = 0.1;
    private static final double STEP = 1e-3;

    /** The step for a derivative with respect to ln t. */
    private static final double STEP_OF_TIME = 1e-4;

    private static final double ROUNDING = 1e-9;
    /** How far beyond the tested times an extrapolation is searched: four times as long, or a quarter as long. */
    private static final double FARTHEST = Math.log(4);

    /**
     * A richer layout is chosen only if AICc falls by this much, so that it does not follow the noise. Common practice,
     * no source.
     */
    private static final double CLEARLY_BETTER = 6;

    private final StripCurves curves;
    private final List<Strip> strips;
    private final RateWarp warp;
    private final FamilyLayout layout;
    private final double centre;
    private final double[] p;
    private final double[][] unscaled;
    private final StripScatter scatter;
    /** How the parameters change with the law of temperature if it is off by its standard uncertainty. */
    private final double[] byLaw;

    private final double repeatability;
    private final double degreesOfFreedom;
    private final double residualStandardDeviation;
    private final List<DevelopedFigure> times;
    private final TestedRange range;
    private final BeyondTested beyond;

    private DevelopmentFamily(
            StripCurves curves,
            RateWarp warp,
            FamilyLayout layout,
            double centre,
            List<DevelopedFigure> times,
            FamilyProblem problem,
            FamilyProblem off,
            LeastSquaresSolution solution) {
        this.curves = curves;
        strips = curves.strips();
        this.warp = warp;
        this.layout = layout;
        this.centre = centre;
        this.times = times;
        p = solution.parameters();
        unscaled = solution.unscaledCovariance();
        int gradientParameters = 0;
        for (int j = layout.gradientAt(); j < layout.toeAt(); j++) {
            gradientParameters += solution.isAtBound(j) ? 0 : 1;
        }
        scatter = new StripScatter(problem, solution, strips.size(), gradientParameters);
        byLaw = moved(problem, off, solution);
        repeatability = 0;
        degreesOfFreedom = solution.degreesOfFreedom();
        residualStandardDeviation = solution.residualStandardDeviation();
        double[] minutes = equivalentMinutes(times, warp);
        range = new TestedRange(
                times,
                warp.law(new double[0]),
                warp.reference(),
                Arrays.stream(minutes).min().orElseThrow(),
                Arrays.stream(minutes).max().orElseThrow());
        beyond = BeyondTested.REFUSE;
    }

    private DevelopmentFamily(DevelopmentFamily other, double repeatability, BeyondTested beyond) {
        curves = other.curves;
        strips = other.strips;
        warp = other.warp;
        layout = other.layout;
        centre = other.centre;
        p = other.p;
        unscaled = other.unscaled;
        scatter = other.scatter;
        byLaw = other.byLaw;
        this.repeatability = repeatability;
        degreesOfFreedom = other.degreesOfFreedom;
        residualStandardDeviation = other.residualStandardDeviation;
        times = other.times;
        range = other.range;
        this.beyond = beyond;
    }

    /**
     * Fits the family to strips at one temperature.
     *
     * @param strips the strips, for two different times or more
     * @return the family
     * @throws DevelopmentException if there are not two different times, a time is missing, there are several
     *     temperatures, or the readings do not determine a family
     * @throws org.tonewedge.fitting.parametric.CurveFitException if a single strip cannot be fitted
     */
    public static DevelopmentFamily fit(List<Strip> strips) {
        List<DevelopedFigure> times = times(strips);
        if (ResponseFit.temperatures(times).size() > 1) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "strips were developed at several temperatures: state a temperature law for their family");
        }
        return fit(individually(strips), times, RateWarp.none(ResponseFit.reference(times)));
    }

    /**
     * Fits the family to strips at several temperatures.
     *
     * @param strips the strips, for two different times or more, all with a temperature
     * @param law how temperature changes the rate, taken as exact; the {@linkplain DevelopmentSeries#family() family of
     *     a series} takes the law from the strips, with its uncertainty
     * @return the family
     * @throws DevelopmentException as {@link #fit(List)} does, or if a temperature is missing
     * @throws org.tonewedge.fitting.parametric.CurveFitException if a single strip cannot be fitted
     */
    public static DevelopmentFamily fit(List<Strip> strips, TemperatureLaw law) {
        List<DevelopedFigure> times = times(strips);
        return fit(individually(strips), times, lawful(times, law, law));
    }

    private static RateWarp lawful(List<DevelopedFigure> times, TemperatureLaw law, TemperatureLaw off) {
        Temperature reference = ResponseFit.reference(times);
        if (reference == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "a temperature law needs the temperature of each strip, which is not known");
        }
        return RateWarp.stated(reference, Objects.requireNonNull(law, "law"), off);
    }

    /**
     * The family of strips that were already fitted one by one. The law may be null at one temperature; the other is the law
     * if it is off by its standard uncertainty.
     */
    static DevelopmentFamily fit(StripCurves curves, TemperatureLaw law, TemperatureLaw off) {
        List<DevelopedFigure> times = times(curves.strips());
        return fit(curves, times, law == null ? RateWarp.none(ResponseFit.reference(times)) : lawful(times, law, off));
    }

    private static StripCurves individually(List<Strip> strips) {
        return StripCurves.of(strips, CurveFit.of(CurveFamily.TOE_SHOULDER));
    }

    /** The times and temperatures of strips; the value of the figure has no meaning. */
    private static List<DevelopedFigure> times(List<Strip> strips) {
        return ResponseFit.checked(
                strips.stream().map(strip -> StripTimes.figure(strip, 0)).toList());
    }

    private static double[] equivalentMinutes(List<DevelopedFigure> times, RateWarp warp) {
        return times.stream()
                .mapToDouble(time -> time.minutes()
                        * time.temperature()
                                .map(at -> warp.factor(new double[0], at))
                                .orElse(1.0))
                .toArray();
    }

    private static DevelopmentFamily fit(StripCurves curves, List<DevelopedFigure> times, RateWarp warp) {
        List<Strip> strips = curves.strips();
        List<FittedCurve> fits = curves.fits();
        double[] minutes = equivalentMinutes(times, warp);
        int different = (int) Arrays.stream(minutes).distinct().count();
        if (different < 2) {
            throw new DevelopmentException(
                    DevelopmentFailure.ONE_TIME,
                    "a family of curves needs two different times of development, all strips had "
                            + times.get(0).developed());
        }
        double centre = Math.exp(Arrays.stream(minutes).map(Math::log).average().orElseThrow());
        List<FamilyProblem.StripReadings> readings = new ArrayList<>();
        List<FamilyProblem.StripReadings> off = new ArrayList<>();
        for (int i = 0; i < minutes.length; i++) {
            double z = Math.log(minutes[i] / centre);
            readings.add(new FamilyProblem.StripReadings(strips.get(i), z));
            double moved =
                    z + warp.uncertaintyOfLogFactor(times.get(i).temperature().orElse(null));
            off.add(new FamilyProblem.StripReadings(strips.get(i), moved));
        }
        CurveFamily family = fits.stream().anyMatch(fit -> fit.family() == CurveFamily.TOE_SHOULDER)
                ? CurveFamily.TOE_SHOULDER
                : CurveFamily.TOE_STRAIGHT_LINE;
        DevelopmentFamily best = null;
        for (FamilyLayout layout : FamilyLayout.candidates(family, different)) {
            FamilyProblem problem = new FamilyProblem(layout, readings, centre);
            if (problem.residualCount() <= problem.parameterCount()) {
                continue;
            }
            LeastSquaresSolution solution = LeastSquares.withDefaults()
                    .withBounds(bounds(layout, minutes, strips))
                    .solve(problem, start(layout, fits, minutes, centre));
            // An induction time of 0 is the layout without one, which was tried before.
            boolean repeated = layout.induction() != 0 && solution.isAtBound(layout.gradientAt() + 2);
            if (solution.stopReason().isConverged() && isDetermined(solution) && !repeated) {
                DevelopmentFamily next = new DevelopmentFamily(
                        curves, warp, layout, centre, times, problem, new FamilyProblem(layout, off, centre), solution);
                if (best == null || next.scatter.criterion() < best.scatter.criterion() - CLEARLY_BETTER) {
                    best = next;
                }
            }
        }
        if (best == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.NOT_DETERMINED,
                    "the readings of "
                            + String.join(
                                    ", ", strips.stream().map(Strip::toString).toList())
                            + " do not determine a family of curves: read steps over a longer range, from the toe up");
        }
        return best;
    }

    /** How the parameters found move if the times do: −(JᵀJ)⁻¹Jᵀ times the change of the residuals. */
    private static double[] moved(FamilyProblem problem, FamilyProblem off, LeastSquaresSolution solution) {
        double[] p = solution.parameters();
        double[] residuals = solution.residuals();
        double[] changed = new double[residuals.length];
        off.residuals(p, changed);
        double[][] jacobian = new double[p.length][residuals.length];
        problem.jacobian(p, jacobian);
        double[] gradient = new double[p.length];
        for (int j = 0; j < p.length; j++) {
            for (int i = 0; i < residuals.length; i++) {
                gradient[j] += jacobian[j][i] * (changed[i] - residuals[i]);
            }
        }
        double[] moved = new double[p.length];
        for (int j = 0; j < p.length; j++) {
            for (int k = 0; k < p.length; k++) {
                moved[j] -= solution.unscaledCovariance()[j][k] * gradient[k];
            }
        }
        return moved;
    }

    private static boolean isDetermined(LeastSquaresSolution solution) {
        return Arrays.stream(solution.standardErrors()).allMatch(Double::isFinite);
    }

    private static double[] start(FamilyLayout layout, List<FittedCurve> fits, double[] minutes, double centre) {
        double[] start = new double[layout.size()];
        double[] gradients = new double[minutes.length];
        List<Double> toes = new ArrayList<>();
        List<Double> softnesses = new ArrayList<>();
        List<Double> runs = new ArrayList<>();
        List<Double> shoulders = new ArrayList<>();
        double base = 0;
        for (int i = 0; i < gradients.length; i++) {
            FittedCurve fit = fits.get(i);
            List<CurveParameter> known = fit.family().parameters();
            base += fit.curve().basePlusFog().value() / gradients.length;
            gradients[i] = fit.form().parameter(CurveParameter.GRADIENT);
            if (known.contains(CurveParameter.TOE_POSITION)) {
                toes.add(fit.form().parameter(CurveParameter.TOE_POSITION));
                softnesses.add(Math.log(fit.form().parameter(CurveParameter.TOE_SOFTNESS)));
            }
            if (known.contains(CurveParameter.TOE_POSITION) && known.contains(CurveParameter.SHOULDER_POSITION)) {
                runs.add(fit.form().parameter(CurveParameter.SHOULDER_POSITION)
                        - fit.form().parameter(CurveParameter.TOE_POSITION));
                shoulders.add(Math.log(fit.form().parameter(CurveParameter.SHOULDER_SOFTNESS)));
            }
        }
        if (toes.isEmpty()) {
            throw new DevelopmentException(
                    DevelopmentFailure.NOT_DETERMINED,
                    "no strip shows its toe, from which the family starts: expose steps down to base plus fog");
        }
        double[] approach = TimeResponse.exponential().start(minutes, gradients);
        start[0] = base;
        start[layout.gradientAt()] = TimeResponse.exponential().value(approach, centre);
        start[layout.gradientAt() + 1] = Math.log(approach[1]);
        start[layout.toeAt()] = mean(toes);
        start[layout.softnessAt()] = clamp(mean(softnesses), LEAST_LOG_SOFTNESS, MOST_LOG_SOFTNESS);
        if (layout.hasShoulder()) {
            start[layout.runAt()] = Math.max(mean(runs), 2 * LEAST_RUN);
            start[layout.runAt() + layout.run() + 1] = clamp(mean(shoulders), LEAST_LOG_SOFTNESS, MOST_LOG_SOFTNESS);
        }
        return start;
    }

    private static double clamp(double value, double least, double most) {
        return Math.max(least, Math.min(most, value));
    }

    private static double mean(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    }

    private static Bounds bounds(FamilyLayout layout, double[] minutes, List<Strip> strips) {
        double[] lower = new double[layout.size()];
        double[] upper = new double[layout.size()];
        Arrays.fill(lower, Double.NEGATIVE_INFINITY);
        Arrays.fill(upper, Double.POSITIVE_INFINITY);
        double shortest = Arrays.stream(minutes).min().orElseThrow();
        double longest = Arrays.stream(minutes).max().orElseThrow();
        int g = layout.gradientAt();
        lower[g] = 0;
        lower[g + 1] = Math.log(1e-3 / longest);
        upper[g + 1] = Math.log(20 / shortest);
        if (layout.induction() != 0) {
            lower[g + 2] = 0;
            upper[g + 2] = 0.95 * shortest;
        }
        lower[layout.softnessAt()] = LEAST_LOG_SOFTNESS;
        upper[layout.softnessAt()] = MOST_LOG_SOFTNESS;
        if (layout.hasShoulder()) {
            lower[layout.runAt()] = LEAST_RUN;
            upper[layout.runAt()] = 2 * (highest(strips) - lowest(strips));
            lower[layout.runAt() + layout.run() + 1] = LEAST_LOG_SOFTNESS;
            upper[layout.runAt() + layout.run() + 1] = MOST_LOG_SOFTNESS;
        }
        return Bounds.of(lower, upper);
    }

    /** The least exposure that all strips cover. */
    private static double lowest(List<Strip> strips) {
        return strips.stream()
                .mapToDouble(strip -> strip.steps().get(0).exposure().value())
                .max()
                .orElseThrow();
    }

    /** The greatest exposure that all strips cover. */
    private static double highest(List<Strip> strips) {
        return strips.stream()
                .mapToDouble(strip ->
                        strip.steps().get(strip.steps().size() - 1).exposure().value())
                .min()
                .orElseThrow();
    }

    /**
     * Returns this family with answers beyond the tested times and temperatures too. They come from the model and are
     * flagged as extrapolated.
     *
     * @return a copy
     */
    public DevelopmentFamily withExtrapolation() {
        return with(BeyondTested.FLAG);
    }

    DevelopmentFamily with(BeyondTested other) {
        return new DevelopmentFamily(this, repeatability, other);
    }

    /**
     * Returns this family with a stated repeatability of development, as explained at
     * {@link DevelopmentSeries#withDevelopmentRepeatability}. The curves stay the same. The uncertainties of figures
     * follow the statement, or the scatter of the strips if that is clearly larger.
     *
     * @param relativeStandardDeviation the standard deviation as a fraction of the contrast, from 0 to 0.5; 0 to
     *     estimate it from the strips alone
     * @return a copy
     * @throws IllegalArgumentException if it is out of range
     */
    public DevelopmentFamily withDevelopmentRepeatability(double relativeStandardDeviation) {
        return new DevelopmentFamily(this, DevelopmentSeries.requireRepeatability(relativeStandardDeviation), beyond);
    }

    /**
     * Returns the scatter of development that is included in the uncertainties of figures.
     *
     * @return the relative standard deviation of contrast from strip to strip: stated, or found in the strips; 0 if
     *     none was found
     */
    public double developmentScatter() {
        return Math.sqrt(developmentVariance());
    }

    /**
     * Returns the strips to which the family was fitted.
     *
     * @return the strips
     */
    public List<Strip> strips() {
        return strips;
    }

    /**
     * Returns the curve after a time, at the temperature of the strips.
     *
     * @param time the time of development
     * @return the curve over the exposures that all strips cover; its name says if it is extrapolated
     * @throws DevelopmentException if the time was not tested, or strips were developed at several temperatures
     */
    public CharacteristicCurve curveAt(Duration time) {
        return curve(p, asked(time, null));
    }

    /**
     * Returns the curve after a time at a temperature.
     *
     * @param time the time of development
     * @param at the temperature
     * @return the curve over the exposures that all strips cover; its name says if it is extrapolated
     * @throws DevelopmentException if the time or the temperature was not tested, or that of the strips is not known
     */
    public CharacteristicCurve curveAt(Duration time, Temperature at) {
        return curve(p, asked(time, Objects.requireNonNull(at, "at")));
    }

    /**
     * Returns a figure read off the curve after a time, at the temperature of the strips. Its uncertainty follows from
     * the delta method, its degrees of freedom from Welch and Satterthwaite or, beside a stated repeatability, from the share
     * of the readings in the variance.
     *
     * @param time the time of development
     * @param figure reads the figure off a curve; smooth in the curve
     * @return the figure, in its own units
     * @throws DevelopmentException if the time was not tested, or strips were developed at several temperatures
     * @throws org.tonewedge.core.curve.NotDeterminableException if the curve does not give the figure
     */
    public PredictedFigure figureAt(Duration time, ToDoubleFunction<CharacteristicCurve> figure) {
        Objects.requireNonNull(figure, "figure");
        return figure(asked(time, null), figure);
    }

    /**
     * Returns a figure read off the curve after a time at a temperature.
     *
     * @param time the time of development
     * @param at the temperature
     * @param figure reads the figure off a curve; smooth in the curve
     * @return the figure, in its own units
     * @throws DevelopmentException if the time or the temperature was not tested, or that of the strips is not known
     * @throws org.tonewedge.core.curve.NotDeterminableException if the curve does not give the figure
     */
    public PredictedFigure figureAt(Duration time, Temperature at, ToDoubleFunction<CharacteristicCurve> figure) {
        Objects.requireNonNull(figure, "figure");
        return figure(asked(time, Objects.requireNonNull(at, "at")), figure);
    }

    private PredictedFigure figure(Question question, ToDoubleFunction<CharacteristicCurve> figure) {
        double value = figure.applyAsDouble(curve(p, question));
        double byTime = 0;
        if (question.uncertainty() != 0) {
            Question later = question.moved(STEP_OF_TIME);
            Question earlier = question.moved(-STEP_OF_TIME);
            byTime = (figure.applyAsDouble(curve(p, later)) - figure.applyAsDouble(curve(p, earlier)))
                    / (2 * STEP_OF_TIME);
        }
        return predicted(value, byParameters(question, figure), byTime * question.uncertainty(), question.scope())
                .widenedBy(size(distances(figure)));
    }

    /** The derivatives of a figure with respect to the parameters, at a fixed time. */
    private double[] byParameters(Question question, ToDoubleFunction<CharacteristicCurve> figure) {
        double ofReadings = scatter.readingVariance();
        double ofDevelopment = developmentVariance();
        double[][] unit = scatter.unitCovariance();
        double[] derivatives = new double[p.length];
        for (int j = 0; j < p.length; j++) {
            double step = STEP * Math.sqrt(ofReadings * unscaled[j][j] + ofDevelopment * unit[j][j]);
            if (step > 0) {
                double[] moved = p.clone();
                moved[j] = p[j] + step;
                double above = figure.applyAsDouble(curve(moved, question));
                moved[j] = p[j] - step;
                derivatives[j] = (above - figure.applyAsDouble(curve(moved, question))) / (2 * step);
            }
        }
        return derivatives;
    }

    /**
     * A figure whose derivatives with respect to the parameters are known, and its change if the law of temperature is off by
     * its standard uncertainty and the parameters stay.
     */
    private PredictedFigure predicted(double value, double[] derivatives, double ofLaw, Scope scope) {
        double ofReadings = scatter.readingVariance() * DeltaMethod.variance(derivatives, unscaled);
        double ofDevelopment = developmentVariance() * DeltaMethod.variance(derivatives, scatter.unitCovariance());
        double change = ofLaw;
        for (int j = 0; j < derivatives.length; j++) {
            change += derivatives[j] * byLaw[j];
        }
        return new PredictedFigure(
                        value,
                        OptionalDouble.of(Math.sqrt(ofReadings + ofDevelopment)),
                        degreesOfFreedom(ofReadings, ofDevelopment),
                        scope)
                .widenedBy(change);
    }

    /**
     * A time: its position among the tested times as z = ln(minutes / centre), its derivatives with respect to the
     * parameters, and how far it moves by the distance of each strip from the family.
     */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    record Solved(double z, double[] byParameters, double[] distances) {}

    /** A value that a figure shall have, its derivatives with respect to the parameters, and the distance of each strip. */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    record Wanted(double value, double[] byParameters, double[] distances) {}

    /** A value that is stated. */
    Wanted stated(double value) {
        return new Wanted(
                value, new double[p.length], new double[curves.splines().size()]);
    }

    /** A figure at a solved time, with all that it depends on through the time. */
    Wanted at(Solved time, ToDoubleFunction<CharacteristicCurve> figure) {
        double[] derivatives = byParameters(at(time.z()), figure);
        double slope = slope(time.z(), figure);
        for (int j = 0; j < derivatives.length; j++) {
            derivatives[j] += slope * time.byParameters()[j];
        }
        double[] distances = distances(figure);
        for (int i = 0; i < distances.length; i++) {
            distances[i] += slope * time.distances()[i];
        }
        return new Wanted(value(time, figure), derivatives, distances);
    }

    private double slope(double z, ToDoubleFunction<CharacteristicCurve> figure) {
        return (figure.applyAsDouble(curve(p, at(z + STEP_OF_TIME)))
                        - figure.applyAsDouble(curve(p, at(z - STEP_OF_TIME))))
                / (2 * STEP_OF_TIME);
    }

    /**
     * How far the figure of each strip lies above that of the family; nothing if the family's kind of curve follows the
     * strips, NaN for a strip that does not show the figure.
     */
    private double[] distances(ToDoubleFunction<CharacteristicCurve> figure) {
        double[] minutes = equivalentMinutes(times, warp);
        double[] distances = new double[curves.splines().size()];
        for (int i = 0; i < distances.length; i++) {
            Question question = at(Math.log(minutes[i] / centre));
            try {
                distances[i] = figure.applyAsDouble(curves.splines().get(i).curve())
                        - figure.applyAsDouble(curve(p, question));
            } catch (NotDeterminableException e) {
                distances[i] = Double.NaN;
            }
        }
        return distances;
    }

    /** The root mean square of the distances that are known. */
    private static double size(double[] distances) {
        return Math.sqrt(Arrays.stream(distances)
                .filter(distance -> !Double.isNaN(distance))
                .map(distance -> distance * distance)
                .average()
                .orElse(0));
    }

    /**
     * The time after which a figure of the curve, which grows with time, has a value. The derivatives of the value with
     * respect to the parameters count too, by dz/dp = (dv/dp − ∂f/∂p) / (∂f/∂z).
     */
    Solved solve(String what, ToDoubleFunction<CharacteristicCurve> figure, Wanted wanted) {
        double value = wanted.value();
        double reach = beyond == BeyondTested.FLAG ? FARTHEST : 0;
        double low = Math.log(range.shortest() / centre) - reach - ROUNDING;
        double high = Math.log(range.longest() / centre) + reach + ROUNDING;
        if (!(figureOrBelow(figure, high) >= value)) {
            // What the curve says there tells whether it is contrast or the exposures that end too early.
            double found = figure.applyAsDouble(curve(p, at(high)));
            throw unreached(what, value, found, high, "less than that; develop a strip longer");
        }
        if (figureOrBelow(figure, low) > value) {
            throw unreached(
                    what,
                    value,
                    figure.applyAsDouble(curve(p, at(low))),
                    low,
                    "more than that; develop a strip for less time");
        }
        double z = Roots.boundary(at -> figureOrBelow(figure, at) < value, low, high, ROUNDING);
        double slope = slope(z, figure);
        double[] byParameters = byParameters(at(z), figure);
        for (int j = 0; j < byParameters.length; j++) {
            byParameters[j] = (wanted.byParameters()[j] - byParameters[j]) / slope;
        }
        double[] distances = distances(figure);
        for (int i = 0; i < distances.length; i++) {
            distances[i] = (wanted.distances()[i] - distances[i]) / slope;
        }
        return new Solved(z, byParameters, distances);
    }

    private DevelopmentException unreached(String what, double value, double found, double z, String remedy) {
        return new DevelopmentException(
                DevelopmentFailure.OUTSIDE_TESTED_TIMES,
                what + " of " + Figures.plain(value) + " is not reached within the tested times: after "
                        + DevelopmentTimes.inWords(DevelopmentTimes.ofMinutes(centre * Math.exp(z)))
                        + at(range.reference()) + " it is " + Figures.plain(found) + ", " + remedy);
    }

    private static String at(Temperature temperature) {
        return temperature == null ? "" : " at " + DevelopmentTimes.inWords(temperature);
    }

    /** A figure; if the curve is too thin to give it, as after a short time, it counts as less than any value. */
    private double figureOrBelow(ToDoubleFunction<CharacteristicCurve> figure, double z) {
        try {
            return figure.applyAsDouble(curve(p, at(z)));
        } catch (NotDeterminableException e) {
            return Double.NEGATIVE_INFINITY;
        }
    }

    private Question at(double z) {
        return new Question(
                z,
                0,
                Scope.TESTED,
                "curve after " + DevelopmentTimes.inWords(DevelopmentTimes.ofMinutes(centre * Math.exp(z)))
                        + at(range.reference()));
    }

    double value(Solved time, ToDoubleFunction<CharacteristicCurve> figure) {
        return figure.applyAsDouble(curve(p, at(time.z())));
    }

    /** A solved time at a temperature. */
    PredictedTime time(Solved solved, Temperature asked) {
        Temperature at = range.temperatureOf(asked);
        double factor = at == null ? 1 : warp.factor(new double[0], at);
        double minutes = centre * Math.exp(solved.z());
        Scope scope = range.scopeOf(at, beyond).and(range.scopeOf(minutes, factor, at, beyond, ""));
        return new PredictedTime(
                predicted(Math.log(minutes / factor), solved.byParameters(), -warp.uncertaintyOfLogFactor(at), scope)
                        .widenedBy(size(solved.distances())),
                at);
    }

    /** A figure after a time whose position among the tested times is known. */
    PredictedFigure unguarded(PredictedTime time, ToDoubleFunction<CharacteristicCurve> figure) {
        double factor =
                time.temperature().map(at -> warp.factor(new double[0], at)).orElse(1.0);
        double z = Math.log(DevelopmentTimes.minutes(time.time()) * factor / centre);
        double uncertainty =
                time.temperature().map(warp::uncertaintyOfLogFactor).orElse(0.0);
        Question question = new Question(z, uncertainty, time.scope(), at(z).name());
        return figure(question, figure);
    }

    /**
     * The degrees of freedom of the sum of two variances. Two estimated ones go by Welch and Satterthwaite; beside a stated one,
     * which is exactly known, intervals would get too narrow that way.
     */
    private double degreesOfFreedom(double ofReadings, double ofDevelopment) {
        double sum = ofReadings + ofDevelopment;
        if (ofDevelopment == 0) {
            return degreesOfFreedom;
        }
        if (holdsStated()) {
            return StudentT.besideStated(degreesOfFreedom, ofReadings / sum);
        }
        double uncertain =
                ofReadings * ofReadings / degreesOfFreedom + ofDevelopment * ofDevelopment / scatter.degreesOfFreedom();
        return uncertain > 0 ? sum * sum / uncertain : degreesOfFreedom;
    }

    private double developmentVariance() {
        return holdsStated() ? repeatability * repeatability : scatter.variance();
    }

    private boolean holdsStated() {
        return repeatability > 0 && !scatter.exceeds(repeatability * repeatability);
    }

    /** A question that was allowed: its position among the times, how unsure the law of temperature makes it, and its name. */
    private record Question(double z, double uncertainty, Scope scope, String name) {

        Question moved(double step) {
            return new Question(z + step, uncertainty, scope, name);
        }
    }

    private Question asked(Duration time, Temperature asked) {
        double minutes = Checks.positive("time of development in minutes", DevelopmentTimes.minutes(time));
        Temperature at = range.temperatureOf(asked);
        double factor = at == null ? 1 : warp.factor(new double[0], at);
        Scope scope = range.scopeOf(at, beyond).and(range.scopeOf(minutes * factor, factor, at, beyond, ""));
        String name = "curve after " + DevelopmentTimes.inWords(time)
                + (at == null ? "" : " at " + DevelopmentTimes.inWords(at))
                + (scope == Scope.EXTRAPOLATED ? " (extrapolated)" : "");
        return new Question(Math.log(minutes * factor / centre), warp.uncertaintyOfLogFactor(at), scope, name);
    }

    private CharacteristicCurve curve(double[] parameters, Question question) {
        return CharacteristicCurve.of(
                question.name(),
                layout.form(parameters, question.z(), centre),
                new LogExposure(lowest(strips), strips.get(0).axis()),
                new LogExposure(highest(strips), strips.get(0).axis()),
                Density.of(layout.base(parameters, question.z())));
    }

    /**
     * Returns the residual standard deviation of all readings about the family.
     *
     * @return the deviation
     * @units density
     */
    public double residualStandardDeviation() {
        return residualStandardDeviation;
    }

    /**
     * Returns the number of parameters of the family.
     *
     * @return the number
     */
    public int parameterCount() {
        return p.length;
    }

    /**
     * Checks the family: leaves out one strip after another and predicts it from the others.
     *
     * @return one check for each strip, in their order; empty for fewer than three strips
     * @throws DevelopmentException if the remaining strips do not determine a family
     */
    public List<LeftOutStrip> leaveOneOut() {
        List<LeftOutStrip> checks = new ArrayList<>();
        if (strips.size() < 3) {
            return List.of();
        }
        for (int i = 0; i < strips.size(); i++) {
            List<DevelopedFigure> otherTimes = without(times, i);
            double[] minutes = equivalentMinutes(otherTimes, warp);
            if (Arrays.stream(minutes).distinct().count() > 1) {
                checks.add(check(strips.get(i), times.get(i), fit(curves.without(i), otherTimes, warp)));
            }
        }
        return List.copyOf(checks);
    }

    private static <T> List<T> without(List<T> all, int index) {
        List<T> others = new ArrayList<>(all);
        others.remove(index);
        return List.copyOf(others);
    }

    private static LeftOutStrip check(Strip strip, DevelopedFigure time, DevelopmentFamily others) {
        double minutes = equivalentMinutes(List.of(time), others.warp)[0];
        FamilyProblem problem = new FamilyProblem(
                others.layout,
                List.of(new FamilyProblem.StripReadings(strip, Math.log(minutes / others.centre))),
                others.centre);
        double[] residuals = new double[problem.residualCount()];
        problem.residuals(others.p, residuals);
        double sum = 0;
        double greatest = 0;
        for (double residual : residuals) {
            sum += residual * residual;
            greatest = Math.max(greatest, Math.abs(residual));
        }
        return new LeftOutStrip(
                strip.id(),
                time.time(),
                Math.sqrt(sum / residuals.length),
                greatest,
                others.range.contains(minutes) ? Scope.TESTED : Scope.EXTRAPOLATED);
    }

    /**
     * Returns the family in words.
     *
     * @return the numbers of strips and parameters, and the quality of the fit
     */
    @Override
    public String toString() {
        return "family of " + strips.size() + " strips, " + layout.family() + ", " + p.length
                + " parameters; residual standard deviation " + residualStandardDeviation;
    }
}
