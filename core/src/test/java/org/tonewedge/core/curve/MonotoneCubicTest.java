// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The monotone cubics against two general-purpose implementations, on data published with the methods; each resource
 * names its source.
 */
class MonotoneCubicTest {

    private static final double[] RPN14_X = {7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20};
    private static final double[] RPN14_Y = {
        0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994
    };
    private static final double[] TITANIUM_X = {595, 635, 695, 795, 855, 875, 895, 915, 935, 985, 1035, 1075};
    private static final double[] TITANIUM_Y = {
        0.644, 0.652, 0.644, 0.694, 0.907, 1.336, 2.169, 1.598, 0.916, 0.607, 0.603, 0.608
    };

    @ParameterizedTest
    @CsvFileSource(resources = "rpn14-monoH.FC.csv", useHeadersInDisplayName = true)
    void fritschCarlsonAsInR(double x, double density, double gradient) {
        MonotoneCubic cubic = MonotoneCubic.through(RPN14_X, RPN14_Y, MonotoneSlopes.FRITSCH_CARLSON);
        assertEquals(density, cubic.density(x), 1e-13);
        assertEquals(gradient, cubic.gradient(x), 1e-11);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "rpn14-pchip.csv", useHeadersInDisplayName = true)
    void fritschButlandAsInSciPy(double x, double density) {
        MonotoneCubic cubic = MonotoneCubic.through(RPN14_X, RPN14_Y, MonotoneSlopes.FRITSCH_BUTLAND);
        assertEquals(density, cubic.density(x), 1e-13);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "rpn14-pchip-slopes.csv", useHeadersInDisplayName = true)
    void fritschButlandSlopesAsInSciPy(double x, double gradient) {
        MonotoneCubic cubic = MonotoneCubic.through(RPN14_X, RPN14_Y, MonotoneSlopes.FRITSCH_BUTLAND);
        assertEquals(gradient, cubic.gradient(x), 1e-13);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "titanium12-pchip.csv", useHeadersInDisplayName = true)
    void fritschButlandOnDataThatTurnAsInSciPy(double x, double density) {
        MonotoneCubic cubic = MonotoneCubic.through(TITANIUM_X, TITANIUM_Y, MonotoneSlopes.FRITSCH_BUTLAND);
        assertEquals(density, cubic.density(x), 1e-12);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "titanium12-pchip-slopes.csv", useHeadersInDisplayName = true)
    void fritschButlandSlopesOnDataThatTurnAsInSciPy(double x, double gradient) {
        MonotoneCubic cubic = MonotoneCubic.through(TITANIUM_X, TITANIUM_Y, MonotoneSlopes.FRITSCH_BUTLAND);
        assertEquals(gradient, cubic.gradient(x), 1e-13);
    }

    @ParameterizedTest
    @EnumSource
    void neverOvershootsTheRpn14Data(MonotoneSlopes rule) {
        // A natural cubic through the same data runs from −0.0045 to 1.1012 (SciPy 1.17.1).
        MonotoneCubic cubic = MonotoneCubic.through(RPN14_X, RPN14_Y, rule);
        double before = 0;
        for (int i = 0; i <= 12_010; i++) {
            double density = cubic.density(Math.min(7.99 + i * 0.001, 20));
            assertTrue(density >= before - 1e-15, "falls at sample " + i);
            before = density;
        }
        assertEquals(0.999994, before, 1e-15);
        assertEquals(0, cubic.turningPoints(7.99, 20).length);
    }

    @ParameterizedTest
    @EnumSource
    void turningPointsAreThoseOfTheData(MonotoneSlopes rule) {
        MonotoneCubic cubic = MonotoneCubic.through(TITANIUM_X, TITANIUM_Y, rule);
        assertArrayEquals(new double[] {635, 695, 895, 1035}, cubic.turningPoints(595, 1075));
    }

    @ParameterizedTest
    @EnumSource
    void levelStretchesBeginAndEndAtTurningPoints(MonotoneSlopes rule) {
        MonotoneCubic cubic = MonotoneCubic.through(new double[] {0, 1, 2, 3, 4}, new double[] {0, 1, 1, 1, 2}, rule);
        assertArrayEquals(new double[] {1, 3}, cubic.turningPoints(0, 4));
        assertEquals(1, cubic.density(1.7), 0);
    }

    @ParameterizedTest
    @EnumSource
    void twoPointsGiveAStraightLine(MonotoneSlopes rule) {
        MonotoneCubic cubic = MonotoneCubic.through(new double[] {1, 3}, new double[] {2, 1}, rule);
        assertEquals(1.5, cubic.density(2), 1e-15);
        assertEquals(-0.5, cubic.gradient(2.7), 1e-15);
    }

