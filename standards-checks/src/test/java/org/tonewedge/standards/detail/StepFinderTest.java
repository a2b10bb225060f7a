// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import java.util.function.IntBinaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;

/** Steps without noise, whose places are known: each region must lie within its step, and fill half of it or more. */
class StepFinderTest {

    private static final ScanCodeTable TABLE =
            ScanCodeTable.densities(ScanEncoding.ofTransmittanceSteps(0, 65_535, 65_535));

    private static int code(double density) {
        return (int) Math.round(65_535 * Math.pow(10, -density));
    }

    /** Finds steps in a box from 0, 0 whose codes are given along it and across it; the regions are told as if it lay. */
    private static List<ScanRegion> find(int steps, int length, int depth, boolean standing, IntBinaryOperator code)
            throws IOException {
        int width = standing ? depth : length;
        int height = standing ? length : depth;
        short[] codes = new short[width * height];
        for (int i = 0; i < codes.length; i++) {
            int x = i % width;
            int y = Math.floorDiv(i, width);
            codes[i] = (short) (standing ? code.applyAsInt(y, x) : code.applyAsInt(x, y));
        }
        List<ScanRegion> found = StepFinder.of(steps)
                .find(ScanRows.of(codes, width, 65_535), new ScanRegion(0, 0, width, height), TABLE);
        assertEquals(steps, found.size());
        return standing
                ? found.stream()
                        .map(step -> new ScanRegion(step.y(), step.x(), step.height(), step.width()))
                        .toList()
                : found;
    }

    /** Bare light, steps from 0.2 on, and bare light behind them. */
    private static IntBinaryOperator row(int start, int width, int steps, double apart) {
        return (along, across) -> {
            int step = Math.floorDiv(along - start, width);
            return code(step < 0 || step >= steps ? 0.02 : 0.2 + apart * step);
        };
    }

