// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class NumeralsTest {

    /** Against the JDK: decimals of up to 18 digits, the same to the last bit. */
    @Test
    void numbersAreThoseOfTheJdk() {
        Random random = new Random(3);
        for (int n = 0; n < 20_000; n++) {
            StringBuilder text = new StringBuilder(new String[] {"", "-", "+"}[random.nextInt(3)]);
            int digits = 1 + random.nextInt(18);
            int mark = random.nextInt(digits + 1) - 1;
            for (int i = 0; i < digits; i++) {
                text.append(i == mark ? "." : "").append(random.nextInt(10));
            }
            String number = text.toString();
            assertEquals(Double.parseDouble(number), Numerals.number(number).orElseThrow(), 0, number);
        }
    }

    @ParameterizedTest
    @CsvSource({"1e-3, 0.001", "-.5, -0.5", "2E2, 200", "+1e+2, 100"})
    void exponentsAreRead(String text, double value) {
        assertEquals(value, Numerals.number(text).orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "-", ".", "1.", "-.", "1.2.3", "1/2", "1:2", "1e", "1e-", "1d", "0x1p3", "NaN", "1e999"})
    void whatIsNoNumberIsNone(String text) {
        assertTrue(Numerals.number(text).isEmpty());
        assertFalse(Numerals.isNumber(text));
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "1.5, 1", "1.250, 3", "1.25e-3, 2", ".5, 1"})
    void decimals(String text, int decimals) {
        assertEquals(decimals, Numerals.decimals(text));
    }

    /** Whole numbers have up to nine digits, no sign and no mark. */
    @Test
    void wholeNumbers() {
        assertEquals(999_999_999, Numerals.wholeNumber("999999999").orElseThrow());
        for (String none : new String[] {"", "1000000000", "+1", "1.0", "1a"}) {
            assertTrue(Numerals.wholeNumber(none).isEmpty(), none);
        }
    }
}
