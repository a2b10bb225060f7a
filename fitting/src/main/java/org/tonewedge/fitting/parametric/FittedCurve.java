// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.internal.ShapeKind;
import org.tonewedge.fitting.numeric.DeltaMethod;
import org.tonewedge.fitting.numeric.Matrices;

/**
 * A curve fitted to readings, with everything that is known about its quality.
 *
 * <p>Standard uncertainties come from the linear model at the fitted parameters, C = s² (J<sup>T</sup> W
 * J)<sup>−1</sup>. Here s is the stated {@linkplain org.tonewedge.core.strip.Repeatability repeatability} or, without one, the
 * {@linkplain #residualStandardDeviation() residual standard deviation}. Intervals use Student's t with
 * {@link #degreesOfFreedom()}. With a robust loss W contains its weights, and s² is Huber's estimate, corrected for few
 * readings. These uncertainties cover what the readings show, but not errors that all readings share, such as a
 * densitometer that reads 0.02 too high everywhere.
 *
 * <p>{@link #estimate estimate} gives the uncertainty of any figure that can be read off a curve:
 *
 * <pre>{@code
 * Estimate speedPoint = fit.estimate(
 *         curve -> curve.pointAbove(DensityDifference.of(0.10)).logExposure().value());
 * CoverageInterval interval = fit.interval(figure, 0.95);
 * CoverageInterval fromRefits = fit.parametricBootstrap(1, 1000).interval(figure, 0.95);
 * }</pre>
 *
 * <p>Immutable and thread safe.
 *
 * @source propagation of uncertainty: JCGM 100:2008, 5.2.2
 */
public final class FittedCurve implements Recorded {

    /**
     * A reading this many standard deviations off the curve is an outlier (modified z-score, common practice, no
     * source).
     */
    private static final double OUTLYING = 3.5;

    /** A curve that falls below base plus fog by more than half the density of the speed point contradicts itself. */
    private static final double MOST_DIP = 0.05;

    /** The step for the derivatives of a figure, in standard uncertainties. */
    private static final double STEP = 0.02;

    private static final double LONGEST_STEP = 0.02;

    /** The limits of {@link Density}. */
    private static final double LEAST_DENSITY = -0.2;

    private static final double MOST_DENSITY = 10;

    /** With this few readings for each parameter a robust fit may trust a bad one. */
    private static final int FEW = 3;

    /** The readings do not determine a figure that owes more than this share of its variance to the softness prior. */
    private static final double MOST_PRIOR = 0.5;

    /** The standard deviation of the prior, in units of ln softness. */
    private static final double PRIOR_SPREAD = 1;

    private final CurveFit settings;
    private final FitInput input;
    private final CurveFamily family;
    private final ShapeFit fit;
    private final ParametricForm form;
    private final CharacteristicCurve curve;
    private final Rivals rivals;

    /** The fit of the whole family, if this one is of the part that the strip shows. */
    private final Optional<FittedCurve> whole;

    /**
     * Curves with slightly different parameters, each made once, so that code which reads many figures can keep what it
     * read off each.
     */
    private final Map<List<Double>, CharacteristicCurve> beside = new ConcurrentHashMap<>();

    FittedCurve(CurveFit settings, FitInput input, CurveFamily family, ShapeFit fit) {
        this(settings, input, family, fit, Rivals.NONE, Optional.empty());
    }

    private FittedCurve(
            CurveFit settings,
            FitInput input,
            CurveFamily family,
            ShapeFit fit,
            Rivals rivals,
            Optional<FittedCurve> whole) {
        this.rivals = rivals;
        this.whole = whole;
        this.settings = settings;
        this.input = input;
        this.family = family;
        this.fit = fit;
        double base = family.kind().shape().reachesBase()
                ? fit.offset()
                : input.basePlusFog(settings.loss()).orElseThrow().value();
        form = ParametricForm.ofSearch(family, fit.offset(), fit.scale(), fit.shape(), base);
        curve = curveOf(form, base);
    }

    /**
     * The same fit; the uncertainties of its figures also include how far the figures of other families lie from them.
     */
    FittedCurve among(Rivals others) {
        return new FittedCurve(settings, input, family, fit, others, whole);
    }

    /** The same fit; the uncertainties of its figures allow for the bends of the whole, which the strip does not show. */
    FittedCurve asPartOf(FittedCurve wholeFamily) {
        return new FittedCurve(settings, input, family, fit, rivals, Optional.of(wholeFamily));
    }

