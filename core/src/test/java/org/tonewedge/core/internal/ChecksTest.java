// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ChecksTest {

    private static String refused(Executable check) {
        return assertThrows(IllegalArgumentException.class, check).getMessage();
    }

    @Test
    void boundsAreAllowedAndNamedAsTheyAreWritten() {
        assertEquals(0, Checks.within("value", 0, 0, 4, ""));
        assertEquals(4, Checks.within("value", 4, 0, 4, ""));
        assertEquals(
                "value must be from 0 to 4, was -0.5: look again",
                refused(() -> Checks.within("value", -0.5, 0, 4, "look again")));
        assertEquals(
                "value must be from 0.25 to 0.75, was NaN",
                refused(() -> Checks.within("value", Double.NaN, 0.25, 0.75, "")));
        assertEquals(
                "value must be above 0 and at most 1, was 0",
                refused(() -> Checks.within("value", 0, Double.MIN_VALUE, 1, "")));
    }

    @Test
    void confidenceLiesBetweenNothingAndCertainty() {
        assertEquals(0.95, Checks.confidence(0.95));
        assertTrue(refused(() -> Checks.confidence(0)).contains("give 0.95 for 95 %"));
        assertTrue(refused(() -> Checks.confidence(1)).contains("below 1"));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.POSITIVE_INFINITY, Double.NaN})
    void positiveIsFiniteAndAboveZero(double value) {
        assertEquals(Double.MIN_VALUE, Checks.positive("value", Double.MIN_VALUE));
        assertTrue(refused(() -> Checks.positive("value", value)).startsWith("value must be a finite number above 0"));
    }

    /** A carriage return, the line and paragraph separators of Unicode, half a surrogate pair and a code that is no character. */
    @ParameterizedTest
    @CsvSource({"0D, 13", "2028, 8232", "2029, 8233", "D800, 55296", "DFFF, 57343", "FFFE, 65534", "FFFF, 65535"})
    void labelsHaveNoControlCharacters(String code, int character) {
        String message = refused(() -> Checks.label("film", "a" + (char) character + "b"));
        assertTrue(message.contains("U+" + (code.length() < 4 ? "00" + code : code)), message);
        assertTrue(message.endsWith("in \"a\uFFFDb\""), message);
        assertEquals("café 400", Checks.label("film", " café 400 "));
    }

    @Test
    void longTextsAreQuotedByTheirBeginning() {
        assertEquals("x".repeat(80), Checks.shortened("x".repeat(80)));
        assertEquals("x".repeat(80) + "… (81 characters)", Checks.shortened("x".repeat(81)));
    }
}
