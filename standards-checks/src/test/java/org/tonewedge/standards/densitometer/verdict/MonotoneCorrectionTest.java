// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Monotone corrections worked by hand: straight pieces between steps, pooled where they fall (the pool-adjacent-violators
 * algorithm of isotonic regression, weights 1/u², from memory), the variance of an inverse calibration (NIST/SEMATECH
 * e-Handbook, 2.3.6.7.3) and the bound of the error of linear interpolation, ½ |f″| (x − a) (b − x), of every textbook of
 * numerical analysis.
 */
class MonotoneCorrectionTest {

    private final List<LogReading> readings = new ArrayList<>();

    /** Reads a step as often above its mean as below, each time by 0.01. */
    private void read(int step, double mean, int pairs) {
        for (int i = 0; i < pairs; i++) {
            readings.add(LogReading.of(Density.of(mean - 0.01), 9).withStep(step));
            readings.add(LogReading.of(Density.of(mean + 0.01), 9).withStep(step));
        }
    }

    private DensityCorrection correction(double... certified) {
        StepTablet tablet = StepTablet.calibrated("by hand", 0.004, certified);
        return DensityCorrection.of(
                CorrectionKind.MONOTONE,
                CertificateComparison.of(ReadingsSummary.of(tablet, readings).densities(), 0),
                tablet.name());
    }

    private DensityCorrection ofFourSteps() {
        read(1, 0, 1);
        read(2, 0.8, 1);
        read(3, 2, 1);
        read(4, 3.5, 1);
        return correction(0, 1, 2, 4);
    }

    private DensityCorrection withEqualMeans() {
        read(1, 0, 1);
        read(2, 0, 1);
        read(3, 1, 1);
        return correction(0, 0.2, 1);
    }

    /**
     * Steps 0, 1, 2, 4 read 0, 0.8, 2, 3.5 twice: the slopes are 0.8, 1.2, 0.75, the second derivatives at the inner steps
     * 2 · 0.4/2 = 0.4 and −2 · 0.45/3 = −0.3. A single reading has the variance s² = 0.0002, which is twice as large by Student's
     * t of 4 degrees of freedom, ν/(ν − 2) (JCGM 101:2008, 6.4.9), a mean of two 0.0001, and the certificate 0.000016.
     *
     * <ul>
     * <li>D 0.5: (0.0005 + (½ · 0.4 · 0.25)²)/0.64 + 0.000016
     * <li>D 1.25: (0.0005 + (½ · 0.4 · 0.1875)²)/1.44 + 0.000016
     * <li>D 3: (0.0005 + (½ · 0.3)²)/0.5625 + 0.000016
     * </ul>
     */
    @ParameterizedTest
    @CsvSource({"0.4, 0.5, 0.00470350", "1.1, 1.25, 0.00133979", "2.75, 3, 0.04090489"})
    void theUncertaintyIncludesTheCurvatureBetweenSteps(double reading, double density, double variance) {
        Estimate corrected = ofFourSteps().correct(Density.of(reading));

        assertEquals(density, corrected.value(), 1e-9);
        assertEquals(variance, corrected.standardUncertainty() * corrected.standardUncertainty(), 1e-8);
    }

    /**
     * Step 3 reads less than step 2 and twice as often: together they are (2 · 1 + 4 · 0.9)/6 = 5.6/6 at D (2 · 1 + 4 · 1.2)/6
     * = 6.8/6; above them the slope is (2 − 5.6/6)/(2 − 6.8/6) = 6.4/5.2.
     */
    @Test
    void stepsThatFallArePooledByTheirWeights() {
        read(1, 0, 2);
        read(2, 1, 1);
        read(3, 0.9, 2);
        read(4, 2, 2);

        DensityCorrection correction = correction(0, 1, 1.2, 2);

        assertEquals(6.8 / 6, correction.correct(Density.of(5.6 / 6)).value(), 1e-9);
        assertEquals(3.4 / 6, correction.correct(Density.of(2.8 / 6)).value(), 1e-9);
        assertEquals(2 - 0.52, correction.correct(Density.of(2 - 0.64)).value(), 1e-9);
    }

    /** Two equal means are one point, at their mean density; two points are enough for a line. */
    @Test
    void equalMeansAreOnePoint() {
        DensityCorrection correction = withEqualMeans();

        assertEquals(0.1, correction.correct(Density.of(0)).value(), 1e-9);
        assertEquals(0.55, correction.correct(Density.of(0.5)).value(), 1e-9);
    }

    /**
     * The pooled mean of two means of two readings has half their variance: at D 0.55 (0.0006 + 0.0001)/(1/0.9)² + 0.000016,
     * as the larger variance, that of the third step, counts; that of a single reading is three times 0.0002 by 3 degrees of
     * freedom.
     */
    @Test
    void theLessCertainEndOfAPieceCounts() {
        double u = withEqualMeans().correct(Density.of(0.5)).standardUncertainty();
        assertEquals(0.0007 * 0.81 + 0.000016, u * u, 1e-8);
    }

    /**
     * Four falling means of two readings are one point, and so are the next four: 0.0002 · 9/7 + 0.0001/4 + 0.000016, with the
     * 9 degrees of freedom of all steps.
     */
    @Test
    void pooledMeansAreMoreCertain() {
        double[] certified = {0, 0.1, 0.2, 0.3, 1, 1.1, 1.2, 1.3, 2.3};
        double[] means = {0.0015, 0.0005, -0.0005, -0.0015, 1.0015, 1.0005, 0.9995, 0.9985, 2.15};
        for (int i = 0; i < means.length; i++) {
            read(i + 1, means[i], 1);
        }
        Estimate corrected = correction(certified).correct(Density.of(0.5));
        assertEquals(0.65, corrected.value(), 1e-9);
        double u = corrected.standardUncertainty();
        assertEquals(0.0002 * 9 / 7 + 0.000025 + 0.000016, u * u, 1e-8);
    }