    private CharacteristicCurve curveOf(ParametricForm of, double base) {
        return CharacteristicCurve.of(input.name(), of, input.lowest(), input.highest(), Density.of(base));
    }

    /** The curve for other search parameters: offset, scale, shape and, if the shape has none, base plus fog. */
    CharacteristicCurve curveAt(double[] parameters) {
        int n = fit.shape().length;
        double[] shape = java.util.Arrays.copyOfRange(parameters, 2, 2 + n);
        double base = family.kind().shape().reachesBase() ? parameters[0] : parameters[n + 2];
        return curveOf(ParametricForm.ofSearch(family, parameters[0], parameters[1], shape, base), base);
    }

    /** Offset, scale, shape and, if the shape has none, base plus fog. */
    double[] searchParameters() {
        int n = fit.shape().length;
        double[] parameters = new double[family.parameters().size()];
        parameters[0] = fit.offset();
        parameters[1] = fit.scale();
        System.arraycopy(fit.shape(), 0, parameters, 2, n);
        if (!family.kind().shape().reachesBase()) {
            parameters[n + 2] = curve.basePlusFog().value();
        }
        return parameters;
    }

    /** The covariance of {@link #searchParameters()}. */
    private double[][] searchCovariance() {
        double[][] unscaled = fit.unscaledCovariance();
        double variance = fit.variance() * smallSample();
        int size = family.parameters().size();
        double[][] covariance = new double[size][size];
        for (int i = 0; i < unscaled.length; i++) {
            for (int j = 0; j < unscaled.length; j++) {
                covariance[i][j] = variance * unscaled[i][j];
            }
        }
        if (size > unscaled.length) {
            covariance[size - 1][size - 1] = fit.readingVariance() * input.basePlusFogVariance(settings.loss());
        }
        return covariance;
    }

    /**
     * Huber's estimate is made for many readings. With few, the median of the residuals, by which a robust fit judges
     * them, comes out too small. For p parameters and n readings the standard uncertainties must then be larger by 1 +
     * p/4n to cover as stated. This was found on simulated strips of 9 to 31 steps; the page on fit quality gives the
     * figures.
     */
    private double smallSample() {
        if (settings.loss() == RobustLoss.NONE || input.isVarianceKnown()) {
            return 1;
        }
        double factor = 1 + 0.25 * (fit.shape().length + 2) / fit.residuals().length;
        return factor * factor;
    }

    /**
     * Returns the curve over the measured exposures, with base plus fog as fitted.
     *
     * @return the curve
     */
    public CharacteristicCurve curve() {
        return curve;
    }

    /**
     * Returns the form of the curve with its parameters.
     *
     * @return the form
     */
    public ParametricForm form() {
        return form;
    }

    /**
     * Returns the family that was fitted: the one asked for, or the part of it that the strip shows.
     *
     * @return the family
     */
    public CurveFamily family() {
        return family;
    }

