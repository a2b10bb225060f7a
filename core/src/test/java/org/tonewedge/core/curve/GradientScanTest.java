// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The scan beside a look at every place of a fine grid, on cubics through readings with errors, which bend the most. */
class GradientScanTest {

    private static final double FROM = -2.8;
    private static final double TO = 0.1;
    private static final int PLACES = 29_000;
    private static final int CELLS = 2048;

    private static CurveForm cubic(Random random) {
        return through(9 + random.nextInt(33), x -> film(2.5, -1.3, x) + 0.01 * random.nextGaussian());
    }

    private static CurveForm through(int steps, DoubleUnaryOperator reading) {
        double[] x = new double[steps];
        double[] d = new double[steps];
        for (int i = 0; i < steps; i++) {
            x[i] = -3 + 3.3 * i / (steps - 1);
            d[i] = reading.applyAsDouble(x[i]);
        }
        return MonotoneCubic.through(x, d, MonotoneSlopes.FRITSCH_CARLSON);
    }

    private static double film(double rate, double centre, double x) {
        return 0.2 + 2 / (1 + Math.exp(-rate * (x - centre)));
    }

    private static double at(int place) {
        return at(place, PLACES);
    }

    private static double at(int place, int places) {
        return FROM + (TO - FROM) * place / places;
    }

    @Test
    @Tag("slow")
    void nothingSteeperAndNoEarlierFallIsMissed() {
        Random random = new Random(6);
        for (int i = 0; i < 60; i++) {
            CurveForm form = cubic(random);
            double window = i % 3 == 0 ? 0 : 0.1 * (i % 3);
            GradientSearch scan = GradientSearch.of(form, window, FROM, TO);
            double steepest = scan.steepest();
            double greatest = scan.gradient(steepest);
            for (int place = 0; place <= PLACES; place++) {
                assertTrue(scan.gradient(at(place)) <= greatest + 1e-6, "steeper at " + at(place));
            }
            for (double fraction : new double[] {0.8, 0.1}) {
                double level = fraction * greatest;
                double fall = scan.fallsBelow(level, steepest, 1);
                double end = Double.isNaN(fall) ? TO : fall;
                for (int place = 0; place <= PLACES; place++) {
                    if (at(place) > steepest && at(place) < end - 1e-9) {
                        assertTrue(scan.gradient(at(place)) >= level - 1e-5, "falls below at " + at(place));
                    }
                }
                if (!Double.isNaN(fall)) {
                    assertEquals(level, scan.gradient(fall), 1e-9);
                }
            }
        }
    }

    /** The grid of the class documentation, read at every place; in the interval of the greatest value a ternary search. */
    private static double plainGreatest(GradientSearch scan) {
        int best = 0;
        for (int place = 0; place <= CELLS; place++) {
            best = scan.gradient(cell(place)) > scan.gradient(cell(best)) ? place : best;
        }
        double a = cell(Math.max(0, best - 1));
        double b = cell(Math.min(CELLS, best + 1));
        for (int i = 0; i < 60; i++) {
            double left = a + (b - a) / 3;
            double right = b - (b - a) / 3;
            if (scan.gradient(left) > scan.gradient(right)) {
                b = right;
            } else {
                a = left;
            }
        }
        return Math.max(scan.gradient(0.5 * (a + b)), scan.gradient(cell(best)));
    }

    /** The first place of the walk in steps of a cell whose gradient is below the level; bisection before it. */
    private static double plainFall(GradientSearch scan, double level, double start, int direction) {
        double end = direction > 0 ? TO : FROM;
        double step = (TO - FROM) / CELLS;
        double above = start;
        while (above != end) {
            double next = Math.abs(end - above) <= step ? end : above + direction * step;
            if (scan.gradient(next) < level) {
                double below = next;
                for (int i = 0; i < 60; i++) {
                    double middle = 0.5 * (above + below);
                    if (scan.gradient(middle) < level) {
                        below = middle;
                    } else {
                        above = middle;
                    }
                }
                return above;
            }
            above = next;
        }
        return Double.NaN;
    }

    private static double cell(int place) {
        return at(place, CELLS);
    }

    /** The short cuts of the scan beside a plain search without any, from several starts in both directions. */
    @Test
    void shortCutsFindWhatAPlainSearchFinds() {
        Random random = new Random(7);
        for (int i = 0; i < 24; i++) {
            CurveForm cubic = cubic(random);
            double window = 0.1 * (i % 4);
            GradientSearch scan = new GradientScan(CurveForm.of(cubic::density, cubic::gradient), window, FROM, TO);
            double greatest = plainGreatest(scan);
            double steepest = scan.steepest();
            assertEquals(greatest, scan.gradient(steepest), 1e-6, "greatest, window " + window);
            for (double fraction : new double[] {0.9, 0.5, 0.1}) {
                double level = fraction * greatest;
                for (double start : new double[] {steepest, cell(8 * random.nextInt(CELLS / 8)), FROM, TO}) {
                    if (scan.gradient(start) < level) {
                        continue;
                    }
                    for (int direction : new int[] {1, -1}) {
                        assertEquals(
                                plainFall(scan, level, start, direction),
                                scan.fallsBelow(level, start, direction),
                                1e-8,
                                "below " + fraction + " from " + start + " in direction " + direction);
                    }
                }
            }
        }
    }

