// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.calibration;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.numeric.LinearFit;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;

/**
 * The calibration of a densitometer at an open gate and one or more film steps of known density: the constants for its
 * firmware, and their uncertainty.
 *
 * <pre>{@code
 * DensitometerCalibration calibration = DensitometerCalibration.of(
 *         CalibrationForm.SLOPE,
 *         List.of(
 *                 CalibrationPoint.openGate(Estimate.of(0.000, 0.001)),
 *                 new CalibrationPoint(Estimate.of(3.02, 0.01), Estimate.of(2.95, 0.001))));
 * Estimate density = calibration.correct(Density.of(1.50), 0.002);
 * }</pre>
 *
 * <p>The model is reading r = a − b log<sub>10</sub> (10<sup>−D</sup> + l), with offset a, slope b and leak l as far as the
 * {@linkplain CalibrationForm form} has them. It is fitted by least squares with the weights 1/(u<sub>r</sub>² + (dr/dD)²
 * u<sub>D</sub>²). The corrected density is D = −log<sub>10</sub> (10<sup>−(r − a)/b</sup> − l), with u² = (s² + g C
 * g<sup>T</sup>)/(dr/dD)²: s is the standard deviation of the reading, C the covariance of the constants, g the derivative of
 * r by them.
 *
 * <p>The uncertainty is valid if the instrument follows the form. Few points cannot show whether it does: with as many
 * points as constants nothing remains to {@linkplain #misfitProbability() test}. Simulated (10,000 instruments in each
 * case, by {@code CalibrationSimulation} in the tests): certificate u = 0.005, readings s = 0.003, means of 5, true
 * slope 0.97 to 1.03; given are the standard uncertainty at D 0.3, 1.5 and 3.0 and how often the 95 % interval
 * contained the true density there. The leak of the last columns is 2·10<sup>−4</sup> (0.08 at D 3.0), which no two
 * points can tell from a slope:
 *
 * <pre>
 * form                   points       u at D 0.3  1.5    3.0    covered, %      with the leak, %
 * SLOPE                  0, 1.5           0.0032 0.0060 0.0108  95  95  95      95  95   0
 * SLOPE                  0, 3.0           0.0030 0.0040 0.0060  95  95  95      28   0  97
 * SLOPE_AND_LEAK         0, 1.5, 3.0      0.0032 0.0060 0.0060  95  95  95      95  96  95
 * OFFSET_SLOPE_AND_LEAK  0, 1.5, 3.0      0.0034 0.0060 0.0060  95  95  95      95  95  95
 * OFFSET_AND_SLOPE       6, 0.6 apart     0.0032 0.0035 0.0046  95  95  95      86   0   0
 * OFFSET_SLOPE_AND_LEAK  6, 0.6 apart     0.0032 0.0041 0.0059  95  95  95      95  95  95
 * OFFSET_SLOPE_AND_LEAK  11, 0.3 apart    0.0032 0.0036 0.0056  95  95  95      95  95  95
 * </pre>
 *
 * <p>Immutable and thread safe.
 *
 * @source leak and density: D = −log<sub>10</sub> of the transmittance, a leak adds to the light of every sample, common
 *     practice, no source; weights of errors in both coordinates: effective variance, J. Orear, American Journal of Physics 50
 *     (1982) 912–916, from memory; propagation: JCGM 100:2008, 5.1.2 and 5.2.2
 */
public final class DensitometerCalibration {

    /** How far beyond the readings of the points a correction is given. */
    private static final double MARGIN = 0.02;

    private static final int MOST_ITERATIONS = 100;
    private static final double PRECISION = 1e-12;

    private final CalibrationForm form;
    private final List<CalibrationPoint> points;
    private final double offset;
    private final double slope;
    private final double leak;
    private final LinearFit fit;

    private DensitometerCalibration(
            CalibrationForm form, List<CalibrationPoint> points, double[] constants, LinearFit fit) {
        this.form = form;
        this.points = points;
        this.fit = fit;
        offset = constants[0];
        slope = constants[1];
        leak = constants[2];
    }