    /**
     * Returns a parameter with its standard uncertainty, which takes {@link #family()} as the true one. Parameters of
     * different families cannot be compared; a figure by {@link #estimate estimate} can.
     *
     * @param parameter a parameter of {@link #family()}
     * @return the estimate; its uncertainty is 0 for a parameter held at a limit, which {@link #notes()} reports
     * @throws IllegalArgumentException if the family does not have the parameter
     * @throws NotDeterminableException if the parameter depends more on the softness prior than on the readings;
     *     {@link ParametricForm#parameter ParametricForm.parameter} gives its value alone
     */
    public Estimate parameter(CurveParameter parameter) {
        Objects.requireNonNull(parameter, "parameter");
        double value = form.parameter(parameter);
        int index = family.parameters().indexOf(parameter);
        double variance = covariance()[index][index];
        if (isOfPrior(index, variance)) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    input.name() + ": " + parameter
                            + " is not determined by the readings; a prior holds it near the usual value: read more steps in the toe and the"
                            + " shoulder");
        }
        return estimateOf(value, Math.sqrt(variance));
    }

    /** Whether a parameter owes more of its variance to the prior than to the readings. */
    private boolean isOfPrior(int index, double variance) {
        if (!usesSoftnessPrior()) {
            return false;
        }
        double[] derivatives = new double[family.parameters().size()];
        double[][] naturalBySearch = family.kind().naturalBySearch(fit.shape());
        if (index >= 2 && index - 2 < naturalBySearch.length) {
            System.arraycopy(naturalBySearch[index - 2], 0, derivatives, 2, naturalBySearch.length);
        } else {
            derivatives[index] = 1;
        }
        return varianceOfPrior(derivatives, searchCovariance()) > MOST_PRIOR * variance;
    }

    /**
     * Returns the parameters that the readings determine, with their standard uncertainties.
     *
     * @return the estimates in the order of {@link CurveFamily#parameters()}, without those that {@link #parameter parameter} refuses;
     *     unmodifiable
     */
    public Map<CurveParameter, Estimate> parameters() {
        Map<CurveParameter, Estimate> estimates = new LinkedHashMap<>();
        double[] values = form.parameters();
        double[][] covariance = covariance();
        for (int i = 0; i < values.length; i++) {
            if (!isOfPrior(i, covariance[i][i])) {
                estimates.put(family.parameters().get(i), estimateOf(values[i], Math.sqrt(covariance[i][i])));
            }
        }
        return Collections.unmodifiableMap(estimates);
    }

    /**
     * Returns the interval of a parameter.
     *
     * @param parameter a parameter of {@link #family()}
     * @param confidence such as 0.95
     * @return the interval: estimate ± t times its standard uncertainty
     * @throws IllegalArgumentException if the family does not have the parameter, or the confidence is not between 0 and 1
     * @throws NotDeterminableException as {@link #parameter parameter} does
     */
    public CoverageInterval interval(CurveParameter parameter, double confidence) {
        return parameter(parameter).interval(confidence);
    }

    /**
     * Returns the factor that turns a standard uncertainty of this fit into an expanded one.
     *
     * @param confidence such as 0.95
     * @return the quantile of Student's t with {@link #degreesOfFreedom()}
     * @throws IllegalArgumentException if the confidence is not between 0 and 1
     * @source JCGM 100:2008, G.3.3
     */
    public double coverageFactor(double confidence) {
        return StudentT.coverageFactor(confidence, degreesOfFreedom());
    }

    /**
     * Returns the covariance of the parameters.
     *
     * @return a new matrix, rows and columns in the order of {@link CurveFamily#parameters()}
     */
    public double[][] covariance() {
        double[][] covariance = searchCovariance();
        double[][] derivatives = family.kind().naturalBySearch(fit.shape());
        int n = derivatives.length;
        int size = covariance.length;
        double[][] jacobian = new double[size][size];
        for (int i = 0; i < size; i++) {
            jacobian[i][i] = 1;
        }
        for (int i = 0; i < n; i++) {
            System.arraycopy(derivatives[i], 0, jacobian[i + 2], 2, n);
        }
        return times(times(jacobian, covariance), transposed(jacobian));
    }

    private static double[][] times(double[][] a, double[][] b) {
        double[][] product = new double[a.length][b[0].length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b[0].length; j++) {
                for (int k = 0; k < b.length; k++) {
                    product[i][j] += a[i][k] * b[k][j];
                }
            }
        }
        return product;
    }

    private static double[][] transposed(double[][] a) {
        double[][] transposed = new double[a[0].length][a.length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < a[0].length; j++) {
                transposed[j][i] = a[i][j];
            }
        }
        return transposed;
    }

    /**
     * Returns the residual standard deviation: the square root of the weighted sum of squared residuals divided by the
     * number of readings minus the number of parameters.
     *
     * @return the deviation, in density; with stated repeatabilities, in multiples of them
     */
    public double residualStandardDeviation() {
        return Math.sqrt(fit.sumOfSquares() / fit.degreesOfFreedom());
    }

    /**
     * Returns the degrees of freedom of the standard uncertainties.
     *
     * @return the number of readings minus the number of parameters; if the repeatability does not come from the
     *     residuals, that of the repeat readings, or infinity
     */
    public double degreesOfFreedom() {
        return input.isVarianceKnown() ? input.knownFreedom() : fit.degreesOfFreedom();
    }

    /**
     * Returns the verdict on whether the curve follows its readings.
     *
     * @return the verdict
     */
    public LackOfFit lackOfFit() {
        return new FitJudge(input, fit, form).verdict();
    }

    /**
     * Returns the number of iterations that the search took.
     *
     * @return the iterations, all stages together
     */
    public int iterations() {
        return fit.search().iterations();
    }

    /**
     * Returns how well the readings separate the parameters: the square root of the ratio of the greatest to the least
     * eigenvalue of their correlation matrix.
     *
     * @return 1 if the estimates are independent; above some thousands the parameters can hardly be separated
     */
    public double conditionNumber() {
        return Matrices.correlationCondition(fit.unscaledCovariance());
    }

    /**
     * Tells whether the {@linkplain CurveFit softness prior} was used.
     *
     * @return true if a softness is held near the usual one because the readings do not determine it
     */
    public boolean usesSoftnessPrior() {
        return fit.search().penalised();
    }

    /**
     * Returns the small-sample information criterion AICc, which compares families fitted to the same readings. Robust
     * fits are comparable only if they share one standard deviation of a reading; {@link ModelComparison} sees to that.
     * This method uses the fit's own.
     *
     * @return the criterion: less is better; infinite if there are too few readings
     */
    public double aicc() {
        return aicc(fit.readingVariance());
    }

    /** Refuses a comparison by the criterion with a plain fit of other readings. */
    void requireComparable(FitInput other) {
        String what = settings.loss() != RobustLoss.NONE
                ? "with the loss " + settings.loss()
                : input.isSameAs(other) ? "" : "to other readings or with another repeatability";
        if (!what.isEmpty()) {
            throw new IllegalArgumentException(other.name() + " cannot be compared with a fit of " + input.name() + " "
                    + what + ": fit both to the same readings, with the same repeatability and without a robust loss");
        }
    }

    /** The criterion with a given variance of a reading of weight 1, which only a robust loss needs. */
    double aicc(double variance) {
        return Akaike.criterion(input, family, fit, settings.loss(), variance);
    }

    /** The criterion without the correction for few readings. */
    double aic(double variance) {
        return Akaike.uncorrected(input, family, fit, settings.loss(), variance);
    }

    /**
     * Returns all readings compared with the curve, those of base plus fog last.
     *
     * @return the readings by rising exposure
     */
    public List<FittedReading> readings() {
        List<FittedReading> readings = new ArrayList<>();
        double[] densities = input.readings().densities();
        int fitted = fit.residuals().length;
        for (int i = 0; i < densities.length; i++) {
            Optional<LogExposure> exposure =
                    i < input.readings().exposed() ? Optional.of(input.exposure(i)) : Optional.empty();
            double residual = i < fitted
                    ? -fit.residuals()[i]
                    : densities[i] - curve.basePlusFog().value();
            double deviation =
                    Math.sqrt(fit.readingVariance() / input.readings().weights()[i]);
            double standardised = deviation > 0 ? residual / deviation : 0;
            readings.add(new FittedReading(
                    input.name(),
                    exposure,
                    Density.of(densities[i]),
                    DensityDifference.of(residual),
                    standardised,
                    i < fitted ? fit.lossWeights()[i] : settings.loss().loss().weight(standardised)));
        }
        return List.copyOf(readings);
    }

    /**
     * Returns the readings that lie more than 3.5 standard deviations off the curve. Look there for dust, a finger
     * mark, or two swapped steps. A bad reading pulls a plain least-squares curve towards itself and so hides; fit with
     * {@link RobustLoss#TUKEY} to find it.
     *
     * @return the readings, the worst first; empty if all are trusted
     */
    public List<FittedReading> outliers() {
        return readings().stream()
                .filter(reading -> Math.abs(reading.standardised()) > OUTLYING)
                .sorted((a, b) -> Double.compare(Math.abs(b.standardised()), Math.abs(a.standardised())))
                .toList();
    }

    /**
     * Returns what you should know before you use the curve.
     *
     * @return sentences; empty for a complete strip that the curve follows, fitted without help
     */
    public List<String> notes() {
        List<String> notes = new ArrayList<>(notesBesidesVerdict());
        LackOfFit lack = lackOfFit();
        if (lack.isRejected()) {
            notes.add(
                    "The curve " + lack + ": its figures may be off by more than their uncertainties say. Look for bad"
                            + " readings; StripFit finds a curve that follows the readings, or refuses.");
        }
        return List.copyOf(notes);
    }

    /** The notes without the {@linkplain #lackOfFit() verdict}. */
    List<String> notesBesidesVerdict() {
        List<String> notes = new ArrayList<>();
        if (family != settings.family()) {
            notes.add(input.name()
                    + (input.hasEnoughFor(settings.family()) ? " does not show all of " : " has too few readings for ")
                    + settings.family() + "; fitted was " + family + " alone.");
        }
        if (usesSoftnessPrior()) {
            notes.add("The readings do not determine a softness; a weak prior holds it near the usual value.");
        }
        if (fit.search().offsetHeld()) {
            notes.add("Base plus fog would come out below " + Figures.plain(fit.offset())
                    + "; it is fixed there, without an uncertainty. Read it on an unexposed part.");
        }
        double dip = dip();
        if (input.basePlusFogReadings() == 0
                && dip
                        > Math.max(
                                MOST_DIP,
                                OUTLYING
                                        * Math.sqrt(readingVariance(
                                                curve.basePlusFog().value())))) {
            notes.add("Base plus fog is " + Figures.plain(Math.rint(dip * 100) / 100)
                    + " above where the curve begins, so the readings do not determine it, nor figures counted from it: read an"
                    + " unexposed part.");
        }
        int held = fit.search().heldParameter();
        if (held >= 0 && ShapeKind.isNothing(fit.shape()[held])) {
            notes.add(
                    "Toe and shoulder run together and leave no straight line: the parameter gradient is not the contrast"
                            + " of this curve; read its greatest gradient instead.");
        } else if (held >= 0) {
            notes.add(
                    "The shoulder lies so far beyond the readings that its position is not determined: it is fixed, without"
                            + " an uncertainty. Fit the part that the strip shows.");
        }
        if (input.isVarianceKnown() && residualStandardDeviation() > 2 * Math.sqrt(input.knownVariance())) {
            notes.add("The readings scatter about the curve more than twice as much as " + input.repeatability()
                    + " allows; the uncertainties are too small.");
        }
        if (settings.loss() != RobustLoss.NONE
                && input.basePlusFogReadings() == 0
                && input.readings().size() <= FEW * (fit.shape().length + 2)) {
            notes.add("With " + input.readings().size() + " readings for " + (fit.shape().length + 2)
                    + " parameters and none of base plus fog, a robust loss cannot distinguish a bad reading from the beginning"
                    + " of a toe or a shoulder: look at the plot, read base plus fog, or read more steps.");
        }
        notes.addAll(rivals.notes());
        return List.copyOf(notes);
    }

    /** How far the curve lies below its base plus fog at one of the readings; 0 or less if it does not. */
    private double dip() {
        double least = Double.POSITIVE_INFINITY;
        for (double x : input.readings().logExposures()) {
            least = Math.min(least, form.density(x));
        }
        return curve.basePlusFog().value() - least;
    }

    /**
     * Returns the density of the curve at an exposure with its standard uncertainty.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @return the estimate, in gross density
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if the exposure is outside the measured range
     * @throws NotDeterminableException if the fitted density is outside −0.2 to 10, the limits of a density
     */
    public Estimate densityAt(LogExposure logExposure) {
        curve.axis().requireSame(logExposure.axis(), "read " + curve.name() + " at " + logExposure);
        double density = curve.density(logExposure.value());
        if (!(density >= LEAST_DENSITY && density <= MOST_DENSITY)) {
            throw new NotDeterminableException(curve.name() + ": the fitted density at " + logExposure + " is "
                    + Figures.plain(density) + ", which is not a possible density (" + Figures.plain(LEAST_DENSITY)
                    + " to "
                    + Figures.plain(MOST_DENSITY)
                    + "): the fit leaves its readings there; look for bad readings, or fit"
                    + " another family");
        }
        double[] derivatives = form.densityBySearch(logExposure.value());
        Estimate own = estimateOf(density, Math.sqrt(DeltaMethod.variance(derivatives, searchCovariance())));
        ToDoubleFunction<CharacteristicCurve> figure = other -> other.density(logExposure.value());
        return rivals.among(allowingForTheWhole(own, figure), figure);
    }

    /**
     * Returns the confidence band at an exposure: the interval that contains the true curve, for this exposure by
     * itself.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @param confidence such as 0.95
     * @return the interval of the density
     * @throws IllegalArgumentException if the exposure is on another axis, or the confidence is not between 0 and 1
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if the exposure is outside the measured range
     * @throws NotDeterminableException if the fitted density is outside −0.2 to 10, the limits of a density
     */
    public CoverageInterval confidenceBand(LogExposure logExposure, double confidence) {
        return densityAt(logExposure).interval(confidence);
    }

    /**
     * Returns the prediction band at an exposure: the interval in which one more reading would lie.
     *
     * @param logExposure the exposure, on the axis of the curve
     * @param confidence such as 0.95
     * @return the interval of the reading
     * @throws IllegalArgumentException if the exposure is on another axis, or the confidence is not between 0 and 1
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if the exposure is outside the measured range
     * @throws NotDeterminableException if the fitted density is outside −0.2 to 10, the limits of a density
     */
    public CoverageInterval predictionBand(LogExposure logExposure, double confidence) {
        Estimate density = densityAt(logExposure);
        double reading = readingVariance(density.value());
        double total = Math.hypot(density.standardUncertainty(), Math.sqrt(reading));
        return estimateOf(density.value(), total).interval(confidence);
    }

    private double readingVariance(double density) {
        if (!input.isStated()) {
            return fit.readingVariance();
        }
        double deviation = input.deviationAt(density);
        return deviation * deviation;
    }

    /**
     * Returns a figure read off the curve with the standard uncertainty that the readings give it. The delta method is
     * used: the figure is read off curves with slightly different parameters, and the covariance of the parameters
     * gives its uncertainty.
     *
     * <p>If only a part of the family was fitted, because the strip does not show a bend, there may still be one. The
     * uncertainty is therefore not less than that of the whole family, and includes the distance d between the figures of
     * part and whole: u² = max(u<sub>part</sub>, u<sub>whole</sub>)² + d². If several families were compared, it also
     * includes how far the figure of each other family lies from this one, by its weight. A whole or another family that
     * does not give the figure is left out, and the uncertainty is then that of the rest. A figure that depends more on the
     * {@linkplain CurveFit softness prior} than on the readings is refused.
     *
     * @param figure reads the figure off a curve; it should change smoothly with the curve
     * @return the estimate, in the unit of the figure
     * @throws NotDeterminableException if the curve does not give the figure, or the readings do not determine it
     * @source spread between models: K. P. Burnham and D. R. Anderson, Model Selection and Multimodel Inference, 2nd ed.
     *     (2002), section 4.3 (from memory)
     */
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        return rivals.among(allowingForTheWhole(ownEstimate(figure), figure), figure);
    }

    /** The uncertainty of a part includes that the whole may be true; a whole that does not give the figure is left out. */
    private Estimate allowingForTheWhole(Estimate own, ToDoubleFunction<CharacteristicCurve> figure) {
        if (whole.isEmpty()) {
            return own;
        }
        Estimate other;
        try {
            other = whole.get().ownEstimate(figure);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return own; // the figure cannot be read off it, or is no valid density
        }
        boolean wider = other.standardUncertainty() > own.standardUncertainty();
        return Estimate.of(
                own.value(),
                Math.hypot(
                        Math.max(own.standardUncertainty(), other.standardUncertainty()), other.value() - own.value()),
                (wider ? other : own).degreesOfFreedom());
    }

    /** The figure with the uncertainty of its own family and the rivals, but no less than that of its family alone. */
    Estimate estimateAmongRivals(ToDoubleFunction<CharacteristicCurve> figure) {
        Estimate own = ownEstimate(figure);
        Estimate among = rivals.among(own, figure);
        return among.standardUncertainty() > own.standardUncertainty() ? among : own;
    }

    /** The figure with the uncertainty that it would have if its family were known to be the true one. */
    Estimate ownEstimate(ToDoubleFunction<CharacteristicCurve> figure) {
        double value = figure.applyAsDouble(curve);
        double[] parameters = searchParameters();
        double[][] covariance = searchCovariance();
        double[] steps = new double[parameters.length];
        Arrays.setAll(steps, k -> Math.min(STEP * Math.sqrt(covariance[k][k]), LONGEST_STEP));
        double[] derivatives = DeltaMethod.gradient(beside -> readOff(figure, beside), value, parameters, steps);
        if (Arrays.stream(derivatives).anyMatch(Double::isNaN)) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    input.name() + ": the figure is read off the fitted curve, but not off"
                            + " curves with slightly other parameters, so it has no uncertainty: read more steps around it");
        }
        double variance = DeltaMethod.variance(derivatives, covariance);
        if (usesSoftnessPrior() && varianceOfPrior(derivatives, covariance) > MOST_PRIOR * variance) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    input.name()
                            + ": the readings do not determine the figure; it depends on the usual softness of a toe or a"
                            + " shoulder: read more steps in the toe and the shoulder");
        }
        return estimateOf(value, Math.sqrt(variance));
    }

    /** The part of a figure's variance that comes from the width of the prior. */
    private double varianceOfPrior(double[] derivatives, double[][] covariance) {
        double sum = 0;
        for (int k = 0; k < fit.shape().length; k++) {
            if (fit.kind().isSoftness(k)) {
                double along = 0;
                for (int j = 0; j < derivatives.length; j++) {
                    along += covariance[k + 2][j] * derivatives[j];
                }
                sum += along * along / (PRIOR_SPREAD * PRIOR_SPREAD);
            }
        }
        return sum;
    }

    private Estimate estimateOf(double value, double standardUncertainty) {
        return Estimate.of(value, standardUncertainty, degreesOfFreedom());
    }

    /** The figure of a curve with other parameters; NaN if it leaves the measured range. */
    private double readOff(ToDoubleFunction<CharacteristicCurve> figure, double[] parameters) {
        try {
            return figure.applyAsDouble(
                    beside.computeIfAbsent(Arrays.stream(parameters).boxed().toList(), any -> curveAt(parameters)));
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return Double.NaN;
        }
    }

    /**
     * Returns the interval of a figure read off the curve: its estimate ± t times its standard uncertainty.
     *
     * @param figure reads the figure off a curve
     * @param confidence such as 0.95
     * @return the interval
     * @throws IllegalArgumentException if the confidence is not between 0 and 1
     * @throws NotDeterminableException if the curve does not give the figure
     */
    public CoverageInterval interval(ToDoubleFunction<CharacteristicCurve> figure, double confidence) {
        return estimate(figure).interval(confidence);
    }

    /**
     * Fits the curve again to many simulated sets of readings: the fitted curve plus new random errors of the fitted
     * standard deviation. Use this for figures that do not change smoothly with the curve, for intervals that are not
     * symmetrical, and for strips of a few dozen steps.
     *
     * @param seed the seed of the random numbers: the same seed gives the same result
     * @param replicates the number of sets, 2 or more; use 1,000 for intervals
     * @return the refitted curves
     * @throws IllegalArgumentException if there are fewer than 2 replicates
     * @source JCGM 101:2008; B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993) (from memory)
     */
    public Bootstrap parametricBootstrap(long seed, int replicates) {
        return Bootstrap.parametric(this, settings, input, seed, replicates);
    }

    /**
     * Fits the curve again to many sets of readings drawn with replacement from those at hand; exposed and unexposed
     * readings are drawn separately. This makes no assumption about the errors but needs many readings. With a few
     * dozen, its intervals are too narrow more often than stated, and sets with too few different exposures fail.
     *
     * @param seed the seed of the random numbers: the same seed gives the same result
     * @param replicates the number of sets, 2 or more; use 1,000 for intervals
     * @return the refitted curves
     * @throws IllegalArgumentException if there are fewer than 2 replicates
     * @source B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993) (from memory)
     */
    public Bootstrap caseBootstrap(long seed, int replicates) {
        return Bootstrap.ofCases(this, settings, input, seed, replicates);
    }

    ShapeFit shapeFit() {
        return fit;
    }

    /**
     * Returns the fit in words.
     *
     * @return the curve, its parameters and how well they fit
     */
    @Override
    public String toString() {
        return input.name() + ", " + form + "; residual standard deviation " + residualStandardDeviation();
    }

    /**
     * Returns the fit as named values: {@code family}, each {@link CurveParameter} in lower case with its uncertainty, and
     * how well the readings were met.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("family", family.name()));
        parameters()
                .forEach((parameter, value) -> records.add(
                        ResultRecord.ofEstimate(parameter.name().toLowerCase(Locale.ROOT), value, parameter.unit())));
        records.add(ResultRecord.ofNumber(
                "residual_standard_deviation", residualStandardDeviation(), input.unitOfResiduals()));
        records.add(ResultRecord.ofNumber("readings", readings().size(), ""));
        records.add(ResultRecord.ofNumber("outliers", outliers().size(), ""));
        records.add(ResultRecord.ofText("lack_of_fit", lackOfFit().toString()));
        return List.copyOf(records);
    }
}
