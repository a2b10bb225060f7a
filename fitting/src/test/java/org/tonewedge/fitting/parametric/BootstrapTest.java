// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;

class BootstrapTest {

    private static final FittedCurve FIT = CurveFits.toeShoulder(TestStrips.s07());
    private static final Bootstrap REFITS = FIT.parametricBootstrap(7, 500);

    static Stream<ToDoubleFunction<CharacteristicCurve>> figures() {
        return Stream.of(
                TestStrips::speedPoint,
                curve -> curve.gradient(-1.3),
                curve -> curve.averageGradient(LogExposure.ofLogLuxSeconds(-2), LogExposure.ofLogLuxSeconds(-0.7))
                        .value(),
                curve -> CurveAnatomy.of(curve).gamma().value(),
                curve -> CurveAnatomy.of(curve).straightLine().length().logUnits(),
                curve -> curve.maximumDensity().value());
    }

    /** For figures that are smooth in the curve both ways must agree; 500 refits tell a deviation to 3 %. */
    @ParameterizedTest
    @MethodSource("figures")
    @Tag("slow")
    void agreesWithTheDeltaMethod(ToDoubleFunction<CharacteristicCurve> figure) {
        Estimate delta = FIT.estimate(figure);
        Estimate refitted = REFITS.estimate(figure);
        assertEquals(delta.value(), refitted.value());
        assertEquals(1, refitted.standardUncertainty() / delta.standardUncertainty(), 0.15);
        CoverageInterval interval = REFITS.interval(figure, 0.95);
        assertTrue(interval.contains(delta.value()));
        assertEquals(
                2 * 1.96 * delta.standardUncertainty(),
                interval.upper() - interval.lower(),
                0.2 * 4 * delta.standardUncertainty());
    }

    @Test
    void theSeedDecides() {
        CoverageInterval once = FIT.parametricBootstrap(3, 50).interval(TestStrips::speedPoint, 0.9);
        assertEquals(once, FIT.parametricBootstrap(3, 50).interval(TestStrips::speedPoint, 0.9));
        assertNotEquals(once, FIT.parametricBootstrap(4, 50).interval(TestStrips::speedPoint, 0.9));
    }

