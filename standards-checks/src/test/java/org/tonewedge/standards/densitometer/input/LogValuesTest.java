// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.verdict.Logs;

/** The values of a log beside its densities: times, settings, counts and what was not read. */
class LogValuesTest {

    private static LogReading last(String layout, String text) {
        Logs.Read log = Logs.read(layout, text);
        return log.readings().get(log.readings().size() - 1);
    }

    @ParameterizedTest
    @CsvSource({
        "comma milliseconds=1 density=2, '1500,0.42', 1.5",
        "comma time=1 density=2, '1.5,0.42', 1.5",
        "comma time=1 density=2, '10:00:00,0.42', 36000",
        "bare, 'I (1500) main: 0.42', 1.5",
    })
    void timesAreSeconds(String layout, String line, double seconds) {
        assertEquals(seconds, last(layout, line + "\n").seconds().orElseThrow());
    }

    /** Only a clock that goes back by more than half a day passed midnight; lines may arrive a little out of order. */
    @Test
    void aClockPassesMidnightOnlyWhereItGoesBackByHalfADay() {
        assertEquals(
                36001,
                last("bare", "10:00:00 -> 0.42\n10:00:01 -> 0.42\n").seconds().orElseThrow());
        assertEquals(
                35999,
                last("bare", "10:00:00 -> 0.42\n09:59:59 -> 0.42\n").seconds().orElseThrow());
        assertEquals(
                86400 + 7200,
                last("bare", "22:00:00 -> 0.42\n02:00:00 -> 0.42\n").seconds().orElseThrow());
    }

    @Test
    void aRunKeepsItsLabel() {
        assertEquals(
                Optional.of("B"),
                last("comma run=1 density=2", "A,0.42\nB,0.43\n").run());
    }

    /** Net counts of 100: log10 1.01 = 0.00432137. */
    @Test
    void oneCountChangesTheDensity() {
        assertEquals(0.00432137, RawCounts.of(150, 50, 31300).densityOfOneCount(), 0.5e-8);
        assertTrue(RawCounts.of(51, 50, 31300).isDeterminable());
        assertFalse(RawCounts.of(50, 50, 31300).isDeterminable());
    }

    /** The dark counts of the sample stand in for those of the open gate: an assumption only where the settings differ. */
    @ParameterizedTest
    @CsvSource({
        "keys sample=s dark=k open=o gain=g open_gain=fixed:1, s=150 k=50 o=31300 g=16, true",
        "keys sample=s dark=k open=o gain=g open_gain=fixed:1, s=150 k=50 o=31300 g=1, false",
        "keys sample=s dark=k open=o integration=t open_integration=fixed:50, s=150 k=50 o=31300 t=100, true",
        "keys sample=s dark=k open=o gain=g open_gain=fixed:1 open_dark=q, s=150 k=50 o=31300 g=16 q=3, false",
    })
    void openGateDarkCountsMayBeAssumed(String layout, String line, boolean assumed) {
        assertEquals(assumed, last(layout, line + "\n").isOpenDarkAssumed());
    }

    @ParameterizedTest
    @CsvSource({
        "comma density=1, '0.42,7', true",
        "comma density=1, '0.42,x', false",
        "comma density=1 step=2, '0.42,7', false",
        "keys density=d, d=0.42 t=5, true",
        "keys density=d, d=0.42 note=x, false",
        "keys density=d temperature=t, d=0.42 t=5, false",
    })
    void numbersThatTheLayoutDoesNotUseAreNoted(String layout, String line, boolean unused) {
        assertEquals(unused, Logs.read(layout, line + "\n").tally().hasUnusedNumbers());
    }

    @Test
    void theTallyCountsInWords() {
        assertEquals("1 line: 1 reading", Logs.read("bare", "0.42\n").tally().toString());
        String mixed = Logs.read("keys step=step density=d decimals=2", "d=0.42 step=1\nd=0.43 step=2\nboot\nstep=4\n")
                .tally()
                .toString();
        assertTrue(mixed.startsWith("4 lines: 2 readings, "), mixed);
        assertTrue(mixed.contains("1 message") && mixed.contains("1 incomplete line"), mixed);
        assertFalse(mixed.contains("1 messages") || mixed.contains(" 0 "), mixed);
    }

    @Test
    void aSettingWithoutItsPartnerIsRefused() {
        DensitometerInputException e = assertThrows(
                DensitometerInputException.class,
                () -> Logs.read("keys sample=s dark=k open=o integration=t", "s=150 k=50 o=31300 t=100\n"));
        assertTrue(e.getMessage().contains("only one of integration and open_integration"), e.getMessage());
    }

    @Test
    void aFaultInALineNamesIt() {
        assertTrue(new DensitometerInputException(Fault.WRONG_FORMAT, "log", 12, "fault", "remedy")
                .getMessage()
                .startsWith("log, line 12: fault; remedy"));
        assertEquals(
                "log: fault; remedy",
                new DensitometerInputException(Fault.WRONG_FORMAT, "log", 0, "fault", "remedy").getMessage());
    }

