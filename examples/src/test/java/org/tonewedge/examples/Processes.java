// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Starts the tools of the running JDK. */
final class Processes {

    /** What a process said. */
    record Result(int status, String output, String errors) {}

    private Processes() {}

    static Result run(Path directory, Path scratch, String tool, String... arguments)
            throws IOException, InterruptedException {
        return run(Path.of(System.getProperty("java.home")), directory, scratch, tool, arguments);
    }

    /** Starts JShell in the folder of the project, and leaves its settings in the scratch folder. */
    static Result jshell(Path scratch, String encoding, String classPath, String... scripts)
            throws IOException, InterruptedException {
        // On its first run JShell tells on the error stream that it made this directory.
        Files.createDirectories(scratch.resolve(".java/.userPrefs"));
        List<String> arguments = new ArrayList<>(List.of(
                "-J-Dfile.encoding=" + encoding,
                "-J-Djava.util.prefs.userRoot=" + scratch,
                "-R-Dfile.encoding=" + encoding,
                "--class-path",
                classPath));
        arguments.addAll(List.of(scripts));
        return run(ProjectFiles.root(), scratch, "jshell", arguments.toArray(String[]::new));
    }

    /** Starts a tool of another JDK or of an image. */
    static Result run(Path home, Path directory, Path scratch, String tool, String... arguments)
            throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(home.resolve("bin").resolve(tool).toString());
        command.addAll(List.of(arguments));
        Path output = Files.createTempFile(scratch, "out", ".txt");
        Path errors = Files.createTempFile(scratch, "err", ".txt");
        Process process = new ProcessBuilder(command)
                .directory(directory.toFile())
                .redirectInput(ProcessBuilder.Redirect.from(
                        Files.createTempFile(scratch, "in", ".txt").toFile()))
                .redirectOutput(output.toFile())
                .redirectError(errors.toFile())
                .start();
        int status = process.waitFor();
        return new Result(status, Files.readString(output), Files.readString(errors));
    }

    /** All that these tests see, as a class path. */
    static String testPath() {
        return System.getProperty("jdk.module.path", "") + File.pathSeparator + System.getProperty("java.class.path");
    }

    /** The modules of this project, compiled or packed as these tests see them, and what the compiled ones need. */
    static String modulePath() {
        Path root = ProjectFiles.root();
        String known = testPath();
        Stream<String> own = Stream.of("core", "fitting", "standards-checks")
                .map(module -> Stream.of(known.split(File.pathSeparator))
                        .filter(path -> path.contains("tonewedge-" + module + "-") && path.endsWith(".jar"))
                        .findFirst()
                        .orElse(root.resolve(module + "/target/classes").toString()));
        Stream<String> others = Stream.of(known.split(File.pathSeparator))
                .filter(path -> path.contains("fastcsv") || path.contains("commons-math3") || path.contains("ejml"))
                .distinct();
        return Stream.concat(own, others).collect(Collectors.joining(File.pathSeparator));
    }
}
