// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.tone.DensityImage;

/** Tilt, width, profile, notes and refusals of edges that are given by a formula: what the formula says is expected. */
class EdgeFiguresTest {

    private static final double PITCH = 4;

    /** An edge of Gaussian spread at a place in each row, from 0.3 to 1.3. */
    private static double[] edge(int width, int height, double spread, DoubleUnaryOperator placeInRow) {
        double[] values = new double[width * height];
        Arrays.setAll(values, i -> {
            double off = i % width - placeInRow.applyAsDouble(Math.floorDiv(i, width));
            return 0.3 + EdgeSimulation.Shape.GAUSSIAN.edge(off, spread);
        });
        return values;
    }

    private static EdgeResponse read(double[] values, int width) {
        return SlantedEdge.withDefaults().determineInDensity(DensityImage.of(values, width, PITCH));
    }

    private static String refusal(double[] values, int width) {
        return assertThrows(NotDeterminableException.class, () -> read(values, width))
                .getMessage();
    }

    /** The numbers after some words of a text. */
    private static double after(String words, String text) {
        Matcher matcher = Pattern.compile(Pattern.quote(words) + "([0-9.]+)").matcher(text);
        assertTrue(matcher.find(), text);
        return Double.parseDouble(matcher.group(1).replaceAll("\\.$", ""));
    }

    /**
     * Across a line of slope b, a horizontal spread s is s cos φ wide, tan φ = b. From 5 % to 95 % a Gaussian function takes 2 ·
     * 1.64485 spreads (table of the normal distribution); the five quarters of a pixel over which the profile is smoothed for it
     * have a variance of 2/16 square pixels. The same edges are read turned by a right angle.
     */
    @ParameterizedTest
    @CsvSource({"60, 0.08, 2.0", "60, 0.3, 1.5", "60, -0.12, 2.0", "500, 0.07, 2.0", "500, 0.03, 1.5", "500, -0.05, 2.0"
    })
    void tiltWidthAndProfileAreThoseOfTheFormula(int height, double slope, double spread) {
        int width = 90;
        double[] values = edge(width, height, spread, row -> 45.3 + slope * (row - height / 2.0));
        EdgeResponse found = read(values, width);
        assertEquals(Math.toDegrees(Math.atan(Math.abs(slope))), found.angle(), 0.002);
        double across = spread * Math.cos(Math.atan(slope));
        assertEquals(2 * 1.64485 * Math.sqrt(across * across + 2 / 16.0) * PITCH, found.width(), 0.02 * PITCH);
        double[] places = found.places();
        double[] profile = found.profile();
        for (int k = 0; k < places.length; k++) {
            double expected = 0.3 + EdgeSimulation.Shape.GAUSSIAN.edge(places[k], across * PITCH);
            assertEquals(expected, profile[k], 0.001, "at " + places[k]);
        }
        assertEquals(PITCH / 4, places[1] - places[0], 1e-9);
        assertEquals(List.of(), found.notes());
        double[] turned = new double[values.length];
        Arrays.setAll(turned, i -> values[i % height * width + Math.floorDiv(i, height)]);
        EdgeResponse lying = read(turned, height);
        assertEquals(found.width(), lying.width(), 1e-9);
        assertEquals(found.angle(), lying.angle(), 1e-9);
    }

    /** Places that lie on a line plus c (t² − 1/3), t from −1 to 1, are bowed by c about their line of least squares. */
    @ParameterizedTest
    @ValueSource(doubles = {0.3, -0.5, 0.15})
    void aBowedEdgeIsNotedWithItsBow(double bow) {
        String notes = read(bowed(bow), 90).notes().toString();
        assertEquals(Math.abs(bow), after("curved by ", notes), 0.03 * Math.abs(bow), notes);
    }

    /** A tenth of a pixel is the limit; a greater bow in rows that scatter more than it is nothing to speak of. */
    @Test
    void aBowThatDoesNotCountIsNotNoted() {
        assertEquals(List.of(), read(bowed(0.09), 90).notes());
        Random random = new Random(4);
        double[] noisy = bowed(0.12);
        for (int i = 0; i < noisy.length; i++) {
            noisy[i] += 0.12 * random.nextGaussian();
        }
        assertEquals(List.of(), read(noisy, 90).notes());
    }

