// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.Logs;

class DensitometerLogReaderTest {

    @Test
    void readsBareDensities() {
        Logs.Read log = Logs.read("bare", "0.05\r\n0.20\r\n.35\r\n-0.01\r\n");

        assertArrayEquals(new double[] {0.05, 0.20, 0.35, -0.01}, log.densities());
        assertEquals(4, log.tally().lines());
    }

    @Test
    void readsKeysInAnyOrderAndEitherCase() {
        Logs.Read log = Logs.read(
                "keys step=s density=D temperature=t",
                "s=1 D=0.05 t=21.5\nD: 0.20, S: 2, T: 21.75\nd=0.35;s=3;t=22\nD = 0.51 s = 4 t = 22 note=x\n");

        assertArrayEquals(new double[] {0.05, 0.20, 0.35, 0.51}, log.densities());
        assertEquals(2, log.readings().get(1).step().orElseThrow());
        assertEquals(21.75, log.readings().get(1).celsius().orElseThrow());
    }

    @Test
    void readsColumnsByNameAndByNumber() {
        String rows = "1,100,0.05\n2,200,0.20\n";

        assertArrayEquals(
                new double[] {0.05, 0.20},
                Logs.read("comma step=no milliseconds=ms density=dens", "No,ms,Dens\n" + rows)
                        .densities());
        assertArrayEquals(
                new double[] {0.05, 0.20},
                Logs.read("tab step=1 milliseconds=2 density=3", rows.replace(',', '\t'))
                        .densities());
        assertArrayEquals(
                new double[] {0.05, 0.20},
                Logs.read("semicolon density=3", rows.replace(',', ';')).densities());
    }

    @Test
    void computesDensityFromCountsAtOtherSettings() {
        // net sample 100 at gain 16 and twice the time: 100 / 32 = 3.125 against 31 250 gives D 4
        Logs.Read log = Logs.read(
                "keys sample=s dark=k open=o gain=g integration=t open_gain=fixed:1 open_integration=fixed:50",
                "s=150 k=50 o=31300 g=16 t=100\n");

        assertEquals(4, log.readings().get(0).counts().orElseThrow().density(), 1e-12);
    }

    @ParameterizedTest
    @CsvSource({
        "'10:00:00 -> 0.42', 36000",
        "'[10:00:00.500] 0.42', 36000.5",
        "'[1970-01-02T00:00:00Z] 0.42', 86400",
        "'1970-01-02 00:00:01 -> 0.42', 86401",
    })
    void takesTheStampThatATerminalPutsBeforeTheLine(String line, double seconds) {
        Logs.Read log = Logs.read("bare", line + "\n");

        assertEquals(seconds, log.readings().get(0).seconds().orElseThrow(), 1e-9);
        assertArrayEquals(new double[] {0.42}, log.densities());
    }

    @Test
    void goesOnCountingPastMidnight() {
        Logs.Read log = Logs.read("bare", "23:59:59 -> 0.42\n00:00:01 -> 0.42\n");

        assertEquals(
                2,
                log.readings().get(1).seconds().orElseThrow()
                        - log.readings().get(0).seconds().orElseThrow(),
                1e-9);
    }

    @ParameterizedTest
    @CsvSource({
        "'', BLANK",
        "'   ', BLANK",
        "# note, COMMENT",
        "// note, COMMENT",
        "booting v1.2, MESSAGE",
        "step=4, INCOMPLETE_LINE",
        "D=0.4 step=4, INCOMPLETE_LINE",
        "D=0. step=4, UNREADABLE",
        "D=0.421 step=4, UNREADABLE",
        "D=NaN step=4, UNREADABLE",
        "D=0x1p3 step=4, UNREADABLE",
        "D=1_0.00 step=4, UNREADABLE",
        "'D=0,42 step=4', UNREADABLE",
        "D=0.42D=0.43 step=4, UNREADABLE",
        "D=0.42 step=4 garbage, UNREADABLE",
        "D=0.42 step=4.0, UNREADABLE",
        "D=0.42 step=-4, UNREADABLE",
        "D=42.00 step=4, IMPLAUSIBLE",
        "D=-0.30 step=4, IMPLAUSIBLE",
        "D=0.42 step=0, OUT_OF_DOMAIN",
        "D=0.42 D=0.43 step=4, CONTRADICTORY",
        "D=OL step=4, OVERRANGE",
        "D=---- step=4, OVERRANGE",
        "D=>4.00 step=4, OVERRANGE",
        "D=OL step=x, UNREADABLE",
        "D=0.42 step=4°, NOT_ASCII",
        "D=0.42\u0001 step=4, NOT_ASCII",
    })
    void countsWhatIsNotAReadingUnderItsKind(String line, LineKind kind) {
        Logs.Read log = Logs.read("keys step=step density=d decimals=2", "D=0.05 step=1\n" + line + "\n");

        assertEquals(1, log.tally().count(kind), log.tally().toString());
        assertEquals(1, log.tally().count(LineKind.READING));
        assertEquals(2, log.tally().lines());
    }

    @Test
    void countsLinesThatLostOrGainedColumns() {
        Logs.Read log = Logs.read(
                "comma step=step density=density",
                "# comment\nstep,density,note\n1,0.05,\n2,0.2\n3,0.35,,\nreset!\nstep,density,note\n4,0.50,x\n");

        assertEquals(2, log.tally().count(LineKind.READING));
        assertEquals(2, log.tally().count(LineKind.HEADER));
        assertEquals(1, log.tally().count(LineKind.INCOMPLETE_LINE));
        assertEquals(1, log.tally().count(LineKind.UNREADABLE));
        assertEquals(1, log.tally().count(LineKind.MESSAGE));
        assertEquals(2, log.tally().damaged());
        assertEquals(
                new LogTally.Example(4, "2,0.2"),
                log.tally().examples(LineKind.INCOMPLETE_LINE).get(0));
    }

