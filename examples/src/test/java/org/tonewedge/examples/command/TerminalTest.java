// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TerminalTest {

    /** US-ASCII has neither sign, windows-1252 has no minus sign, UTF-8 has both. */
    @ParameterizedTest
    @CsvSource({
        "US-ASCII, D -0.05 +/- 0.01 a ?", //
        "windows-1252, D -0.05 \u00b1 0.01 \u00e4 ?",
        "UTF-8, D \u22120.05 \u00b1 0.01 \u00e4 \ud83d\ude00"
    })
    void signsThatTheTerminalLacksAreSpelt(String charset, String shown) {
        ByteArrayOutputStream terminal = new ByteArrayOutputStream();
        Terminal writer = new Terminal(terminal, Charset.forName(charset));
        writer.printf(Locale.ROOT, "D \u2212%.2f \u00b1 0.01 ", 0.05);
        writer.println(charset.equals("US-ASCII") ? "a \ud83d\ude00" : "\u00e4 \ud83d\ude00");
        assertEquals(shown, terminal.toString(Charset.forName(charset)).strip());
    }

    @Test
    void whatIsPrintedToTheStandardOutputIsSpeltToo() {
        ByteArrayOutputStream terminal = new ByteArrayOutputStream();
        PrintStream out = Terminal.spelling(
                new PrintStream(terminal, true, StandardCharsets.US_ASCII), StandardCharsets.US_ASCII);
        out.println("\u22120.67");
        out.printf(Locale.ROOT, "%s \u00b1 %.2f%n", "22\u00b0", 0.04);
        out.println((Object) "\u2212");
        printAsObjectAndSigns(out);
        assertEquals(
                List.of("-0.67", "22 deg +/- 0.04", "-", "chi^2 +/- ->"),
                terminal.toString(StandardCharsets.US_ASCII).lines().toList());
    }

    @Test
    void aWriterSpellsObjectsAndSignsToo() {
        ByteArrayOutputStream terminal = new ByteArrayOutputStream();
        printAsObjectAndSigns(new Terminal(terminal, StandardCharsets.US_ASCII));
        assertEquals(
                "chi^2 +/- ->", terminal.toString(StandardCharsets.US_ASCII).strip());
    }

    @Test
    void theCharacterSetIsThatOfTheTerminalWhereItIsTold() {
        assertEquals(StandardCharsets.US_ASCII, Terminal.charset("US-ASCII"));
        assertEquals(Charset.defaultCharset(), Terminal.charset(null));
        assertEquals(Charset.defaultCharset(), Terminal.charset("no such set"));
    }

    private static void printAsObjectAndSigns(PrintStream out) {
        out.print((Object) "\u03c7\u00b2 ");
        out.print('\u00b1');
        out.print(' ');
        out.println(new char[] {'\u2192'});
    }

    private static void printAsObjectAndSigns(PrintWriter out) {
        out.print((Object) "\u03c7\u00b2 ");
        out.print('\u00b1');
        out.print(' ');
        out.println(new char[] {'\u2192'});
    }
}
