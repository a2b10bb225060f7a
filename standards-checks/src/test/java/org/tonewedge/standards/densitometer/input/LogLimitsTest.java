// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.standards.densitometer.verdict.Logs;

/** The limits of the rules by which columns are identified and lines are read: the last value on either side of each. */
class LogLimitsTest {

    private static List<String> lines(String joined) {
        return List.of(joined.split("/"));
    }

    /** Lines are separated by slashes; what is expected is the layout, without a header. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // steps: whole numbers from 1 to 64 that are not all alike
                "1,0.05/2,0.20/64,0.35 | step=1 density=2",
                "1,0.05/2,0.20/65,0.35 | density=2",
                "0,0.05/2,0.20/64,0.35 | density=2",
                "3,0.05/3,0.20/3,0.35 | density=2",
                // milliseconds: whole numbers that never fall, by more than 50 for each row
                "1000,0.05/1075,0.20/1151,0.35 | milliseconds=1 density=2",
                "1000,0.05/1000,0.20/1151,0.35 | milliseconds=1 density=2",
                "1000,0.05/1075,0.20/1150,0.35 | density=2",
                "1000,0.05/1200,0.20/1151,0.35 | density=2",
                "10:00:00,1000,0.05/10:00:01,2000,0.20 | time=1 density=3",
                // seconds: numbers with decimals that rise by more than 20
                "0.5,0.05/10.2,0.20/20.6,0.35 | time=1 density=2",
                "0.5,0.05/10.2,0.20/20.5,0.35 | density=2",
                "0.5,0.05/20.6,0.20/10.2,0.35 | density=2",
                // densities: numbers with decimals from -0.2 to 6, of several columns the one that spans most
                "70,-0.20/71,6.00 | density=2",
                "70,0.11,0.05/71,0.12,0.35 | density=3",
                // temperatures: numbers with decimals from 5 to 60
                "0.05,60.0/0.35,5.0 | temperature=2 density=1",
                "0.05,60.0/0.35,4.9 | density=1",
                "0.05,60.1/0.35,5.0 | density=1",
                "0.05,21/0.35,21 | density=1",
                // counts: three columns of whole numbers, dark, sample and open gate, the last of 1000 at least
                "200,900,1000/200,500,1000 | sample=2 dark=1 open=3",
                "1000,200,900/1000,200,500 | sample=3 dark=2 open=1",
                // beside counts a printed density may be wrong by far, up to 20
                "200,900,1000,3.00/200,500,1000,20.00 | density=4 sample=2 dark=1 open=3",
                "200,900,1000,1.00/200,500,1000,-20.00 | density=4 sample=2 dark=1 open=3",
                "200,900,1000,3.00/200,500,1000,20.01 | sample=2 dark=1 open=3",
                "200,900,1000,1.00/200,500,1000,-20.01 | sample=2 dark=1 open=3",
            })
    void columnsAreIdentifiedByTheirValues(String log, String layout) {
        LayoutGuess guess = LayoutGuess.from(lines(log));
        int width = lines(log).get(0).split(",").length;
        assertEquals("comma " + layout + " width=" + width, guess.layout().toString());
        assertEquals(lines(log).size(), guess.matched());
    }

    @ParameterizedTest
    @ValueSource(strings = {"70,-0.21/71,6.00", "70,-0.20/71,6.01", "70;7/71;8", "1,0.05", "200,900,999/200,500,999"})
    void columnsThatNoRuleKnowsAreNoLog(String log) {
        assertThrows(DensitometerInputException.class, () -> LayoutGuess.from(lines(log)));
    }

    /** Nineteen in twenty densities with two decimals are a fixed form, eighteen are not; three tell nothing. */
    @ParameterizedTest
    @CsvSource({"19, 1, bare decimals=2", "18, 2, bare", "4, 0, bare decimals=2", "3, 0, bare"})
    void decimalsAreStatedWhereTheyDoNotVary(int two, int one, String layout) {
        List<String> log = new ArrayList<>(Collections.nCopies(two, "0.42"));
        log.addAll(Collections.nCopies(one, "0.4"));
        assertEquals(layout, LayoutGuess.from(log).layout().toString());
    }

    /** A key that is in half of the lines belongs to the layout; one that is in fewer does not. */
    @Test
    void aKeyBelongsToTheLayoutIfItIsUsual() {
        assertEquals(
                "keys temperature=temp density=d",
                LayoutGuess.from(lines("D=0.05 temp=21/D=0.20")).layout().toString());
        assertEquals(
                "keys density=d",
                LayoutGuess.from(lines("D=0.05 temp=21/D=0.20/D=0.35")).layout().toString());
    }

    /** The second column looks like a temperature and the third like a density, but the header says otherwise. */
    @Test
    void aHeaderCountsMoreThanValues() {
        LayoutGuess guess = LayoutGuess.from(lines("step,density,blur/1,12.5,0.05/2,13.5,0.20/3,14.5,0.35"));
        assertEquals("comma step=step density=density", guess.layout().toString());
        assertEquals(List.of("ignored: blur"), guess.remarks());
    }

