// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.ToDoubleFunction;
import java.util.function.ToLongFunction;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/**
 * One set of densities compared with the certificate: the straight line through the steps, the departures from it, the
 * leak, and the order of the steps.
 *
 * <p>The line is D<sub>m</sub> = a + b D with both densities uncertain (Deming's problem, solved by York's equations).
 * With a leak, D<sub>m</sub> = a − b log<sub>10</sub> (10<sup>−D</sup> + l): the detector sees the true transmittance
 * plus a constant l. Standard uncertainties follow from those of the steps, enlarged by the residual deviation if that
 * is above 1. If the uncertainty of a mean is not known, all steps have the same weight and only the residual deviation
 * counts. The scatter is that of all steps. If a step's own scatter differs by Fisher's F, it is that of the step and
 * its neighbours, up to 15 degrees of freedom; the limits are the project's own.
 *
 * <p>Immutable and thread safe.
 *
 * @source York et al., Am. J. Phys. 72 (2004) 367–375, from memory; the leak: additive stray light, common practice, no
 *     source
 */
public final class CertificateComparison implements Recorded {

    /** The fewest steps through which a line is drawn. */
    public static final int FEWEST_STEPS = 3;

    private static final int ENOUGH_DEGREES = 15;
    /** With fewer, Student's t has no standard deviation. */
    private static final int FEWEST_DEGREES = 3;

    /**
     * This many readings whose smallest change is this many times the printed step show a coarser step of the detector.
     */
    private static final int ENOUGH_FOR_STEPS = 6;

    private static final double COARSE = 4;
    private static final double CHANCE = 0.01;
    private static final double LEAST_STEP_RATIO = 0.2;
    private static final double COVERAGE = 0.95;
    private static final double MOST_DEGREES = 1e7;

    private static final Scatter SCATTER = new Scatter(
            StepReadings::degreesOfFreedom,
            step -> step.repeatability().orElse(0) * step.repeatability().orElse(0));
    private static final Scatter RUNS = new Scatter(step -> step.runs() - 1, StepReadings::varianceBetweenRuns);

    private final List<StepReadings> steps;
    private final double[] certified;
    private final double[] certifiedUncertainty;
    private final double[] certifiedInFit;
    private final double[] measuredInFit;
    private final double[] measured;
    private final double[] measuredUncertainty;
    private final double pooledRepeatability;
    private final double resolution;
    private final ErrorsInBothLine line;
    private final LeakFit leakFit;
    private final boolean isScatterKnown;
    private final double lineScale;
    private final double leakScale;

    /** A variance and its degrees of freedom. */
    private record Scatter(ToLongFunction<StepReadings> degrees, ToDoubleFunction<StepReadings> variance) {}

    private CertificateComparison(List<StepReadings> steps, double resolution) {
        this.steps = steps;
        this.resolution = resolution;
        int count = steps.size();
        certified = new double[count];
        certifiedUncertainty = new double[count];
        measured = new double[count];
        measuredUncertainty = new double[count];
        pooledRepeatability = pooled(steps, SCATTER, Double.POSITIVE_INFINITY).standardUncertainty();
        boolean known = true;
        for (int i = 0; i < count; i++) {
            StepReadings step = steps.get(i);
            certified[i] = step.step().density().value();
            certifiedUncertainty[i] = step.step().standardUncertainty();
            measured[i] = step.mean();
            measuredUncertainty[i] = uncertaintyOfMean(step);
            known &= measuredUncertainty[i] > 0;
        }
        double[] forLine = new double[count];
        double[] forLineCertified = new double[count];
        for (int i = 0; i < count; i++) {
            forLine[i] = known ? measuredUncertainty[i] : 1;
            forLineCertified[i] = known ? certifiedUncertainty[i] : 0;
        }
        isScatterKnown = known;
        certifiedInFit = forLineCertified;
        measuredInFit = forLine;
        line = ErrorsInBothLine.through(certified, forLineCertified, measured, forLine);
        leakFit = count >= LeakFit.FEWEST_POINTS
                ? LeakFit.through(certified, forLineCertified, measured, forLine)
                        .orElse(null)
                : null;
        lineScale = scale(line.residualDeviation(), known);
        leakScale = leakFit == null ? 1 : scale(leakFit.residualDeviation(), known);
    }

