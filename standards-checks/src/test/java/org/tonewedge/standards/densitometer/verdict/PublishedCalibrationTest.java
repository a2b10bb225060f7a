// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.numeric.LinearFit;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/** Regressions and analyses of variance against certified and published figures. */
class PublishedCalibrationTest {

    private static double[][] columns(String name) throws IOException {
        List<double[]> rows = new ArrayList<>();
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(
                PublishedCalibrationTest.class.getResourceAsStream(name), StandardCharsets.US_ASCII))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (!line.startsWith("#") && !Character.isLetter(line.charAt(0))) {
                    rows.add(Arrays.stream(line.split(",", -1))
                            .mapToDouble(Double::parseDouble)
                            .toArray());
                }
            }
        }
        double[][] columns = new double[rows.get(0).length][rows.size()];
        for (int i = 0; i < rows.size(); i++) {
            for (int j = 0; j < columns.length; j++) {
                columns[j][i] = rows.get(i)[j];
            }
        }
        return columns;
    }

    private static double[] filled(int length, double value) {
        double[] made = new double[length];
        Arrays.fill(made, value);
        return made;
    }

    private static void assertRelative(double expected, double actual, double tolerance) {
        assertEquals(expected, actual, Math.abs(expected) * tolerance);
    }

    private static ErrorsInBothLine leastSquares(double[] x, double[] y) {
        return ErrorsInBothLine.through(x, filled(x.length, 0), y, filled(x.length, 1));
    }

    /** NIST StRD Norris: certified parameters, standard deviations and residual SD, read in SciPy's copy. */
    @Test
    void fitsTheLineOfNorris() throws IOException {
        double[][] data = columns("norris.csv");

        ErrorsInBothLine line = leastSquares(data[1], data[0]);

        assertRelative(-0.262323073774029, line.intercept(), 1e-11);
        assertRelative(1.00211681802045, line.slope(), 1e-13);
        assertRelative(0.884796396144373, line.residualDeviation(), 1e-12);
        assertRelative(0.232818234301152, line.residualDeviation() * Math.sqrt(line.interceptVariance()), 1e-12);
        assertRelative(0.429796848199937e-03, line.residualDeviation() * Math.sqrt(line.slopeVariance()), 1e-12);
    }

    /** NIST StRD Pontius: certified parameters, standard deviations and residual SD, read in a secondary copy. */
    @Test
    void fitsTheQuadraticOfPontius() throws IOException {
        double[][] data = columns("pontius.csv");

        LinearFit fit = LinearFit.polynomial(data[1], data[0], 2);

        assertRelative(0.673565789473684E-03, fit.parameter(0), 1e-11);
        assertRelative(0.732059160401003E-06, fit.parameter(1), 1e-13);
        assertRelative(-0.316081871345029E-14, fit.parameter(2), 1e-11);
        assertRelative(0.107938612033077E-03, fit.deviation(0), 1e-10);
        assertRelative(0.157817399981659E-09, fit.deviation(1), 1e-10);
        assertRelative(0.486652849992036E-16, fit.deviation(2), 1e-10);
        assertRelative(0.205177424076185E-03, fit.residualDeviation(), 1e-10);
    }

    /**
     * NIST/SEMATECH e-Handbook, linewidths: the 120 published values of fit and 95 % limits, read in its data file, and
     * the parameters of the 40 points by SciPy 1.17.1 ({@code scipy.stats.linregress}) and NumPy 2.4.6 (their covariance).
     */
    @Test
    void reproducesThePublishedFitAndLimitsOfTheLinewidths() throws IOException {
        double[][] data = columns("linewidth.csv");

        ErrorsInBothLine line = leastSquares(data[0], data[1]);

        double factor = StudentT.coverageFactor(0.95, 38);
        assertEquals(2.0243942, factor, 5e-8);
        for (int i = 0; i < 40; i++) {
            double half = factor * line.residualDeviation() * Math.sqrt(line.varianceAt(data[0][i]));
            assertEquals(data[2][i], line.at(data[0][i]), 1e-6);
            assertEquals(data[3][i], line.at(data[0][i]) + half, 1e-6);
            assertEquals(data[4][i], line.at(data[0][i]) - half, 1e-6);
        }
        double variance = line.residualDeviation() * line.residualDeviation();
        assertRelative(0.235762290292984, line.intercept(), 1e-12);
        assertRelative(0.987037714284589, line.slope(), 1e-13);
        assertRelative(0.0243003442080555, Math.sqrt(variance * line.interceptVariance()), 1e-12);
        assertRelative(0.0034405803367232, Math.sqrt(variance * line.slopeVariance()), 1e-12);
        assertRelative(-7.649452631e-5, variance * line.covariance(), 1e-9);
        assertRelative(0.0620319593776962, line.residualDeviation(), 1e-12);
    }

    /** NIST/SEMATECH e-Handbook, load cell: its data; the normal equations solved by mpmath 1.3.0 with 40 digits. */
    @Test
    void fitsLineAndQuadraticOfTheLoadCell() throws IOException {
        double[][] data = columns("loadcell.csv");

        LinearFit line = LinearFit.polynomial(data[0], data[1], 1);
        LinearFit quadratic = LinearFit.polynomial(data[0], data[1], 2);

        assertRelative(-7.15555075593952e-4, line.parameter(0), 1e-10);
        assertRelative(0.10026736213103, line.parameter(1), 1e-13);
        assertRelative(2.38970268630043e-4, line.residualDeviation(), 1e-10);
        assertRelative(-1.83980467267988e-5, quadratic.parameter(0), 1e-9);
        assertRelative(0.100102485397365, quadratic.parameter(1), 1e-12);
        assertRelative(7.03186511481803e-6, quadratic.parameter(2), 1e-9);
        assertRelative(2.45072198937621e-5, quadratic.deviation(0), 1e-9);
        assertRelative(4.83869944761711e-6, quadratic.deviation(1), 1e-9);
        assertRelative(2.01361279389355e-7, quadratic.deviation(2), 1e-9);
        assertRelative(3.76402941992637e-5, quadratic.residualDeviation(), 1e-9);
    }

    /**
     * The same load cell as if it were a densitometer, loads divided by ten as certified densities (F does not change):
     * lack of fit F = 112.23997927522106, p = 2.776e-16, largest departure 0.0003941641468676593 at the first load.
     * Computed with NumPy 2.4.6 polyfit and SciPy 1.17.1 stats.f.sf(F, 9, 22).
     */
    @Test
    void noticesThatALineDoesNotFitTheLoadCell() throws IOException {
        double[][] data = columns("loadcell.csv");
        double[] loads =
                Arrays.stream(data[0]).distinct().map(load -> load / 10).toArray();
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < data[0].length; i++) {
            readings.add(LogReading.of(Density.of(data[1][i]), 5).withStep(i / 3 + 1));
        }

        ReadingsSummary summary = ReadingsSummary.of(StepTablet.calibrated("load cell", loads), readings);
        CertificateComparison comparison = CertificateComparison.of(summary.printed(), 0);

        assertRelative(112.23997927522106, comparison.lackOfFit().orElseThrow(), 1e-8);
        assertEquals(2.776e-16, comparison.lackOfFitProbability().orElseThrow(), 1e-18);
        assertEquals(0.0003941641468676593, comparison.greatestDeparture(), 1e-12);
        assertEquals(0, comparison.indexOfGreatestDeparture());
    }

    /**
     * Deming's line through the Norris data with the ratio of variances 1 and 4. Closed form by NumPy 2.4.6; scipy.odr of
     * SciPy 1.17.1 (RealData(x, y, sx=1, sy=sqrt(ratio)), beta0=[0, 1]) agrees with it to 4e-10 in the slope.
     */
    @ParameterizedTest
    @CsvSource({"1, 1.0021199583489655, -0.26363942970078824", "4, 1.002118075746891, -0.26285028474677574"})
    void fitsDemingsLine(double ratio, double slope, double intercept) throws IOException {
        double[][] data = columns("norris.csv");
        int count = data[0].length;

        ErrorsInBothLine line =
                ErrorsInBothLine.through(data[1], filled(count, 1), data[0], filled(count, Math.sqrt(ratio)));

        assertRelative(slope, line.slope(), 1e-12);
        assertRelative(intercept, line.intercept(), 1e-8);
    }

    /**
     * Pearson's ten points with York's weights. Expected by scipy.odr, SciPy 1.17.1: odr.ODR(odr.RealData(x, y,
     * sx=1/sqrt(wx), sy=1/sqrt(wy)), odr.Model(line), beta0=[5.4, -0.48], partol=1e-16, sstol=1e-16, maxit=2000).run():
     * beta 5.47991064, −0.48053349, square roots of the diagonal of cov_beta 0.29497073, 0.05798501, off-diagonal
     * −0.01647254, res_var 1.48329415. The derivatives of ODR are numerical, hence the tolerances.
     */
    @Test
    void fitsPearsonsPointsWithYorksWeights() {
        double[] x = {0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4};
        double[] y = {5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5};
        double[] xWeights = {1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1};
        double[] yWeights = {1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500};

        ErrorsInBothLine line = ErrorsInBothLine.through(
                x,
                Arrays.stream(xWeights).map(w -> 1 / Math.sqrt(w)).toArray(),
                y,
                Arrays.stream(yWeights).map(w -> 1 / Math.sqrt(w)).toArray());

        assertEquals(5.47991064, line.intercept(), 2e-6);
        assertEquals(-0.48053349, line.slope(), 4e-7);
        assertEquals(0.29497073, Math.sqrt(line.interceptVariance()), 2e-4);
        assertEquals(0.05798501, Math.sqrt(line.slopeVariance()), 4e-5);
        assertEquals(-0.01647254, line.covariance(), 3e-5);
        assertEquals(1.48329415, line.residualDeviation() * line.residualDeviation(), 1e-7);
    }

    /** SciPy 1.17.1: stats.t.ppf(0.975, dof). */
    @ParameterizedTest
    @CsvSource({
        "1, 12.706204736174694",
        "2, 4.302652729749462",
        "5, 2.5705818356363146",
        "38, 2.0243941639119694",
        "1000000, 1.959966356814107"
    })
    void givesStudentsFactor(double degrees, double factor) {
        assertRelative(factor, StudentT.coverageFactor(0.95, degrees), 1e-9);
    }

    /** SciPy 1.17.1: stats.f.sf(ratio, numerator, denominator). */
    @ParameterizedTest
    @CsvSource({
        "1.18046237440255, 4, 20, 0.34944749340219294",
        "15.946733567793, 1, 46, 0.00023268444833892546",
        "2.5, 9, 22, 0.03843249537997526",
        "200, 9, 22, 5.51742540493044e-19"
    })
    void givesFishersTail(double ratio, double numerator, double denominator, double tail) {
        assertRelative(tail, Distributions.fisherExceeds(ratio, numerator, denominator), 1e-10);
    }

    /** Transmittance and density, a table of trade textbooks, read in a secondary source; 0.50 and 0.25 are rounded there. */
    @ParameterizedTest
    @CsvSource({"1.0, 0", "0.50, 0.3", "0.25, 0.6", "0.10, 1.0", "0.01, 2.0", "0.001, 3.0", "0.0001, 4.0"})
    void computesDensityFromCounts(double transmittance, double density) {
        RawCounts counts = RawCounts.of(500 + 1e6 * transmittance, 500, 500 + 1e6);

        assertEquals(density, counts.density(), transmittance < 0.2 ? 1e-12 : 0.0021);
    }
}
