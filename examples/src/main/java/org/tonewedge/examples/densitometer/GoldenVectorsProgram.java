// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.tonewedge.examples.command.CommandProgram;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * Writes golden vectors, inputs with the outputs that a right computation gives, as CSV and JSON: to test a firmware, or a
 * port of this library's math to another language.
 *
 * <p>Exit status: 0 if the files were written, 2 if they could not be.
 */
@Command(
        name = "golden-vectors",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        description = {
            "Writes inputs with their expected outputs or refusals, and tolerances, as CSV, JSON and arrays of C:",
            "  counts-to-density, density-to-opacity, tablet-to-log-exposure, readings-to-speed,",
            "  reading-to-corrected-density; and reference-check.c, which computes them in C",
            ""
        },
        optionListHeading = "Options:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {"0:the files were written", "2:they could not be written"})
public final class GoldenVectorsProgram extends CommandProgram {

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "where the files go; made if it does not exist")
    private Path out;

    private static final String CHECK = "reference-check.c";

    private GoldenVectorsProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new GoldenVectorsProgram(), args);
    }

    /**
     * Runs the program without leaving the virtual machine.
     *
     * @param args the command line
     * @param output where help goes
     * @param messages where progress and errors go
     * @return the exit status
     */
    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new GoldenVectorsProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        List<GoldenVectors> all = List.of(
                GoldenVectors.countsToDensity(),
                GoldenVectors.densityToOpacity(),
                GoldenVectors.tabletToLogExposure(),
                GoldenVectors.readingsToSpeed(),
                GoldenVectors.readingToCorrectedDensity());
        publish(out, directory -> {
            for (GoldenVectors vectors : all) {
                vectors.writeCsv(directory.resolve(vectors.name() + ".csv"));
                vectors.writeJson(directory.resolve(vectors.name() + ".json"));
            }
            GoldenVectors.writeHeader(all, directory.resolve("golden-vectors.h"));
            try (InputStream check = GoldenVectorsProgram.class.getResourceAsStream(CHECK)) {
                Files.copy(Objects.requireNonNull(check, "the jar lacks " + CHECK), directory.resolve(CHECK));
            }
        });
        all.forEach(vectors -> say("wrote " + vectors.size() + " vectors " + vectors.name() + " as CSV, JSON and C"));
        return DONE;
    }
}
