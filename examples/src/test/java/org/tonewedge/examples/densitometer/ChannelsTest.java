// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Several channels, kinds of density, and the calibration statement. */
class ChannelsTest {

    private static final int STEPS = 11;

    @TempDir
    private Path directory;

    private final StringWriter output = new StringWriter();
    private final StringWriter messages = new StringWriter();

    @BeforeEach
    void write() throws IOException {
        StringBuilder certificate = new StringBuilder(
                "# kind: reflection\n# laboratory: invented\nstep,density_red,density_green,expanded_uncertainty\n");
        StringBuilder log = new StringBuilder("# kind: reflection\nstep,r,g\n");
        for (int step = 1; step <= STEPS; step++) {
            double density = 0.05 + 0.2 * (step - 1);
            certificate.append(String.format(Locale.ROOT, "%d,%.3f,%.3f,0.006%n", step, density, density + 0.02));
            for (int i = 0; i < 3; i++) {
                // the green channel reads 6 % too high
                log.append(String.format(
                        Locale.ROOT,
                        "%d,%.3f,%.3f%n",
                        step,
                        density + 0.001 * i,
                        1.06 * (density + 0.02) + 0.001 * (i - 1)));
            }
        }
        Files.writeString(directory.resolve("tablet.csv"), certificate);
        Files.writeString(directory.resolve("log.csv"), log);
    }

    private int check(String... more) {
        List<String> args = new ArrayList<>(List.of(
                directory.resolve("log.csv").toString(),
                "--tablet",
                directory.resolve("tablet.csv").toString(),
                "--no-plots"));
        if (!List.of(more).contains("--layout")) {
            args.addAll(List.of("--layout", "comma step=step density=r"));
        }
        args.addAll(List.of(more));
        return DensitometerCheckProgram.run(
                args.toArray(String[]::new),
                InputStream.nullInputStream(),
                new PrintWriter(output),
                new PrintWriter(messages));
    }

    @Test
    void judgesTheArithmeticOfEachChannelByItsOwnCounts() throws IOException {
        StringBuilder log = new StringBuilder("# kind: reflection\n");
        for (int step = 1; step <= STEPS; step++) {
            double density = 0.05 + 0.2 * (step - 1);
            for (int i = 0; i < 3; i++) {
                long red = Math.round(50_000 * Math.pow(10, -density)) + i;
                long green = Math.round(40_000 * Math.pow(10, -density - 0.02)) + i;
                // the green channel is printed with the natural logarithm
                log.append(String.format(
                        Locale.ROOT,
                        "step=%d d_r=%.3f raw_r=%d open_r=50100 d_g=%.3f raw_g=%d open_g=40100 dark=100%n",
                        step,
                        Math.log10(50_000.0 / red),
                        red + 100,
                        Math.log(40_000.0 / green),
                        green + 100));
            }
        }
        Files.writeString(directory.resolve("log.csv"), log);
        Path out = directory.resolve("out");

        int status = check(
                "--layout",
                "keys step=step density=d_* sample=raw_* open=open_* dark=dark",
                "--channels",
                "red=r,green=g",
                "--out",
                out.toString());

        assertEquals(1, status, messages.toString());
        assertTrue(Files.readString(out.resolve("red/summary.json")).contains("\"outcome\": \"passed\""));
        assertTrue(Files.readString(out.resolve("green/summary.json")).contains("the natural logarithm is used"));
    }

    @Test
    void asksForTheChannelsThatALayoutLeavesOpen() {
        assertEquals(2, check("--layout", "keys step=step density=d_*"));
        assertTrue(messages.toString().contains("name the channels"), messages.toString());
    }

    @Test
    void judgesChannelByChannel() throws IOException {
        Path out = directory.resolve("out");

        int status = check("--channels", "red=r,green=g", "--out", out.toString());

        assertEquals(1, status, messages.toString());
        assertTrue(output.toString().contains("Channel red"), output.toString());
        assertTrue(Files.readString(out.resolve("red/summary.json")).contains("\"outcome\": \"passed\""));
        assertTrue(Files.readString(out.resolve("green/summary.json")).contains("\"outcome\": \"failed\""));
    }

    @Test
    void aChannelThatCannotBeJudgedLeavesAnErrorResult() throws IOException {
        Path out = directory.resolve("out");
        assertEquals(1, check("--channels", "red=r,green=g", "--out", out.toString()));

        assertEquals(2, check("--channels", "red=r,green=nothing", "--out", out.toString()));

        assertTrue(Files.readString(out.resolve("red/summary.json")).contains("\"outcome\": \"passed\""));
        assertTrue(Files.readString(out.resolve("green/summary.json")).contains("\"outcome\": \"error\""));
    }

    @Test
    void asksForTheChannels() {
        assertEquals(2, check());
        assertTrue(messages.toString().contains("judge channel by channel"), messages.toString());
    }

    @Test
    void refusesAnotherKind() {
        assertEquals(2, check("--channels", "red=r", "--kind", "transmission"));
        assertTrue(messages.toString().contains("kind transmission, not reflection as certified"), messages.toString());
    }

    @Test
    void refusesTheKindThatTheLogStates() throws IOException {
        Path log = directory.resolve("log.csv");
        Files.writeString(log, Files.readString(log).replace("reflection", "transmission"));

        assertEquals(2, check("--channels", "red=r"));
        assertTrue(messages.toString().contains("kind transmission, not reflection as certified"), messages.toString());
    }

    @Test
    void statesTheCalibrationOnASheet() throws IOException {
        Path out = directory.resolve("out");
        check(
                "--channels",
                "green=g",
                "--instrument",
                "bench meter <2>",
                "--conditions",
                "23 °C",
                "--out",
                out.toString());

        String text = Files.readString(out.resolve("green/statement.txt"));
        String page = Files.readString(out.resolve("green/statement.html"));

        assertTrue(text.startsWith("Calibration statement"), text);
        for (String part : List.of(
                "bench meter",
                "optical density: reflection",
                "laboratory",
                "invented",
                "23 °C",
                "33 readings",
                "JCGM 100")) {
            assertTrue(text.contains(part), part + " in " + text);
            assertTrue(page.contains(part), part);
        }
        assertFalse(page.contains("<2>"));
        // certified 2.070, read 2.194: correction -0.124; U = 2 √(0.003² + 0.001²/3)
        assertTrue(text.replaceAll(" +", " ").contains("11 2.070 2.194 -0.124 0.006 2"), text);
    }
}