    private static double[] bowed(double bow) {
        return edge(90, 101, 2, row -> 45.3 + 0.08 * (row - 50) + bow * (Math.pow(row / 50 - 1, 2) - 1 / 3.0));
    }

    /** Ten rows of twelve pixels are enough, a row or a column less is not. */
    @Test
    void theLeastRegion() {
        DoubleUnaryOperator place = row -> 4.6 + 0.2 * row;
        assertEquals(
                Math.toDegrees(Math.atan(0.2)),
                read(edge(12, 10, 0.4, place), 12).angle(),
                1);
        String rows = refusal(edge(12, 9, 0.4, place), 12);
        assertTrue(rows.contains("were 9 of 12"), rows);
        String columns = refusal(edge(11, 10, 0.4, place), 11);
        assertTrue(columns.contains("were 10 of 11"), columns);
    }

    /** Three pixels must lie on both sides of both ends of the edge. */
    @Test
    void anEdgeThatLeavesTheRegionIsRefused() {
        double tilt = Math.toDegrees(Math.atan(0.2));
        assertEquals(tilt, read(edge(41, 117, 0.5, row -> 3.2 + 0.2 * row), 41).angle(), 0.01);
        assertEquals(tilt, read(edge(41, 117, 0.5, row -> 13.6 + 0.2 * row), 41).angle(), 0.01);
        String left = refusal(edge(41, 117, 0.5, row -> 2.4 + 0.2 * row), 41);
        assertTrue(left.contains("to column 26 of 41"), left);
        String right = refusal(edge(41, 117, 0.5, row -> 14.6 + 0.2 * row), 41);
        assertTrue(right.contains("from column 15 "), right);
    }

    @Test
    void anEdgeTiltedByMoreThanHalfARightAngleIsRefused() {
        String tilted = refusal(edge(120, 80, 1, row -> 10 + 1.2 * row), 120);
        assertTrue(tilted.contains("more than 45°"), tilted);
    }

    /**
     * Uniform noise from 0.9 to 1.1 has a standard deviation of 0.2 / √12 = 0.0577, and an image without an edge shows that; the
     * ends of the profile differ by much less.
     */
    @Test
    void noiseWithoutAnEdgeIsToldByItsScatter() {
        String none = refusal(new Random(1).doubles(80 * 80, 0.9, 1.1).toArray(), 80);
        assertEquals(0.0577, after("single pixels scatter by ", none), 0.001, none);
        assertTrue(after("the sides differ by ", none) < 0.02, none);
    }

    /**
     * A spread of 20 pixels. The ends are the means of the outer eighths of the profile, which reaches 31 pixels: 27.3 pixels
     * from the edge, where the normal distribution is at 0.086. 5 % of the way between them is 0.127, which is 1.14 spreads from the
     * middle: 2 · 1.14 · 20 = 45.6 pixels.
     */
    @Test
    void anEdgeTooWideForTheRegionIsRefusedWithItsWidth() {
        String wide = refusal(edge(60, 80, 20, row -> 29.5 + 0.1 * (row - 39.5)), 60);
        assertEquals(45.6, after("it takes ", wide), 1, wide);
        assertEquals(31, after("where ", wide), 1, wide);
    }

    /**
     * The window reaches to the end of the region if that is nearer than 1.6 · 3 distances of the 5 % place, 1.64485 spreads
     * (table of the normal distribution), and the note comes below 1.6 · 2 of them: 26.3 pixels for a spread of 5.
     */
    @ParameterizedTest
    @CsvSource({"50, true", "54, false"})
    void aRegionThatEndsCloseToTheEdgeIsNoted(int width, boolean isNoted) {
        EdgeResponse found = read(edge(width, 60, 5, row -> 0.5 * (width - 1) + 0.1 * (row - 29.5)), width);
        assertEquals(-0.5 * width, found.places()[0] / PITCH, 1.5);
        assertEquals(isNoted, found.notes().toString().contains("ends close to the edge"), found.notes()::toString);
    }
}
