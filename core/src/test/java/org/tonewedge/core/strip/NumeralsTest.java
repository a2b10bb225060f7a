// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class NumeralsTest {

    /** Against the JDK: a hundred thousand decimals of up to 18 digits, the same to the last bit. */
    @Test
    void numbersAreThoseOfTheJdk() {
        Random random = new Random(3);
        for (int n = 0; n < 100_000; n++) {
            StringBuilder text = new StringBuilder();
            text.append(new String[] {"", "-", "+"}[random.nextInt(3)]);
            int digits = 1 + random.nextInt(18);
            int mark = random.nextInt(digits + 2) - 1;
            for (int i = 0; i < digits; i++) {
                text.append(i == mark ? "." : "").append(random.nextInt(10));
            }
            String point = text.toString();
            assertEquals(Double.parseDouble(point), Numerals.number(point, '.'), 0, point);
            assertEquals(Double.parseDouble(point), Numerals.number(point.replace('.', ','), ','), 0, point);
        }
    }

    @ParameterizedTest
    @CsvSource({"8.5, 8.5", "8:30, 8.5", "0:45, 0.75", "120:06, 120.1"})
    void minutes(String text, double minutes) {
        assertEquals(minutes, Numerals.minutes(text, '.'), 1e-12);
    }

    @ParameterizedTest
    @CsvSource({"100, 100", "100/21°, 100", "ISO 100/21°, 100", "iso 6 / 9°, 6", "12.5/12º, 12.5"})
    void speeds(String text, double speed) {
        assertEquals(speed, Numerals.speed(text, '.'), 0);
    }

    @ParameterizedTest
    @CsvSource({
        "-1 2/3, -1.6666666666666667",
        "+1/3, 0.3333333333333333",
        "1/2, 0.5",
        "2, 2",
        "-0.67, -0.67",
        "−1/3, -0.3333333333333333"
    })
    void stops(String text, double stops) {
        assertEquals(stops, Numerals.stops(text, '.'), 1e-15);
    }

    /** Up to 15 digits, a sign and a mark are read quickly (values by hand); anything else is left to the long way. */
    @ParameterizedTest
    @CsvSource({
        "7, 7",
        "-0.5, -0.5",
        "+.5, 0.5",
        "5., 5",
        "'1,5', 1.5",
        "123456789012345, 123456789012345",
        "-12345678901234.5, -12345678901234.5",
        "1234567890123456, NaN",
        "-1234567890123456, NaN",
        "123456789012345.6, NaN",
        "'', NaN",
        "-, NaN",
        "., NaN",
        "1.2.3, NaN",
        "'1,2.3', NaN",
        "1/2, NaN",
        "1:2, NaN",
        "1e3, NaN",
        "--1, NaN"
    })
    void plainDigits(String text, double value) {
        assertEquals(value, Numerals.digits(text.toCharArray(), text.length(), ','), 0);
    }

    @ParameterizedTest
    @CsvSource({"1e3, 1000", "1E-2, 0.01", "1234567890123456.5, 1234567890123456.5"})
    void theLongWay(String text, double value) {
        assertEquals(value, Numerals.number(text, '.'), 0);
    }

    /** What a programmer's parser would take. */
    @ParameterizedTest
    @ValueSource(strings = {"1d", "1f", "0x1p3", "NaN", "Infinity", "1_000", "", "-", "−1", "1–2", "1,5"})
    void whatIsNoNumberIsRefused(String text) {
        assertThrows(Numerals.NotANumber.class, () -> Numerals.number(text, '.'));
    }

    @ParameterizedTest
    @CsvSource({
        "−1, write the minus sign as a hyphen: -",
        "–1, write the minus sign as a hyphen: -",
        "1−, write the minus sign as a hyphen: -",
        "1–, write the minus sign as a hyphen: -",
        "'1,25', write decimals with a point: 1.25",
        "'=A1', 'enter the value, not the formula'"
    })
    void theRemedyFitsTheText(String text, String remedy) {
        assertEquals(
                remedy,
                assertThrows(Numerals.NotANumber.class, () -> Numerals.number(text, '.'))
                        .remedy());
    }

    @Test
    void aNumberTooLargeIsToldAsItStands() {
        String digits = "9".repeat(70_000);
        String said = assertThrows(IllegalArgumentException.class, () -> Numerals.number(digits, '.'))
                .getMessage();
        assertTrue(said.startsWith("\"9999") && said.endsWith("(70000 characters)\" is too large a number"), said);
        assertTrue(said.length() < 200, said);
    }
}
