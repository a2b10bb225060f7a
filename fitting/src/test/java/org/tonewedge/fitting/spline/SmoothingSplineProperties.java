// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/** Laws that every smoothing spline obeys, whatever the readings. */
class SmoothingSplineProperties {

    private static final int TRIES = 200;

    /** The positions and densities of a strip in no particular shape. */
    static final class Readings {
        final double[] x;
        final double[] y;

        Readings(double[] x, double[] y) {
            this.x = x;
            this.y = y;
        }

        Strip strip() {
            return Strips.of(x, y);
        }

        Readings withDensities(DoubleUnaryOperator densityAtPosition) {
            return new Readings(x, Arrays.stream(x).map(densityAtPosition).toArray());
        }

        @Override
        public String toString() {
            return Arrays.toString(x) + " " + Arrays.toString(y);
        }
    }

    @Provide
    Arbitrary<Readings> readings() {
        Arbitrary<double[]> steps = Arbitraries.doubles()
                .between(0.05, 0.6)
                .ofScale(3)
                .array(double[].class)
                .ofMinSize(4)
                .ofMaxSize(31);
        return Combinators.combine(
                        steps,
                        Arbitraries.longs().between(0, 10_000),
                        Arbitraries.integers().between(-2, 2))
                .as((gaps, seed, slope) -> {
                    double[] x = new double[gaps.length];
                    double[] y = new double[gaps.length];
                    Random random = new Random(seed);
                    double at = -4;
                    for (int i = 0; i < x.length; i++) {
                        at += gaps[i];
                        x[i] = at;
                        y[i] = 2 + 0.8 * Math.tanh(0.7 * slope * (at + 2)) + 0.1 * random.nextGaussian();
                    }
                    return new Readings(x, y);
                });
    }

    @Property(tries = TRIES, seed = "1")
    void straightLineIsKeptByAnySmoothing(
            @ForAll("readings") Readings readings, @ForAll @DoubleRange(min = -6, max = 6) double logSmoothing) {
        Strip strip = readings.withDensities(at -> 2 + 0.15 * at).strip();
        for (SmoothingSpline spline : List.of(
                SmoothingSpline.withDefaults().withSmoothing(Math.pow(10, logSmoothing)),
                SmoothingSpline.withDefaults(),
                SmoothingSpline.withDefaults().with(SmoothingCriterion.GENERALISED_CROSS_VALIDATION),
                SmoothingSpline.withDefaults().with(SmoothingCriterion.RESTRICTED_MAXIMUM_LIKELIHOOD),
                SmoothingSpline.withDefaults().with(Repeatability.of(0.01)),
                SmoothingSpline.withDefaults().with(SplineShape.MONOTONE))) {
            CharacteristicCurve curve = spline.fit(strip).curve();
            for (double at : grid(readings.x)) {
                assertEquals(2 + 0.15 * at, curve.density(at), 1e-10);
                assertEquals(0.15, curve.gradient(at), 1e-8);
            }
        }
    }

    @Property(tries = TRIES, seed = "1")
    void noSmoothingInterpolates(@ForAll("readings") Readings readings) {
        SplineFit fit = SmoothingSpline.withDefaults().withSmoothing(1e-14).fit(readings.strip());
        fit.residuals().forEach(residual -> assertEquals(0, residual.value(), 1e-7));
        assertEquals(readings.x.length, fit.degreesOfFreedom(), 1e-5);
    }

    @Property(tries = TRIES, seed = "1")
    void greatSmoothingGivesTheLeastSquaresLine(@ForAll("readings") Readings readings) {
        SplineFit fit = SmoothingSpline.withDefaults().withSmoothing(1e9).fit(readings.strip());
        assertEquals(2, fit.degreesOfFreedom(), 1e-5);
        double meanX = Arrays.stream(readings.x).average().orElseThrow();
        double meanY = Arrays.stream(readings.y).average().orElseThrow();
        double sumXx = 0;
        double sumXy = 0;
        for (int i = 0; i < readings.x.length; i++) {
            sumXx += (readings.x[i] - meanX) * (readings.x[i] - meanX);
            sumXy += (readings.x[i] - meanX) * (readings.y[i] - meanY);
        }
        for (double at : grid(readings.x)) {
            assertEquals(meanY + sumXy / sumXx * (at - meanX), fit.curve().density(at), 1e-5);
        }
    }