    /**
     * Determines the constants.
     *
     * @param form which constants
     * @param points the open gate, if it was read, and the film steps; as many as constants, or more, of different densities
     * @return the calibration
     * @throws IllegalArgumentException if there are fewer points than constants, or the readings of two or more points are
     *     in another unit, such as transmittance
     * @throws NotDeterminableException if the points do not determine the constants, for example because all steps are
     *     too clear to show a leak
     */
    public static DensitometerCalibration of(CalibrationForm form, List<CalibrationPoint> points) {
        if (points.size() < form.constants()) {
            throw new IllegalArgumentException("the form " + form + " needs " + form.constants()
                    + " points or more, had " + points.size() + "; read another film step, or choose a simpler form");
        }
        checkUnit(points);
        double[] constants = {0, 1, 0};
        try {
            LinearFit step = null;
            for (int iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
                step = step(form, points, constants);
                double[] next = moved(form, points, constants, step);
                double change = Math.abs(next[0] - constants[0])
                        + Math.abs(next[1] - constants[1])
                        + Math.abs(next[2] - constants[2]);
                constants = next;
                if (change < PRECISION) {
                    return new DensitometerCalibration(form, List.copyOf(points), constants, step);
                }
            }
        } catch (ArithmeticException e) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "the points do not determine the constants of the form " + form
                            + "; read steps of different densities, including a dense one, or choose a simpler form");
        }
        throw new NotDeterminableException(
                Reason.CONTRADICTORY_READINGS,
                "the constants of the form " + form + " do not converge; is every reading at its"
                        + " right density, and is there a dense step to show a leak?");
    }

    private static void checkUnit(List<CalibrationPoint> points) {
        double[] densities =
                points.stream().mapToDouble(point -> point.certified().value()).toArray();
        double[] readings =
                points.stream().mapToDouble(point -> point.reading().value()).toArray();
        if (points.size() > 1) {
            ArithmeticFault.ofUnit(densities, readings).ifPresent(fault -> {
                CalibrationPoint furthest = points.stream()
                        .max(Comparator.comparingDouble(point -> Math.abs(
                                point.reading().value() - point.certified().value())))
                        .orElseThrow();
                throw new IllegalArgumentException("the point at D "
                        + Figures.plain(furthest.certified().value()) + " reads "
                        + Figures.plain(furthest.reading().value()) + ": " + fault.suspicion() + "; "
                        + fault.remedy());
            });
        }
    }

    private static LinearFit step(CalibrationForm form, List<CalibrationPoint> points, double[] constants) {
        double[][] rows = new double[points.size()][];
        double[] residuals = new double[points.size()];
        double[] weights = new double[points.size()];
        for (int i = 0; i < points.size(); i++) {
            CalibrationPoint point = points.get(i);
            double density = point.certified().value();
            rows[i] = derivatives(form, constants, density);
            residuals[i] = point.reading().value() - reading(constants, density);
            double ofCertificate =
                    gradient(constants, density) * point.certified().standardUncertainty();
            double ofReading = point.reading().standardUncertainty();
            weights[i] = 1 / (ofReading * ofReading + ofCertificate * ofCertificate);
        }
        return LinearFit.of(rows, residuals, weights);
    }

    /** The next constants; a negative leak takes at most half of the light of the densest point. */
    private static double[] moved(
            CalibrationForm form, List<CalibrationPoint> points, double[] constants, LinearFit step) {
        double[] next = constants.clone();
        int index = 0;
        if (form.hasOffset()) {
            next[0] += step.parameter(index++);
        }
        next[1] += step.parameter(index++);
        if (form.hasLeak()) {
            double densest = points.stream()
                    .mapToDouble(point -> point.certified().value())
                    .max()
                    .orElseThrow();
            next[2] = Math.max(next[2] + step.parameter(index), -0.5 * Math.pow(10, -densest));
        }
        if (!(next[1] > 0)) {
            throw new ArithmeticException("the slope is not above 0");
        }
        return next;
    }

    private static double reading(double[] constants, double density) {
        return constants[0] - constants[1] * Math.log10(Math.pow(10, -density) + constants[2]);
    }

    private static double gradient(double[] constants, double density) {
        double light = Math.pow(10, -density);
        return constants[1] * light / (light + constants[2]);
    }

    private static double[] derivatives(CalibrationForm form, double[] constants, double density) {
        double light = Math.pow(10, -density) + constants[2];
        double[] row = new double[form.constants()];
        int index = 0;
        if (form.hasOffset()) {
            row[index++] = 1;
        }
        row[index++] = -Math.log10(light);
        if (form.hasLeak()) {
            row[index] = -constants[1] / (light * Math.log(10));
        }
        return row;
    }

    private double[] constants() {
        return new double[] {offset, slope, leak};
    }

    /**
     * Returns the form.
     *
     * @return which constants were determined
     */
    public CalibrationForm form() {
        return form;
    }

    /**
     * Returns the points.
     *
     * @return the open gate and the film steps, as given
     */
    public List<CalibrationPoint> points() {
        return points;
    }

    /**
     * Returns the offset a.
     *
     * @return the offset with its standard uncertainty; exactly 0 if the form has none
     * @units density
     */
    public Estimate offset() {
        return form.hasOffset() ? Estimate.of(offset, deviation(0)) : Estimate.of(0, 0);
    }

    /**
     * Returns the slope b.
     *
     * @return the slope with its standard uncertainty
     */
    public Estimate slope() {
        return Estimate.of(slope, deviation(form.hasOffset() ? 1 : 0));
    }

    /**
     * Returns the leak l.
     *
     * @return the leak with its standard uncertainty; exactly 0 if the form has none
     * @units transmittance
     */
    public Estimate leak() {
        return form.hasLeak() ? Estimate.of(leak, deviation(form.constants() - 1)) : Estimate.of(0, 0);
    }

    private double deviation(int index) {
        return Math.sqrt(fit.cofactor(index, index));
    }

    /**
     * Returns the probability of a misfit at least this large, if the instrument follows the form and all uncertainties
     * are right. A small probability, say below 0.01, shows that the form is wrong or an uncertainty too small.
     *
     * @return the probability, by χ²; empty with as many points as constants, which always fit
     */
    public OptionalDouble misfitProbability() {
        int spare = points.size() - form.constants();
        return spare == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(Distributions.chiSquaredExceeds(fit.weightedSquares(), spare));
    }

    /**
     * Returns the lowest reading that is corrected.
     *
     * @return the lowest reading of the points, minus 0.02
     * @units density
     */
    public double lowestReading() {
        return points.stream()
                        .mapToDouble(point -> point.reading().value())
                        .min()
                        .orElseThrow()
                - MARGIN;
    }

    /**
     * Returns the highest reading that is corrected.
     *
     * @return the highest reading of the points, plus 0.02
     * @units density
     */
    public double highestReading() {
        return points.stream()
                        .mapToDouble(point -> point.reading().value())
                        .max()
                        .orElseThrow()
                + MARGIN;
    }

    /**
     * Corrects a reading.
     *
     * @param reading the density read
     * @param repeatability the standard deviation of this reading, 0 or more
     * @return the true density with its standard uncertainty
     * @throws OutsideMeasuredRangeException if the reading is outside the readings of the points
     * @throws IllegalArgumentException if the standard deviation is negative or not finite
     */
    public Estimate correct(Density reading, double repeatability) {
        double read = reading.value();
        if (!(read >= lowestReading() && read <= highestReading())) {
            throw new OutsideMeasuredRangeException("reading D " + Figures.plain(read) + " is outside the readings "
                    + Figures.plain(lowestReading()) + " to " + Figures.plain(highestReading())
                    + " of this calibration; calibrate at a point with a wider range");
        }
        double light = Math.pow(10, -(read - offset) / slope) - leak;
        if (!(light > 0)) {
            throw new OutsideMeasuredRangeException("reading D " + Figures.plain(read)
                    + " is all leak, without light through the sample; it is beyond what this instrument can read");
        }
        double density = -Math.log10(light);
        return Estimate.of(density, uncertaintyAt(density, repeatability));
    }

    /**
     * Returns the standard uncertainty of a corrected density.
     *
     * @param density the true density
     * @param repeatability the standard deviation of the reading, 0 or more
     * @return u
     * @throws IllegalArgumentException if a number is not finite or the standard deviation is negative
     * @units density
     */
    public double uncertaintyAt(double density, double repeatability) {
        Checks.finite("density", density);
        Checks.within("repeatability", repeatability, 0, 1, "");
        double[] row = derivatives(form, constants(), density);
        double variance = repeatability * repeatability;
        for (int i = 0; i < row.length; i++) {
            for (int j = 0; j < row.length; j++) {
                variance += row[i] * row[j] * fit.cofactor(i, j);
            }
        }
        return Math.sqrt(variance) / gradient(constants(), density);
    }

    /**
     * Returns the calibration in words.
     *
     * @return for example {@code reading = 0.0012 - 1.0004 log10(10^-D + 0.00002), from 3 points}
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "reading = %.4f - %.4f log10(10^-D + %.6f), from %d points",
                offset,
                slope,
                leak,
                points.size());
    }
}