    /**
     * Where readings lie closer than the points of the first look, the gradient bends between these points, where the look sees
     * none of it.
     */
    @Test
    void manyReadingsHideNoSteeperPlace() {
        Random random = new Random(8);
        for (int i = 0; i < 500; i++) {
            int steps = 60 + random.nextInt(45);
            double rate = 1.5 + 6 * random.nextDouble();
            double centre = -2.5 + 2 * random.nextDouble();
            double noise = 0.001 * (i % 4);
            CurveForm form = through(
                    steps, x -> Math.rint(1000 * (film(rate, centre, x) + noise * random.nextGaussian())) / 1000);
            GradientSearch scan = GradientSearch.of(form, 0.301, FROM, TO);
            double greatest = plainGreatest(scan);
            double steepest = scan.steepest();
            assertEquals(greatest, scan.gradient(steepest), 1e-6, "strip " + i);
            for (int direction : new int[] {1, -1}) {
                assertEquals(
                        plainFall(scan, 0.8 * greatest, steepest, direction),
                        scan.fallsBelow(0.8 * greatest, steepest, direction),
                        1e-8,
                        "strip " + i);
            }
        }
    }

    /**
     * Readings in pairs 0.001 to 0.01 apart, or many with noise, make peaks of the averaged gradient far narrower than a cell of
     * the grid. A search on the grid may miss them; here the values at all places are compared.
     */
    @Test
    void noNarrowPeakOfJoinedCubicsIsMissed() {
        Random random = new Random(9);
        double[] windows = {0.02, 0.05, 0.1, 0.30103, 0.6, 0};
        for (int i = 0; i < 300; i++) {
            int steps = i % 2 == 0 ? 60 + random.nextInt(40) : 20 + random.nextInt(30);
            double[] x = new double[steps];
            double[] d = new double[steps];
            for (int j = 0; j < steps; j++) {
                boolean isSecondOfPair = i % 2 == 1 && j % 2 == 1;
                x[j] = isSecondOfPair ? x[j - 1] + 0.001 + 0.009 * random.nextDouble() : -3 + 3.3 * j / (steps - 1);
                d[j] = film(2.5, -1.3, x[j]) + 0.003 * random.nextGaussian();
            }
            MonotoneSlopes rule = i % 4 < 2 ? MonotoneSlopes.FRITSCH_CARLSON : MonotoneSlopes.FRITSCH_BUTLAND;
            CurveForm form = MonotoneCubic.through(x, d, rule);
            double window = windows[i % windows.length];
            double[] gradients = new double[PLACES + 1];
            double greatest = Double.NEGATIVE_INFINITY;
            for (int place = 0; place <= PLACES; place++) {
                gradients[place] = gradient(form, window, at(place));
                greatest = Math.max(greatest, gradients[place]);
            }
            GradientSearch scan = GradientSearch.of(form, window, FROM, TO);
            double steepest = scan.steepest();
            assertTrue(scan.gradient(steepest) >= greatest - 1e-12 * greatest, "curve " + i);

            double level = 0.8 * scan.gradient(steepest);
            double fall = scan.fallsBelow(level, steepest, 1);
            for (int place = 0; place <= PLACES; place++) {
                if (at(place) > steepest && !(at(place) >= fall)) {
                    assertTrue(gradients[place] >= level - 1e-12, "curve " + i + " falls below at " + at(place));
                }
            }
            if (!Double.isNaN(fall)) {
                assertEquals(level, scan.gradient(fall), 1e-9, "curve " + i);
                assertTrue(scan.gradient(fall + 1e-7) < level, "curve " + i + " only touches the level");
            }

            CurveForm other = ShiftedForm.moved(ShiftedForm.mirrored(reversed(x, d, rule)), 0.5);
            GradientSearch ofOther = GradientSearch.of(other, window, FROM + 0.5, TO + 0.5);
            assertEquals(scan.gradient(steepest), ofOther.gradient(ofOther.steepest()), 1e-9, "curve " + i);
        }
    }

