// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * Robust fits to simulated readings of known curves, some of them bad. The measure is the plain fit to the good readings
 * alone, which no bad reading can bend.
 */
class RobustSearchTest {

    /** Of a reading of weight 1. */
    private static final double NOISE = 0.004;

    private static final double[] Q = {-2.1, Math.log(0.2), 1.8, Math.log(0.25)};

    private static final double[] LOGISTIC = {-1.4, Math.log(0.3)};

    private static FitSettings settings(Loss loss) {
        return new FitSettings(loss, OptionalDouble.empty(), true, 0);
    }

    /** From 0.9 below the toe to 0.6 above the shoulder; base plus fog 0.2 and gradient 0.7. */
    private static Readings strip(
            ShapeKind kind, double[] q, int steps, int unexposed, double unevenness, Random random) {
        double[] x = new double[steps];
        double[] d = new double[steps + unexposed];
        double[] weights = new double[d.length];
        for (int i = 0; i < d.length; i++) {
            if (i < steps) {
                x[i] = -3 + 3.3 * i / (steps - 1);
                d[i] = 0.7 * kind.shape().value(x[i], q);
            }
            weights[i] = Math.exp(unevenness * (2 * random.nextDouble() - 1));
            d[i] += 0.2 + NOISE / Math.sqrt(weights[i]) * random.nextGaussian();
        }
        return new Readings(x, d, weights);
    }

    private static ShapeFit fit(ShapeKind kind, Readings readings, Loss loss) {
        return ShapeSearch.fit(kind, readings, settings(loss), ShapeSearch.start(kind, readings));
    }

    private static Readings only(Readings all, IntPredicate kept) {
        return new Readings(
                IntStream.range(0, all.exposed())
                        .filter(kept)
                        .mapToDouble(i -> all.logExposures()[i])
                        .toArray(),
                IntStream.range(0, all.size())
                        .filter(kept)
                        .mapToDouble(i -> all.densities()[i])
                        .toArray(),
                IntStream.range(0, all.size())
                        .filter(kept)
                        .mapToDouble(i -> all.weights()[i])
                        .toArray());
    }

    /** How far two curves run apart at most, in standard deviations of a reading of weight 1. */
    private static double apart(ShapeFit one, ShapeFit other, Readings at) {
        double[] a = one.residualsOf(at);
        double[] b = other.residualsOf(at);
        return IntStream.range(0, a.length)
                        .mapToDouble(i -> Math.abs(a[i] - b[i]))
                        .max()
                        .orElseThrow()
                / NOISE;
    }

    private static boolean isLost(ShapeFit fit, int reading) {
        return fit.lossWeights()[reading] < 0.01;
    }

    /**
     * One, two and three bad readings in the toe, on the line, in the shoulder, at the ends and in base plus fog; two equal
     * ones side by side. No estimate withstands all of three, nor of two that agree with one another.
     * At most 10 % of those may bend the curve, and 6 strips of 130 may lose a good reading: own limits, no source.
     */
    @Test
    void theBadReadingsAreNamedAndTheOthersTellTheCurve() {
        ShapeKind kind = ShapeKind.TOE_SHOULDER;
        Random random = new Random(21);
        int hard = 0;
        int misled = 0;
        int goodLost = 0;
        for (int steps : new int[] {21, 31}) {
            int last = steps - 1;
            int toe = (int) Math.round(last * 0.27);
            int line = steps / 2;
            int shoulder = (int) Math.round(last * 0.8);
            int[][] places = {
                {0},
                {toe},
                {line},
                {shoulder},
                {last},
                {steps + 1},
                {toe, shoulder},
                {0, line},
                {line, last},
                {line, line + 1},
                {toe, toe + 1},
                {toe, line, shoulder},
                {0, line - 2, last}
            };
            for (int[] bad : places) {
                for (double error : new double[] {-0.3, -0.08, 0.08, 0.3, 1.2}) {
                    Readings readings = strip(kind, Q, steps, 3, 1, random);
                    for (int i : bad) {
                        readings.densities()[i] += error;
                    }
                    IntPredicate good = i -> Arrays.stream(bad).noneMatch(k -> k == i);
                    ShapeFit robust = fit(kind, readings, Loss.TUKEY);
                    double apart = apart(fit(kind, only(readings, good), Loss.SQUARES), robust, readings);
                    boolean agrees = Arrays.stream(bad).allMatch(i -> isLost(robust, i)) && apart < 1.5;
                    boolean together = bad.length == 2 && bad[1] == bad[0] + 1;
                    if (bad.length > 2 || together) {
                        hard++;
                        misled += agrees ? 0 : 1;
                    } else {
                        assertTrue(
                                agrees,
                                () -> steps + " steps, bad " + Arrays.toString(bad) + " by " + error + ": " + apart
                                        + ", " + Arrays.toString(robust.lossWeights()));
                    }
                    boolean lost = IntStream.range(0, readings.size()).anyMatch(i -> good.test(i) && isLost(robust, i));
                    goodLost += lost ? 1 : 0;
                }
            }
        }
        assertTrue(misled <= 0.1 * hard, misled + " of " + hard + " curves are bent");
        assertTrue(goodLost <= 6, goodLost + " of 130 strips lost a good reading");
    }

