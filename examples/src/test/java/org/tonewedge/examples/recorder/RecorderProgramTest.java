// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.recorder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.film.Iso6;
import picocli.CommandLine;

class RecorderProgramTest {

    private static final String HEADER = "strip,film,step,density\n";

    /** Readings of both strips, as they are asked for. */
    private static final List<String> EVERY_STEP =
            List.of("0.2", "2.1", "1.5", "0.9", "0.35", "0.3", "1.9", "1.3", "0.8", "0.4");

    @TempDir
    Path scratch;

    private Path out;
    private StringWriter output;
    private StringWriter messages;

    @BeforeEach
    void begin() {
        out = scratch.resolve("readings.csv");
        output = new StringWriter();
        messages = new StringWriter();
    }

    /** The steps of the tests are four, half a density apart. */
    private List<String> arguments(String... more) {
        List<String> args = new ArrayList<>(List.of(
                "--out", out.toString(), "--tablet", "4x0.5", "--strip", "A=Alder 50", "--strip", "B=Birch, 100"));
        args.addAll(List.of(more));
        return args;
    }

    private int session(String typed, String... more) {
        return RecorderProgram.run(
                arguments(more).toArray(String[]::new),
                new ByteArrayInputStream(typed.replace(' ', '\n').getBytes(StandardCharsets.UTF_8)),
                new PrintWriter(output),
                new PrintWriter(messages));
    }

    private void recorded(String rows) throws IOException {
        assertEquals(HEADER + rows.replace(' ', '\n').replace('_', ' '), Files.readString(out), output.toString());
    }

    @Test
    void asksForEveryStepAndWritesATableThatIsRead() throws IOException {
        assertEquals(0, session("0.2 2.10 1.50 .90 0.35 0.3 1.9 1.3 0.8 0.4\n"), messages.toString());
        assertTrue(output.toString().contains("strip 1 of 2, Alder 50, base plus fog, next step 1 of 4 > "));
        assertTrue(output.toString().contains("strip 2 of 2, Birch, 100, step 4 of 4, next the end > "));
        ReadingsTable table = ReadingsReader.withDefaults()
                .with(StepTablet.nominal(4, Density.of(0.05), 0.5))
                .read(out);
        Strip strip = table.strip("B");
        assertEquals("Birch, 100", strip.film());
        assertEquals(0.3, strip.basePlusFog().orElseThrow().value());
        assertEquals(
                List.of(0.4, 0.8, 1.3, 1.9),
                strip.steps().stream().map(step -> step.density().value()).toList());
        assertEquals(0, session("", "--repeats", "1"), "nothing is left to read");
    }

    @Test
    void aValueAgainstItsNeighboursIsReadAgain() throws IOException {
        // Step 3 reads above step 2; the second reading does not agree with it, the third agrees with the second.
        assertEquals(1, session("0.2 2.1 1.5 1.95 0.90 0.91\n"));
        assertTrue(
                output.toString().contains("D 1.95 is above that of step 2, D 1.500; read it again"),
                output.toString());
        assertTrue(output.toString().contains("the readings of this step differ by more than 0.02"));
        recorded("A,Alder_50,,0.2 A,Alder_50,1,2.1 A,Alder_50,2,1.5 A,Alder_50,3,0.90 A,Alder_50,3,0.91 ");
    }

    @Test
    void aValueSentTwiceIsReadAgain() throws IOException {
        assertEquals(1, session("0.2 2.1 1.5 1.5 a\n"));
        assertTrue(output.toString().contains("D 1.5 repeats the step before it to the last digit"), output.toString());
        recorded("A,Alder_50,,0.2 A,Alder_50,1,2.1 A,Alder_50,2,1.5 A,Alder_50,3,1.5 ");
    }

    @Test
    void undoSkipNextAndResume() throws IOException {
        assertEquals(1, session("0.2 2.1 1.6 u 1.5 s p n 0.25 q 9\n"));
        recorded("A,Alder_50,,0.2 A,Alder_50,1,2.1 A,Alder_50,2,1.5 B,\"Birch,_100\",,0.25 ");
        assertTrue(messages.toString().contains("6 steps are missing; run the same command"), messages.toString());
        assertEquals(1, session("n n\n"), "what is skipped is missing");
        // What was skipped is asked for again.
        assertEquals(0, session("0.9 0.35 1.9 1.3 0.8 0.4\n"), output.toString());
        assertTrue(Files.readString(out).endsWith("B,\"Birch, 100\",4,0.4\n"));
        assertTrue(Files.readString(out).contains("A,Alder 50,3,0.9\n"));
    }