    @Test
    void takesALastLineWithoutItsEndOnlyWhereTheDecimalsShowThatItIsWhole() {
        assertEquals(1, Logs.read("bare", "0.42\n0.4").tally().count(LineKind.INCOMPLETE_LINE));
        assertEquals(2, Logs.read("bare decimals=2", "0.42\n0.45").tally().count(LineKind.READING));
        assertEquals(1, Logs.read("bare decimals=2", "0.42\n0.4").tally().count(LineKind.INCOMPLETE_LINE));
        assertEquals(
                1,
                Logs.read("comma density=1 step=2 decimals=2 width=2", "0.42,11\n0.45,1")
                        .tally()
                        .count(LineKind.INCOMPLETE_LINE));
    }

    @Test
    void passesOverOverlongLinesAndAByteOrderMark() {
        Logs.Read log = Logs.read("bare", "\u00EF\u00BB\u00BF0.42\n" + "7".repeat(5000) + "\r0.43\n");

        assertArrayEquals(new double[] {0.42, 0.43}, log.densities());
        assertEquals(1, log.tally().count(LineKind.TOO_LONG));
        assertEquals(3, log.tally().lines());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "columns density=1",
                "keys",
                "keys step=s",
                "keys sample=s",
                "keys density",
                "keys density=",
                "keys density=d colour=c",
                "keys density=d decimals=x",
                "keys density=d decimals=99",
                "keys density=d step=d",
                "comma density=1 step=number",
                "comma density=0",
                "bare step=1",
                "keys sample=s dark=k open=o gain=g",
                "keys density=fixed:1",
                "keys sample=s dark=fixed:x open=o",
                "keys density=d time=t milliseconds=m",
            })
    void refusesALayoutThatCannotGiveADensity(String layout) {
        DensitometerInputException thrown =
                assertThrows(DensitometerInputException.class, () -> Logs.read(layout, "0.42\n"));

        assertTrue(thrown.getMessage().startsWith("layout \""), thrown.getMessage());
        assertTrue(!thrown.remedy().isBlank());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "bare decimals=2",
                "keys step=s temperature=t density=d decimals=3 width=4",
                "comma step=1 time=2 sample=3 dark=4 open=5 gain=6 open_gain=fixed:1.0",
            })
    void writesALayoutAsItReadsIt(String text) {
        assertEquals(text, LogLayout.parse(text).toString());
    }

    @Test
    void refusesALogWithoutAReading() {
        assertEquals(Fault.MISSING, fault(() -> Logs.read("bare", "")));
        assertEquals(Fault.WRONG_FORMAT, fault(() -> Logs.read("bare", "hello\n")));
        assertEquals(Fault.WRONG_FORMAT, fault(() -> Logs.read("comma density=d", "1,2\n")));
        assertEquals(Fault.UNKNOWN_NAME, fault(() -> LogLayout.parse("keys density=d colour=c")));
        assertEquals(Fault.MISSING, fault(() -> Logs.read("keys step=s", "0.42\n")));
        assertEquals(Fault.DUPLICATE, fault(() -> Logs.read("keys density=d time=t milliseconds=m", "0.42\n")));
    }

    private static Fault fault(Executable reading) {
        return assertThrows(DensitometerInputException.class, reading).fault();
    }

    @Test
    void showsALineThatTheLayoutDoesNotFit() {
        DensitometerInputException thrown = assertThrows(
                DensitometerInputException.class,
                () -> Logs.read("keys step=S density=D", "boot 3.1\nstep=7 D=0.953\nstep=8 D=1.101\n"));

        assertTrue(
                thrown.getMessage()
                        .contains("line 2 is \"step=7 D=0.953\" and has the names step, d, but the layout needs s, d"),
                thrown.getMessage());
    }

    /** The lines of the table of layouts in the documentation. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "keys step=S density=D | S=7 D=0.953",
                "keys step=step density=D | step=7 D=0.953",
                "words step=step density=d | Step 7 D 0.953",
                "json step=patch.nr density=od | {\"patch\": {\"nr\": 7}, \"od\": 0.953}",
                "comma step=1 density=3 width=4 | 7,1032,0.953,21.5"
            })
    void readsTheLineBesideEachLayout(String layout, String line) {
        LogReading reading = Logs.read(layout, line + "\n").readings().get(0);

        assertEquals(7, reading.step().orElseThrow());
        assertEquals(0.953, reading.printed().orElseThrow());
    }

    @Test
    void refusesToCountStepsPastADamagedLine() {
        DensitometerInputException thrown = assertThrows(
                DensitometerInputException.class,
                () -> Logs.summarise("bare decimals=2", Logs.tablet(3), "0.05\n0.2\n0.35\n"));

        assertEquals(2, thrown.line().orElseThrow());
        assertEquals(Fault.UNREADABLE, thrown.fault());
        assertEquals(Fault.MISSING, fault(() -> Logs.summarise("bare", Logs.tablet(3), "0.05\n0.20\n0.35\n0.05\n")));
    }

    @Test
    void countsStepsInTurnWithOverrangeHoldingItsPlace() {
        ReadingsSummary summary =
                Logs.summarise("bare decimals=2", Logs.tablet(3), "boot\n0.05\n0.20\nOL\n\n0.06\n0.22\n0.35\n");

        assertEquals(1, summary.overrange(3));
        assertEquals(0.055, summary.printed().get(0).mean(), 1e-12);
        assertEquals(2, summary.printed().get(0).runs());
        assertEquals(1, summary.printed().get(2).count());
    }
}
