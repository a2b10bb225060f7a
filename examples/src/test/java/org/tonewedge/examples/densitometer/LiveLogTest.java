// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.summary.RunningSummary;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;
import picocli.CommandLine;

/** Logs that come from pipes, terminals and devices, and that do not end of themselves. */
@Timeout(value = 120, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class LiveLogTest {

    private static final String LAYOUT = "keys step=step density=d decimals=3";
    private static final int STEPS = 6;

    @TempDir
    private Path directory;

    private Path tablet;
    private final StringWriter output = new StringWriter();
    private final StringWriter messages = new StringWriter();

    @BeforeEach
    void writeCertificate() throws IOException {
        tablet = directory.resolve("tablet.csv");
        StringBuilder table = new StringBuilder("step,density,expanded_uncertainty\n");
        for (int step = 1; step <= STEPS; step++) {
            table.append(step).append(',').append(density(step)).append(",0.006\n");
        }
        Files.writeString(tablet, table.toString());
    }

    private static String density(int step) {
        return String.format(Locale.ROOT, "%.3f", 0.05 + 0.45 * (step - 1));
    }

    private static String line(int step) {
        return "step=" + step + " D=" + density(step) + "\n";
    }

    /** Three readings of each step, upwards and downwards by turns. */
    private static String passes(int count) {
        StringBuilder log = new StringBuilder("boot: ready\n");
        for (int pass = 0; pass < count; pass++) {
            for (int i = 1; i <= STEPS; i++) {
                log.append(line(pass % 2 == 0 ? i : STEPS + 1 - i));
            }
        }
        return log.toString();
    }

    private int check(Path log, String... more) {
        List<String> args = new ArrayList<>(List.of(log.toString(), "--tablet", tablet.toString()));
        args.addAll(List.of(more));
        return DensitometerCheckProgram.run(
                args.toArray(new String[0]),
                InputStream.nullInputStream(),
                new PrintWriter(output),
                new PrintWriter(messages));
    }

    private static void assumeTool(String name) {
        boolean there = Stream.of(System.getenv("PATH").split(File.pathSeparator, -1))
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, name)));
        assumeTrue(there, "there is no tool " + name);
    }

    private Path fifo() throws Exception {
        assumeTool("mkfifo");
        Path fifo = directory.resolve("log.fifo");
        assertEquals(0, new ProcessBuilder("mkfifo", fifo.toString()).start().waitFor());
        return fifo;
    }

    /** Writes to a pipe and leaves it open until the test ends. */
    private static Thread writer(Path fifo, String text, long holdMilliseconds) {
        Thread thread = new Thread(() -> {
            try (OutputStream pipe = Files.newOutputStream(fifo)) {
                pipe.write(text.getBytes(StandardCharsets.US_ASCII));
                pipe.flush();
                Thread.sleep(holdMilliseconds);
            } catch (IOException | InterruptedException e) {
                // the other end is gone
            }
        });
        thread.setDaemon(true);
        thread.start();
        return thread;
    }

    @Test
    void speaksOfTheFirstReadingBeforeTheSecondArrives() throws Exception {
        Path fifo = fifo();
        String first = "step 1 of 6: n 1, mean 0.050";
        boolean[] spoken = new boolean[1];
        Thread device = new Thread(() -> {
            try (OutputStream pipe = Files.newOutputStream(fifo)) {
                pipe.write(line(1).getBytes(StandardCharsets.US_ASCII));
                pipe.flush();
                for (int i = 0; i < 2000 && !messages.toString().contains(first); i++) {
                    Thread.sleep(10);
                }
                spoken[0] = messages.toString().contains(first);
                pipe.write(passes(3).substring(passes(3).indexOf(line(2))).getBytes(StandardCharsets.US_ASCII));
            } catch (IOException | InterruptedException e) {
                // the other end is gone
            }
        });
        device.start();

        assertEquals(0, check(fifo), () -> output + "\n" + messages);
        device.join();
        assertTrue(spoken[0], messages.toString());
        assertEquals(1, messages.toString().split(Pattern.quote(first), -1).length - 1);
    }

    @Test
    void saysWhenLaterLinesReviseTheLayout() {
        StepTablet steps = StepTablet.calibrated("invented", 0.003, new double[] {0.05, 0.5, 0.95});
        List<String> said = new ArrayList<>();
        EarlyReadings early = new EarlyReadings(
                (layout, line) -> new TabletGuide(
                        RunningSummary.of(layout, steps, ReadingOrder.FROM_CLEAR_END, 1),
                        steps.steps(),
                        new DensityTolerance(0.02, 0.02),
                        3,
                        1,
                        true,
                        false,
                        () -> true,
                        line),
                said::add);
        List<String> lines = new ArrayList<>();
        for (String line : List.of(
                "D=0.050",
                "step=1 D=0.050",
                "step=1 D=0.051",
                "step=2 D=0.500 raw=15911 dark=100 open=50100",
                "step=3 D=0.950 raw=5710 dark=100 open=50100",
                "step=3 D=0.951 raw=5698 dark=100 open=50100")) {
            lines.add(line);
            assertTrue(!early.test(List.copyOf(lines), Optional.of(LayoutGuess.from(lines))), line);
        }

        String all = String.join("\n", said);
        assertEquals("received \"D=0.050\": not clear yet which step it is", said.get(0));
        assertTrue(
                said.get(1).startsWith("the layout is guessed from the first lines: \"keys step=step density=d"), all);
        assertTrue(said.get(2).startsWith("line 1: not a reading"), all);
        assertTrue(said.get(3).startsWith("step 1 of 3: n 1, mean 0.050"), all);
        int revised = all.indexOf("the layout is revised to \"keys step=step density=d sample=raw");
        assertTrue(revised > 0, all);
        assertTrue(all.indexOf("step 2 of 3: n 1, mean 0.500", revised) > 0, all);
        assertTrue(said.get(said.size() - 1).startsWith("step 3 of 3: n 2, mean 0.950"), all);
    }

    @Test
    void readsAPipeWithAGuessedLayout() throws Exception {
        Path fifo = fifo();
        writer(fifo, passes(3), 0);

        assertEquals(0, check(fifo), () -> output + "\n" + messages);
        assertTrue(messages.toString().contains("guessed layout \"keys step=step density=d"), messages.toString());
    }

    @Test
    void endsOfItselfWhenEveryStepHasItsReadings() throws Exception {
        Path fifo = fifo();
        writer(fifo, passes(3), 100_000);

        assertEquals(0, check(fifo, "--layout", LAYOUT, "--readings", "2"), () -> output + "\n" + messages);

        String said = messages.toString();
        assertTrue(said.contains("step 1 of 6: n 1, mean 0.050, error 0.000 of 0.020 allowed; next: step 2"), said);
        assertTrue(said.contains("next: step 6 again") || said.contains("pass 2 down the tablet"), said);
        assertTrue(said.contains("every step has its readings"), said);
        assertTrue(output.toString().contains("12 readings"), output.toString());
    }

    @Test
    void endsOfItselfWhenACompleteTabletFallsSilent() throws Exception {
        Path fifo = fifo();
        writer(fifo, passes(4), 100_000);

        assertEquals(0, check(fifo), () -> output + "\n" + messages);
        assertTrue(output.toString().contains("24 readings"), output.toString());
    }

    @Test
    void endsAfterTheStatedIdleTimeWithTheVerdictSoFar() throws Exception {
        Path fifo = fifo();
        writer(fifo, line(1) + line(2) + line(3) + line(3) + line(4), 100_000);
        Path out = directory.resolve("out");

        assertEquals(1, check(fifo, "--layout", LAYOUT, "--idle", "0.5", "--out", out.toString()));

        String report = output.toString();
        assertTrue(report.startsWith("So far: the densitometer is UNDECIDED"), report);
        assertTrue(report.contains("steps 5 and 6 have no density"), report);
        assertTrue(Files.readString(out.resolve("summary.json")).contains("\"so_far\": true"));
    }

    @Test
    void saysWhichReadingToTakeAgain() throws Exception {
        Path fifo = fifo();
        writer(fifo, line(1) + "step=2 D=" + density(4) + "\nstep=3 D=0.\n" + passes(3), 0);

        check(fifo, "--layout", LAYOUT);

        String said = messages.toString();
        assertTrue(said.contains("1.400 looks like step 4: read step 2 again"), said);
        assertTrue(said.contains("line 3, step 3: not a reading"), said);
    }

    /** A terminal in its usual settings, fed by a process that keeps it open. */
    @Test
    void readsAPseudoTerminal() throws Exception {
        assumeTool("python3");
        Path name = directory.resolve("name.txt");
        Path log = directory.resolve("log.txt");
        Files.writeString(log, passes(3));
        String feed = """
                import os, pty, time, sys
                master, slave = pty.openpty()
                open(sys.argv[1] + '.new', 'w').write(os.ttyname(slave))
                os.rename(sys.argv[1] + '.new', sys.argv[1])
                time.sleep(1.5)
                for line in open(sys.argv[2]):
                    os.write(master, line.replace('\\n', '\\r\\n').encode())
                time.sleep(60)
                """;
        Process terminal = new ProcessBuilder("python3", "-c", feed, name.toString(), log.toString())
                .redirectErrorStream(true)
                .start();
        try {
            for (int i = 0; i < 400 && !Files.exists(name); i++) {
                Thread.sleep(50);
            }
            Path device = Path.of(Files.readString(name));

            assertEquals(0, check(device, "--baud", "9600"), () -> output + "\n" + messages);

            assertTrue(messages.toString().contains(device + ": 9600 baud, echo off"), messages.toString());
            assertTrue(output.toString().contains("18 readings"), output.toString());
        } finally {
            terminal.destroyForcibly();
        }
    }

    private ProcessBuilder program(String log, Path out) throws Exception {
        List<String> roots = new ArrayList<>();
        for (Class<?> type : List.of(
                DensitometerCheckProgram.class,
                Strip.class,
                SmoothingSpline.class,
                DensitometerCheck.class,
                CommandLine.class,
                de.siegmar.fastcsv.writer.CsvWriter.class)) {
            roots.add(Path.of(type.getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .toURI())
                    .toString());
        }
        String known =
                System.getProperty("jdk.module.path", "") + File.pathSeparator + System.getProperty("java.class.path");
        roots.addAll(List.of(known.split(File.pathSeparator, -1)));
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        roots.stream().distinct().collect(Collectors.joining(File.pathSeparator)),
                        DensitometerCheckProgram.class.getName(),
                        log,
                        "--tablet",
                        tablet.toString(),
                        "--layout",
                        LAYOUT,
                        "--out",
                        out.toString())
                .redirectError(directory.resolve("messages.txt").toFile())
                .redirectOutput(directory.resolve("report.txt").toFile());
    }

    @Test
    void writesTheVerdictSoFarWhenItIsTerminated() throws Exception {
        Path out = directory.resolve("out");
        Process process = program("-", out).start();
        try (OutputStream input = process.getOutputStream()) {
            input.write((line(1) + line(2) + line(3) + line(4)).getBytes(StandardCharsets.US_ASCII));
            input.flush();
            Path said = directory.resolve("messages.txt");
            for (int i = 0; i < 1200 && !Files.readString(said).contains("step 4 of 6"); i++) {
                Thread.sleep(50);
            }
            process.destroy();
            assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        }

        String report = Files.readString(directory.resolve("report.txt"));
        assertTrue(report.startsWith("So far: the densitometer is UNDECIDED"), report);
        assertTrue(report.contains("steps 5 and 6 have no density"), report);
        assertTrue(Files.readString(out.resolve("summary.json")).contains("\"so_far\": true"));
        assertTrue(Files.exists(out.resolve("junit.xml")));
    }

    @Test
    void readsTheDeviceFilesOfStandardInput() throws Exception {
        assumeTrue(Files.exists(Path.of("/dev/stdin")), "there is no /dev/stdin");
        Process process = program("/dev/stdin", directory.resolve("out")).start();
        try (OutputStream input = process.getOutputStream()) {
            input.write(passes(3).getBytes(StandardCharsets.US_ASCII));
        }

        assertEquals(0, process.waitFor(), () -> {
            try {
                return Files.readString(directory.resolve("messages.txt"));
            } catch (IOException e) {
                return e.toString();
            }
        });
    }

    /** An error result takes the place of a verdict that no longer holds. */
    @Test
    void leavesNoOldVerdictBesideACheckThatCouldNotBeMade() throws Exception {
        Path log = directory.resolve("good.log");
        Files.writeString(log, passes(3));
        Path out = directory.resolve("out");
        assertEquals(0, check(log, "--out", out.toString()), () -> output + "\n" + messages);
        assertTrue(Files.exists(out.resolve("correction.h")));

        Files.writeString(log, "no reading at all\n");
        assertEquals(2, check(log, "--out", out.toString()));

        String tests = Files.readString(out.resolve("junit.xml"));
        assertTrue(tests.contains("errors=\"1\"") && tests.contains("<error type=\"CHECK_NOT_MADE\""), tests);
        assertTrue(Files.readString(out.resolve("summary.json")).contains("\"outcome\": \"error\""));
        assertTrue(Files.notExists(out.resolve("correction.h")));
        assertTrue(Files.notExists(out.resolve("residuals.png")));
        assertTrue(Files.readString(out.resolve("report.html")).contains("could not be checked"));
    }
}