    /** But for 1 part in 1000, by which lows less than a quarter decade apart may differ. */
    @Property(tries = TRIES, seed = "1")
    void noSmoothingScoresLowerThanTheChosenOne(@ForAll("readings") Readings readings) {
        assertLeastScore(readings.x, readings.y);
    }

    /**
     * Lows of 0.02659 at 8.41 degrees of freedom and 0.02653 at 5.73, the lower one between two points of a coarse grid: the
     * penalised score n RSS/(n − 1.2 tr S)² of the dense smoother matrix S by {@code spline_lows.py} (NumPy 2.4.6), in steps of
     * 0.002 in log λ.
     */
    @Example
    void lowerOfTwoLowsIsChosen() {
        double[] gaps = {
            0, 50, 50, 452, 57, 72, 127, 310, 110, 91, 68, 53, 97, 94, 178, 351, 169, 487, 524, 100, 140, 530, 50
        };
        double[] densities = {
            2.9044, 2.6650, 2.8163, 2.7698, 2.8417, 2.7978, 2.6723, 2.3824, 2.5798, 2.5646, 2.6112, 2.5692, 2.4547,
            2.2003, 2.1189, 1.6865, 1.5353, 1.6650, 1.2011, 1.2769, 1.4678, 0.9851, 1.2263
        };
        Arrays.parallelPrefix(gaps, Double::sum);
        double[] x = Arrays.stream(gaps).map(gap -> -3.95 + gap / 1000).toArray();
        assertLeastScore(x, densities);
        assertEquals(
                5.73,
                SmoothingSpline.withDefaults().fit(Strips.of(x, densities)).degreesOfFreedom(),
                0.05);
    }

    private static void assertLeastScore(double[] x, double[] y) {
        double[] ones = ones(x.length);
        ReinschSystem system = new ReinschSystem(x, y, ones);
        SmoothingSearch search = new SmoothingSearch(
                system,
                new WeightedReadings(ones, x.length, 0, OptionalDouble.of(0.1 * 0.1), Double.POSITIVE_INFINITY));
        double lowest = Math.log10(1e-3 * system.balancedSmoothing());
        double highest = Math.log10(system.straightLineSmoothing());
        for (SmoothingCriterion criterion : SmoothingCriterion.values()) {
            double chosen = search.best(criterion);
            double least = search.score(criterion, chosen);
            for (double at = lowest; at < highest; at += 0.05) {
                double score = search.score(criterion, Math.pow(10, at));
                double smoothing = at;
                assertTrue(
                        score >= least - 1e-3 * Math.abs(least),
                        () -> criterion + ": chosen " + Math.log10(chosen) + " scores " + least + ", " + smoothing
                                + " scores " + score);
            }
        }
    }

    @Property(tries = TRIES, seed = "1")
    void statedDegreesOfFreedomAreMet(
            @ForAll("readings") Readings readings, @ForAll @DoubleRange(min = 0.02, max = 0.98) double part) {
        double wanted = 2 + part * (readings.x.length - 2);
        SplineFit fit =
                SmoothingSpline.withDefaults().withDegreesOfFreedom(wanted).fit(readings.strip());
        assertEquals(wanted, fit.degreesOfFreedom(), 1e-8);
    }