    static CertificateComparison of(List<StepReadings> steps, double resolution) {
        return of(steps, resolution, "");
    }

    /** The remark is added to the message if there are too few steps. */
    static CertificateComparison of(List<StepReadings> steps, double resolution, String remark) {
        if (steps.size() < FEWEST_STEPS) {
            throw new DensitometerInputException(
                    Fault.MISSING,
                    "log",
                    0,
                    "readings of " + steps.size() + " steps cannot be compared with a certificate" + remark,
                    "read at least " + FEWEST_STEPS + " steps");
        }
        return new CertificateComparison(steps, resolution);
    }

    private static double scale(double residualDeviation, boolean known) {
        return known ? Math.max(1, residualDeviation) : residualDeviation;
    }

    /** Whether a step was read twice within a run. */
    boolean isRepeatabilityKnown() {
        return steps.stream().anyMatch(step -> step.degreesOfFreedom() > 0);
    }

    /** The largest scatter of any step, within and between runs. */
    double scatters() {
        return steps.stream()
                .mapToDouble(step ->
                        step.repeatability().orElse(0) + step.betweenRuns().orElse(0))
                .max()
                .orElse(0);
    }

    /** Whether a step was read in two runs. */
    boolean isBetweenRunsKnown() {
        return steps.stream().anyMatch(step -> step.runs() > 1);
    }

    /**
     * Tells whether readings were repeated, so that their scatter is known. If not, the standard uncertainties of
     * offset, slope and leak do not include it.
     *
     * @return true if a step was read more than once
     */
    public boolean isScatterKnown() {
        return isRepeatabilityKnown() || isBetweenRunsKnown();
    }

    UncertaintyBudget.Entry repeatabilityOf(StepReadings step) {
        return pooledNear(step, SCATTER);
    }

    /** The component of variance between runs, with the degrees of freedom by Satterthwaite: F. E. Satterthwaite (1946). */
    UncertaintyBudget.Entry betweenRunsOf(StepReadings step) {
        UncertaintyBudget.Entry found = pooledNear(step, RUNS);
        double component = square(found.standardUncertainty());
        if (!(component > 0)) {
            return found;
        }
        UncertaintyBudget.Entry within = pooledNear(step, SCATTER);
        double perRun = (double) step.count() / step.runs();
        double ofMeans = square(within.standardUncertainty()) / perRun;
        double degrees = square(component)
                / (square(component + ofMeans) / found.degreesOfFreedom()
                        + square(ofMeans) / within.degreesOfFreedom());
        return new UncertaintyBudget.Entry(found.standardUncertainty(), degrees);
    }

    /** The scatter of all steps, or of the step and its neighbours if that differs: scatter may grow with density. */
    private UncertaintyBudget.Entry pooledNear(StepReadings step, Scatter kind) {
        UncertaintyBudget.Entry all = pooled(steps, kind, Double.POSITIVE_INFINITY);
        UncertaintyBudget.Entry near = pooled(nearest(step.step().density().value()), kind, ENOUGH_DEGREES);
        double ratio = near.standardUncertainty() / all.standardUncertainty();
        double more = Distributions.fisherExceeds(ratio * ratio, near.degreesOfFreedom(), all.degreesOfFreedom());
        return more > CHANCE && 1 - more > CHANCE ? all : near;
    }

    /** All steps, the nearest in density first. */
    private List<StepReadings> nearest(double density) {
        return steps.stream()
                .sorted(Comparator.comparingDouble(
                        step -> Math.abs(step.step().density().value() - density)))
                .toList();
    }

    /** The scatter of the first steps that together have enough degrees of freedom, or of all. */
    private static UncertaintyBudget.Entry pooled(List<StepReadings> steps, Scatter kind, double enough) {
        double squares = 0;
        long degrees = 0;
        for (int i = 0; i < steps.size() && degrees < enough; i++) {
            long own = kind.degrees().applyAsLong(steps.get(i));
            if (own > 0) {
                squares += (double) own * kind.variance().applyAsDouble(steps.get(i));
                degrees += own;
            }
        }
        return new UncertaintyBudget.Entry(
                Math.sqrt(Math.max(0, squares) / Math.max(1, degrees)), Math.max(1, degrees));
    }