    @Test
    void pointsOutOfOrderAreNamed() {
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(
                        new double[] {0, 2, 1}, new double[] {0, 1, 2}, MonotoneSlopes.FRITSCH_CARLSON));
        assertTrue(e.getMessage().contains("point 3"), e.getMessage());
        IllegalArgumentException twice = assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(
                        new double[] {0, 1, 1}, new double[] {0, 1, 2}, MonotoneSlopes.FRITSCH_CARLSON));
        assertTrue(twice.getMessage().contains("point 3"), twice.getMessage());
    }

    /** Secants 1 and −10: the three-point slope (3 · 1 + 10)/2 = 6.5 is cut to three secants; SciPy 1.17.1's pchip gives 3. */
    @Test
    void anEndSlopeBeyondThreeSecantsIsCut() {
        MonotoneCubic cubic =
                MonotoneCubic.through(new double[] {0, 1, 2}, new double[] {0, 1, -9}, MonotoneSlopes.FRITSCH_BUTLAND);
        assertEquals(3, cubic.gradient(0), 1e-15);
    }

    @Test
    void badPointsAreRefused() {
        IllegalArgumentException position = assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(
                        new double[] {0, 1, Double.NaN}, new double[] {0, 1, 2}, MonotoneSlopes.FRITSCH_CARLSON));
        assertTrue(position.getMessage().startsWith("position of point 3 "), position.getMessage());
        IllegalArgumentException value = assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(
                        new double[] {0, 1}, new double[] {0, Double.NaN}, MonotoneSlopes.FRITSCH_CARLSON));
        assertTrue(value.getMessage().startsWith("value of point 2 "), value.getMessage());
        for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> MonotoneCubic.through(
                            new double[] {0, 1}, new double[] {0, bad}, MonotoneSlopes.FRITSCH_CARLSON));
            assertThrows(
                    IllegalArgumentException.class,
                    () -> MonotoneCubic.through(
                            new double[] {bad, 1}, new double[] {0, 1}, MonotoneSlopes.FRITSCH_CARLSON));
        }
        assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(new double[] {0}, new double[] {0}, MonotoneSlopes.FRITSCH_CARLSON));
        assertThrows(
                IllegalArgumentException.class,
                () -> MonotoneCubic.through(new double[] {0, 1}, new double[] {0}, MonotoneSlopes.FRITSCH_CARLSON));
    }

    @Test
    void laterChangesOfTheArraysDoNotMatter() {
        double[] x = {0, 1, 2};
        double[] y = {0, 1, 3};
        MonotoneCubic cubic = MonotoneCubic.through(x, y, MonotoneSlopes.FRITSCH_CARLSON);
        double before = cubic.density(1.5);
        x[1] = 1.9;
        y[2] = -7;
        assertEquals(before, cubic.density(1.5), 0);
        assertEquals(0, cubic.turningPoints(0, 2).length);
    }

    /** The slopes of {@link MonotoneSlopes#FRITSCH_CARLSON}, whose paper is cited there, in two passes: all means, then all intervals. */
    private static double[] plainSlopes(double[] x, double[] y) {
        int last = x.length - 1;
        double[] secants = new double[last];
        Arrays.setAll(secants, i -> (y[i + 1] - y[i]) / (x[i + 1] - x[i]));
        double[] slopes = new double[last + 1];
        slopes[0] = secants[0];
        slopes[last] = secants[last - 1];
        for (int i = 1; i < last; i++) {
            slopes[i] = secants[i - 1] * secants[i] > 0 ? 0.5 * (secants[i - 1] + secants[i]) : 0;
        }
        for (int i = 0; i < last; i++) {
            double squares = slopes[i] * slopes[i] + slopes[i + 1] * slopes[i + 1];
            if (squares > 9 * secants[i] * secants[i]) {
                double scale = 3 * Math.abs(secants[i]) / Math.sqrt(squares);
                slopes[i] *= scale;
                slopes[i + 1] *= scale;
            }
        }
        return slopes;
    }

    @Test
    void slopesInOnePassAreThoseInTwo() {
        Random random = new Random(3);
        for (int run = 0; run < 200; run++) {
            int points = 2 + random.nextInt(30);
            double[] x = new double[points];
            double[] y = new double[points];
            for (int i = 0; i < points; i++) {
                x[i] = i + 0.9 * random.nextDouble();
                y[i] = (run % 2 == 0 ? i : 0) + random.nextInt(20) * 0.3; // unevenly steep, level and reversing
            }
            MonotoneCubic cubic = MonotoneCubic.through(x, y, MonotoneSlopes.FRITSCH_CARLSON);
            double[] slopes = plainSlopes(x, y);
            for (int i = 0; i < points - 1; i++) { // the last is computed from the cubic before it
                assertEquals(slopes[i], cubic.gradient(x[i]), 0);
            }
            assertEquals(slopes[points - 1], cubic.gradient(x[points - 1]), 1e-12 * (1 + Math.abs(slopes[points - 1])));
        }
    }

    @Test
    void aNumberThatIsNotFiniteIsNamedWhereverItStands() {
        for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            for (int i = 0; i < 4; i++) {
                for (int axis = 0; axis < 2; axis++) {
                    double[][] points = {{0, 1, 2, 3}, {0, 1, 2, 3}};
                    points[axis][i] = bad;
                    String message = assertThrows(
                                    IllegalArgumentException.class,
                                    () -> MonotoneCubic.through(points[0], points[1], MonotoneSlopes.FRITSCH_CARLSON))
                            .getMessage();
                    assertTrue(message.contains("point " + (i + 1)), message);
                }
            }
        }
    }
}