    @Test
    void refitsThatAMethodRefusesByItsOwnExceptionAreLeftOut() {
        double limit = REFITS.interval(TestStrips::speedPoint, 0.9).upper();
        ToDoubleFunction<CharacteristicCurve> refusing = curve -> {
            double speedPoint = TestStrips.speedPoint(curve);
            if (speedPoint > limit) {
                throw new IllegalArgumentException("speed point above " + limit);
            }
            return speedPoint;
        };
        // 5 % of the refits lie above the limit; without them the spread is somewhat less.
        double all = REFITS.estimate(TestStrips::speedPoint).standardUncertainty();
        assertEquals(0.9, REFITS.estimate(refusing).standardUncertainty() / all, 0.1);
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> REFITS.estimate(curve -> {
                    if (!curve.equals(FIT.curve())) {
                        throw new IllegalArgumentException("every refit is refused");
                    }
                    return 0;
                }));
        assertTrue(e.getMessage().contains("every refit is refused"), e.getMessage());
    }

    @Test
    void casesAreDrawnToo() {
        Bootstrap cases = FIT.caseBootstrap(5, 400);
        assertEquals(400, cases.replicates());
        assertTrue(cases.failures() < 20, () -> "failures: " + cases.failures());
        double ratio = cases.estimate(TestStrips::speedPoint).standardUncertainty()
                / FIT.estimate(TestStrips::speedPoint).standardUncertainty();
        assertTrue(ratio > 0.5 && ratio < 2, () -> "was " + ratio);
    }

    /** A speck may be drawn several times; the refits still go on from the robust fit and its standard deviation. */
    @Test
    @Tag("slow")
    void aSpeckDoesNotLeadTheRefitsOfARobustFitAstray() {
        Random random = new Random(6);
        List<Double> ratios = new ArrayList<>();
        for (int i = 0; i < 15; i++) {
            ParametricForm truth = TestStrips.anyForm(random);
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, TestStrips.EXPOSURES), 0.005, random);
            d[3 + i] += 0.5;
            double base = truth.parameter(CurveParameter.BASE_PLUS_FOG);
            FittedCurve fit = CurveFit.of(CurveFamily.TOE_SHOULDER)
                    .with(RobustLoss.TUKEY)
                    .fit("S" + i, ExposureAxis.LUX_SECONDS, TestStrips.EXPOSURES, d, base - 0.003, base + 0.003);
            Bootstrap cases = fit.caseBootstrap(i, 300);
            assertTrue(cases.failures() < 10, () -> "failures: " + cases.failures());
            ratios.add(cases.estimate(TestStrips::speedPoint).standardUncertainty()
                    / fit.estimate(TestStrips::speedPoint).standardUncertainty());
        }
        Collections.sort(ratios);
        double median = ratios.get(7);
        assertTrue(median > 0.7 && median < 1.6, ratios::toString);
    }

    @Test
    void refusesFiguresThatRefitsDoNotGive() {
        assertThrows(NotDeterminableException.class, () -> REFITS.estimate(curve -> curve.density(0.5)));
        double top = FIT.curve().maximumDensity().value();
        // Half of the refitted curves do not reach it.
        assertThrows(NotDeterminableException.class, () -> REFITS.interval(curve -> curve.logExposure(top), 0.95));
        assertThrows(IllegalArgumentException.class, () -> FIT.parametricBootstrap(1, 1));
        assertThrows(IllegalArgumentException.class, () -> REFITS.interval(TestStrips::speedPoint, 95));
    }

    @Test
    void anyExceptionAndAnyNumberThatIsNoneIsAFailureToReadTheFigure() {
        assertThrows(
                NotDeterminableException.class,
                () -> REFITS.estimate(curve -> {
                    throw new java.util.NoSuchElementException("nothing there");
                }));
        assertThrows(NotDeterminableException.class, () -> REFITS.estimate(curve -> Double.NaN));
        double all = REFITS.estimate(TestStrips::speedPoint).standardUncertainty();
        int[] count = {0};
        double most = REFITS.estimate(curve -> ++count[0] % 50 == 0 ? Double.NaN : TestStrips.speedPoint(curve))
                .standardUncertainty();
        assertEquals(1, most / all, 0.1);
    }

    /**
     * A straight line is a linear model: refits with the stated deviation 0.01 scatter as the formulas of any textbook say, the
     * gradient by 0.01/√Sxx, base plus fog by 0.01/√2. 600 refits tell a deviation to 3 %.
     */
    @Test
    void refitsOfALineScatterByTheFormula() {
        double[] x = {0, 1, 2, 3};
        FittedCurve line = CurveFit.of(CurveFamily.STRAIGHT_LINE)
                .with(Repeatability.of(0.01))
                .fit("S", ExposureAxis.LUX_SECONDS, x, new double[] {0.22, 0.48, 0.78, 1.12}, 0.20, 0.28);
        Bootstrap refits = line.parametricBootstrap(1, 600);
        assertEquals(
                0.01 / Math.sqrt(5),
                refits.estimate(curve -> curve.gradient(1)).standardUncertainty(),
                0.1 * 0.01 / Math.sqrt(5));
        assertEquals(
                0.01 / Math.sqrt(2),
                refits.estimate(curve -> curve.basePlusFog().value()).standardUncertainty(),
                0.1 * 0.01 / Math.sqrt(2));
        assertEquals(0, refits.failures());
        // Of four steps drawn four times, all are the same in 4 of 256 cases; then there is no line.
        Bootstrap cases = line.caseBootstrap(1, 4000);
        assertEquals(4000 / 64.0, cases.failures(), 4 * Math.sqrt(4000 / 64.0));
        assertEquals(4000, cases.replicates());
    }

    /** By formula: the standard deviation of the figures of the refits, from two refits on. At least nine in ten must give a figure (own choice, no source). */
    @Test
    void fewRefitsAreCounted() {
        for (int replicates : new int[] {2, 5}) {
            List<Double> read = new ArrayList<>();
            Bootstrap few = FIT.parametricBootstrap(2, replicates);
            double u = few.estimate(curve -> {
                        double point = TestStrips.speedPoint(curve);
                        read.add(point);
                        return point;
                    })
                    .standardUncertainty();
            List<Double> refits = read.subList(1, read.size());
            double mean = refits.stream().mapToDouble(f -> f).average().orElseThrow();
            double squares =
                    refits.stream().mapToDouble(f -> (f - mean) * (f - mean)).sum();
            assertEquals(replicates, refits.size());
            assertEquals(Math.sqrt(squares / (replicates - 1)), u, 1e-12);
        }
        Bootstrap ten = FIT.parametricBootstrap(2, 10);
        int[] calls = {0};
        ten.estimate(curve -> {
            if (++calls[0] == 4) {
                throw new IllegalArgumentException("one of ten");
            }
            return TestStrips.speedPoint(curve);
        });
        calls[0] = 0;
        assertThrows(
                NotDeterminableException.class,
                () -> ten.estimate(curve -> {
                    if (++calls[0] == 4 || calls[0] == 5) {
                        throw new IllegalArgumentException("two of ten");
                    }
                    return TestStrips.speedPoint(curve);
                }));
    }
}