    private static void assertSteps(List<ScanRegion> found, int start, int width, int depth) {
        for (int k = 0; k < found.size(); k++) {
            ScanRegion step = found.get(k);
            assertTrue(step.x() >= start + k * width, "begin of step " + (k + 1) + ": " + step);
            assertTrue(step.x() + step.width() <= start + (k + 1) * width, "end of step " + (k + 1) + ": " + step);
            assertTrue(step.width() >= 0.5 * width, step.toString());
            assertEquals(Math.floorDiv(depth, 4), step.y());
            assertEquals(depth - 2 * Math.floorDiv(depth, 4), step.height());
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void stepsAreFoundAlongTheBox(boolean standing) throws IOException {
        List<ScanRegion> found = find(6, 155, 21, standing, row(17, 20, 6, 0.3));
        assertSteps(found, 17, 20, 21);
        assertSteps(find(6, 155, 21, standing, row(16, 20, 6, 0.3)), 16, 20, 21);
    }

    /** Of a long box every second place is looked at, of a deep one every fourth line. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aLargeBoxIsLookedAtHereAndThere(boolean standing) throws IOException {
        assertSteps(find(3, 9000, 12, standing, row(700, 2500, 3, 0.3)), 700, 2500, 12);
        assertSteps(find(5, 420, 400, standing, row(40, 70, 5, 0.3)), 40, 70, 400);
    }

    /** Over the middle half of the box, from line 10 to 29 of 40, dust hides nine lines in twenty, or eleven. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void dustOnLessThanHalfOfTheLinesDoesNoHarm(boolean standing) throws IOException {
        IntBinaryOperator row = row(17, 20, 6, 0.3);
        int dust = code(3);
        assertSteps(
                find(6, 155, 40, standing, (along, across) -> across < 19 ? dust : row.applyAsInt(along, across)),
                17,
                20,
                40);
        assertThrows(
                NotDeterminableException.class,
                () -> find(
                        6, 155, 40, standing, (along, across) -> across < 21 ? dust : row.applyAsInt(along, across)));
    }

    /** Code 0 has no density: the last step, black in most lines, is as dense as the densest. */
    @Test
    void whereMostLinesAreBlackItIsDense() throws IOException {
        IntBinaryOperator row = row(17, 20, 6, 0.3);
        List<ScanRegion> found = find(
                6,
                155,
                40,
                false,
                (along, across) -> along >= 117 && along < 137 && across < 21
                        ? 0
                        : along < 137 && along >= 97 ? code(2.6) : row.applyAsInt(along, across));
        assertSteps(found, 17, 20, 40);
    }

    /** Six steps that span less than 0.1 are none: 5 · 0.019 = 0.095, 5 · 0.021 = 0.105. */
    @ParameterizedTest
    @CsvSource({"0.019, false", "0.021, true"})
    void stepsDifferByATenthInAll(double apart, boolean found) throws IOException {
        IntBinaryOperator row = row(17, 20, 6, apart);
        if (found) {
            assertSteps(find(6, 155, 20, false, row), 17, 20, 20);
        } else {
            String none = assertThrows(NotDeterminableException.class, () -> find(6, 155, 20, false, row))
                    .getMessage();
            assertTrue(none.contains("no row of 6 equal steps"), none);
        }
    }

    /** A row may begin between two pixels, and its steps end there: the inner part that is read lies within each of them. */
    @ParameterizedTest
    @CsvSource({"13.5, 21.25", "20.25, 18.75", "3.75, 24.5", "0.5, 25.5"})
    void stepsNeedNotBeginWithAPixel(double start, double width) throws IOException {
        List<ScanRegion> found = find(6, 156, 16, false, (along, across) -> {
            double step = Math.floor((along + 0.5 - start) / width);
            return code(step < 0 || step >= 6 ? 0.02 : 0.2 + 0.3 * step);
        });
        for (int k = 0; k < 6; k++) {
            ScanRegion step = found.get(k);
            assertTrue(step.x() >= start + k * width, "begin of step " + (k + 1) + ": " + step);
            assertTrue(step.x() + step.width() <= start + (k + 1) * width, "end of step " + (k + 1) + ": " + step);
            assertTrue(step.width() >= 0.5 * width, step.toString());
        }
    }

    /**
     * Pixels that alternate by 0.1 about the mean of their step leave a mean square of 0.01, a root of 0.1, where neighbours differ
     * by 0.2: more than the fifth that is allowed. A third of it is less.
     */
    @Test
    void whatASetOfStepsLeavesIsTold() throws IOException {
        String none = assertThrows(NotDeterminableException.class, () -> find(6, 120, 16, false, striped(0.1)))
                .getMessage();
        Matcher left = Pattern.compile("the best leaves ([0-9.]+) where neighbours differ by ([0-9.]+);")
                .matcher(none);
        assertTrue(left.find(), none);
        assertEquals(0.1, Double.parseDouble(left.group(1)), 0.01);
        assertEquals(0.2, Double.parseDouble(left.group(2)), 0.03);
        assertSteps(find(6, 120, 16, false, striped(0.033)), 0, 20, 16);
    }

    private static IntBinaryOperator striped(double by) {
        return (along, across) -> code(0.2 + 0.2 * Math.floorDiv(along, 20) + (along % 2 == 0 ? by : -by));
    }

    /** Six steps fill 0.6 of the box at least, with 6 pixels each: 60 pixels. */
    @Test
    void aBoxMayBeTooShort() throws IOException {
        assertEquals(6, find(6, 60, 16, false, row(0, 10, 6, 0.3)).size());
        String small = assertThrows(NotDeterminableException.class, () -> find(6, 59, 16, false, row(0, 10, 6, 0.3)))
                .getMessage();
        assertTrue(small.contains("a box of 59 pixels is too short for 6 steps"), small);
    }

    /**
     * Ten steps of 20 pixels, one of them wider at the cost of its neighbour. A region leaves out 4 pixels at either
     * end: a boundary that lies 3 off stays out of it, one that lies 8 off does not.
     */
    @ParameterizedTest
    @CsvSource({
        "3, ",
        "8, step 5 reaches into the place of step 6",
        "-3, ",
        "-8, step 6 reaches into the place of step 5",
    })
    void stepsOfUnequalWidthAreRefused(int by, String words) throws IOException {
        IntBinaryOperator row = (along, across) -> {
            int place = along - 17;
            int step = Math.abs(place - 100) < Math.abs(by) ? (by > 0 ? 4 : 5) : Math.floorDiv(place, 20);
            return code(step < 0 || step >= 10 ? 0.02 : 0.2 + 0.3 * step);
        };
        if (words == null) {
            assertEquals(10, find(10, 235, 21, false, row).size());
        } else {
            assertRefused("the 10 steps are not of equal width: " + words, 10, 235, row);
        }
    }

    /**
     * Steps of equal width on a film, with a toe and a shoulder where neighbours hardly differ, and grain: noise is not
     * taken for a step that reaches too far. In the middle neighbours differ by 0.1; by grain, places by 0.004 to 0.02.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void grainIsNoStepOfAnotherWidth(long seed) throws IOException {
        Random grain = new Random(seed);
        IntBinaryOperator film = (along, across) -> {
            int step = Math.floorDiv(along - 30, 30);
            double x = 0.15 * step - 1.5;
            double density = 0.2 + 0.13 * (Math.log1p(Math.exp(5 * x + 4.5)) - Math.log1p(Math.exp(5 * x - 4.5)));
            double mean = step < 0 || step >= 21 ? 0.02 : density;
            return code(Math.max(0, mean + 0.05 * Math.sqrt(Math.max(0.1, mean)) * grain.nextGaussian()));
        };
        assertSteps(find(21, 690, 40, false, film), 30, 30, 40);
    }

    /** The first step is only 12 of 20 pixels wide, and bare light is before it. */
    @Test
    void aNarrowStepAtTheEndIsRefused() {
        IntBinaryOperator row = row(17, 20, 10, 0.3);
        assertRefused(
                "what lies beside them reaches into the place of step 1",
                10,
                235,
                (along, across) -> along < 25 ? code(0.02) : row.applyAsInt(along, across));
    }

    private static void assertRefused(String words, int steps, int length, IntBinaryOperator row) {
        String refused = assertThrows(NotDeterminableException.class, () -> find(steps, length, 21, false, row))
                .getMessage();
        assertTrue(refused.contains(words), refused);
    }

    /** One of six steps is twice as wide as the others. */
    @Test
    void aDoubleStepIsRefused() {
        assertRefused("or one is twice as wide", 6, 175, (along, across) -> {
            int place = Math.floorDiv(along - 17, 20);
            int step = place < 3 ? place : place - 1;
            return code(step < 0 || step >= 6 ? 0.02 : 0.2 + 0.3 * step);
        });
    }
}