    /** The Java library's own reading of decimals, {@link Double#parseDouble}, is the measure; seeded digits. */
    @Test
    void numbersRoundAsTheJavaLibraryRoundsThem() {
        Random random = new Random(7);
        for (int i = 0; i < 5000; i++) {
            StringBuilder text = new StringBuilder();
            text.append(new String[] {"", "-", "+"}[random.nextInt(3)]);
            int whole = random.nextInt(10);
            for (int k = 0; k < whole; k++) {
                text.append((char) ('0' + random.nextInt(10)));
            }
            int decimals = random.nextInt(10);
            text.append(decimals > 0 ? "." : "");
            for (int k = 0; k < decimals; k++) {
                text.append((char) ('0' + random.nextInt(10)));
            }
            boolean number = whole + decimals > 0;
            if (number && random.nextInt(4) == 0) {
                text.append(random.nextBoolean() ? "e" : "E").append(random.nextInt(41) - 20);
            }
            OptionalDouble expected =
                    number ? OptionalDouble.of(Double.parseDouble(text.toString())) : OptionalDouble.empty();
            assertEquals(expected, Numerals.number(text.toString()), text.toString());
        }
    }

    /** Java reads all of these; a log must not. */
    @ParameterizedTest
    @ValueSource(
            strings = {"NaN", "Infinity", "1d", "1f", "0x1p3", "4.", ".", "-", "1e", "1e+", "e5", " 1", "1e999", "1.2.3"
            })
    void whatLogsDoNotMeanByANumberIsNone(String text) {
        assertEquals(OptionalDouble.empty(), Numerals.number(text));
    }

    @ParameterizedTest
    @CsvSource({
        "OL, true",
        "ol, true",
        ">4.00, true",
        "----, true",
        "--.-, true",
        "-, false",
        "-.-, false",
        ">, false",
        ">x, false",
        "4.00, false",
        "--x, false",
    })
    void overrangeIsMarkedInSeveralWays(String text, boolean overrange) {
        assertEquals(overrange, Numerals.isOverrange(text));
    }

    private static Map<String, String> json(String text) {
        Map<String, String> values = new TreeMap<>();
        assertTrue(new JsonLine(text, values::put).isRead(), text);
        return values;
    }

    /** The grammar of RFC 8259; names of nested values are joined by points, elements of arrays count from 1. */
    @Test
    void objectsAreReadWithTheirNestedValues() {
        assertEquals(Map.of(), json(" { } "));
        assertEquals(
                Map.of("d", "0.42", "a.b.1", "1", "a.b.2", "2e3", "a.c", "x \"y\"\u00b0"),
                json("{\"d\" : 0.42 , \"a\":{\"b\":[1, 2e3 ],\"c\":\"x \\\"y\\\"\\u00b0\"}, \"e\":[] }"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "[1]",
                "0.42",
                "{",
                "{\"d\"",
                "{\"d\" 0.42}",
                "{\"d\":}",
                "{\"d\":0.42",
                "{\"d\":0.42,}",
                "{d:0.42}",
                "{\"d\":0.42} x",
                "{\"d\":0.42}}",
                "{\"d\":\"0.42}",
                "{\"d\":\"\\x\"}",
                "{\"d\":\"\\u12\"}",
                "{\"d\":[1,2}",
                "{\"d\":[1,]}",
                "{\"d\":[1",
                "{\"d\":{\"e\":1}",
                "{\"d\":{\"e\"}}",
                "{\"d\":\"",
                "{\"d\":\"\\",
                "{:0.42}",
                "{\"a\":{:0.42}}",
            })
    void whatIsNotAnObjectIsNotRead(String text) {
        assertFalse(new JsonLine(text, (name, value) -> {}).isRead(), text);
    }

    /** A number at the end of a line may have been cut: it is no value yet. */
    @Test
    void aNumberThatEndsWithTheLineIsNoValue() {
        Map<String, String> found = new HashMap<>();
        JsonLine cut = new JsonLine("{\"d\":0.42", found::put);
        assertEquals(Map.of(), found);
        assertTrue(cut.isAtEnd());
        JsonLine wrong = new JsonLine("{\"d\":0.42]", found::put);
        assertEquals(Map.of("d", "0.42"), found);
        assertFalse(wrong.isAtEnd());
    }

    /** Eight objects or arrays within each other are read, nine are not. */
    @Test
    void objectsAndArraysAreReadToADepth() {
        String seven = "{\"a\":".repeat(7) + "{\"d\":1}" + "}".repeat(7);
        assertTrue(new JsonLine(seven, (name, value) -> {}).isRead());
        assertFalse(new JsonLine("{\"a\":" + seven + "}", (name, value) -> {}).isRead());
        String arrays = "{\"a\":" + "[".repeat(7) + "1" + "]".repeat(7) + "}";
        assertTrue(new JsonLine(arrays, (name, value) -> {}).isRead());
        assertFalse(new JsonLine("{\"a\":" + "[".repeat(8) + "1" + "]".repeat(8) + "}", (name, value) -> {}).isRead());
    }

    @ParameterizedTest
    @CsvSource({"' ~', true", "'\t', true", "'\u001f', false", "'\u007f', false", "'0.42°', false"})
    void printableCharactersAreAscii(String text, boolean ascii) {
        assertEquals(ascii, Numerals.isAscii(text));
    }

    @Test
    void wholeNumbersHaveNineDigitsAtMost() {
        assertEquals(123_456_789, Numerals.wholeNumber("123456789").orElseThrow());
        assertTrue(Numerals.wholeNumber("1234567890").isEmpty());
        assertTrue(Numerals.wholeNumber("").isEmpty());
    }
}
