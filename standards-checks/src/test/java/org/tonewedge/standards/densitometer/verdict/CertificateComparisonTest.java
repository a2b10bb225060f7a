// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Comparisons worked by hand or by SciPy 1.17.1. Four steps 0, 1, 2, 3 read 0.03 off by turns (+, −, −, +) have the
 * ordinary line of intercept 0 and slope 1. Fisher's distribution has a closed form for two degrees of freedom in the
 * numerator: P(F &gt; f) = (1 + 2 f/ν)<sup>−ν/2</sup>; and for endless ν, e<sup>−f</sup>.
 */
class CertificateComparisonTest {

    private static final double[] FOUR = {0, 1, 2, 3};
    private static final double[] OFF = {0.03, -0.03, -0.03, 0.03};

    private static void read(List<LogReading> into, int step, double density, String run) {
        into.add(LogReading.of(Density.of(density), 9).withStep(step).withRun(run));
    }

    /** Reads four steps in one run, each as often above its mean as below, by 0.01. */
    private static CertificateComparison pairs(double certificate, int pairs, double resolution) {
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            for (int pair = 0; pair < pairs; pair++) {
                read(readings, i + 1, FOUR[i] + OFF[i] - 0.01, "a");
                read(readings, i + 1, FOUR[i] + OFF[i] + 0.01, "a");
            }
        }
        return compared(StepTablet.calibrated("by hand", certificate, FOUR), readings, resolution);
    }

    private static CertificateComparison once(double[] certified, double[] means, double resolution) {
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < means.length; i++) {
            read(readings, i + 1, means[i], "a");
        }
        return compared(StepTablet.calibrated("once", 0.003, certified), readings, resolution);
    }

    private static CertificateComparison compared(StepTablet tablet, List<LogReading> readings, double resolution) {
        return CertificateComparison.of(ReadingsSummary.of(tablet, readings).densities(), resolution);
    }

    /** s²/n is 0.0002/2, so F = 4 · 0.0009/0.0001/2 = 18 with 2 and 4 degrees of freedom: P = (1 + 9)⁻² = 0.01. */
    @Test
    void lackOfFitIsFishersWhereTheCertificateIsExact() {
        CertificateComparison exact = pairs(0, 1, 0);

        assertEquals(0, exact.zeroOffset().value(), 1e-9);
        assertEquals(1, exact.slope().value(), 1e-9);
        assertEquals(18, exact.lackOfFit().orElseThrow(), 1e-6);
        assertEquals(0.01, exact.lackOfFitProbability().orElseThrow(), 1e-8);
        assertEquals(0.01, exact.probabilityOf(OFF, 2), 1e-8);
        // f = 36 with 1 and 4: two-sided t = 6, scipy.stats.f.sf(36, 1, 4)
        assertEquals(0.003882537, exact.probabilityOf(OFF, 3), 1e-8);
        assertEquals(1, exact.probabilityOf(OFF, 4));
    }

    /**
     * A certificate as uncertain as the means, 0.01: Deming's line has the slope b = (E + √(E² + 4 S²))/(2 S) of the sums of
     * squares E = 0.0036 and S = 5, the variances are 0.0001 (1 + b²), and the degrees of freedom 4 (1 + b²)²; F and P by
     * {@code scipy.stats.f.sf}.
     */
    @Test
    void aCertificateRaisesTheDegreesOfFreedom() {
        CertificateComparison uncertain = pairs(0.01, 1, 0);

        assertEquals(1.000360065, uncertain.slope().value(), 1e-8);
        assertEquals(8.99838, uncertain.lackOfFit().orElseThrow(), 1e-5);
        assertEquals(0.0024038007, uncertain.lackOfFitProbability().orElseThrow(), 1e-9);
        assertEquals(0.0024038007, uncertain.probabilityOf(uncertain.departures(), 2), 1e-9);
        assertEquals(0.0006202353, uncertain.probabilityOf(uncertain.departures(), 3), 1e-9);
    }

    /** Resolution alone, r²/12 = 0.0001: f = 4 · 0.0001/0.0001/2 = 2 with endless degrees of freedom, P = e⁻². */
    @Test
    void aStatedResolutionHasEndlessDegreesOfFreedom() {
        double[] off = {0.01, -0.01, -0.01, 0.01};
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            read(readings, i + 1, FOUR[i] + off[i], "a");
        }
        StepTablet exact = StepTablet.calibrated("exact", 0, FOUR);

        assertEquals(Math.exp(-2), compared(exact, readings, Math.sqrt(0.0012)).probabilityOf(off, 2), 1e-6);
        // nothing is known: nothing is improbable
        assertEquals(1, compared(exact, readings, 0).probabilityOf(off, 2));
        assertTrue(compared(exact, readings, 0).lackOfFit().isEmpty());
    }

    /**
     * Steps 0, 1, 2 and 3, each read so often above as below its density, first below; readings differ by a hundred-thousandth
     * more, so that they do not look like those of a coarse display.
     */
    private static CertificateComparison scattering(int pairs, double... above) {
        List<LogReading> readings = new ArrayList<>();
        double[] steps = {0, 1, 2, 3};
        for (int i = 0; i < steps.length; i++) {
            for (int k = 0; k < 2 * pairs; k++) {
                double off = above[i] * (1 + 1e-5 * (k % pairs));
                read(readings, i + 1, steps[i] + (k < pairs ? -off : off), "a");
            }
        }
        return compared(StepTablet.calibrated("scattering", 0.003, steps), readings, 0);
    }

    /**
     * Twelve readings ±w have the variance w² 12/11, raised by Student's 11/9 to w² 4/3. Scatter five times as large is F = 25,
     * not that of a neighbour (p below 0.0001). Between steps it is interpolated geometrically, beyond them it stays.
     */
    @ParameterizedTest
    @CsvSource({
        "-1, 0.001",
        "0, 0.001",
        "0.5, 0.00223607",
        "1, 0.005",
        "1.25, 0.00747674",
        "2, 0.025",
        "2.75, 0.0835925",
        "3, 0.125",
        "4, 0.125"
    })
    void scatterBetweenStepsIsInterpolatedGeometrically(double density, double w) {
        CertificateComparison comparison = scattering(6, 0.001, 0.005, 0.025, 0.125);
        assertEquals(w * Math.sqrt(4 / 3.0), comparison.deviationOfReading(density), 1e-4 * w);
    }

    /** Where a step does not scatter, a geometrical mean would be 0 up to the next one. */
    @Test
    void scatterNextToNoneIsInterpolatedLinearly() {
        CertificateComparison clear = scattering(6, 0, 0.005, 0.025, 0.125);
        assertEquals(0.25 * 0.005 * Math.sqrt(4 / 3.0), clear.deviationOfReading(0.25), 1e-6);
        CertificateComparison dense = scattering(6, 0.001, 0.005, 0.025, 0);
        assertEquals(0.25 * 0.025 * Math.sqrt(4 / 3.0), dense.deviationOfReading(2.75), 1e-6);
    }

    /**
     * Alike steps are taken together until they have 15 degrees of freedom: two of 11, w² (12/11) (22/20). Pairs have one each:
     * all four together, 2 · 0.0000075 · 4/2, however they differ.
     */
    @Test
    void scatterOfAlikeStepsIsTakenTogether() {
        CertificateComparison alike = scattering(6, 0.004, 0.004, 0.004, 0.004);
        assertEquals(0.004 * Math.sqrt(12 / 11.0 * 22 / 20), alike.deviationOfReading(1.5), 1e-6);
        CertificateComparison pairs = scattering(1, 0.001, 0.002, 0.003, 0.004);
        assertEquals(Math.sqrt(0.00003), pairs.deviationOfReading(1.5), 1e-9);
    }

    @Test
    void scatterIsKnownFromRepeatsOrFromRuns() {
        assertFalse(once(FOUR, FOUR, 0).isScatterKnown());
        assertTrue(pairs(0, 1, 0).isScatterKnown());
        assertTrue(pairs(0, 1, 0).isRepeatabilityKnown());
        assertFalse(pairs(0, 1, 0).isBetweenRunsKnown());

        List<LogReading> twoRuns = new ArrayList<>();
        for (String run : List.of("a", "b")) {
            for (int i = 0; i < 4; i++) {
                read(twoRuns, i + 1, FOUR[i], run);
            }
        }
        CertificateComparison between = compared(StepTablet.calibrated("runs", 0.003, FOUR), twoRuns, 0);
        assertTrue(between.isScatterKnown());
        assertTrue(between.isBetweenRunsKnown());
        assertFalse(between.isRepeatabilityKnown());
    }

    /**
     * JCGM 100:2008, F.2.2.1: a display step has the variance r²/12. Six readings that only ever differ by 0.02 show that the
     * detector's step is 0.02 and not the 0.001 displayed; fewer readings do not, nor do they beside a display of 0.006. The
     * variance of a single reading is that of Student's t, ν/(ν − 2) as large (JCGM 101:2008, 6.4.9), for the 12 degrees of
     * freedom of all four steps, or the 15 of three.
     */
    @ParameterizedTest
    @CsvSource({"2, 0.001, 0.001", "3, 0.001, 0.02", "3, 0.006, 0.006"})
    void aDisplayStepAddsItsVariance(int pairs, double displayed, double step) {
        double scatter = 2 * pairs * 0.0001 / (2 * pairs - 1);
        double degrees = pairs == 2 ? 12 : 15;
        CertificateComparison comparison = pairs(0, pairs, displayed);

        assertEquals(
                Math.sqrt(scatter * degrees / (degrees - 2) + step * step / 12),
                comparison.deviationOfReading(1.2),
                1e-9);
        assertEquals(Math.sqrt(scatter / (2 * pairs) + step * step / 12), comparison.uncertaintyOfMean(1), 1e-9);
    }

    @ParameterizedTest
    @CsvSource({"-0.1, 0.002", "0, 0.002", "0.5, 0.003", "1, 0.004", "1.5, 0.007", "2, 0.01", "2.6, 0.01"})
    void theCertificateIsInterpolatedBetweenItsSteps(double density, double uncertainty) {
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            read(readings, i + 1, i, "a");
        }
        StepTablet tablet = StepTablet.calibrated("uneven", new double[] {0, 1, 2}, new double[] {0.002, 0.004, 0.010});

        assertEquals(uncertainty, compared(tablet, readings, 0).certificate().applyAsDouble(density), 1e-12);
    }

    /**
     * {@code scipy.optimize.curve_fit(lambda x, a, b, l: a - b * log10(10**-x + l), x, y)} of SciPy 1.17.1: the leak of the
     * first is 24 of its standard uncertainties, that of the second 1.66, where t of 4 degrees of freedom is 2.78.
     */
    @Test
    void theLeakModelIsTheOrdinaryFitWhereNothingElseIsKnown() {
        double[] certified = {0.05, 0.5, 1, 1.5, 2, 2.5, 3};
        CertificateComparison leaking =
                once(certified, new double[] {0.062, 0.496, 0.991, 1.467, 1.933, 2.367, 2.699}, 0);
        CertificateComparison hardly =
                once(certified, new double[] {0.062, 0.497, 0.994, 1.478, 1.965, 2.459, 2.936}, 0);

        assertEstimate(0.000784600958, 3.22604e-05, leaking.leak().orElseThrow());
        assertEstimate(0.0118693383, 0.00322938, leaking.zeroOffsetBesideLeak().orElseThrow());
        assertEstimate(0.978137478, 0.0028599, leaking.slopeBesideLeak().orElseThrow());
        assertEquals(0.00431316, leaking.departuresFromLeak()[2], 1e-7);
        assertTrue(leaking.isLeakSignificant());
        assertEstimate(2.79426835e-05, 1.6798e-05, hardly.leak().orElseThrow());
        assertFalse(hardly.isLeakSignificant());

        // numpy.polyfit(x, y, 1, cov=True)
        assertEstimate(0.06061884, 0.03963907, leaking.zeroOffset());
        assertEstimate(0.90906807, 0.02198659, leaking.slope());
        assertEquals(6, leaking.indexOfGreatestDeparture());
        assertEquals(-0.08882305, leaking.greatestDeparture(), 1e-7);
        assertEquals(List.of(), leaking.fallingSteps());
        assertEquals(List.of(3), once(FOUR, new double[] {0, 1, 0.9, 0.9}, 0).fallingSteps());
    }

    private static double[] everyTenth(int count) {
        double[] densities = new double[count];
        Arrays.setAll(densities, i -> 0.1 * i);
        return densities;
    }

    /** Reads steps a tenth apart in one run, each three times above and three times below. */
    private static CertificateComparison scattering(double... scatters) {
        double[] certified = everyTenth(scatters.length);
        List<LogReading> readings = new ArrayList<>();
        for (int i = 0; i < certified.length; i++) {
            for (int repeat = 0; repeat < 6; repeat++) {
                read(readings, i + 1, certified[i] + (repeat % 2 == 0 ? 1 : -1) * scatters[i], "a");
            }
        }
        return compared(StepTablet.calibrated("in tenths", 0.003, certified), readings, 0);
    }

    /**
     * Six readings ±w have the variance 6 w²/5 with 5 degrees of freedom; three steps make the 15 that are enough. Twenty
     * steps of which three scatter ten times as much: (3 + 17/100)/20 of their variance in all, which neither the dense end
     * nor the clear end shares (F = 6.3 and 0.063; scipy.stats.f gives less than 1e-5 beyond each).
     */
    @Test
    void scatterIsPooledOverAllStepsUnlessTheNeighboursDiffer() {
        double[] scatters = new double[20];
        Arrays.fill(scatters, 0.001);
        CertificateComparison even = scattering(scatters);
        assertEntry(
                Math.sqrt(1.2) * 0.001, 100, even.repeatabilityOf(even.steps().get(19)));

        Arrays.fill(scatters, 17, 20, 0.01);
        CertificateComparison dense = scattering(scatters);
        assertEntry(
                Math.sqrt(1.2) * 0.01, 15, dense.repeatabilityOf(dense.steps().get(19)));
        assertEntry(
                Math.sqrt(1.2) * 0.001, 15, dense.repeatabilityOf(dense.steps().get(0)));
        assertEntry(
                Math.sqrt(1.2) * 0.001, 15, dense.repeatabilityOf(dense.steps().get(14)));
        assertEquals(Math.sqrt(1.2) * 0.01, dense.scatters(), 1e-9);
    }

    /** Reads four steps in three runs, twice in each, by w above and below means that are 0, c and 2 c off. */
    private static CertificateComparison runs(double c, double w) {
        List<LogReading> readings = new ArrayList<>();
        for (int run = 0; run < 3; run++) {
            for (int i = 0; i < 4; i++) {
                read(readings, i + 1, FOUR[i] + c * run + w, "run " + run);
                read(readings, i + 1, FOUR[i] + c * run - w, "run " + run);
            }
        }
        return compared(StepTablet.calibrated("runs", 0.003, FOUR), readings, 0);
    }

    /**
     * Within runs 2 w² = 0.0008 with 3 degrees of freedom a step, of means of two 0.0004; the means have the variance c² =
     * 0.0009 with 2. The component is 0.0005; F. E. Satterthwaite (1946): 0.0005² / (0.0009²/8 + 0.0004²/12) for four steps.
     */
    @Test
    void theComponentBetweenRunsHasTheDegreesOfFreedomBySatterthwaite() {
        CertificateComparison apart = runs(0.03, 0.02);
        assertEntry(
                Math.sqrt(0.0005),
                25e-8 / (81e-8 / 8 + 16e-8 / 12),
                apart.betweenRunsOf(apart.steps().get(1)));
        assertEntry(Math.sqrt(0.0008), 12, apart.repeatabilityOf(apart.steps().get(1)));
        assertEquals(Math.sqrt(0.0008) + Math.sqrt(0.0005), apart.scatters(), 1e-9);
        // six readings that differ by 0.04 at least show a detector's step of 0.04
        double step = 0.04 * 0.04 / 12;
        assertEquals(Math.sqrt(0.0008 / 6 + 0.0005 / 3 + step), apart.uncertaintyOfMean(1), 1e-9);
        // the scatter within is raised to the standard deviation of Student's t, 12/10: JCGM 101:2008, 6.4.9
        assertEquals(Math.sqrt(0.0008 * 12 / 10 + 0.0005 + step), apart.deviationOfReading(1), 1e-9);

        CertificateComparison together = runs(0, 0.02);
        assertEntry(0, 8, together.betweenRunsOf(together.steps().get(1)));
    }

    private static void assertEntry(double standardUncertainty, double degrees, UncertaintyBudget.Entry found) {
        assertEquals(standardUncertainty, found.standardUncertainty(), 1e-9);
        assertEquals(degrees, found.degreesOfFreedom(), 1e-6 * degrees);
    }

    /** At D 3 a leak of 0.001 doubles the light: log10 2 is lost. Three steps give no leak. */
    @Test
    void aLeakTakesDensity() {
        double[] certified = {0, 0.5, 1, 1.5, 2, 2.5, 3};
        double[] seen = Arrays.stream(certified)
                .map(density -> -Math.log10(Math.pow(10, -density) + 0.001))
                .toArray();
        CertificateComparison leaking = once(certified, seen, 0);
        assertEquals(Math.log10(2), leaking.lossByLeak(3), 1e-6);
        assertEquals(Math.log10(1.1), leaking.lossByLeak(2), 1e-6);
        double[] three = {0, 1, 2};
        assertEquals(0, once(three, three, 0).lossByLeak(3));
        assertArrayEquals(
                new double[] {0, 0, 0.5},
                once(three, new double[] {0, 1, 2.5}, 0).errors(),
                1e-9);
    }

    /** The stated limit: a fifth of what the certificate rises. */
    @ParameterizedTest
    @CsvSource({"1 1.1 1.2, 3", "0.1 0.2 0.3, 2", "1 2 2.19, 4", "1 2 2.21, 0", "1 1.1 2, 0"})
    void saturationGoesOnToTheDenseEnd(String readings, int from) {
        double[] means = Arrays.stream(("0 " + readings).split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
        assertEquals(from, once(FOUR, means, 0).saturatedFrom().orElse(0));
    }

    private static void assertEstimate(double value, double standardUncertainty, Estimate found) {
        assertEquals(value, found.value(), 2e-6 * Math.abs(value), found::toString);
        assertEquals(standardUncertainty, found.standardUncertainty(), 2e-5 * standardUncertainty, found::toString);
    }

    @Test
    void theRecordsTellTheLineAndWhatRepeatsAloneWouldShow() {
        CertificateComparison repeated = pairs(0, 1, 0);
        CertificateComparison single = once(FOUR, FOUR, 0.01);

        assertTrue(repeated.records().contains(ResultRecord.ofEstimate("slope", repeated.slope(), "")));
        assertTrue(
                repeated.records().contains(ResultRecord.ofEstimate("zero_offset", repeated.zeroOffset(), "density")));
        assertTrue(repeated.records()
                .contains(ResultRecord.ofNumber(
                        "lack_of_fit", repeated.lackOfFit().orElseThrow(), "")));
        assertTrue(single.records()
                .contains(ResultRecord.ofNumber("slope", single.slope().value(), "")));
        ResultRecord missing = single.records().stream()
                .filter(each -> each.name().equals("lack_of_fit"))
                .findFirst()
                .orElseThrow();
        assertTrue(missing.value().isEmpty() && missing.text().contains("read twice"), missing::toString);
    }
}