    double resolutionAt(StepReadings step) {
        double change = step.count() >= ENOUGH_FOR_STEPS ? step.smallestChange().orElse(0) : 0;
        double unit = Math.max(resolution, step.densityOfOneCount().orElse(0));
        return change > COARSE * resolution && change > unit ? change : unit;
    }

    private double uncertaintyOfMean(StepReadings step) {
        double scatter = repeatabilityOf(step).standardUncertainty();
        double runs = pooledNear(step, RUNS).standardUncertainty();
        double unit = resolutionAt(step);
        return Math.sqrt(scatter * scatter / step.count() + runs * runs / step.runs() + unit * unit / 12);
    }

    double uncertaintyOfMean(int index) {
        return measuredUncertainty[index];
    }

    /**
     * The standard deviation of a single reading of a density. The noise of a detector grows as 10<sup>D</sup>, so scatter is
     * interpolated geometrically between the two steps about the density. What was estimated from few readings is raised to the
     * standard deviation of Student's t, √(ν/(ν − 2)): JCGM 101:2008, 6.4.9. For ν of 1 or 2 that is infinite; it is then half of
     * the t for 95 %, 6.35 or 2.15, so that twice the result has that coverage.
     */
    double deviationOfReading(double density) {
        int above = 1;
        while (above < certified.length - 1 && certified[above] < density) {
            above++;
        }
        double share =
                Math.max(0, Math.min(1, (density - certified[above - 1]) / (certified[above] - certified[above - 1])));
        double low = scatterAt(steps.get(above - 1));
        double high = scatterAt(steps.get(above));
        double scatter = low > 0 && high > 0
                ? Math.pow(low, 1 - share) * Math.pow(high, share)
                : (1 - share) * low + share * high;
        StepReadings step = nearest(density).get(0);
        double runs = betweenRunsOf(step).standardUncertainty();
        double unit = resolutionAt(step);
        return Math.sqrt(scatter * scatter + runs * runs + unit * unit / 12);
    }

    /** The scatter of a step and of those nearest to it that do not scatter otherwise, up to enough degrees of freedom. */
    private double scatterAt(StepReadings step) {
        double squares = 0;
        double degrees = 0;
        for (StepReadings near : nearest(step.step().density().value())) {
            double own = (double) SCATTER.degrees().applyAsLong(near);
            if (!(own > 0)) {
                continue;
            }
            double variance = SCATTER.variance().applyAsDouble(near);
            if (degrees > FEWEST_DEGREES) {
                double exceeds = Distributions.fisherExceeds(variance / (squares / degrees), own, degrees);
                if (degrees >= ENOUGH_DEGREES || exceeds < CHANCE || 1 - exceeds < CHANCE) {
                    break;
                }
            }
            squares += own * variance;
            degrees += own;
        }
        return degrees > 0 ? Math.sqrt(squares / degrees) * factorOf(degrees) : 0;
    }

    private static double factorOf(double degrees) {
        return degrees < FEWEST_DEGREES
                ? 0.5 * StudentT.coverageFactor(COVERAGE, degrees)
                : Math.sqrt(degrees / (degrees - 2));
    }

    /** The standard uncertainty of the certificate as a function of density. */
    PiecewiseError certificate() {
        return PiecewiseError.along(boxed(certified), boxed(certifiedUncertainty));
    }

    private static List<Double> boxed(double[] values) {
        return Arrays.stream(values).boxed().toList();
    }

    /**
     * The standard uncertainty of the certified density of each step; 0 if it is not known which part of the departures is the
     * certificate's.
     */
    double[] certifiedInFit() {
        return certifiedInFit.clone();
    }

    /** The variance of the reading of a step, as the fit weighted it where the slope is this. */
    double varianceInFit(int index, double slope) {
        return square(measuredInFit[index]) + square(slope * certifiedInFit[index]);
    }

