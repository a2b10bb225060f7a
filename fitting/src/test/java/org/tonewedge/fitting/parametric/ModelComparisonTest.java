// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Strip;

class ModelComparisonTest {

    /**
     * AICc written out for n readings, p parameters and the variance: n ln(RSS/n) + 2 (p + 1) + 2 (p + 1)(p + 2)/(n − p − 2),
     * with the residual sum of squares by {@code scipy_fits.py} (SciPy 1.17.1).
     */
    @Test
    void criterionIsAsDefined() {
        FittedCurve fit = CurveFits.toeShoulder(TestStrips.s07());
        double expected = 24 * Math.log(0.000804635410258 / 24) + 14 + 2.0 * 7 * 8 / 16;
        assertEquals(expected, fit.aicc(), 1e-6);
    }

    @Test
    void allFamiliesAreReported() {
        ModelComparison comparison = CurveFits.compare(TestStrips.s07());
        assertEquals(6, comparison.candidates().size());
        assertEquals(CurveFamily.TOE_SHOULDER, comparison.best().family());
        double total = 0;
        double before = Double.NEGATIVE_INFINITY;
        for (ModelComparison.Candidate candidate : comparison.candidates()) {
            total += candidate.weight();
            assertTrue(candidate.aicc() >= before);
            before = candidate.aicc();
        }
        assertEquals(1, total, 1e-12);
        ModelComparison.Candidate second = comparison.candidates().get(1);
        double difference = second.aicc() - comparison.candidates().get(0).aicc();
        String expected = String.format(Locale.ROOT, "AICc +%.1f  weight %.3f", difference, second.weight());
        assertTrue(comparison.toString().lines().toList().get(2).contains(expected), comparison::toString);
        assertTrue(comparison.toString().startsWith("strip 'S07'"), comparison::toString);
        assertTrue(comparison.toString().contains("Hurter and Driffield 1890"), comparison::toString);
    }

