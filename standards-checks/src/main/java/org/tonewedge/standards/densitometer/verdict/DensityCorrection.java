// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
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
 *
 * <p>The noise of a detector is constant in transmittance and so grows tenfold for each unit of density. s is interpolated
 * between the steps about the density, each pooled with its neighbours as long as they do not scatter otherwise, and raised to
 * the standard deviation of Student's t where it comes from few readings (JCGM 101:2008, 6.4.9), as if it had at least three
 * degrees of freedom. With two or one in all, where few readings were repeated, ± 2 u contains less than 95 % of the scatter:
 * 93 and 82 % of Student's t, in closed form. Simulated were 400 instruments
 * each (u of the certificate 0.005, three runs of three readings; {@code CorrectionSimulation 400 5 1e-4} and so on in the
 * tests). With tablets of 5, 6, 9 and 21 steps ± 2 u contained the true density at D 2.9 in 96, 95, 94 and 95 % if a reading of
 * D 2.9 scatters by 0.035, in 98 % if it scatters by 0.007; at lower densities in 96 % or more, since the error of the
 * certificate is counted in full.
 *
 * <p>A strip of such readings scatters more at its dense end. A fit that takes all readings as equally good then states too
 * little there: of 1,000 simulated strips its intervals contained the greatest density of 53 to 64 %, the start of the
 * shoulder of 83 to 87 %. Fit with a repeatability that varies with density ({@code Repeatability.of} a function of
 * density): 90 to 97 % and 95 to 98 %. The error of the correction is common to all readings of the strip, and no fit sees it:
 * after a tablet of five steps, gamma was contained in 72 to 88 %. Add it, as the uncertainty of the slope.
 *
 * <p>Immutable and thread safe.
 *
 * @source variance of an inverse calibration: NIST/SEMATECH e-Handbook of Statistical Methods, section 2.3.6.7.3, formula as
 *     given there for a line; the margin is the project's own
 */
public final class DensityCorrection {

    /** How far beyond the mean readings of the first and last steps the correction answers. */
    public static final double MARGIN = 0.02;

    private static final int PARTS = 8;
    /** A form with departures less probable than this does not fit. */
    private static final double LEAST_PROBABLE = 0.05;

    private final CorrectionKind kind;
    private final Calibration calibration;
    private final double lowest;
    private final double highest;
    private final DoubleUnaryOperator deviation;
    private final DoubleUnaryOperator certificate;

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
    }

    private DensityCorrection(
            CorrectionKind kind,
            Calibration calibration,
            double lowest,
            double highest,
            DoubleUnaryOperator deviation,
            DoubleUnaryOperator certificate) {
        this.kind = kind;
        this.calibration = calibration;
        this.lowest = lowest;
        this.highest = highest;
        this.deviation = deviation;
        this.certificate = certificate;
    }

    /**
     * Returns the correction that readings of a tablet need, in the simplest form that fits, without judging the instrument.
     * It is for instruments whose readings are not yet densities, such as the codes of a scanner; a densitometer is judged
     * first, by {@link DensitometerCheck}, so that a fault is found and not corrected.
     *
     * @param summary the readings
     * @return the correction: a line, a line and a leak, or else a monotone table
     * @throws DensitometerInputException if fewer than three steps were read, or a step reads less dense than the one before
     */
    public static DensityCorrection of(ReadingsSummary summary) {
        List<StepReadings> read =
                summary.densities().stream().filter(step -> step.count() > 0).toList();
        CertificateComparison comparison = CertificateComparison.of(read, 0);
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
            return of(CorrectionKind.OFFSET_AND_SLOPE, comparison);
        }
        boolean leaks = comparison.leakFit().isPresent()
                && comparison.probabilityOf(comparison.departuresFromLeak(), 3) > LEAST_PROBABLE;
        return of(leaks ? CorrectionKind.OFFSET_SLOPE_AND_LEAK : CorrectionKind.MONOTONE, comparison);
    }

    static DensityCorrection of(CorrectionKind kind, CertificateComparison comparison) {
        List<StepReadings> usable = comparison.steps().stream()
                .filter(step ->
                        step.step().number() < comparison.saturatedFrom().orElse(Integer.MAX_VALUE))
                .toList();
        Calibration calibration = switch (kind) {
            case OFFSET_AND_SLOPE -> new Line(comparison);
            case OFFSET_SLOPE_AND_LEAK -> new Leak(comparison);
            case MONOTONE -> new Pieces(comparison, usable);
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
                kind, calibration, lowest, highest, comparison::deviationOfReading, comparison::certificateAt);
    }

    private record Line(CertificateComparison of) implements Calibration {

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
    }

    private static final class Leak implements Calibration {

        private final LeakFit fit;
        private final double scale;

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
    }

    /**
     * Straight lines between steps; steps out of order were combined, by weight, into one. All weigh the same where the
     * uncertainty of a mean is not known.
     */
    private static final class Pieces implements Calibration {

        private final double[] readings;
        private final double[] densities;
        private final double[] variances;

        Pieces(CertificateComparison comparison, List<StepReadings> usable) {
            int size = usable.size();
            boolean known = IntStream.range(0, size).allMatch(i -> comparison.uncertaintyOfMean(i) > 0);
            double[] weights = new double[size];
            double[] ofMeans = new double[size];
            double[] means = new double[size];
            double[] certified = new double[size];
            int count = 0;
            for (int i = 0; i < size; i++) {
                double uncertainty = comparison.uncertaintyOfMean(i);
                ofMeans[count] = uncertainty * uncertainty;
                weights[count] = known ? 1 / ofMeans[count] : 1;
                means[count] = usable.get(i).mean();
                certified[count] = usable.get(i).step().density().value();
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

        /** How far the readings are from their chord between two steps, if they curve as much there as at the steps. */
        private double sagittaAt(double density, int piece) {
            double bend = Math.max(bendAt(piece), bendAt(piece + 1));
            return 0.5 * bend * Math.abs((density - densities[piece]) * (densities[piece + 1] - density));
        }

        /** The second derivative of the readings at a step, from the slopes on both sides; 0 at the ends. */
        private double bendAt(int step) {
            if (step == 0 || step == densities.length - 1) {
                return 0;
            }
            double change = slopeOf(step) - slopeOf(step - 1);
            return Math.abs(2 * change / (densities[step + 1] - densities[step - 1]));
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
        double slope = calibration.slopeAt(density);
        double scatter = deviation.applyAsDouble(density);
        double inReadings = scatter * scatter + calibration.varianceAt(density);
        double certified = certificate.applyAsDouble(density);
        return Estimate.of(density, Math.sqrt(inReadings / (slope * slope) + certified * certified));
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