    /** The part of that variance that is of the readings, not of the certificate; 0 if it is not known. */
    double partOfReadings(int index, double slope) {
        return isScatterKnown ? square(measuredInFit[index]) / varianceInFit(index, slope) : 0;
    }

    ErrorsInBothLine line() {
        return line;
    }

    double lineScale() {
        return lineScale;
    }

    Optional<LeakFit> leakFit() {
        return Optional.ofNullable(leakFit);
    }

    double leakScale() {
        return leakScale;
    }

    /**
     * Returns the steps that were compared.
     *
     * @return the readings of each step, from the clear end
     */
    public List<StepReadings> steps() {
        return steps;
    }

    /**
     * Returns the zero offset: the height of the line at density 0.
     *
     * @return a with its standard uncertainty
     * @units density
     */
    public Estimate zeroOffset() {
        return Estimate.of(line.intercept(), lineScale * Math.sqrt(line.interceptVariance()));
    }

    /**
     * Returns the slope of the line, 1 for a true densitometer.
     *
     * @return b with its standard uncertainty
     */
    public Estimate slope() {
        return Estimate.of(line.slope(), lineScale * Math.sqrt(line.slopeVariance()));
    }

    /**
     * Returns how far the mean of each step is from the line.
     *
     * @return mean − line, in the order of {@link #steps()}
     * @units density
     */
    public double[] departures() {
        double[] departures = new double[certified.length];
        for (int i = 0; i < departures.length; i++) {
            departures[i] = measured[i] - line.at(certified[i]);
        }
        return departures;
    }

    /**
     * Returns the step that departs most from the line.
     *
     * @return its place in {@link #steps()}, from 0
     */
    public int indexOfGreatestDeparture() {
        return indexOfLargest(departures());
    }

    static int indexOfLargest(double[] values) {
        int largest = 0;
        for (int i = 1; i < values.length; i++) {
            if (Math.abs(values[i]) > Math.abs(values[largest])) {
                largest = i;
            }
        }
        return largest;
    }

    /**
     * Returns the linearity: the largest departure of a step from the line.
     *
     * @return the departure with its sign
     * @units density
     */
    public double greatestDeparture() {
        return departures()[indexOfGreatestDeparture()];
    }

    /**
     * Returns the ratio of the departures from the line to what the scatter within runs and the uncertainty of the
     * certificate allow: Σ d<sub>i</sub><sup>2</sup> / (s<sub>r</sub><sup>2</sup>/n<sub>i</sub> + b<sup>2</sup>
     * u<sub>i</sub><sup>2</sup>) / (m − 2), for m steps with the certified standard uncertainties u<sub>i</sub>.
     * Without certificate uncertainties it is Fisher's F for lack of fit.
     *
     * @return the ratio, or empty if no step was read twice in a run
     * @source lack-of-fit test of a calibration line with replicates, textbook formula; including the certificate: the
     * project's own
     */
    public OptionalDouble lackOfFit() {
        if (!(pooledRepeatability > 0)) {
            return OptionalDouble.empty();
        }
        double sum = 0;
        double[] departures = departures();
        for (int i = 0; i < departures.length; i++) {
            sum += departures[i] * departures[i] / (scatterOfMean(i) + certificateOnLine(i));
        }
        return OptionalDouble.of(sum / (steps.size() - 2));
    }

    /** Mean less certified density of each step. */
    double[] errors() {
        double[] errors = new double[certified.length];
        for (int i = 0; i < errors.length; i++) {
            errors[i] = measured[i] - certified[i];
        }
        return errors;
    }