    /**
     * The errors that all readings share, of steps that read 0, 0.8, 2, 3.5 twice: the certificate's, then those of the certified
     * densities of the steps, 0.004, then those of their readings, √0.0001/m, all of which fall to 0 at the next steps, then the
     * curvature, by which the corrected density is too small where the slope rises: (½ · 0.4 · 0.25)/0.8 at D 0.5. Halfway in the
     * piece of slope 0.8 both steps count by half.
     */
    @Test
    void certificateReadingsAndCurvatureAreErrorsOfTheirOwn() {
        Map<String, DoubleUnaryOperator> errors =
                ofFourSteps().forReadings("D 1").commonErrors();

        Map<String, Double> expected = new LinkedHashMap<>();
        expected.put("certificate of tablet by hand", 0.004);
        expected.put("step 1 of tablet by hand", -0.002);
        expected.put("step 2 of tablet by hand", -0.002);
        expected.put("step 3 of tablet by hand", 0.0);
        expected.put("step 4 of tablet by hand", 0.0);
        expected.put("calibration of D 1, error 1", 0.005 / 0.8);
        expected.put("calibration of D 1, error 2", 0.005 / 0.8);
        expected.put("calibration of D 1, error 3", 0.0);
        expected.put("calibration of D 1, error 4", 0.0);
        expected.put("calibration of D 1, error 5", -0.05 / 0.8);
        assertEquals(List.copyOf(expected.keySet()), List.copyOf(errors.keySet()));
        expected.forEach(
                (source, error) -> assertEquals(error, errors.get(source).applyAsDouble(0.5), 1e-9, source));
        assertEquals(0.5 * 0.3 / 0.75, errors.get("calibration of D 1, error 5").applyAsDouble(3), 1e-9);
    }

    /**
     * Of four readings 0, 0.9, 0.8 and 2 of steps 0, 1, 1.2 and 3, the second and third are one point of D 1.1, whose certified
     * density is uncertain by half of each step's 0.004.
     */
    @Test
    void stepsCombinedIntoOneShareItsError() {
        read(1, 0, 1);
        read(2, 0.9, 1);
        read(3, 0.8, 1);
        read(4, 2, 1);
        Map<String, DoubleUnaryOperator> errors =
                correction(0, 1, 1.2, 3).forReadings("D 1").commonErrors();
        assertEquals(-0.002, errors.get("step 2 of tablet by hand").applyAsDouble(1.1), 1e-9);
        assertEquals(-0.002, errors.get("step 3 of tablet by hand").applyAsDouble(1.1), 1e-9);
        assertEquals(-0.001, errors.get("step 3 of tablet by hand").applyAsDouble(0.55), 1e-9);
        assertEquals(0, errors.get("step 1 of tablet by hand").applyAsDouble(1.1), 1e-9);
    }

    /**
     * Two readings of one step are 1 degree of freedom, three are 2: twice the uncertainty has the coverage of Student's t for
     * 95 %, 12.706 and 4.303 (NIST/SEMATECH e-Handbook, section 1.3.6.7.2), so that the deviation s counts 6.353 and 2.1515 times.
     */
    @ParameterizedTest
    @CsvSource({"1, 12.706", "2, 4.303"})
    void theScatterOfVeryFewReadingsIsRaisedToStudentsT(int degrees, double t) {
        for (int i = 0; i <= degrees; i++) {
            // deviations −0.01, 0.01 and −0.01, 0, 0.01 about the mean
            double deviation = degrees == 1 ? 0.02 * i - 0.01 : 0.01 * (i - 1);
            readings.add(LogReading.of(Density.of(deviation), 9).withStep(1));
        }
        readings.add(LogReading.of(Density.of(1), 9).withStep(2));
        readings.add(LogReading.of(Density.of(2), 9).withStep(3));

        double u = correction(0, 1, 2).correct(Density.of(2)).standardUncertainty();

        double variance = degrees == 1 ? 0.0002 : 0.0001;
        assertEquals(variance * t * t / 4 + variance + 0.000016, u * u, 2e-3 * u * u);
    }

    @Test
    void readingsThatAllFallAreRefused() {
        read(1, 2, 1);
        read(2, 1.5, 1);
        read(3, 1, 1);

        assertThrows(DensitometerInputException.class, () -> correction(0, 1, 2));
    }

    /**
     * Single readings do not show their scatter, and no uncertainty is made up for it: what is left at D 0.5 is the curvature
     * between the steps and the certificate, (½ · 0.4 · 0.25)²/0.64 + 0.000016.
     */
    @Test
    void singleReadingsLeaveTheCurvatureAndTheCertificate() {
        double[] means = {0, 0.8, 2, 3.5};
        for (int i = 0; i < means.length; i++) {
            readings.add(LogReading.of(Density.of(means[i]), 9).withStep(i + 1));
        }

        double u = correction(0, 1, 2, 4).correct(Density.of(0.4)).standardUncertainty();

        assertEquals(0.0025 / 0.64 + 0.000016, u * u, 1e-8);
    }
}
