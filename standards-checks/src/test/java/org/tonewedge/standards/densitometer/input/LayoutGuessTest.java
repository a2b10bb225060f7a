// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.Logs;

class LayoutGuessTest {

    static Stream<Arguments> logs() {
        return Stream.of(
                Arguments.of("%2$.2f", "", "bare decimals=2"),
                Arguments.of("S=%1$d D=%2$.3f", "", "keys step=s density=d decimals=3"),
                Arguments.of(
                        "step:%1$d, density:%2$.2f, temp:%4$.1f",
                        "", "keys step=step temperature=temp density=density decimals=2"),
                Arguments.of("%1$d,%2$.2f", "step,density", "comma step=step density=density decimals=2"),
                Arguments.of(
                        "%1$d\t%3$d\t%2$.3f\t%4$.1f",
                        "", "tab step=1 milliseconds=2 temperature=4 density=3 decimals=3 width=4"),
                Arguments.of("%1$d;%5$d;%6$d;60200", "", "semicolon step=1 sample=2 dark=3 open=4 width=4"),
                Arguments.of(
                        "raw=%5$d dark=%6$d open=60200 gain=4 D=%2$.2f",
                        "", "keys density=d sample=raw dark=dark open=open gain=gain open_gain=fixed:1.0 decimals=2"));
    }

    private static List<String> lines(String format, String header) {
        Stream<String> rows = IntStream.rangeClosed(1, 21).mapToObj(step -> {
            double density = 0.05 + 0.15 * (step - 1);
            long sample = Math.round(200 + 60_000 * Math.pow(10, -density));
            return String.format(
                    Locale.ROOT,
                    format,
                    step,
                    density,
                    5000L + 750L * step,
                    21.2 + 0.1 * (step % 3),
                    sample,
                    200 - step % 2);
        });
        return Stream.concat(Stream.of("boot: ready", header), rows).toList();
    }

    @ParameterizedTest
    @MethodSource("logs")
    void guessesTheLayoutThatMadeTheLog(String format, String header, String layout) {
        LayoutGuess guess = LayoutGuess.from(lines(format, header));

        assertEquals(LogLayout.parse(layout).toString(), guess.layout().toString(), guess.toString());
        assertEquals(21, guess.matched());
        assertEquals(23, guess.examined());
    }

    @Test
    void saysWhatItTookForGranted() {
        LayoutGuess guess = LayoutGuess.from(lines("raw=%5$d dark=%6$d open=60200 gain=4 D=%2$.2f", ""));

        assertTrue(guess.remarks().get(0).contains("gain 1"), guess.toString());
    }

    @Test
    void saysWhatItLeftAside() {
        LayoutGuess guess = LayoutGuess.from(lines("S=%1$d D=%2$.2f zz=1", ""));

        assertTrue(guess.toString().contains("ignored: zz"), guess.toString());
    }

    @Test
    void refusesToGuessFromProse() {
        assertThrows(DensitometerInputException.class, () -> LayoutGuess.from(List.of("hello", "world 2")));
        assertThrows(DensitometerInputException.class, () -> LayoutGuess.from(List.of()));
    }

    @Test
    void leavesTheStreamAtItsBeginning() throws IOException {
        String text = String.join("\n", lines("S=%1$d D=%2$.3f", "")) + "\n";
        BufferedInputStream stream = new BufferedInputStream(Logs.stream(text.repeat(3)), 16);
        LayoutGuess guess = LayoutGuess.from(stream);

        ReadingsSummary summary = ReadingsSummary.read(stream, guess.layout(), Logs.TABLET);

        assertEquals(63, summary.tally().count(LineKind.READING));
        assertEquals(3, summary.printed().get(0).runs());
    }
}
