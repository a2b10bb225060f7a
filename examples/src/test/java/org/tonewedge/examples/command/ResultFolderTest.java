// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.film.Iso6;
import picocli.CommandLine;

class ResultFolderTest {

    @TempDir
    Path scratch;

    private Path out;

    /** A machine that fails between two moves. */
    private static final class Crash extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }

    @BeforeEach
    void nameTheDirectory() {
        out = scratch.resolve("results/of the day");
    }

    private void publish(Map<String, String> files, Path... inputs) throws IOException {
        try (ResultFolder folder = ResultFolder.open(out, "program", List.of(inputs))) {
            write(files, folder);
            folder.publish();
        }
    }

    private static void write(Map<String, String> files, ResultFolder folder) throws IOException {
        for (Map.Entry<String, String> file : files.entrySet()) {
            Path path = folder.unpublished().resolve(file.getKey());
            Files.createDirectories(path.getParent());
            Files.writeString(path, file.getValue());
        }
    }

    /** Everything below a directory: the text of files, null for folders. */
    private static Map<String, String> content(Path directory) throws IOException {
        Map<String, String> content = new TreeMap<>();
        try (Stream<Path> files = Files.walk(directory)) {
            for (Path file : files.toList()) {
                boolean readable = Files.isRegularFile(file);
                content.put(directory.relativize(file).toString(), readable ? Files.readString(file) : null);
            }
        }
        return content;
    }

    private void refused(String file, String why, Map<String, String> files, Path... inputs) throws IOException {
        Map<String, String> before = content(scratch);
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> publish(files, inputs));
        assertTrue(e.getMessage().contains(out.resolve(file) + " is in the way, " + why), e.getMessage());
        assertEquals(before, content(scratch));
    }

    @Test
    void theManifestIsWhatSha256sumReads() throws Exception {
        publish(Map.of("report.html", "page", "plots/a b.svg", "plot"));
        assertEquals(
                List.of("", "plots", "plots/a b.svg", "program.sha256", "report.html"),
                List.copyOf(content(out).keySet()));
        Process check = new ProcessBuilder("sha256sum", "--check", "--strict", "program.sha256")
                .directory(out.toFile())
                .redirectErrorStream(true)
                .start();
        String said = new String(check.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
        assertEquals(0, check.waitFor(), said);
        assertEquals("plots/a b.svg: OK\nreport.html: OK\n", said);
    }

    @Test
    void anotherRunReplacesItsOwnFilesAndNothingElse() throws IOException {
        publish(Map.of("report.html", "old", "plots/stale.svg", "old", "both/a.svg", "old"));
        Files.writeString(out.resolve("notes.txt"), "mine");
        Files.writeString(out.resolve("both/mine.svg"), "mine");
        publish(Map.of("report.html", "new", "new.svg", "new"));
        Map<String, String> content = content(out);
        content.remove("program.sha256");
        Map<String, String> expected = new TreeMap<>(
                Map.of("report.html", "new", "new.svg", "new", "notes.txt", "mine", "both/mine.svg", "mine"));
        expected.put("", null);
        expected.put("both", null);
        assertEquals(expected, content);
    }

    @Test
    void whatIsInTheWayIsRefusedByName() throws IOException {
        Files.createDirectories(out);
        Files.writeString(out.resolve("comparison.csv"), "mine");
        refused("comparison.csv", "no earlier run", Map.of("comparison.csv", "x", "report.html", "x"));
        Files.createDirectory(out.resolve("report.html"));
        refused("report.html", "no earlier run", Map.of("report.html", "x"));
        refused("comparison.csv", "a folder of results", Map.of("comparison.csv/plot.svg", "x"));
        publish(Map.of("plan.csv", "x"));
        Files.writeString(out.resolve("plan.csv"), "x, and what I added");
        refused("plan.csv", "it was changed since", Map.of("plan.csv", "y"));
        // A changed result that is no longer written is the user's.
        publish(Map.of("other.csv", "x"));
        assertEquals("x, and what I added", Files.readString(out.resolve("plan.csv")));
        Files.writeString(out.resolve("program.sha256"), "0".repeat(64) + "  ../../outside.txt\n");
        refused("program.sha256", "it is not a list", Map.of("other.csv", "y"));
    }

    @Test
    void anInputIsNeverAnOutput() throws IOException {
        publish(Map.of("comparison.csv", "an earlier result"));
        Path result = out.resolve("comparison.csv");
        Path hard = Files.createLink(scratch.resolve("hard.csv"), result);
        Path soft = Files.createSymbolicLink(scratch.resolve("soft.csv"), result);
        Path folder = Files.createSymbolicLink(scratch.resolve("folder"), out);
        for (Path input : List.of(
                result,
                out.resolve("../of the day/comparison.csv"),
                folder.resolve("comparison.csv"),
                hard,
                soft,
                Path.of("").toAbsolutePath().relativize(result.toAbsolutePath()))) {
            refused("comparison.csv", "it is an input", Map.of("comparison.csv", "new"), input);
        }
        Files.delete(result);
        Path readings = Files.writeString(scratch.resolve("readings.csv"), "readings");
        Files.createSymbolicLink(result, readings);
        refused("comparison.csv", "it is an input", Map.of("comparison.csv", "new"), readings);
        refused("comparison.csv", "it was changed", Map.of("comparison.csv", "new"));
    }

    @Test
    void aRunThatEndsBetweenTwoMovesIsUndone() throws IOException {
        Map<String, String> old = Map.of("a", "old", "b", "old", "sub/c", "old");
        Map<String, String> results = Map.of("a", "new", "d", "new", "sub/e", "new");
        publish(old);
        Files.writeString(out.resolve("mine"), "mine");
        Map<String, String> before = content(out);
        // Four old files go (three and the manifest), four new ones come.
        for (int moves = 0; moves < 8; moves++) {
            int[] left = {moves};
            ResultFolder folder = ResultFolder.open(out, "program", List.of(), file -> {
                if (left[0]-- == 0) {
                    throw new Crash();
                }
            });
            write(results, folder);
            assertThrows(Crash.class, folder::publish);
            folder.close();
            assertTrue(Files.exists(out.resolve(ResultFolder.UNFINISHED)));
            ResultFolder.open(out, "program", List.of()).close();
            assertEquals(before, content(out), "after " + moves + " moves");
        }
        publish(results);
        assertEquals(
                List.of("", "a", "d", "mine", "program.sha256", "sub", "sub/e"),
                List.copyOf(content(out).keySet()));
    }

    @Test
    void twoRunsDoNotWriteAtOnce() throws IOException {
        try (ResultFolder first = ResultFolder.open(out, "program", List.of())) {
            write(Map.of("a", "first"), first);
            assertTrue(assertThrows(IllegalArgumentException.class, () -> ResultFolder.open(out, "program", List.of()))
                    .getMessage()
                    .contains("another run is writing to"));
            first.publish();
        }
        assertEquals("first", Files.readString(out.resolve("a")));
    }

    @Test
    void aRunThatFailsLeavesNothing() throws IOException {
        Files.createDirectories(scratch.resolve("results"));
        Map<String, String> before = content(scratch);
        try (ResultFolder folder = ResultFolder.open(out, "program", List.of())) {
            write(Map.of("a", "b"), folder);
        }
        assertEquals(before, content(scratch));
    }

    private Process start(Path directory, String text) throws IOException, URISyntaxException {
        String classPath = Stream.of(
                        SlowProgram.class, CommandProgram.class, CommandLine.class, Strip.class, Iso6.class)
                .map(ResultFolderTest::root)
                .distinct()
                .collect(Collectors.joining(File.pathSeparator));
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        classPath,
                        SlowProgram.class.getName(),
                        "--out",
                        directory.toString(),
                        "--text",
                        text)
                .redirectError(scratch.resolve("errors.txt").toFile())
                .start();
    }

    /** The folder or jar from which a class is loaded, with or without modules. */
    private static String root(Class<?> type) {
        String name = type.getName().replace('.', '/') + ".class";
        URL place = type.getResource("/" + name);
        String path = place.getPath().substring(0, place.getPath().length() - name.length() - 1);
        return path.startsWith("file:") ? path.substring("file:".length(), path.length() - 1) : path;
    }

    private int end(Process process) throws IOException, InterruptedException {
        process.getOutputStream().close();
        return process.waitFor();
    }

    @Test
    void aKillInTheMiddleLeavesTheEarlierResults() throws Exception {
        assertEquals(0, end(start(out, "first")), Files.readString(scratch.resolve("errors.txt")));
        Map<String, String> before = content(out);
        Process killed = start(out, "second");
        assertEquals('h', killed.getInputStream().read());
        killed.destroyForcibly();
        assertEquals(128 + 9, killed.waitFor());
        Map<String, String> after = content(out);
        assertTrue(after.keySet().removeIf(name -> name.startsWith(ResultFolder.UNFINISHED)));
        assertEquals(before, after);
        assertEquals(0, end(start(out, "third")));
        assertEquals(
                List.of("", "a.txt", "b.txt", "slow.sha256"),
                List.copyOf(content(out).keySet()));
        assertEquals("third", Files.readString(out.resolve("b.txt")));
    }

    @Test
    void aRunThatIsStoppedSaysWhatItLeaves() throws Exception {
        Process stopped = start(out, "first");
        assertEquals('h', stopped.getInputStream().read());
        stopped.destroy();
        assertEquals(128 + 15, stopped.waitFor());
        String said = Files.readString(scratch.resolve("errors.txt"));
        assertTrue(said.contains("slow: stopped before all results were written"), said);
        assertTrue(said.contains("takes away " + out.resolve(ResultFolder.UNFINISHED)), said);
    }

    /** A small file system in memory; the tests that need it are skipped where it cannot be mounted. */
    private interface Mounted {
        void use(Path root) throws Exception;
    }

    private void onSmallDisk(Mounted test) throws Exception {
        Path root = Files.createDirectory(scratch.resolve("disk"));
        assumeTrue(command("mount", "-t", "tmpfs", "-o", "size=64k", "none", root.toString()) == 0, "cannot mount");
        try {
            test.use(root);
        } finally {
            assertEquals(0, command("umount", root.toString()));
        }
    }

    private static int command(String... words) throws InterruptedException {
        try {
            return new ProcessBuilder(words)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start()
                    .waitFor();
        } catch (IOException e) {
            return -1;
        }
    }

    @Test
    void aFullDiskLeavesTheEarlierResults() throws Exception {
        onSmallDisk(root -> {
            out = root.resolve("out");
            publish(Map.of("a.txt", "first"));
            Map<String, String> before = content(root);
            Process full = start(out, "second".repeat(10_000));
            assertEquals(2, end(full));
            String said = Files.readString(scratch.resolve("errors.txt"));
            assertTrue(said.contains("slow: could not read or write"), said);
            assertTrue(said.contains("No space left on device"), said);
            assertEquals(before, content(root));
        });
    }

    @Test
    void aFolderThatCannotBeWrittenToIsNamed() throws Exception {
        onSmallDisk(root -> {
            out = Files.createDirectory(root.resolve("out"));
            assertEquals(0, command("mount", "-o", "remount,ro", root.toString()));
            assertEquals(2, end(start(out, "text")));
            String said = Files.readString(scratch.resolve("errors.txt"));
            assertTrue(said.contains("slow: could not read or write " + out), said);
            assertTrue(said.contains("Read-only file system"), said);
            assertFalse(said.contains("Exception"), said);
        });
    }
}