    @Property(tries = TRIES, seed = "1")
    void curveFollowsAChangeOfScales(
            @ForAll("readings") Readings readings,
            @ForAll @DoubleRange(min = -3, max = 3) double shift,
            @ForAll @DoubleRange(min = 0.2, max = 2) double gain) {
        for (SplineShape shape : List.of(SplineShape.FREE, SplineShape.MONOTONE)) {
            SmoothingSpline spline = SmoothingSpline.withDefaults().with(shape);
            SplineFit before = spline.fit(readings.strip());
            Readings moved = new Readings(
                    Arrays.stream(readings.x).map(at -> at + shift).toArray(),
                    Arrays.stream(readings.y).map(d -> gain * d + 0.1).toArray());
            SplineFit after = spline.fit(moved.strip());
            assertEquals(before.degreesOfFreedom(), after.degreesOfFreedom(), 1e-3);
            assertEquals(gain * before.residualStandardDeviation(), after.residualStandardDeviation(), 1e-5);
            for (double at : grid(readings.x)) {
                assertEquals(
                        gain * before.curve().density(at) + 0.1,
                        after.curve().form().density(at + shift),
                        1e-4);
            }
        }
    }

    @Property(tries = TRIES, seed = "1")
    void orderOfReadingsDoesNotMatter(@ForAll("readings") Readings readings, @ForAll long seed) {
        List<Integer> order =
                new ArrayList<>(IntStream.range(0, readings.x.length).boxed().toList());
        Collections.shuffle(order, new Random(seed));
        Strip shuffled = new Readings(
                        order.stream().mapToDouble(i -> readings.x[i]).toArray(),
                        order.stream().mapToDouble(i -> readings.y[i]).toArray())
                .strip();
        SplineFit one = SmoothingSpline.withDefaults().fit(readings.strip());
        SplineFit other = SmoothingSpline.withDefaults().fit(shuffled);
        assertEquals(one.smoothing(), other.smoothing(), 0);
        assertEquals(one.residuals(), other.residuals());
    }

    @Property(tries = TRIES, seed = "1")
    void repeatsCountAsOftenAsTheyWereRead(
            @ForAll("readings") Readings readings, @ForAll @IntRange(min = 2, max = 4) int times) {
        Strip.Builder builder = Strip.builder("repeats").basePlusFog(0.2);
        for (int i = 0; i < readings.x.length; i++) {
            for (int k = 0; k < times; k++) {
                builder.reading(LogExposure.ofLogLuxSeconds(readings.x[i]), Density.of(readings.y[i]));
            }
        }
        SplineFit once = SmoothingSpline.withDefaults().withSmoothing(0.01).fit(readings.strip());
        SplineFit often =
                SmoothingSpline.withDefaults().withSmoothing(0.01 * times).fit(builder.build());
        for (double at : grid(readings.x)) {
            assertEquals(once.curve().density(at), often.curve().density(at), 1e-11);
        }
    }

    @Property(tries = TRIES, seed = "1")
    void readingOfHalfTheDeviationCountsFourTimes(@ForAll("readings") Readings readings) {
        Strip.Builder fourTimes = Strips.builder(readings.x, readings.y).basePlusFog(0.2);
        for (int i = 0; i < readings.x.length; i++) {
            for (int k = 1; readings.y[i] > 2 && k < 4; k++) {
                fourTimes.reading(LogExposure.ofLogLuxSeconds(readings.x[i]), Density.of(readings.y[i]));
            }
        }
        SplineFit weighted = SmoothingSpline.withDefaults()
                .with(Repeatability.of(density -> density > 2 ? 0.01 : 0.02))
                .withDegreesOfFreedom(3.4)
                .fit(readings.strip());
        SplineFit repeated =
                SmoothingSpline.withDefaults().withDegreesOfFreedom(3.4).fit(fourTimes.build());
        for (double at : grid(readings.x)) {
            assertEquals(repeated.curve().density(at), weighted.curve().density(at), 1e-8);
        }
    }