    /** The same points on an axis that is counted the other way. */
    private static CurveForm reversed(double[] x, double[] d, MonotoneSlopes rule) {
        int last = x.length - 1;
        double[] backwards = new double[x.length];
        double[] densities = new double[x.length];
        for (int i = 0; i <= last; i++) {
            backwards[i] = -x[last - i];
            densities[i] = d[last - i];
        }
        return MonotoneCubic.through(backwards, densities, rule);
    }

    /** The gradient of a form may be no better than a quotient of differences: the averaged one takes densities alone. */
    @ParameterizedTest
    @ValueSource(doubles = {0.001, 0.01, 0.05})
    void anApproximateGradientDoesNotMisleadTheAverage(double step) {
        DoubleUnaryOperator density = x -> film(3, -1.3, x) + 0.3 / (1 + Math.exp(-8 * (x + 1)));
        CurveForm form =
                CurveForm.of(density, x -> (density.applyAsDouble(x + step) - density.applyAsDouble(x)) / step);
        for (double window : new double[] {0.1, 0.301, 0.6}) {
            GradientSearch scan = GradientSearch.of(form, window, FROM, TO);
            assertEquals(plainGreatest(scan), scan.gradient(scan.steepest()), 1e-8, "window " + window);
        }
    }

    /**
     * D = 2/(1 + e^{−k u}) has the gradient (k/2)/cosh²(k u/2), which is f of its greatest value at
     * u = ±(2/k) arcosh(1/√f).
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.9, 0.8, 0.5, 0.2})
    void logisticGradientFallsWhereItsFormulaSays(double fraction) {
        double k = 2.5;
        double centre = -1.3;
        CurveForm form = CurveForm.of(
                x -> 2 / (1 + Math.exp(-k * (x - centre))), x -> k / 2 / Math.pow(Math.cosh(k * (x - centre) / 2), 2));
        GradientScan scan = new GradientScan(form, 0, FROM, TO);
        assertEquals(centre, scan.steepest(), 1e-6);
        double arcosh = Math.log((1 + Math.sqrt(1 - fraction)) / Math.sqrt(fraction));
        assertEquals(centre + 2 / k * arcosh, scan.fallsBelow(fraction * k / 2, centre, 1), 1e-9);
        assertEquals(centre - 2 / k * arcosh, scan.fallsBelow(fraction * k / 2, centre, -1), 1e-9);
        assertTrue(Double.isNaN(scan.fallsBelow(0.01, centre, 1)), "the gradient at the end is 0.14");
        assertTrue(Double.isNaN(scan.fallsBelow(0.01, centre, -1)), "the gradient at the end is 0.11");
    }

    /** The greatest gradient may be at either end: x² is greatest at −2.8, e^x at 0.1 and half as great as 1 at ln 0.5. */
    @Test
    void greatestGradientMayBeAtAnEnd() {
        CurveForm rising = CurveForm.of(x -> x * x * x / 3, x -> x * x);
        assertEquals(FROM, new GradientScan(rising, 0, FROM, TO).steepest(), 1e-7);
        CurveForm other = CurveForm.of(x -> Math.exp(x), x -> Math.exp(x));
        assertEquals(TO, new GradientScan(other, 0, FROM, TO).steepest(), 1e-7);
        assertEquals(Math.log(0.5), new GradientScan(other, 0, FROM, TO).fallsBelow(0.5, TO, -1), 1e-9);
    }

    /**
     * e^{−(u/s)²} has a value at the node nearest to its middle, so many cells of 2.9/256 away, and rises above a height at
     * |u| = s √ln(1/height). Half a cell away both nodes hint at the top or dip. Three tenths of a cell away, the second
     * difference is 0.6 at the near node, enough to hint at a top above 0.7 or a dip below 0.3, but 0.3 at the other, which is
     * not.
     */
    @ParameterizedTest
    @CsvSource({"1005, 0.5, 0.35, 0.6, 0.5", "1003, 0.3, 0.3, 0.7, 0.7", "1007, 0.3, 0.3, 0.7, 0.7"})
    void narrowDipsAndTopsBetweenNodesAreFound(int tenths, double cells, double atNode, double height, double wide) {
        double middle = at(tenths, 2560);
        double s = cells * (TO - FROM) / 256 / Math.sqrt(Math.log(1 / atNode));
        DoubleUnaryOperator bell = x -> Math.exp(-Math.pow((x - middle) / s, 2));
        GradientScan dip = new GradientScan(CurveForm.of(x -> Double.NaN, x -> 1 - bell.applyAsDouble(x)), 0, FROM, TO);
        double half = s * Math.sqrt(Math.log(1 / height));
        assertEquals(middle - half, dip.fallsBelow(1 - height, FROM, 1), 1e-9);
        assertEquals(middle + half, dip.fallsBelow(1 - height, TO, -1), 1e-9);
        CurveForm tops = CurveForm.of(
                x -> Double.NaN, x -> bell.applyAsDouble(x) + wide * Math.exp(-Math.pow((x + 0.6) / 0.3, 2)));
        assertEquals(middle, new GradientScan(tops, 0, FROM, TO).steepest(), 1e-6, "the wide top is lower");
    }