    /**
     * The probability of departures as large as these over all steps, if only scatter, resolution and certificate act;
     * 1 if none of them is known.
     */
    double probabilityOf(double[] departures, int parameters) {
        double sum = 0;
        double scatter = 0;
        double all = 0;
        for (int i = 0; i < departures.length; i++) {
            double own = square(measuredUncertainty[i]);
            double variance = own + certificateOnLine(i);
            if (!(variance > 0)) {
                return 1;
            }
            sum += square(departures[i]) / variance;
            scatter += own;
            all += variance;
        }
        int degrees = departures.length - parameters;
        double measured =
                steps.stream().mapToLong(StepReadings::degreesOfFreedom).sum();
        double share = all / scatter;
        double below = isScatterKnown() && scatter > 0 ? share * share * Math.max(1, measured) : MOST_DEGREES;
        return degrees < 1 ? 1 : Distributions.fisherExceeds(sum / degrees, degrees, Math.min(MOST_DEGREES, below));
    }

    private static double square(double value) {
        return value * value;
    }

    private double scatterOfMean(int index) {
        return pooledRepeatability * pooledRepeatability / steps.get(index).count();
    }

    private double certificateOnLine(int index) {
        double uncertainty = line.slope() * certifiedUncertainty[index];
        return uncertainty * uncertainty;
    }

    /**
     * Returns the probability of such a lack of fit if the true relation is a line.
     *
     * <p>The degrees of freedom of the denominator are those of the scatter, raised by the share of the certificate, whose
     * uncertainty is stated and not measured, as Welch and Satterthwaite do.
     *
     * @return the upper tail of Fisher's distribution at {@link #lackOfFit()}, or empty without it
     */
    public OptionalDouble lackOfFitProbability() {
        OptionalDouble ratio = lackOfFit();
        if (ratio.isEmpty()) {
            return ratio;
        }
        double scatter = 0;
        double all = 0;
        for (int i = 0; i < steps.size(); i++) {
            scatter += scatterOfMean(i);
            all += scatterOfMean(i) + certificateOnLine(i);
        }
        double share = all / scatter;
        double degrees = share
                * share
                * (double)
                        steps.stream().mapToLong(StepReadings::degreesOfFreedom).sum();
        return OptionalDouble.of(
                Distributions.fisherExceeds(ratio.getAsDouble(), steps.size() - 2, Math.min(MOST_DEGREES, degrees)));
    }

    /**
     * Returns the leak: the transmittance that the detector sees in addition to the sample's. It is negative if too
     * much dark is subtracted.
     *
     * @return l with its standard uncertainty, or empty with fewer than four steps or too small a range
     * @units transmittance
     */
    public Optional<Estimate> leak() {
        return leakFit().map(fit -> Estimate.of(fit.leak(), leakScale * Math.sqrt(fit.leakVariance())));
    }

    /**
     * Returns the zero offset in the model with leak: the height of its line where the sample's own transmittance and
     * the leak add up to 1.
     *
     * @return a of the line with leak and its standard uncertainty, or empty with fewer than four steps or too small a
     *     range
     * @units density
     */
    public Optional<Estimate> zeroOffsetBesideLeak() {
        return leakFit().map(fit -> Estimate.of(fit.offset(), leakScale * Math.sqrt(fit.offsetVariance())));
    }

    /**
     * Returns the slope in the model with leak; 1 for a densitometer whose only fault is the leak.
     *
     * @return b of the line with leak and its standard uncertainty, or empty with fewer than four steps or too small a
     *     range
     */
    public Optional<Estimate> slopeBesideLeak() {
        return leakFit().map(fit -> Estimate.of(fit.slope(), leakScale * Math.sqrt(fit.slopeVariance())));
    }

    /**
     * Tells whether the leak differs from zero.
     *
     * @return true if it is beyond its expanded uncertainty for 95 %
     */
    public boolean isLeakSignificant() {
        return leakFit != null
                && leakFit.degreesOfFreedom() > 0
                && Math.abs(leakFit.leak())
                        > StudentT.coverageFactor(COVERAGE, leakFit.degreesOfFreedom())
                                * leakScale
                                * Math.sqrt(leakFit.leakVariance());
    }

    /**
     * Returns how much density the leak removes at a density.
     *
     * @param density the true density
     * @return log<sub>10</sub> (1 + l / 10<sup>−D</sup>), negative for a negative leak; 0 if the leak is not known
     * @units density
     */
    public double lossByLeak(double density) {
        return leakFit == null ? 0 : Math.log10(1 + leakFit.leak() * Math.pow(10, density));
    }