    /** Clean strips seldom lose a reading, at most 3 of 60 (own limit, no source); the curve stays by the plain one. */
    @Test
    void cleanStripsSeldomLoseAReading() {
        ShapeKind kind = ShapeKind.TOE_SHOULDER;
        Random random = new Random(22);
        int lost = 0;
        for (int run = 0; run < 60; run++) {
            Readings readings = strip(kind, Q, 21 + run % 11, 3, 1, random);
            ShapeFit robust = fit(kind, readings, Loss.TUKEY);
            lost += IntStream.range(0, readings.size()).anyMatch(i -> isLost(robust, i)) ? 1 : 0;
            assertEquals(0, apart(fit(kind, readings, Loss.SQUARES), robust, readings), 2, "run " + run);
        }
        assertTrue(lost <= 3, lost + " of 60 clean strips lost a reading");
    }

    /**
     * Where one clear bad reading is confirmed by a plain fit without it, no second search follows: less than 14 times the iterations of a plain fit (own limit, no source; 11 found, and 20 with a second search).
     */
    @Test
    void aConfirmedReadingNeedsNoSecondSearch() {
        ShapeKind kind = ShapeKind.TOE_SHOULDER;
        Random random = new Random(24);
        double robust = 0;
        double plain = 0;
        for (int run = 0; run < 60; run++) {
            Readings readings = strip(kind, Q, 31, 3, 1, random);
            int bad = 2 + run % 27;
            plain += fit(kind, only(readings, i -> i != bad), Loss.SQUARES)
                    .search()
                    .iterations();
            readings.densities()[bad] += run % 2 == 0 ? 0.3 : -0.3;
            robust += fit(kind, readings, Loss.TUKEY).search().iterations();
        }
        assertTrue(robust < 14 * plain, robust / plain + " times the iterations of plain fits");
    }

    /**
     * Nine readings of a curve of four parameters, with one bad reading and with none. At most 3 of 140 curves may be bent, and 14
     * of 140 clean strips may lose a reading: own limits, no source.
     */
    @Test
    void amongFewReadingsTheBadOneIsFound() {
        ShapeKind kind = ShapeKind.LOGISTIC;
        Random random = new Random(23);
        int bent = 0;
        int cleanLost = 0;
        for (int run = 0; run < 140; run++) {
            Readings readings = strip(kind, LOGISTIC, 9, run % 2, 0.7, random);
            int bad = 1 + run % 7;
            Readings clean = only(readings, i -> true);
            ShapeFit undisturbed = fit(kind, clean, Loss.TUKEY);
            cleanLost += IntStream.range(0, clean.size()).anyMatch(i -> isLost(undisturbed, i)) ? 1 : 0;
            readings.densities()[bad] += (run % 4 < 2 ? 1 : -1) * (0.06 + 0.3 * random.nextDouble());
            ShapeFit robust = fit(kind, readings, Loss.TUKEY);
            ShapeFit good = fit(kind, only(readings, i -> i != bad), Loss.SQUARES);
            bent += isLost(robust, bad) && apart(good, robust, clean) < 4 ? 0 : 1;
        }
        assertTrue(bent <= 3, bent + " of 140 curves are bent");
        assertTrue(cleanLost <= 14, cleanLost + " of 140 clean strips lost a reading");
    }

    /**
     * Strips of nine steps whose bad reading neither draws the robust fit away nor gains the plain fit most, but lies far off
     * the line between its neighbours. Of 1,500 seeds tried, these are the strips whose bad reading is missed without a look
     * at neighbours; in 4 of 1,500 it is missed in any case.
     */
    @Test
    void aBadReadingIsKnownByItsNeighboursToo() {
        ShapeKind kind = ShapeKind.LOGISTIC;
        for (int seed : new int[] {66, 87, 129, 206, 248, 255, 486, 507, 555, 703, 745, 794}) {
            Random random = new Random(seed);
            Readings readings = strip(kind, LOGISTIC, 9, 1, 0.7, random);
            int bad = 1 + seed % 7;
            Readings clean = only(readings, i -> true);
            readings.densities()[bad] += (seed % 2 == 0 ? 1 : -1) * (0.06 + 0.3 * random.nextDouble());
            ShapeFit robust = fit(kind, readings, Loss.TUKEY);
            assertTrue(isLost(robust, bad), "seed " + seed);
            ShapeFit good = fit(kind, only(readings, i -> i != bad), Loss.SQUARES);
            assertEquals(0, apart(good, robust, clean), 4, "seed " + seed);
        }
    }
}