    @Test
    void fromTheDenseEndDensitiesRise() throws IOException {
        assertEquals(1, session("0.2 0.35 0.9 0.6 0.9\n", "--from-dense-end"));
        assertTrue(output.toString().contains("D 0.6 is below that of step 3, D 0.900"), output.toString());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.42 | 0.42",
                "D=0.42 | 0.42",
                "step=3 density: 0.42 t=21.5 | 0.42",
                "0,42 | 0.42",
                "3;0.42 | 0.42",
                "#17 vis 1.05 D ok | 1.05",
                "3 | 3",
                "ready | ",
                "0.42 0.43 | ",
                "D=12.5 | ",
                "1.2.3 | "
            })
    void linesOfDevices(String line, String density) throws IOException {
        RecorderProgram.run(
                arguments().toArray(String[]::new),
                new ByteArrayInputStream((line + "\n").getBytes(StandardCharsets.UTF_8)),
                new PrintWriter(output),
                new PrintWriter(messages));
        recorded(density == null ? "" : "A,Alder_50,," + density + " ");
    }

    @Test
    void aStatedPatternFindsTheDensity() throws IOException {
        assertEquals(1, session("x0.42y0.99\n", "--pattern", "y([0-9.]+)"));
        recorded("A,Alder_50,,0.99 ");
    }

    @Test
    void aRowCutShortIsTakenAway() throws IOException {
        session("0.2 2.1\n");
        String whole = Files.readString(out);
        for (int cut = 0; cut < whole.length(); cut++) {
            Files.writeString(out, whole.substring(0, cut));
            assertEquals(1, session(""), messages.toString());
            String left = Files.readString(out);
            assertTrue(left.endsWith("\n") && whole.startsWith(left), left);
            assertTrue(left.length() == HEADER.length() || cut - left.length() < 20, left);
        }
    }

    @Test
    void aFileOfAnotherKindIsLeftAlone() throws IOException {
        for (String text : List.of("strip,density\nA,1\n", "my notes\n", "unended", HEADER + "A,Alder 50,x,1\n")) {
            Files.writeString(out, text);
            assertEquals(2, session("0.2\n"));
            assertEquals(text, Files.readString(out));
        }
        assertTrue(messages.toString().contains("is not the record of this plan"), messages.toString());
        assertTrue(messages.toString().contains("begins with \"unended\""), messages.toString());
    }

    @Test
    void aPlanSaysWhatIsKnownOfEachStrip() throws IOException {
        Path plan = Files.writeString(
                scratch.resolve("plan.csv"), "strip;film;minutes;exposure\nA;Alder 50;8:30;-0,1\nB;Birch;9;-0,1\n");
        String[] args = {"--plan", plan.toString(), "--tablet", "4x0.5", "--out", out.toString()};
        int status = RecorderProgram.run(
                args,
                new ByteArrayInputStream("0.2\n2.1\n".getBytes(StandardCharsets.UTF_8)),
                new PrintWriter(output),
                new PrintWriter(messages));
        assertEquals(1, status, messages.toString());
        assertEquals(
                "strip,film,minutes,exposure,step,density\nA,Alder 50,8:30,-0.1,,0.2\nA,Alder 50,8:30,-0.1,1,2.1\n",
                Files.readString(out));
        args[5] = plan.toString();
        assertEquals(
                2,
                RecorderProgram.run(
                        args, InputStream.nullInputStream(), new PrintWriter(output), new PrintWriter(messages)));
        assertTrue(messages.toString().contains("is the plan"), messages.toString());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "strip;film;minutes/A;Alder;8,500 | line 2: \"8,500\" may be a number with decimals or with thousands; write decimals with a point",
                "strip,film,minutes/A,Alder,8/B,Birch,NaN | line 3, column minutes: \"NaN\" is not a number",
                "strip,film,exposure/A,Alder,1e400 | line 2, column exposure",
                "strip,film,film/A,Alder,Alder | line 1, column film: the header names this column twice"
            })
    void aPlanWhoseRecordCouldNotBeReadIsRefusedBeforeAnythingIsRecorded(String rows, String words) throws IOException {
        Path plan = Files.writeString(scratch.resolve("plan.csv"), rows.replace('/', '\n') + "\n");
        assertRefused("plan.csv, " + words, "--plan", plan.toString(), "--out", out.toString());
    }

    @Test
    void whatCannotWorkIsRefusedBeforeAnythingIsRecorded() throws IOException {
        String file = out.toString();
        assertRefused("there is no file", "--strip", "A=B", "--device", scratch.resolve("none") + "", "--out", file);
        assertRefused("there is no file", "--strip", "A=B", "--tablet", scratch.resolve("none") + "", "--out", file);
        assertRefused("has no group", "--strip", "A=B", "--pattern", "[0-9]+", "--out", file);
        assertRefused("regular expression", "--strip", "A=B", "--pattern", "(", "--out", file);
        assertRefused("--strip has the name A twice", "--strip", "A=B", "--strip", "A=C", "--out", file);
        assertRefused("has no name; write ID=FILM", "--strip", "=B", "--out", file);
        assertRefused("is a directory; give the name of a file", "--strip", "A=B", "--out", scratch.toString());
        assertRefused("there is no directory", "--strip", "A=B", "--out", scratch.resolve("none/r.csv") + "");
        Path device = Files.writeString(scratch.resolve("device"), "0.2\n");
        assertRefused("is the device", "--strip", "A=B", "--device", device.toString(), "--out", device.toString());
    }

    private void assertRefused(String words, String... args) {
        int status = RecorderProgram.run(
                args, InputStream.nullInputStream(), new PrintWriter(output), new PrintWriter(messages));
        assertEquals(2, status, words);
        assertTrue(messages.toString().contains(words), messages.toString());
        assertTrue(Files.notExists(out), words);
        messages.getBuffer().setLength(0);
    }

    private static String classPath() {
        return Stream.of(RecorderProgram.class, CommandLine.class, Strip.class, Iso6.class, CsvReader.class)
                .map(RecorderProgramTest::root)
                .distinct()
                .collect(Collectors.joining(File.pathSeparator));
    }

    private static String root(Class<?> type) {
        String name = type.getName().replace('.', '/') + ".class";
        URL place = type.getResource("/" + name);
        String path = place.getPath().substring(0, place.getPath().length() - name.length() - 1);
        return path.startsWith("file:") ? path.substring("file:".length(), path.length() - 1) : path;
    }

    private List<String> command(String... more) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                classPath(),
                RecorderProgram.class.getName()));
        command.addAll(arguments(more));
        return command;
    }

    private static void type(Process process, String line) throws IOException {
        OutputStream keys = process.getOutputStream();
        keys.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        keys.flush();
    }

    private static void awaitPrompt(InputStream said, String prompt) throws IOException {
        StringBuilder text = new StringBuilder();
        for (int next = said.read(); next >= 0; next = said.read()) {
            text.append((char) next);
            if (text.toString().endsWith(prompt)) {
                return;
            }
        }
        throw new AssertionError("\"" + prompt + "\" never came: " + text);
    }

    /** Killed after each reading: all that were accepted are there, and the next session goes on behind them. */
    @Test
    void aKillLosesNothing() throws Exception {
        List<String> typed = List.of("0.2", "2.1", "1.5", "0.9");
        int there = 0;
        for (int batch = 0; batch < 2; batch++) {
            Process process = new ProcessBuilder(command())
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            awaitPrompt(process.getInputStream(), "> ");
            for (int i = 0; i < 2; i++) {
                type(process, typed.get(there++));
                awaitPrompt(process.getInputStream(), "> ");
            }
            process.destroyForcibly();
            assertEquals(128 + 9, process.waitFor());
            assertEquals(1 + there, Files.readAllLines(out).size());
        }
        assertTrue(Files.readString(out).endsWith("A,Alder 50,3,0.9\n"));
    }

    /** On a terminal of its own, which util-linux's script makes. */
    @Test
    void worksOverAPseudoTerminal() throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/usr/bin/script")), "no /usr/bin/script");
        String line = command().stream().map(word -> "'" + word + "'").collect(Collectors.joining(" "));
        Process process = new ProcessBuilder("/usr/bin/script", "-qec", line, "/dev/null")
                .redirectErrorStream(true)
                .start();
        for (String reading : EVERY_STEP) {
            awaitPrompt(process.getInputStream(), "> ");
            type(process, reading);
        }
        assertEquals(0, process.waitFor());
        assertEquals(11, Files.readAllLines(out).size());
    }

    /** A device that sends by itself, through a named pipe, with the keyboard closed. */
    @Test
    void readsADeviceThatStreams() throws Exception {
        Path pipe = scratch.resolve("device");
        assumeTrue(
                Files.isExecutable(Path.of("/usr/bin/mkfifo"))
                        && new ProcessBuilder("/usr/bin/mkfifo", pipe.toString())
                                        .start()
                                        .waitFor()
                                == 0,
                "no named pipes");
        Process process = new ProcessBuilder(command("--device", pipe.toString()))
                .redirectErrorStream(true)
                .start();
        process.getOutputStream().close();
        try (OutputStream device = Files.newOutputStream(pipe, StandardOpenOption.WRITE)) {
            for (String reading : EVERY_STEP) {
                device.write(("D=" + reading + "\r\n").getBytes(StandardCharsets.UTF_8));
                device.flush();
            }
        }
        String said = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))
                .lines()
                .collect(Collectors.joining("\n"));
        assertEquals(0, process.waitFor(), said);
        assertEquals(11, Files.readAllLines(out).size());
    }
}
