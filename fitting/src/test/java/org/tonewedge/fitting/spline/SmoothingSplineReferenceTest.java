// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/**
 * Smoothing splines against R (smooth.spline and the packages mgcv and quadprog) and SciPy; versions and commands stand in
 * the tables.
 *
 * <p>The smoothing parameter of R's smooth.spline belongs to an axis scaled to 0…1: times the cube of the range it is ours.
 * Its penalty counts the square of the third derivative with 0.333 for 1/3 (with 0.333 a dense B-spline solution repeats
 * R's to 2e−10, with 1/3 it does not), so that agreement ends at about a thousandth of the smoothing. SciPy and mgcv have
 * the exact penalty; against them the tolerances are those of their searches and printed digits.
 */
class SmoothingSplineReferenceTest {

    private static final ReferenceTable STRIP = ReferenceTable.read("strip21.csv");
    private static final double RANGE_CUBED = 27;

    private static final double[] SPEEDS = {4, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 23, 24, 25};

    /** R's data set cars: 50 stopping distances at 19 speeds (M. Ezekiel 1930, data as R 4.2.2 gives them). */
    private static final double[][] DISTANCES = {
        {2, 10},
        {4, 22},
        {16},
        {10},
        {18, 26, 34},
        {17, 28},
        {14, 20, 24, 28},
        {26, 34, 34, 46},
        {26, 36, 60, 80},
        {20, 26, 54},
        {32, 40},
        {32, 40, 50},
        {42, 56, 76, 84},
        {36, 46, 68},
        {32, 48, 52, 56, 64},
        {66},
        {54},
        {70, 92, 93, 120},
        {85}
    };

    /** The fitted values of smooth.spline(cars$speed, cars$dist), GCV, R 4.2.2, at the speeds above. */
    private static final double[] CARS_BY_GCV = {
        1.65780861219, 11.68291341834, 15.06440916367, 18.48233868999, 21.94707823207, 25.46562292764, 29.05051785944,
        32.70755158080, 36.42346806356, 40.19516769827, 44.05418752296, 48.02521878874, 52.11562719950, 56.32387418268,
        60.67388737042, 69.80829517743, 74.53370254816, 79.31359739232, 84.10368751998
    };

    /** The fitted values of smooth.spline(cars$speed, cars$dist, df = 10), R 4.2.2. */
    private static final double[] CARS_BY_DF_10 = {
        6.00765137804, 12.74623817420, 15.00749559952, 17.97901085114, 21.65204196564, 22.54440087826, 25.72713248864,
        35.45566766356, 42.50790404869, 39.15869926452, 38.73709558599, 46.14332364717, 55.48222761117, 54.03359363016,
        51.52810945021, 61.55746739861, 72.89502825748, 87.29148028901, 95.02905468248
    };

    private static Strip strip() {
        return Strips.of(STRIP.column("x"), STRIP.column("y"));
    }

    private static void assertCurve(double[] expected, SplineFit fit, double tolerance) {
        double[] densities = new double[expected.length];
        fit.curve().densities(STRIP.column("x"), densities);
        assertArrayEquals(expected, densities, tolerance);
    }

    @Test
    void curveOfAStatedSmoothingIsThatOfSciPy() {
        ReferenceTable expected = ReferenceTable.read("strip21_scipy.csv");
        SplineFit fit = SmoothingSpline.withDefaults().withSmoothing(0.0027).fit(strip());
        assertCurve(expected.column("stated"), fit, 1e-12);
        double[] gradients = new double[21];
        fit.curve().gradients(STRIP.column("x"), gradients);
        assertArrayEquals(expected.column("stated_slope"), gradients, 1e-11);
        assertTrue(fit.criterion().isEmpty());
    }

    @Test
    void unequalWeightsGiveTheCurveOfSciPy() {
        ReferenceTable expected = ReferenceTable.read("strip21_scipy.csv");
        double[] weights = new double[21];
        Arrays.setAll(weights, i -> 1 + 0.1 * i);
        WeightedReadings readings =
                new WeightedReadings(weights, 21, 0, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
        ReinschSystem system = new ReinschSystem(expected.column("x"), expected.column("y"), weights);
        NaturalSpline spline = SplineSolution.of(system, readings, 0.0027).spline();
        assertArrayEquals(
                expected.column("weighted"),
                Arrays.stream(expected.column("x")).map(spline::density).toArray(),
                1e-12);
    }

    @Test
    void crossValidationChoosesAsSciPyDoes() {
        SplineFit fit = SmoothingSpline.withDefaults()
                .with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION)
                .fit(strip());
        assertCurve(ReferenceTable.read("strip21_scipy.csv").column("gcv"), fit, 1e-6);
    }

    @Test
    void curveOfAStatedSmoothingIsNearThatOfR() {
        SplineFit fit =
                SmoothingSpline.withDefaults().withSmoothing(1e-4 * RANGE_CUBED).fit(strip());
        assertCurve(STRIP.column("stated"), fit, 1e-5);
        assertEquals(8.728688365359, fit.degreesOfFreedom(), 2e-3);
    }

    @Test
    void crossValidationChoosesNearlyAsRDoes() {
        SplineFit fit = SmoothingSpline.withDefaults()
                .with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION)
                .fit(strip());
        assertEquals(0.001457722743802 * RANGE_CUBED, fit.smoothing(), 1e-3 * fit.smoothing());
        assertEquals(4.992364081044, fit.degreesOfFreedom(), 1e-3);
        assertCurve(STRIP.column("gcv"), fit, 1e-5);
        double free = fit.residualDegreesOfFreedom();
        double squares = Math.pow(fit.residualStandardDeviation(), 2) * free;
        assertEquals(0.0003838430152131, 21 * squares / (free * free), 1e-8);
    }

    @Test
    void restrictedLikelihoodChoosesAsMgcvDoes() {
        SplineFit fit = SmoothingSpline.withDefaults()
                .with(SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD)
                .fit(strip());
        assertEquals(0.02416828837321, fit.smoothing(), 1e-6);
        assertEquals(5.505375811313, fit.degreesOfFreedom(), 5e-5);
        assertEquals(Math.sqrt(0.0002868137720316), fit.residualStandardDeviation(), 1e-7);
        assertCurve(STRIP.column("reml"), fit, 1e-7);
        double[] x = STRIP.column("x");
        double[] errors = Arrays.stream(x)
                .map(at -> fit.standardErrorAt(LogExposure.ofLogLuxSeconds(at)))
                .toArray();
        assertArrayEquals(STRIP.column("reml_se"), errors, 2e-7);
        Estimate middle = fit.densityAt(LogExposure.ofLogLuxSeconds(x[10]));
        assertEquals(STRIP.column("reml")[10], middle.value(), 1e-7);
    }

    @Test
    void repeatsCountNearlyAsRCountsThem() {
        ReinschSystem system = cars();
        SmoothingSearch search = new SmoothingSearch(system, carsReadings());
        double smoothing = search.best(SmoothingCriterion.GENERALISED_CROSS_VALIDATION);
        assertEquals(0.111220595041 * 21 * 21 * 21, smoothing, 1e-3 * smoothing);
        assertEquals(2.63527791455, search.degreesOfFreedom(smoothing), 1e-3);
        assertEquals(244.104415906, search.score(SmoothingCriterion.GENERALISED_CROSS_VALIDATION, smoothing), 1e-4);
        assertArrayEquals(CARS_BY_GCV, solution(smoothing), 2e-3);
    }

    @Test
    void statedDegreesOfFreedomGiveNearlyTheCurveOfR() {
        // R stopped at 9.99839002962 degrees of freedom when asked for 10.
        double smoothing = new SmoothingSearch(cars(), carsReadings()).forDegreesOfFreedom(9.99839002962);
        assertArrayEquals(CARS_BY_DF_10, solution(smoothing), 5e-3);
    }

    @Test
    void restrictedLikelihoodWithRepeatsChoosesAsMgcvDoes() {
        ReferenceTable expected = ReferenceTable.read("cars_reml.csv");
        SmoothingSearch search = new SmoothingSearch(cars(), carsReadings());
        double smoothing = search.best(SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD);
        assertEquals(977.1328427963, smoothing, 0.01);
        SplineSolution solution = SplineSolution.of(cars(), carsReadings(), smoothing);
        assertEquals(2.656919624995, solution.degreesOfFreedom(), 2e-6);
        assertEquals(231.1349592838, solution.residualVariance(), 1e-5);
        double[] speeds = expected.column("speed");
        for (int i = 0; i < speeds.length; i++) {
            assertEquals(expected.column("fit")[i], solution.spline().density(speeds[i]), 2e-5);
            // At speeds that were driven and at speeds between them.
            assertEquals(expected.column("se")[i], solution.standardErrorOfDensity(speeds[i]), 2e-5);
        }
    }

    @Test
    void titaniumPeakIsSmoothedAsSciPyDoes() {
        ReferenceTable titanium = ReferenceTable.read("titanium_scipy.csv");
        NaturalSpline spline = titaniumSolution(titanium, search -> 100.0).spline();
        assertArrayEquals(
                titanium.column("fit"),
                Arrays.stream(titanium.column("temperature"))
                        .map(spline::density)
                        .toArray(),
                1e-11);
    }

    @Test
    void titaniumPeakIsSmoothedNearlyAsRDoes() {
        ReferenceTable titanium = ReferenceTable.read("titanium_df20.csv");
        SplineSolution solution = titaniumSolution(titanium, search -> search.forDegreesOfFreedom(19.999999355124));
        assertEquals(6.0260617749542e-06 * 480 * 480 * 480, solution.smoothing(), 1.5e-3 * solution.smoothing());
        NaturalSpline spline = solution.spline();
        assertArrayEquals(
                titanium.column("fit"),
                Arrays.stream(titanium.column("temperature"))
                        .map(spline::density)
                        .toArray(),
                2e-4);
    }

    private static SplineSolution titaniumSolution(
            ReferenceTable titanium, ToDoubleFunction<SmoothingSearch> smoothing) {
        double[] x = titanium.column("temperature");
        double[] ones = new double[x.length];
        Arrays.fill(ones, 1);
        WeightedReadings readings =
                new WeightedReadings(ones, x.length, 0, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
        ReinschSystem system = new ReinschSystem(x, titanium.column("property"), ones);
        return SplineSolution.of(system, readings, smoothing.applyAsDouble(new SmoothingSearch(system, readings)));
    }

    @Test
    void monotoneCurveIsThatOfAQuadraticProgramme() {
        ReferenceTable expected = ReferenceTable.read("strip21_monotone.csv");
        SmoothingSpline spline = SmoothingSpline.withDefaults().withSmoothing(0.00002);
        Strip strip = Strips.builder(STRIP.column("x"), STRIP.column("y"))
                .basePlusFog(0.23)
                .build();
        assertCurve(expected.column("free"), spline.fit(strip), 1e-11);
        SplineFit monotone = spline.with(SplineShape.MONOTONE).fit(strip);
        assertCurve(expected.column("monotone"), monotone, 2e-5);
        assertTrue(monotone.curve().isMonotone());
        assertCurve(
                expected.column("from_base"),
                spline.with(SplineShape.MONOTONE_FROM_BASE_PLUS_FOG).fit(strip),
                2e-5);
    }

    private static ReinschSystem cars() {
        double[] means = Arrays.stream(DISTANCES)
                .mapToDouble(d -> Arrays.stream(d).average().orElseThrow())
                .toArray();
        return new ReinschSystem(SPEEDS, means, carsReadings().weights);
    }

    private static WeightedReadings carsReadings() {
        double[] counts = Arrays.stream(DISTANCES).mapToDouble(d -> d.length).toArray();
        double squares = Arrays.stream(DISTANCES)
                .mapToDouble(d -> {
                    double mean = Arrays.stream(d).average().orElseThrow();
                    return Arrays.stream(d).map(v -> (v - mean) * (v - mean)).sum();
                })
                .sum();
        return new WeightedReadings(counts, 50, squares, OptionalDouble.empty(), Double.POSITIVE_INFINITY);
    }

    private static double[] solution(double smoothing) {
        NaturalSpline spline =
                SplineSolution.of(cars(), carsReadings(), smoothing).spline();
        return Arrays.stream(SPEEDS).map(spline::density).toArray();
    }
}