    @ParameterizedTest
    @EnumSource(
            value = CurveFamily.class,
            names = {"TOE_SHOULDER", "LOGISTIC", "GOMPERTZ", "CUMULATIVE_NORMAL", "HURTER_DRIFFIELD"})
    void findsTheFamilyTheReadingsComeFrom(CurveFamily family) {
        ParametricForm truth = CurveFamilyTest.example(family);
        double[] x = TestStrips.grid(-3.2, 1.2, 41);
        double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.004, new Random(21));
        double base = truth.parameter(CurveParameter.BASE_PLUS_FOG);
        FittedCurve best = CurveFits.best(TestStrips.strip("M1", x, d, base, base + 0.003, base - 0.003));
        assertEquals(family, best.family());
    }

    /** A speck on one of 21 steps, which squares of residuals would have choose the family that bends towards it. */
    @Test
    void robustComparisonIsNotSwayedByASpeck() {
        ParametricForm truth = CurveFamily.TOE_SHOULDER.form(0.2, 0.7, -2.2, 0.08, -0.4, 0.3);
        double[] x = TestStrips.grid(-3, 0.15, 21);
        double[] good = TestStrips.disturbed(TestStrips.densities(truth, x), 0.003, new Random(3));
        for (int step : new int[] {6, 14, 20}) {
            double[] d = good.clone();
            d[step] += 0.3;
            ModelComparison comparison = ModelComparison.of(
                    TestStrips.strip("M3", x, d, 0.2, 0.201),
                    CurveFit.of(CurveFamily.LOGISTIC).with(RobustLoss.TUKEY));
            assertEquals(CurveFamily.TOE_SHOULDER, comparison.best().family(), comparison::toString);
            assertTrue(comparison.candidates().get(0).weight() > 0.9, comparison::toString);
        }
    }

    @Test
    void tooFewReadingsToCompareTakeTheFewestParameters() {
        ParametricForm truth = CurveFamily.TOE_SHOULDER.form(0.2, 0.7, -2.2, 0.2, -0.7, 0.2);
        double[] x = TestStrips.grid(-3, 0.15, 5);
        double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.003, new Random(1));
        for (Strip strip : List.of(TestStrips.strip("M4", x, d, 0.2), TestStrips.strip("M5", x, d))) {
            ModelComparison comparison = CurveFits.compare(strip);
            assertEquals(4, comparison.best().form().parameters().length, comparison::toString);
            assertTrue(comparison.best().residualStandardDeviation() < 0.01, comparison::toString);
            assertTrue(comparison.toString().contains("too few readings for AICc"), comparison::toString);
            comparison.candidates().forEach(candidate -> assertEquals(0, candidate.weight()));
            int parameters = 0;
            boolean failed = false;
            for (ModelComparison.Candidate candidate : comparison.candidates()) {
                assertTrue(candidate.fit().isEmpty() || !failed, comparison::toString);
                failed = candidate.fit().isEmpty();
                int own = candidate.family().parameters().size();
                assertTrue(failed || own >= parameters, comparison::toString);
                parameters = own;
            }
        }
        FittedCurve part = CurveFits.toeShoulder(TestStrips.strip("M4", x, d, 0.2));
        assertTrue(part.notes().get(0).contains("has too few readings"), part.notes()::toString);
    }

    @Test
    void familiesThatFailSayWhy() {
        double[] x = TestStrips.grid(-3, 0, 7);
        double[] d = {0.2, 0.21, 0.26, 0.45, 0.76, 1.05, 1.2};
        ModelComparison comparison = CurveFits.compare(TestStrips.strip("M2", x, d));
        ModelComparison.Candidate last =
                comparison.candidates().get(comparison.candidates().size() - 1);
        assertEquals(0, last.weight());
        assertTrue(comparison.best().aicc() < Double.POSITIVE_INFINITY);
        CurveFitException thrown = assertThrows(
                CurveFitException.class,
                () -> CurveFits.best(TestStrips.strip("M3", x, new double[] {1, 1, 1, 1, 1, 1, 1})));
        assertEquals(FitFailure.NO_CONTRAST, thrown.failure());
    }

    /** Readings that are exact, or all but exact, of a toe and a straight line: nothing else may describe them better. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 1e-12, 1e-10, 1e-8, 1e-6})
    @Tag("slow")
    void exactReadingsAreFittedByTheirFamily(double deviation) {
        Random random = new Random(5);
        for (int i = 0; i < 200; i++) {
            ParametricForm form = CurveFamily.TOE_STRAIGHT_LINE.form(
                    0.1 + 0.2 * random.nextDouble(),
                    0.4 + 0.6 * random.nextDouble(),
                    -2.3 + random.nextDouble(),
                    0.05 + 0.4 * random.nextDouble());
            double base = form.parameter(CurveParameter.BASE_PLUS_FOG);
            double[] x = TestStrips.EXPOSURES;
            double[] d = TestStrips.disturbed(TestStrips.densities(form, x), deviation, random);
            Strip strip = TestStrips.strip("exact", x, d, i % 2 == 0 ? new double[0] : new double[] {base, base});
            FittedCurve best = CurveFits.best(strip);
            assertTrue(
                    best.family() == CurveFamily.TOE_STRAIGHT_LINE || best.family() == CurveFamily.TOE_SHOULDER,
                    () -> form + " came out as " + best);
            assertEquals(form.logExposure(base + 0.10), TestStrips.speedPoint(best.curve()), 1e-4 + 100 * deviation);
        }
    }

    @Test
    void everyFamilyThatCouldNotBeFittedIsNamed() {
        double[] x = TestStrips.EXPOSURES;
        double[] d = TestStrips.densities(CurveFamily.TOE_STRAIGHT_LINE.form(0.2, 0.6, -2, 0.2), x);
        ModelComparison comparison = CurveFits.compare(TestStrips.strip("exact", x, d, 0.2));
        String note = "Not compared: generalised logistic (Richards), which could not be fitted (bound hit).";
        assertTrue(comparison.notes().contains(note), comparison.notes()::toString);
        ModelComparison.Candidate last =
                comparison.candidates().get(comparison.candidates().size() - 1);
        String why = last.failure().orElseThrow().getMessage();
        assertTrue(comparison.toString().endsWith(why + "\n"), comparison::toString);
        assertTrue(comparison.best().notes().contains(note), comparison.best().notes()::toString);
    }

    /**
     * The estimate among families by its formula: weights exp(−¼ difference of AIC), the square roots of Akaike's, those below 0.005 left out (own choice, no source), and the square
     * of a family's distance beside that of its uncertainty. AIC is AICc without 2 k (k + 1)/(n − k − 1), k parameters with
     * the variance.
     */
    @Test
    void theBestIsAsUncertainAsItsChoice() {
        ParametricForm truth = CurveFamily.GOMPERTZ.form(0.2, 1.4, -1.2, 0.5);
        double[] x = TestStrips.grid(-3, 0, 13);
        double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.01, new Random(3));
        ModelComparison comparison = CurveFits.compare(TestStrips.strip("M6", x, d, 0.2, 0.21));
        List<FittedCurve> fits = comparison.candidates().stream()
                .flatMap(candidate -> candidate.fit().stream())
                .toList();
        Estimate own = fits.get(0).estimate(TestStrips::speedPoint);
        double[] aic = fits.stream()
                .mapToDouble(fit -> {
                    double k = fit.form().parameters().length + 1;
                    return fit.aicc() - 2 * k * (k + 1) / (15 - k - 1);
                })
                .toArray();
        double least = Arrays.stream(aic).min().orElseThrow();
        double weights = 0;
        double squares = 0;
        for (int i = 0; i < aic.length; i++) {
            double weight = Math.exp(-0.25 * (aic[i] - least));
            if (i == 0 || weight >= 0.005) {
                Estimate each = fits.get(i).estimate(TestStrips::speedPoint);
                weights += weight;
                squares += weight * (Math.pow(each.standardUncertainty(), 2) + Math.pow(each.value() - own.value(), 2));
            }
        }
        assertTrue(weights > 1.2, "weights " + weights);
        Estimate among = comparison.best().estimate(TestStrips::speedPoint);
        assertEquals(own.value(), among.value());
        assertEquals(Math.sqrt(squares / weights), among.standardUncertainty(), 1e-9);
    }
}
