// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.ReadingCorrection;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/**
 * A calibration of a densitometer: turns its readings into true densities, with their uncertainty.
 *
 * <p>It answers within the readings of the tablet, from the mean of the clearest step to that of the densest step that
 * is not saturated, each extended by {@value #MARGIN} for the scatter of readings; outside this range it refuses. The
 * standard uncertainty of a corrected density includes the scatter of a single reading, the calibration and the
 * certificate:
 *
 * <p>u<sup>2</sup> = (s<sup>2</sup> + u<sub>fit</sub><sup>2</sup>) / m<sup>2</sup> + u<sub>X</sub><sup>2</sup>,
 *
 * <p>where m = dD<sub>m</sub>/dD is the slope at that density and u<sub>X</sub> the standard uncertainty of the
 * certificate there, counted in full because the steps of a certificate tend to have errors in common. For a
 * {@linkplain CorrectionKind#MONOTONE monotone} correction u<sub>fit</sub> includes the curvature of the readings
 * between two steps, ½ |D<sub>m</sub>″| (D − D<sub>i</sub>) (D<sub>i+1</sub> − D), which straight lines do not follow.
 * Where steps depart from a line as they would in at least 1 of 1,000 checks of a straight instrument, the errors of
 * the steps that {@link #forReadings forReadings} states are enlarged by the residual deviation, as those of a line
 * always are.
 *
 * <p>The noise of a detector is constant in transmittance and so grows tenfold for each unit of density. s is
 * interpolated between the steps about the density, each pooled with its neighbours as long as they do not scatter
 * otherwise, and raised to the standard deviation of Student's t where it comes from few readings (JCGM 101:2008,
 * 6.4.9); from 1 or 2 degrees of freedom, for which there is none, to half of Student's t for 95 %. The noise of the
 * dense end is known only if dense steps were read several times. Simulated were 10,000 instruments each (u of the
 * certificate 0.005, three runs of three readings; a reading of D 2.9 scatters by 0.035 or 0.007; {@code
 * CorrectionSimulation 10000 5 1e-4} and so on in the tests). The table gives how often ± 2 u contained the true
 * density, in percent: first where the steps of the certificate are wrong independently, then, behind the slash, where
 * all are wrong by the same amount. Few certificates tell which. As u allows for both, it is too large by up to the
 * uncertainty of the certificate:
 *
 * <pre>
 * scatter at D 2.9          0.035                        0.007
 * steps of the tablet  5     6     9     21          5     6     9     21
 * D 0.3              100/99 100/99 100/99 100/97   100/99 100/99 100/98 100/97
 * D 1.5              100/99 100/99 100/99 100/97   100/98 100/98 100/97 100/96
 * D 2.7               98/97  97/96  96/93  97/97   100/98 100/97 100/96 100/97
 * D 2.9               96/96  94/94  94/92  95/95    99/97  98/96  99/95  98/96
 * </pre>
 *
 * <p>A strip of such readings scatters more at its dense end. A fit that takes all readings as equally good then states
 * too little there: of 400 simulated strips its intervals contained the greatest density of 53 to 57 %, the start of
 * the shoulder of 83 to 85 %. Fit with a repeatability that varies with density ({@code Repeatability.of} a function of
 * density): 95 to 97 % in both ({@code CorrectionSimulation 400 5 1e-4 strips}, and with 9, and with {@code common}).
 *
 * <p>The error of the correction is common to all readings of an instrument, and no fit sees it: after a tablet of five
 * steps and with a quiet detector, the intervals of fits contained gamma in 69 or 76 % (with varying or equal
 * repeatability), after nine in 75 or 82 %. {@link #forReadings forReadings} states the errors of a correction one by
 * one, so that they enter every figure.
 *
 * <p>A bend that is not told from a line is not corrected. A line, with or without leak, therefore states how far the
 * instrument may depart from it without having shown it at the steps. By definition this is a Gaussian process with the
 * correlation exp(−(ΔD)²/2 l²), l a quarter of the range of the tablet (or the distance of its steps if that is
 * larger), and the greatest amplitude that the residuals allow: that at which ln L of the residuals is 2.706/2 below
 * its greatest, an upper limit of 95 %. The variances are those of the fit times the square of the residual deviation,
 * or times the mean part of them that is the readings' own if that is more: the rest is the certificate's, whose errors
 * may be common to its steps. The covariances of the line's error are those beside the residuals that were found, their
 * mean included. They are further terms of u² and further errors of {@link #forReadings forReadings}.
 *
 * <p>After a tablet of five steps of u 0.005, with a quiet detector, a bow of 0.016 (half a sine wave from D 0 to 3)
 * passed for a line in 73 and a whole wave of 0.010 in 144 of 300 checks. The table gives how often, in percent of the
 * strips then corrected by a line, intervals contained the truth, for equal repeatability: first those of the fit
 * alone, then, behind the slash, those with the errors of the correction ({@code CorrectionSimulation 300 5 1e-5 strips
 * bend=0.016,1} and {@code bend=0.01,2}):
 *
 * <pre>
 *                    bow of 0.016   wave of 0.010
 * speed point            99/100         88/100
 * gamma                  85/100          1/89
 * start of shoulder      44/100         24/99
 * greatest density       52/99          46/100
 * </pre>
 *
 * <p>Where light leaks in, by a transmittance of 0.0003, and a line with leak corrects it, after tablets of 9 and 21
 * steps, intervals contained gamma in 78.3 and 89.4 % by the fit alone, the greatest density in 56.2 and 62.3 %, the
 * start of the shoulder in 84.3 and 86.5 %, the speed point in 99.1 and 99.3 % ({@code CorrectionSimulation 1000 9 1e-5
 * strips leak=0.0003}, and with 21); with the errors of the correction in 100 % each (with 400 in place of 1000). They
 * are too wide for the reason that follows: u of gamma (varying repeatability) is 2.6 and 2.3 times what it would be
 * without the deviation from a line.
 *
 * <p>A straight instrument cannot be told from these, and pays: for equal repeatability, intervals of 200 strips
 * contained each figure in 99 to 100 %. With this component, u of gamma (varying repeatability) is 2.9, 2.4 and 1.7
 * times what it would be without after 5, 9 and 21 steps, at a gamma of 1.35 for example 0.0133 for 0.0046; that of the
 * speed point 2.3, 1.9 and 1.3 times (the same command with {@code 200}, for 21 steps with {@code 100}, without {@code
 * bend}). Read many steps where gradients matter.
 *
 * <p>Immutable and thread safe.
 *
 * @source variance of an inverse calibration: NIST/SEMATECH e-Handbook of Statistical Methods, section 2.3.6.7.3,
 *     formula as given there for a line; the margin is the project's own
 */
public final class DensityCorrection {

    /** How far beyond the mean readings of the first and last steps the correction answers. */
    public static final double MARGIN = 0.02;

    private static final int PARTS = 8;
    /** A form with departures less probable than this does not fit. */
    private static final double LEAST_PROBABLE = 0.05;
    /** Departures from a line that are less probable than this are the instrument's. */
    private static final double LEAST_BY_CHANCE = 0.001;

    private final CorrectionKind kind;
    private final Calibration calibration;
    private final double lowest;
    private final double highest;
    private final DoubleUnaryOperator deviation;
    private final DoubleUnaryOperator certificate;
    private final String tablet;
    private final List<Integer> steps;

    /**
     * One row of a correction table.
     *
     * @param reading the density read
     * @param corrected the true density
     * @param standardUncertainty the standard uncertainty of the true density
     * @units density
     */
    public record Row(double reading, double corrected, double standardUncertainty) {}

    /** The relation between readings and true densities. */
    private interface Calibration {

        /** The true density for a reading; NaN if there is none. */
        double inverse(double reading);

        /** The change of the reading with true density. */
        double slopeAt(double density);

        /** The variance of the calibration, in readings. */
        double varianceAt(double density);

        /**
         * What one standard uncertainty of the certified density of each step adds to a corrected density; 0 where not
         * known.
         */
        List<DoubleUnaryOperator> ofCertifiedSteps();

        /** What one standard uncertainty of each other error of the calibration adds to a corrected density. */
        List<DoubleUnaryOperator> others();

        /** The same of each error by which the instrument may depart from the form without having shown it. */
        List<PiecewiseError> unresolved();
    }

    private DensityCorrection(
            CorrectionKind kind,
            Calibration calibration,
            double lowest,
            double highest,
            CertificateComparison comparison,
            List<StepReadings> usable,
            String tablet) {
        this.kind = kind;
        this.calibration = calibration;
        this.lowest = lowest;
        this.highest = highest;
        deviation = comparison::deviationOfReading;
        certificate = comparison.certificate();
        this.tablet = tablet;
        steps = usable.stream().map(step -> step.step().number()).toList();
    }

    /**
     * Returns the correction that readings of a tablet need, in the simplest form that fits, without judging the
     * instrument. It is for instruments whose readings are not yet densities, such as the codes of a scanner; a
     * densitometer is judged first, by {@link DensitometerCheck}, so that a fault is found and not corrected. Here no
     * fault is looked for but steps that fall, in particular no step that was skipped: the curve of a scanner may look like one.
     *
     * @param summary the readings
     * @return the correction: a line, a line and a leak, or else a monotone table
     * @throws DensitometerInputException if fewer than three steps were read, or a step reads less dense than the one
     *     before
     */
    public static DensityCorrection of(ReadingsSummary summary) {
        List<StepReadings> read =
                summary.densities().stream().filter(step -> step.count() > 0).toList();
        CertificateComparison comparison = CertificateComparison.of(read, 0);
        String tablet = summary.tablet().name();
        int saturated = comparison.saturatedFrom().orElse(Integer.MAX_VALUE);
        comparison.fallingSteps().stream()
                .filter(number -> number < saturated)
                .findFirst()
                .ifPresent(number -> {
                    throw new DensitometerInputException(
                            Fault.UNSUITABLE,
                            "correction",
                            0,
                            "step " + number + " reads less dense than the step before it",
                            "look for a wrong number of steps, dust or a region beside the tablet");
                });
        if (!comparison.isLeakSignificant() && comparison.probabilityOf(comparison.departures(), 2) > LEAST_PROBABLE) {
            return of(CorrectionKind.OFFSET_AND_SLOPE, comparison, tablet);
        }
        boolean leaks = comparison.leakFit().isPresent()
                && comparison.probabilityOf(comparison.departuresFromLeak(), 3) > LEAST_PROBABLE;
        return of(leaks ? CorrectionKind.OFFSET_SLOPE_AND_LEAK : CorrectionKind.MONOTONE, comparison, tablet);
    }

    /** A correction by a tablet, which its name identifies. */
    static DensityCorrection of(CorrectionKind kind, CertificateComparison comparison, String tablet) {
        List<StepReadings> usable = comparison.steps().stream()
                .filter(step ->
                        step.step().number() < comparison.saturatedFrom().orElse(Integer.MAX_VALUE))
                .toList();
        Calibration calibration = switch (kind) {
            case OFFSET_AND_SLOPE -> Line.of(comparison);
            case OFFSET_SLOPE_AND_LEAK -> new Leak(comparison);
            case MONOTONE -> new Pieces(comparison, usable, errorsOfCertificate(comparison));
        };
        double lowest = usable.stream().mapToDouble(StepReadings::mean).min().orElse(0) - MARGIN;
        double highest = usable.stream().mapToDouble(StepReadings::mean).max().orElse(0) + MARGIN;
        while (Double.isNaN(calibration.inverse(highest)) && highest > lowest) {
            highest -= MARGIN / 2;
        }
        if (usable.size() < 2 || !(calibration.inverse(highest) > calibration.inverse(lowest))) {
            throw new DensitometerInputException(
                    Fault.UNSUITABLE,
                    "correction",
                    0,
                    "the readings do not rise with density",
                    "find the fault that spoils them first");
        }
        return new DensityCorrection(
                kind,
                calibration,
                lowest,
                highest,
                comparison,
                kind == CorrectionKind.MONOTONE ? usable : comparison.steps(),
                tablet);
    }

    /**
     * By how much the steps of the certificate may be worse than stated where straight pieces are drawn through them:
     * what a line leaves may be theirs, by chance, or a bend of the instrument.
     */
    private static double errorsOfCertificate(CertificateComparison comparison) {
        return comparison.probabilityOf(comparison.departures(), 2) > LEAST_BY_CHANCE
                ? Math.max(1, comparison.lineScale())
                : 1;
    }

    /**
     * By how much an instrument may depart from the fitted form; nothing if all readings are on it and none is known to
     * scatter. The errors of a certificate may be common to its steps and scatter less than stated; those of readings
     * are independent.
     */
    private static List<PiecewiseError> unresolved(
            CertificateComparison comparison,
            double[] departures,
            double residualDeviation,
            DoubleFunction<double[]> gradient,
            DoubleUnaryOperator slopeAt) {
        double[] densities = comparison.steps().stream()
                .mapToDouble(step -> step.step().density().value())
                .toArray();
        double ofReadings = IntStream.range(0, densities.length)
                .mapToDouble(i -> comparison.partOfReadings(i, slopeAt.applyAsDouble(densities[i])))
                .average()
                .orElseThrow();
        double scale = Math.max(residualDeviation * residualDeviation, ofReadings);
        if (!(scale > 0)) {
            return List.of();
        }
        double[] variances = new double[densities.length];
        Arrays.setAll(variances, i -> scale * comparison.varianceInFit(i, slopeAt.applyAsDouble(densities[i])));
        return UnresolvedDeviation.of(densities, departures, variances, gradient)
                .errors(slopeAt);
    }

    private record Line(CertificateComparison of, List<PiecewiseError> unresolved) implements Calibration {

        static Line of(CertificateComparison comparison) {
            return new Line(
                    comparison,
                    DensityCorrection.unresolved(
                            comparison,
                            comparison.departures(),
                            comparison.line().residualDeviation(),
                            d -> new double[] {1, d},
                            d -> comparison.line().slope()));
        }

        @Override
        public double inverse(double reading) {
            return (reading - of.line().intercept()) / of.line().slope();
        }

        @Override
        public double slopeAt(double density) {
            return of.line().slope();
        }

        @Override
        public double varianceAt(double density) {
            return of.lineScale() * of.lineScale() * of.line().varianceAt(density);
        }

        @Override
        public List<DoubleUnaryOperator> ofCertifiedSteps() {
            return asDensities(errors().ofSteps());
        }

        @Override
        public List<DoubleUnaryOperator> others() {
            return asDensities(errors().others());
        }

        private ParameterErrors errors() {
            ErrorsInBothLine line = of.line();
            double[] certified = of.certifiedInFit();
            Arrays.setAll(certified, i -> line.slope() * certified[i]);
            return ParameterErrors.of(line.covariances(), of.lineScale(), line.influences(), certified);
        }

        private List<DoubleUnaryOperator> asDensities(List<double[]> parameters) {
            return parameters.stream()
                    .<DoubleUnaryOperator>map(
                            each -> new ParametricError(of.line().slope(), 0, each[0], each[1], 0))
                    .toList();
        }
    }

    private static final class Leak implements Calibration {

        private final LeakFit fit;
        private final double scale;
        private final ParameterErrors errors;
        private final List<PiecewiseError> unresolved;

        Leak(CertificateComparison comparison) {
            fit = comparison
                    .leakFit()
                    .orElseThrow(() -> new DensitometerInputException(
                            Fault.MISSING,
                            "correction",
                            0,
                            "a leak cannot be determined from "
                                    + comparison.steps().size() + " steps",
                            "read at least " + LeakFit.FEWEST_POINTS + " steps over a wide range of densities"));
            scale = comparison.leakScale();
            double[] certified = comparison.certifiedInFit();
            List<StepReadings> steps = comparison.steps();
            Arrays.setAll(
                    certified, i -> fit.slopeAt(steps.get(i).step().density().value()) * certified[i]);
            errors = ParameterErrors.of(fit.covariances(), scale, fit.influences(), certified);
            unresolved = DensityCorrection.unresolved(
                    comparison,
                    comparison.departuresFromLeak(),
                    fit.residualDeviation(),
                    fit::gradientAt,
                    fit::slopeAt);
        }

        @Override
        public double inverse(double reading) {
            double transmittance = Math.pow(10, -(reading - fit.offset()) / fit.slope()) - fit.leak();
            return transmittance > 0 ? -Math.log10(transmittance) : Double.NaN;
        }

        @Override
        public double slopeAt(double density) {
            return fit.slopeAt(density);
        }

        @Override
        public double varianceAt(double density) {
            return scale * scale * fit.varianceAt(density);
        }

        @Override
        public List<DoubleUnaryOperator> ofCertifiedSteps() {
            return asDensities(errors.ofSteps());
        }

        @Override
        public List<DoubleUnaryOperator> others() {
            return asDensities(errors.others());
        }

        @Override
        public List<PiecewiseError> unresolved() {
            return unresolved;
        }

        private List<DoubleUnaryOperator> asDensities(List<double[]> parameters) {
            return parameters.stream()
                    .<DoubleUnaryOperator>map(
                            each -> new ParametricError(fit.slope(), fit.leak(), each[0], each[1], each[2]))
                    .toList();
        }
    }

    /**
     * Straight lines between steps; steps out of order were combined, by weight, into one. All weigh the same where the
     * uncertainty of a mean is not known.
     */
    private static final class Pieces implements Calibration {

        private final double[] readings;
        private final double[] densities;
        private final double[] variances;
        /** By step as read, then by step as combined: its share in the certified density times its uncertainty. */
        private final double[][] certificates;

        Pieces(CertificateComparison comparison, List<StepReadings> usable, double scale) {
            int size = usable.size();
            boolean known = IntStream.range(0, size).allMatch(i -> comparison.uncertaintyOfMean(i) > 0);
            double[] weights = new double[size];
            double[] ofMeans = new double[size];
            double[] means = new double[size];
            double[] certified = new double[size];
            double[][] shares = new double[size][size];
            int count = 0;
            for (int i = 0; i < size; i++) {
                double uncertainty = comparison.uncertaintyOfMean(i);
                ofMeans[count] = uncertainty * uncertainty;
                weights[count] = known ? 1 / ofMeans[count] : 1;
                means[count] = usable.get(i).mean();
                certified[count] = usable.get(i).step().density().value();
                shares[i][count] = 1;
                count++;
                while (count > 1 && means[count - 1] <= means[count - 2]) {
                    double sum = weights[count - 2] + weights[count - 1];
                    means[count - 2] =
                            (weights[count - 2] * means[count - 2] + weights[count - 1] * means[count - 1]) / sum;
                    certified[count - 2] =
                            (weights[count - 2] * certified[count - 2] + weights[count - 1] * certified[count - 1])
                                    / sum;
                    ofMeans[count - 2] = (weights[count - 2] * weights[count - 2] * ofMeans[count - 2]
                                    + weights[count - 1] * weights[count - 1] * ofMeans[count - 1])
                            / (sum * sum);
                    for (double[] share : shares) {
                        share[count - 2] =
                                (weights[count - 2] * share[count - 2] + weights[count - 1] * share[count - 1]) / sum;
                        share[count - 1] = 0;
                    }
                    weights[count - 2] = sum;
                    count--;
                }
            }
            if (count < 2) {
                throw new DensitometerInputException(
                        Fault.UNSUITABLE,
                        "correction",
                        0,
                        "the readings do not rise with density",
                        "find the fault that spoils them first");
            }
            readings = Arrays.copyOf(means, count);
            densities = Arrays.copyOf(certified, count);
            variances = Arrays.copyOf(ofMeans, count);
            certificates = new double[size][count];
            for (int i = 0; i < size; i++) {
                for (int k = 0; k < count; k++) {
                    certificates[i][k] =
                            scale * shares[i][k] * usable.get(i).step().standardUncertainty();
                }
            }
        }

        private static int piece(double[] knots, double at) {
            int piece = 0;
            while (piece < knots.length - 2 && at >= knots[piece + 1]) {
                piece++;
            }
            return piece;
        }

        @Override
        public double inverse(double reading) {
            int i = piece(readings, reading);
            return densities[i]
                    + (reading - readings[i]) * (densities[i + 1] - densities[i]) / (readings[i + 1] - readings[i]);
        }

        @Override
        public double slopeAt(double density) {
            return slopeOf(piece(densities, density));
        }

        @Override
        public double varianceAt(double density) {
            int i = piece(densities, density);
            double sagitta = sagittaAt(density, i);
            return Math.max(variances[i], variances[i + 1]) + sagitta * sagitta;
        }

        @Override
        public List<DoubleUnaryOperator> ofCertifiedSteps() {
            return Arrays.stream(certificates)
                    .<DoubleUnaryOperator>map(atSteps -> PiecewiseError.along(boxed(densities), boxed(atSteps)))
                    .toList();
        }

        /** The error of the reading of each step, and the curvature of the readings between the steps. */
        @Override
        public List<DoubleUnaryOperator> others() {
            int pieces = densities.length - 1;
            List<DoubleUnaryOperator> errors = new ArrayList<>();
            for (int step = 0; step <= pieces; step++) {
                double[] starts = new double[pieces];
                double[] ends = new double[pieces];
                double deviation = Math.sqrt(variances[step]);
                if (step < pieces) {
                    starts[step] = deviation / slopeOf(step);
                }
                if (step > 0) {
                    ends[step - 1] = deviation / slopeOf(step - 1);
                }
                errors.add(new PiecewiseError(boxed(densities), boxed(starts), boxed(ends), boxed(new double[pieces])));
            }
            double[] none = new double[pieces];
            double[] bulges = new double[pieces];
            for (int i = 0; i < pieces; i++) {
                boolean below = bendAt(i) >= bendAt(i + 1);
                double sign = changeAt(below ? i : i + 1) < 0 ? 1 : -1;
                bulges[i] = sign * 0.5 * Math.max(bendAt(i), bendAt(i + 1)) / slopeOf(i);
            }
            errors.add(new PiecewiseError(boxed(densities), boxed(none), boxed(none), boxed(bulges)));
            return errors;
        }

        /** None: there is no form to depart from. */
        @Override
        public List<PiecewiseError> unresolved() {
            return List.of();
        }

        private static List<Double> boxed(double[] values) {
            return Arrays.stream(values).boxed().toList();
        }

        /** How far the readings are from their chord between two steps, if they curve as much there as at the steps. */
        private double sagittaAt(double density, int piece) {
            double bend = Math.max(bendAt(piece), bendAt(piece + 1));
            return 0.5 * bend * Math.abs((density - densities[piece]) * (densities[piece + 1] - density));
        }

        /** The second derivative of the readings at a step, from the slopes on both sides; 0 at the ends. */
        private double bendAt(int step) {
            double change = changeAt(step);
            return change == 0 ? 0 : Math.abs(2 * change / (densities[step + 1] - densities[step - 1]));
        }

        /** The change of the slope at a step; 0 at the ends. */
        private double changeAt(int step) {
            return step == 0 || step == densities.length - 1 ? 0 : slopeOf(step) - slopeOf(step - 1);
        }

        private double slopeOf(int piece) {
            return (readings[piece + 1] - readings[piece]) / (densities[piece + 1] - densities[piece]);
        }
    }

    /**
     * Returns the form of this correction.
     *
     * @return the kind
     */
    public CorrectionKind kind() {
        return kind;
    }

    /**
     * Returns the lowest reading for which it answers.
     *
     * @return the mean reading of the clearest step, minus the margin
     * @units density
     */
    public double lowestReading() {
        return lowest;
    }

    /**
     * Returns the highest reading for which it answers.
     *
     * @return the mean reading of the densest step that is not saturated, plus the margin; less if the leak leaves no
     *     true density for it
     * @units density
     */
    public double highestReading() {
        return highest;
    }

    /**
     * Returns the offset of the formula.
     *
     * @return a, or empty for a monotone correction
     * @units density
     */
    public OptionalDouble offset() {
        if (calibration instanceof Line line) {
            return OptionalDouble.of(line.of().line().intercept());
        }
        return calibration instanceof Leak leak ? OptionalDouble.of(leak.fit.offset()) : OptionalDouble.empty();
    }

    /**
     * Returns the slope of the formula.
     *
     * @return b, or empty for a monotone correction
     */
    public OptionalDouble slope() {
        if (calibration instanceof Line line) {
            return OptionalDouble.of(line.of().line().slope());
        }
        return calibration instanceof Leak leak ? OptionalDouble.of(leak.fit.slope()) : OptionalDouble.empty();
    }

    /**
     * Returns the leak of the formula.
     *
     * @return l, or empty for a correction without leak
     * @units transmittance
     */
    public OptionalDouble leak() {
        return calibration instanceof Leak leak ? OptionalDouble.of(leak.fit.leak()) : OptionalDouble.empty();
    }

    /**
     * Corrects a reading.
     *
     * @param reading the density read
     * @return the true density with the standard uncertainty of a single corrected reading
     * @throws OutsideMeasuredRangeException if the reading is outside the readings of the tablet
     */
    public Estimate correct(Density reading) {
        return correct(reading.value());
    }

    private Estimate correct(double reading) {
        if (!(reading >= lowest && reading <= highest)) {
            throw new OutsideMeasuredRangeException("reading D " + Figures.plain(reading) + " is outside the readings "
                    + Figures.plain(lowest) + " to " + Figures.plain(highest)
                    + " from which this correction was made; read a tablet with a larger range");
        }
        double density = calibration.inverse(reading);
        return Estimate.of(density, uncertaintyAt(density));
    }

    private double uncertaintyAt(double density) {
        double slope = calibration.slopeAt(density);
        double scatter = deviation.applyAsDouble(density);
        double inReadings = scatter * scatter + calibration.varianceAt(density);
        double certified = certificate.applyAsDouble(density);
        double variance = inReadings / (slope * slope) + certified * certified;
        for (PiecewiseError error : calibration.unresolved()) {
            double unresolved = error.applyAsDouble(density);
            variance += unresolved * unresolved;
        }
        return Math.sqrt(variance);
    }

    /**
     * Returns this correction for tables of readings, with the errors that all readings share. Those of the certificate
     * are one with the same sign at all densities and one for each step; they bear the name of the tablet, as in "step
     * 3 of tablet …". Instruments checked against one tablet share them, and so do films exposed through it, so give
     * each tablet a {@linkplain org.tonewedge.core.strip.StepTablet#name() name} of its own, such as its serial number.
     *
     * <p>The others belong to the instrument: those of the readings of the tablet, two for a line, three for a line and a
     * leak, each with those of what the instrument may depart from the form, and for a monotone correction one for each
     * step and one for the curvature between them. If a step's readings do not scatter, departures from a line do not
     * tell which part is the certificate's, and all of them belong to the instrument.
     *
     * <p>Strips that are read with it ({@code ReadingsReader.withDefaults().with(correction.forReadings("my
     * densitometer"))}) carry the errors into every figure, as {@link org.tonewedge.standards.SystematicUncertainty}
     * tells.
     *
     * @param name the name of the instrument; readings with a correction of one name share its errors, so give an
     *     instrument another name after a new check
     * @return the correction
     * @throws IllegalArgumentException if the name is blank or not on one line
     */
    public ReadingCorrection forReadings(String name) {
        return new OfReadings(this, Checks.label("name of a correction", name));
    }

    /** A correction that states its errors by source. */
    private static final class OfReadings implements ReadingCorrection {

        private final DensityCorrection correction;
        private final String name;
        private final Map<String, DoubleUnaryOperator> errors = new LinkedHashMap<>();

        OfReadings(DensityCorrection correction, String name) {
            this.correction = correction;
            this.name = name;
            errors.put("certificate of tablet " + correction.tablet, correction.certificate);
            // the opposite sign: through a denser step a film gets less exposure
            List<DoubleUnaryOperator> ofSteps = correction.calibration.ofCertifiedSteps();
            for (int i = 0; i < ofSteps.size(); i++) {
                errors.put(
                        "step " + correction.steps.get(i) + " of tablet " + correction.tablet,
                        correction.common(ofSteps.get(i), -1));
            }
            List<DoubleUnaryOperator> others = new ArrayList<>(correction.calibration.others());
            others.addAll(correction.calibration.unresolved());
            for (int i = 0; i < others.size(); i++) {
                errors.put("calibration of " + name + ", error " + (i + 1), correction.common(others.get(i), 1));
            }
        }

        @Override
        public String name() {
            return name;
        }

        @Override
        public Density correct(Density reading) {
            try {
                return Density.of(correction.correct(reading).value());
            } catch (OutsideMeasuredRangeException e) {
                throw new IllegalArgumentException(e.getMessage(), e);
            }
        }

        @Override
        public double standardUncertainty(Density corrected) {
            return correction.uncertaintyAt(correction.within(corrected.value()));
        }

        @Override
        public Map<String, DoubleUnaryOperator> commonErrors() {
            return Collections.unmodifiableMap(errors);
        }
    }

    private DoubleUnaryOperator common(DoubleUnaryOperator error, int sign) {
        return new CommonError(error, sign, calibration.inverse(lowest), calibration.inverse(highest));
    }

    /** An error within the densities for which the correction answers, and beyond them as at the nearest. */
    private record CommonError(DoubleUnaryOperator error, int sign, double lowest, double highest)
            implements DoubleUnaryOperator, Serializable {

        @Override
        public double applyAsDouble(double density) {
            return sign * error.applyAsDouble(Math.max(lowest, Math.min(highest, density)));
        }
    }

    /** The nearest density for which it answers. */
    private double within(double density) {
        return Math.max(calibration.inverse(lowest), Math.min(calibration.inverse(highest), density));
    }

    /**
     * Returns the correction as a table of equally spaced readings, for linear interpolation between its rows.
     *
     * @param rows the number of rows, from 2 to 10,000
     * @return the rows from the lowest to the highest reading
     * @throws IllegalArgumentException if the number is out of range
     */
    public List<Row> table(int rows) {
        Checks.within("rows of a correction table", rows, 2, 10_000, "");
        List<Row> table = new ArrayList<>(rows);
        for (int i = 0; i < rows; i++) {
            double reading = i == rows - 1 ? highest : lowest + i * (highest - lowest) / (rows - 1);
            Estimate corrected = correct(reading);
            table.add(new Row(reading, corrected.value(), corrected.standardUncertainty()));
        }
        return table;
    }

    /**
     * Returns the error of linear interpolation between the rows of a {@linkplain #table table}.
     *
     * @param rows the number of rows, from 2 to 10,000
     * @return the largest error, searched at seven positions between each two rows
     * @units density
     * @throws IllegalArgumentException if the number is out of range
     */
    public double interpolationError(int rows) {
        List<Row> table = table(rows);
        double largest = 0;
        for (int i = 0; i < rows - 1; i++) {
            Row left = table.get(i);
            Row right = table.get(i + 1);
            for (int part = 1; part < PARTS; part++) {
                double share = (double) part / PARTS;
                double reading = left.reading() + share * (right.reading() - left.reading());
                double straight = left.corrected() + share * (right.corrected() - left.corrected());
                largest = Math.max(largest, Math.abs(straight - calibration.inverse(reading)));
            }
        }
        return largest;
    }

    /**
     * Returns the correction in words.
     *
     * @return the formula with its numbers
     */
    @Override
    public String toString() {
        String range = " for readings from " + Figures.plain(lowest) + " to " + Figures.plain(highest);
        if (calibration instanceof Pieces pieces) {
            return "straight pieces through " + pieces.readings.length + " steps" + range;
        }
        String linear = "(reading " + Figures.signed(-offset().orElse(0)) + ") / " + Figures.plain(slope().orElse(1));
        return leak().isEmpty()
                ? "D = " + linear + range
                : String.format(Locale.ROOT, "D = -log10(10^-(%s) - %.3e)%s", linear, leak().getAsDouble(), range);
    }
}