    /** Two layers: each a logistic rise, the second steeper or not, so that the top of the gradient may be on either. */
    private static CurveForm layers(double second, double width) {
        DoubleUnaryOperator density =
                x -> 1 / (1 + Math.exp(-(x + 2.1) / width)) + second / (1 + Math.exp(-(x + 0.6) / width));
        return CurveForm.of(density, x -> {
            double p = 1 / (1 + Math.exp(-(x + 2.1) / width));
            double q = 1 / (1 + Math.exp(-(x + 0.6) / width));
            return (p * (1 - p) + second * q * (1 - q)) / width;
        });
    }

    /** From a second layer a thousandth steeper to one a thousandth flatter the top jumps by 1.5 log units. */
    @ParameterizedTest
    @CsvSource({"0.05, 0.301", "0.10, 0.301", "0.20, 0.301", "0.10, 0", "0.20, 0.9"})
    void jumpOfTheSteepestPlaceIsSeen(double width, double window) {
        for (double second : new double[] {0.5, 0.99, 0.999, 1.001, 1.01, 1.5}) {
            CurveForm form = layers(second, width);
            double plain = Double.NEGATIVE_INFINITY;
            double plainAt = Double.NaN;
            for (int place = 0; place <= PLACES; place++) {
                double x = at(place);
                double here = gradient(form, window, x);
                if (here > plain) {
                    plain = here;
                    plainAt = x;
                }
            }
            GradientScan whole = new GradientScan(form, window, FROM, TO);
            assertEquals(plainAt, whole.steepest(), 1e-4, "second layer " + second);
            assertEquals(plain, whole.gradient(whole.steepest()), 1e-7);
            double level = 0.8 * plain;
            double edge = whole.fallsBelow(level, whole.steepest(), 1);
            double before = plainAt;
            while (gradient(form, window, before) >= level) {
                before += (TO - FROM) / PLACES;
            }
            assertEquals(before, edge, 1.001 * (TO - FROM) / PLACES);
            GradientSearch part = whole.ofPart(window, FROM, plainAt);
            assertEquals(plain, part.gradient(part.steepest()), 1e-6, "at the end of a part");
        }
    }

    private static double gradient(CurveForm form, double window, double x) {
        return window == 0 ? form.gradient(x) : (form.density(x + window / 2) - form.density(x - window / 2)) / window;
    }

    /**
     * An averaged gradient takes densities alone, here with a form that has no gradient. A plain search reads two at each of
     * 2,049 places for the steepest, and as many again for the falls; a fifth of 4,098 has no source and only holds the saving.
     */
    @Test
    void smoothCurveIsReadAtFewPlaces() {
        int[] read = {0};
        CurveForm counting = CurveForm.of(
                x -> {
                    read[0]++;
                    return film(2.5, -1.3, x);
                },
                x -> Double.NaN);
        GradientScan scan = new GradientScan(counting, 0.3, FROM, TO);
        double steepest = scan.steepest();
        scan.fallsBelow(0.8 * scan.gradient(steepest), steepest, -1);
        scan.fallsBelow(0.8 * scan.gradient(steepest), steepest, 1);
        assertEquals(-1.3, steepest, 1e-6);
        assertTrue(read[0] < 820, read[0] + " densities were read");
    }

    /** In the same way a sixth of 2,049 for the steepest, and a fortieth for a crossing: the cells near it, and some trials. */
    @Test
    void smoothGradientIsReadAtFewPlaces() {
        double k = 2.5;
        int[] read = {0};
        CurveForm counting = CurveForm.of(x -> Double.NaN, x -> {
            read[0]++;
            return k / 2 / Math.pow(Math.cosh(k * (x + 1.3) / 2), 2);
        });
        GradientScan scan = new GradientScan(counting, 0, FROM, TO);
        double steepest = scan.steepest();
        assertEquals(-1.3, steepest, 1e-6);
        assertTrue(read[0] <= 340, read[0] + " gradients were read for the steepest");
        for (double fraction : new double[] {0.9, 0.8, 0.5, 0.2}) {
            for (int direction : new int[] {1, -1}) {
                read[0] = 0;
                scan.fallsBelow(fraction * k / 2, steepest, direction);
                assertTrue(read[0] <= 51, read[0] + " gradients were read for a crossing");
            }
        }
        read[0] = 0;
        scan.fallsBelow(0.05, steepest, 1);
        scan.fallsBelow(0.05, steepest, -1);
        assertTrue(read[0] <= 10, read[0] + " gradients were read where nothing falls below the level");
    }
}