    /** Departures of the means from the leak model, or from the line if there is no leak model. */
    double[] departuresFromLeak() {
        if (leakFit == null) {
            return departures();
        }
        double[] departures = new double[certified.length];
        for (int i = 0; i < departures.length; i++) {
            departures[i] = measured[i] - leakFit.at(certified[i]);
        }
        return departures;
    }

    /**
     * Returns the steps that read less dense than the step before.
     *
     * @return their numbers; empty if the readings rise as the certificate does
     */
    public List<Integer> fallingSteps() {
        List<Integer> falling = new ArrayList<>();
        for (int i = 1; i < measured.length; i++) {
            if (measured[i] < measured[i - 1]) {
                falling.add(steps.get(i).step().number());
            }
        }
        return List.copyOf(falling);
    }

    /**
     * Returns the step from which the densitometer no longer follows the tablet: from there to the dense end, readings
     * rise by less than a fifth of what the certificate does. The fifth is the project's own limit.
     *
     * @return the number of the first such step, or empty if even the last step can still be distinguished
     */
    public OptionalInt saturatedFrom() {
        int first = measured.length;
        while (first > 1
                && measured[first - 1] - measured[first - 2]
                        < LEAST_STEP_RATIO * (certified[first - 1] - certified[first - 2])) {
            first--;
        }
        return first == measured.length
                ? OptionalInt.empty()
                : OptionalInt.of(steps.get(first).step().number());
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the zero and the slope
     */
    @Override
    public String toString() {
        return "zero " + zeroOffset() + ", slope " + slope() + " over " + steps.size() + " steps";
    }

    /**
     * Returns the comparison as named values: {@code zero_offset}, {@code slope}, {@code leak}, without their uncertainties
     * unless the scatter {@linkplain #isScatterKnown() is known}; {@code greatest_departure} and {@code
     * greatest_departure.step}, {@code lack_of_fit} and its {@code lack_of_fit.probability}; {@code saturated_from}, the step
     * from which the readings no longer follow, if there is one; for each step {@code step.N.certified}, {@code .mean} and
     * {@code .departure} from the line. The leak and the lack of fit are missing, with the reason, where they could not be had.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        String density = "density";
        records.add(ifScatterIsKnown("zero_offset", zeroOffset(), density));
        records.add(ifScatterIsKnown("slope", slope(), ""));
        records.add(leak().map(found -> ifScatterIsKnown("leak", found, "transmittance"))
                .orElseGet(() -> ResultRecord.ofMissing(
                        "leak",
                        "transmittance",
                        "there are fewer than four steps or too small a range of densities: read more steps")));
        records.add(ResultRecord.ofNumber("greatest_departure", greatestDeparture(), density));
        records.add(ResultRecord.ofNumber(
                "greatest_departure.step",
                steps.get(indexOfGreatestDeparture()).step().number(),
                ""));
        records.add(ofRepeats("lack_of_fit", lackOfFit()));
        records.add(ofRepeats("lack_of_fit.probability", lackOfFitProbability()));
        saturatedFrom().ifPresent(step -> records.add(ResultRecord.ofNumber("saturated_from", step, "")));
        double[] departures = departures();
        for (int i = 0; i < measured.length; i++) {
            String name = "step." + steps.get(i).step().number();
            records.add(ResultRecord.ofNumber(name + ".certified", certified[i], density));
            records.add(ResultRecord.ofNumber(name + ".mean", measured[i], density));
            records.add(ResultRecord.ofNumber(name + ".departure", departures[i], density));
        }
        return List.copyOf(records);
    }

    private ResultRecord ifScatterIsKnown(String name, Estimate estimate, String unit) {
        return ResultRecord.ofNumber(
                name, estimate.value(), Optional.of(estimate).filter(known -> isScatterKnown()), unit);
    }

    private static ResultRecord ofRepeats(String name, OptionalDouble value) {
        return value.isPresent()
                ? ResultRecord.ofNumber(name, value.getAsDouble(), "")
                : ResultRecord.ofMissing(name, "", "no step was read twice in a run with different readings");
    }
}