    @Property(tries = TRIES, seed = "1")
    void monotoneCurveNeverTurnsBack(
            @ForAll("readings") Readings readings, @ForAll @DoubleRange(min = -8, max = 1) double logSmoothing) {
        double sign = new ReinschSystem(readings.x, readings.y, ones(readings.x.length)).trend();
        double furthest =
                sign * Arrays.stream(readings.y).map(d -> sign * d).min().orElseThrow();
        double base = furthest + sign * 0.019; // as much as may contradict the furthest reading
        for (SplineShape shape : List.of(SplineShape.MONOTONE, SplineShape.MONOTONE_FROM_BASE_PLUS_FOG)) {
            SplineFit fit = SmoothingSpline.withDefaults()
                    .withSmoothing(Math.pow(10, logSmoothing))
                    .with(shape)
                    .fit(Strips.builder(readings.x, readings.y)
                            .basePlusFog(base)
                            .build());
            CharacteristicCurve curve = fit.curve();
            assertTrue(curve.isMonotone());
            for (double at : grid(readings.x)) {
                assertTrue(sign * curve.gradient(at) >= 0, () -> "gradient " + curve.gradient(at) + " at " + at);
            }
            if (shape == SplineShape.MONOTONE_FROM_BASE_PLUS_FOG) {
                assertTrue(sign * (curve.density(readings.x[0]) - base) >= -1e-9);
            }
        }
    }

    @Property(tries = TRIES, seed = "1")
    void monotoneShapeChangesNothingOnAMonotoneCurve(@ForAll("readings") Readings readings) {
        Strip strip = readings.withDensities(at -> 1 + 0.8 * Math.tanh(0.6 * (at + 1)))
                .strip();
        SmoothingSpline spline = SmoothingSpline.withDefaults().withSmoothing(0.01);
        SplineFit free = spline.fit(strip);
        assertEquals(
                free.residuals(), spline.with(SplineShape.MONOTONE).fit(strip).residuals());
    }

    @Property(tries = TRIES, seed = "1")
    void gradientIsTheDifferenceQuotient(
            @ForAll("readings") Readings readings,
            @ForAll @DoubleRange(min = 0.001, max = 0.999) @Scale(6) double part) {
        CharacteristicCurve curve = SmoothingSpline.withDefaults()
                .withSmoothing(1e-3)
                .fit(readings.strip())
                .curve();
        double first = readings.x[0];
        double last = readings.x[readings.x.length - 1];
        double at = first + part * (last - first);
        double h = 1e-5;
        double quotient = (curve.form().density(at + h) - curve.form().density(at - h)) / (2 * h);
        assertEquals(quotient, curve.gradient(at), 1e-5 * (1 + Math.abs(quotient)));
    }

    @Property(tries = TRIES, seed = "1")
    void splineIsStraightBeyondItsEnds(@ForAll("readings") Readings readings) {
        CharacteristicCurve curve = SmoothingSpline.withDefaults()
                .withDegreesOfFreedom(3.5)
                .fit(readings.strip())
                .curve();
        double last = readings.x[readings.x.length - 1];
        double slope = curve.form().gradient(last);
        assertEquals(curve.form().density(last) + slope, curve.form().density(last + 1), 1e-12);
        assertEquals(slope, curve.form().gradient(last + 1), 0);
        double first = readings.x[0];
        assertEquals(
                curve.form().density(first) - curve.form().gradient(first),
                curve.form().density(first - 1),
                1e-12);
    }

    @Property(tries = TRIES, seed = "1")
    void movedCurveKeepsItsErrors(
            @ForAll("readings") Readings readings, @ForAll @LongRange(min = 0, max = 99) long seed) {
        double stops = new Random(seed).nextDouble();
        SmoothingSpline spline =
                SmoothingSpline.withDefaults().withSmoothing(0.01).with(Repeatability.of(0.02));
        double interval = ExposureInterval.ofStops(stops).logUnits();
        SplineFit here = spline.fit(readings.strip());
        SplineFit there = spline.fit(
                new Readings(Arrays.stream(readings.x).map(at -> at + interval).toArray(), readings.y).strip());
        for (double at : readings.x) {
            assertEquals(
                    here.standardErrorAt(LogExposure.ofLogLuxSeconds(at)),
                    there.standardErrorAt(LogExposure.ofLogLuxSeconds(at + interval)),
                    1e-9);
        }
    }

    private static double[] ones(int count) {
        double[] ones = new double[count];
        Arrays.fill(ones, 1);
        return ones;
    }

    private static double[] grid(double[] x) {
        double first = x[0];
        double last = x[x.length - 1];
        return IntStream.rangeClosed(0, 500)
                .mapToDouble(i -> Math.min(last, first + (last - first) * i / 500))
                .toArray();
    }
}