    @Test
    void aNameThatIsThereTwiceIsTold() {
        LayoutGuess guess = LayoutGuess.from(lines("step,density,density/1,0.05,0.06/2,0.20,0.21"));
        assertEquals(List.of("there is more than one density; the first is used"), guess.remarks());
    }

    @Test
    void oneTimeIsEnough() {
        assertEquals(
                "comma time=time density=density",
                LayoutGuess.from(lines("time,ms,density/0.1,100,0.05/0.2,200,0.20"))
                        .layout()
                        .toString());
    }

    /** A device that prints a line at a time is understood after so many readings, before it prints the next. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5})
    void aGuessWaitsForAsManyReadingsAsAreAskedFor(int wanted) throws IOException {
        int[] printed = new int[1];
        InputStream device = new InputStream() {
            @Override
            public int read() {
                throw new UnsupportedOperationException("read in blocks");
            }

            @Override
            public int read(byte[] into, int offset, int length) {
                if (printed[0] == 20) {
                    return -1;
                }
                byte[] line = ("S=" + ++printed[0] + " D=0.42\n").getBytes(StandardCharsets.US_ASCII);
                System.arraycopy(line, 0, into, offset, line.length);
                return line.length;
            }
        };
        LayoutGuess guess = LayoutGuess.from(new BufferedInputStream(device), wanted);
        assertEquals(wanted, guess.matched());
        assertEquals(wanted, printed[0]);
    }

    private static String kind(String layout, String line) {
        ParsedLine parsed = new LineParser(LogLayout.parse(layout)).parse(line);
        if (parsed instanceof ParsedLine.Refused refused) {
            return refused.kind().name();
        }
        return parsed instanceof ParsedLine.Implausible ? "IMPLAUSIBLE" : "READING";
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bare | +0.42 | READING",
                "bare | -0.10 | READING",
                "bare | .42 | READING",
                "bare | 10000000 | IMPLAUSIBLE",
                "bare | 10000001 | OUT_OF_DOMAIN",
                "bare | 0.123456789 | READING",
                "bare | 0.1234567891 | UNREADABLE",
                "keys step=s density=d | S=1 D=0.42 | READING",
                "keys step=s density=d | S=1000 D=0.42 | READING",
                "keys step=s density=d | S=1001 D=0.42 | OUT_OF_DOMAIN",
                "keys step=s density=d | S=0 D=0.42 | OUT_OF_DOMAIN",
                "keys density=d width=2 | D=0.42 | INCOMPLETE_LINE",
                "keys density=d width=2 | D=0.42 x=1 | READING",
                "keys density=d width=2 | D=0.42 x=1 y=2 | UNREADABLE",
                "comma density=2 width=3 | 1,0.42 | INCOMPLETE_LINE",
                "comma density=2 width=3 | 1,0.42,5 | READING",
                "comma density=2 width=3 | 1,0.42,5,6 | UNREADABLE",
                "comma density=2 | 1 | INCOMPLETE_LINE",
                "comma density=2 | 1,0.42 | READING",
                "comma milliseconds=1 density=2 | 1000000000000000,0.42 | READING",
                "comma milliseconds=1 density=2 | 1000000000001000,0.42 | OUT_OF_DOMAIN",
            })
    void aLineIsReadUpToItsLimits(String layout, String line, String kind) {
        assertEquals(kind, kind(layout, line));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "D=0.42",
                "D =0.42",
                "D= 0.42",
                "D = 0.42",
                "D:0.42",
                "D :0.42",
                "D: 0.42",
                "D : 0.42",
                "S=1;D:\t0.42"
            })
    void separatorsMayHaveRoomAboutThem(String line) {
        assertEquals("READING", kind("keys density=d", line));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "keys step=s density=d decimal=comma | S=1, D=0,42",
                "keys step=s density=d decimal=comma | S=1; D=0,42",
                "words step=step density=d decimal=comma | Step 1, D 0,42",
                "words step=step density=d | Step 1, D 0.42",
                "keys step=s density=d | S=1, D=0.42",
            })
    void aCommaMayFollowAValue(String layout, String line) {
        ParsedLine parsed = new LineParser(LogLayout.parse(layout)).parse(line);
        assertTrue(parsed instanceof ParsedLine.Accepted, parsed.toString());
        LogReading reading = ((ParsedLine.Accepted) parsed).reading();
        assertEquals(0.42, reading.printed().orElseThrow(), 1e-12);
        assertEquals(1, reading.step().orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(strings = {"keys density=", "keys =d", "keys density", "keys ="})
    void aPlaceNeedsBothItsSides(String layout) {
        DensitometerInputException refused =
                assertThrows(DensitometerInputException.class, () -> LogLayout.parse(layout));
        assertTrue(refused.getMessage().contains("write field=place"), refused.getMessage());
    }

    @Test
    void noDecimalsAreStatedToo() {
        assertEquals(
                "keys density=d decimals=0",
                LogLayout.parse("keys density=D decimals=0").toString());
        assertEquals("keys density=d", LogLayout.parse("keys density=D").toString());
        assertEquals("READING", kind("keys density=d decimals=0", "D=1"));
        assertEquals("UNREADABLE", kind("keys density=d decimals=0", "D=1.0"));
    }

    private static String refusal(String log) {
        return assertThrows(DensitometerInputException.class, () -> LayoutGuess.from(lines(log)))
                .getMessage();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "x=1;y=abc | has the names x, y, none of which is known",
                "x=1 2 | has a number that goes with no word",
                "a=1 b=1 c=1 e=1 f=1 h=1 i=1 j=1 | has the names a, b, c, e, f, h, i, j, none",
                "a=1 b=1 c=1 e=1 f=1 h=1 i=1 j=1 k=1 | has the names a, b, c, e, f, h, i, j, ..., none",
                "hello/hello 1 x=2/hello 1 x=3/foo=7 | line 2",
            })
    void aRefusalTellsWhatALineHas(String log, String words) {
        assertTrue(refusal(log).contains(words), refusal(log));
    }

    @Test
    void fieldsWithoutANumberAreNoTable() {
        assertFalse(refusal("abc1,def2").contains("in the form comma"), refusal("abc1,def2"));
    }

    @Test
    void aRefusalShowsEightyCharacters() {
        String eighty = "x=1 2 " + "y".repeat(74);
        assertTrue(refusal(eighty).contains('"' + eighty + '"'), refusal(eighty));
        assertTrue(refusal(eighty + "z").contains('"' + eighty + "...\""), refusal(eighty + "z"));
        assertTrue(refusal("q° 1 2").contains("print ASCII text alone"), refusal("q° 1 2"));
        assertFalse(refusal("x=1 2").contains("print ASCII text alone"), refusal("x=1 2"));
    }

    /** A last line without its end is whole if its density ends it and has all its decimals. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bare decimals=2 | 0.42/0.43 | 2",
                "bare | 0.42/0.43 | 1",
                "comma density=2 width=2 decimals=2 | 1,0.42/1,0.43 | 2",
                "comma density=1 width=2 decimals=2 | 0.42,1/0.43,1 | 1",
                "comma density=2 decimals=2 | 1,0.42/1,0.43 | 1",
                "keys density=d decimals=2 | D=0.42/D=0.43 | 1",
            })
    void aLastLineMayShowThatItIsWhole(String layout, String log, int readings) {
        assertEquals(
                readings, Logs.read(layout, log.replace('/', '\n')).readings().size());
    }

    private static String noReading(String layout, String log) {
        return assertThrows(DensitometerInputException.class, () -> Logs.read(layout, log))
                .getMessage();
    }

    @Test
    void aLogWithoutReadingsShowsALineThatIsNoRemark() {
        assertFalse(noReading("bare", "# a remark 1\n").contains("a remark"), noReading("bare", "# a remark 1\n"));
        String eighty = "hello " + "y".repeat(74);
        assertTrue(noReading("bare", eighty + '\n').contains('"' + eighty + '"'));
        assertTrue(noReading("bare", eighty + "z\n").contains('"' + eighty + "...\""));
        assertFalse(noReading("bare", "hello\n").contains("with the names that they print"));
        assertTrue(noReading("keys density=d", "hello\n").contains("with the names that they print"));
    }

    /** A density lies from −0.2 to 10. */
    @ParameterizedTest
    @CsvSource({"-0.2, READING", "-0.21, IMPLAUSIBLE", "10, READING", "10.1, IMPLAUSIBLE"})
    void aDensityMayBeImplausible(String density, String kind) {
        assertEquals(kind, kind("bare", density));
    }

    @Test
    void aReadingIsToldInWords() {
        LogReading printed = LogReading.of(Density.of(0.42), 2);
        assertEquals("D 0.42", printed.toString());
        assertEquals("step 3: D 0.42", printed.withStep(3).toString());
        assertEquals(3, printed.withStep(3).step().orElseThrow());
        assertTrue(printed.step().isEmpty());
        RawCounts counts = RawCounts.of(500, 0, 1000);
        assertEquals(counts.toString(), LogReading.of(counts).toString());
        assertEquals("D 0.42, " + counts, printed.withCounts(counts).toString());
    }

    @Test
    void threeLinesOfAKindAreShown() {
        Logs.Read log = Logs.read("bare", "0.42\nhello 1\nhello 2\nhello 3\nhello 4\n");
        assertEquals(4, log.tally().count(LineKind.MESSAGE));
        assertEquals(3, log.tally().examples(LineKind.MESSAGE).size());
        assertEquals(2, log.tally().examples(LineKind.MESSAGE).get(0).line());
    }
}
