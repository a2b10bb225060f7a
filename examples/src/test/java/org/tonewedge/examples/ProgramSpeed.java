// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;

/**
 * Times of the programs as the README starts them, in processes of their own, and of all figures of a strip. Run it at the
 * top of the project after {@code mvn package}:
 *
 * <pre>{@code
 * java -cp examples/target/test-classes:examples/target/tonewedge-examples-all.jar org.tonewedge.examples.ProgramSpeed all
 * }</pre>
 *
 * <p>In place of {@code all}, {@code figures}, {@code start}, {@code demo} or {@code many} alone. A process that needs more
 * memory than the limit in its line fails, and so does this program.
 */
final class ProgramSpeed {

    private static final String JAR = "examples/target/tonewedge-examples-all.jar";
    private static final int FRESH = 1000;
    private static final int STARTS = 15;

    private ProgramSpeed() {}

    /** The least that a process can be started for: the speed of one strip. */
    static final class OneStrip {

        private OneStrip() {}

        /** Prints the speed of the demo reference. */
        public static void main(String[] arguments) throws IOException {
            Strip strip =
                    ReadingsTable.read(Path.of("examples/demo/strips.csv")).strip("R00");
            System.out.println(Iso6.withDefaults().determine(CharacteristicCurve.through(strip)));
        }
    }

    /** Measures what the argument names. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        List<String> wanted = Arrays.asList(arguments.length == 0 ? new String[] {"all"} : arguments);
        boolean all = wanted.contains("all");
        Path scratch = Files.createTempDirectory("program-speed");
        if (all || wanted.contains("start")) {
            start(scratch);
        }
        if (all || wanted.contains("demo")) {
            demo(scratch);
        }
        if (all || wanted.contains("many")) {
            many(scratch);
        }
        if (all || wanted.contains("figures")) {
            figures();
        }
    }

    /** A fresh process that gives the speed of a strip, beside one that does nothing; both in turn. */
    private static void start(Path scratch) throws IOException, InterruptedException {
        List<String> speed =
                List.of("-cp", JAR + File.pathSeparator + jarOfOneStrip(scratch), OneStrip.class.getName());
        List<String> look = List.of("-cp", JAR, "org.tonewedge.examples.guide.FirstLook", "examples/demo");
        String archiveOfSpeed = archive("speed", speed, scratch);
        String archiveOfLook = archive("look", look, scratch);
        List<List<String>> ways = List.of(
                List.of(java(), "-version"),
                java(List.of("@examples/quick.args"), speed),
                java(List.of("@examples/quick.args", archiveOfSpeed), speed),
                java(List.of(), look),
                java(List.of("@examples/quick.args"), look),
                java(List.of("@examples/quick.args", archiveOfLook), look));
        List<String> names = List.of(
                "java -version",
                "speed of a strip, quick.args",
                "speed of a strip, with archive",
                "first look",
                "first look, quick.args",
                "first look, with archive");
        double[][] times = new double[ways.size()][STARTS];
        for (int i = 0; i < STARTS; i++) {
            for (int way = 0; way < ways.size(); way++) {
                times[way][i] = seconds(ways.get(way), scratch);
            }
        }
        for (int way = 0; way < ways.size(); way++) {
            double[] ratios = new double[STARTS];
            for (int i = 0; i < STARTS; i++) {
                ratios[i] = times[way][i] / times[0][i];
            }
            print(names.get(way), 1e3 * median(times[way]), "ms", median(ratios), "times java -version");
        }
    }

    /** An archive takes classes from jars alone. */
    private static Path jarOfOneStrip(Path scratch) throws IOException {
        Path jar = scratch.resolve("one-strip.jar");
        String file = OneStrip.class.getName().replace('.', '/') + ".class";
        try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(jar));
                InputStream in = ProgramSpeed.class.getResourceAsStream('/' + file)) {
            out.putNextEntry(new JarEntry(file));
            in.transferTo(out);
        }
        return jar;
    }

    /** The option that uses an archive of the classes of a run, which is run for it. */
    private static String archive(String name, List<String> run, Path scratch)
            throws IOException, InterruptedException {
        Path file = scratch.resolve(name + ".jsa");
        seconds(java(List.of("@examples/quick.args", "-XX:ArchiveClassesAtExit=" + file), run), scratch);
        return "-XX:SharedArchiveFile=" + file;
    }

    private static void demo(Path scratch) throws IOException, InterruptedException {
        double[] times = new double[5];
        for (int i = 0; i < times.length; i++) {
            times[i] =
                    seconds(comparison("examples/demo/strips.csv", "R00", scratch.resolve("demo"), List.of()), scratch);
        }
        Arrays.sort(times);
        print("README demo, the median of 5", median(times), "s", times[0], "s at least");
    }

    private static void many(Path scratch) throws IOException, InterruptedException {
        Path table = scratch.resolve("many.csv");
        try (Writer writer = Files.newBufferedWriter(table)) {
            ReadingsTable.write(InventedStrips.of(FRESH), writer);
        }
        double time =
                seconds(comparison(table.toString(), "S0", scratch.resolve("many"), List.of("-Xmx500m")), scratch);
        print(FRESH + " strips within -Xmx500m", time, "s", 1e3 * time / FRESH, "ms a strip");
    }

    private static List<String> comparison(String table, String reference, Path out, List<String> options) {
        List<String> command = java(List.of("@examples/quick.args"), options);
        command.addAll(List.of("-jar", JAR, table, "--reference", reference, "--out", out.toString()));
        return command;
    }

    /** All figures of strips with their uncertainties, by one thread, the strips fresh in each pass. */
    private static void figures() {
        List<Strip> strips = InventedStrips.of(FRESH);
        int passes = 5;
        double[] times = new double[passes];
        int estimates = 0;
        for (int pass = 0; pass < passes; pass++) {
            long start = System.nanoTime();
            estimates = 0;
            for (int i = pass; i < strips.size(); i += passes) {
                StripFigures figures = StripFigures.of(strips.get(i));
                for (FilmFigure figure : FilmFigure.values()) {
                    estimates += !figure.isBesideReference()
                                    && figures.get(figure).estimate().isPresent()
                            ? 1
                            : 0;
                }
            }
            times[pass] = 1e-9 * (System.nanoTime() - start);
        }
        int each = strips.size() / passes;
        Arrays.sort(times);
        print(
                "all figures of a strip",
                1e3 * times[passes / 2] / each,
                "ms",
                (double) estimates / each,
                "with uncertainty");
    }

    private static String java() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    private static List<String> java(List<String> first, List<String> then) {
        List<String> command = new ArrayList<>();
        command.add(java());
        command.addAll(first);
        command.addAll(then);
        return command;
    }

    private static double seconds(List<String> command, Path scratch) throws IOException, InterruptedException {
        Path said = scratch.resolve("said.txt");
        long start = System.nanoTime();
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        int status = process.waitFor();
        double time = 1e-9 * (System.nanoTime() - start);
        // 1: something has no result, as the README says of its demo.
        if (status > 1) {
            throw new IllegalStateException(command + " ended with " + status + ":\n" + Files.readString(said));
        }
        return time;
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static void print(String what, double value, String unit, double second, String of) {
        System.out.printf(Locale.ROOT, "%-34s %8.2f %-3s %8.2f %s%n", what, value, unit, second, of);
    }
}
