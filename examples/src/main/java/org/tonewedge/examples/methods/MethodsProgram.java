// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Answers one question of the darkroom from a small table: filter factors, reciprocity, flare, a personal exposure index and
 * so on, each figure with its standard uncertainty and what it holds for.
 */
@Command(
        name = "darkroom-methods",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {"Answers one question from a small table, each figure with its standard uncertainty u.", ""},
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {"0:every figure is there", "1:some could not be determined", "2:the program could not run"})
public final class MethodsProgram extends CommandProgram {

    private static final double MOST = 10;

    @Parameters(
            index = "0",
            paramLabel = "QUESTION",
            description =
                    "filter-factor, colour-pairs, spectrogram, callier, printing-channel, reciprocity, camera-flare,"
                            + " personal-index, process-control or scanned-range; without a file, what the table is")
    private String question;

    @Parameters(index = "1", arity = "0..1", paramLabel = "FILE", description = "the table: CSV, XLSX or ODS")
    private Optional<Path> file = Optional.empty();

    /** The options that only some questions have a use for. */
    private static final List<String> OPTIONS =
            List.of("--reference", "--frame", "--density", "--uncertainty", "--noise", "--baseline");

    @Option(
            names = "--reference",
            paramLabel = "NAME",
            description = "the strip or film that the others are set beside (default: the first)")
    private Optional<String> reference = Optional.empty();

    @Option(names = "--frame", paramLabel = "LABEL", description = "the frame whose patches are compared")
    private Optional<String> frame = Optional.empty();

    @Option(
            names = "--density",
            paramLabel = "D",
            defaultValue = "0.6",
            description = "the density above base plus fog that exposures are compared at (default: ${DEFAULT-VALUE})")
    private double density;

    @Option(
            names = "--uncertainty",
            paramLabel = "U",
            defaultValue = "0",
            description = "the standard uncertainty of each log exposure; of colour-pairs, of each density reading"
                    + " (default: not stated)")
    private double uncertainty;

    @Option(
            names = "--noise",
            paramLabel = "A,B",
            split = ",",
            description = "the standard deviation of a scanned density, A + B x density")
    private List<Double> noise = List.of();

    @Option(
            names = "--baseline",
            paramLabel = "N",
            defaultValue = "0",
            description = "how many of the first runs set the limits of process-control (default: limits by default)")
    private int baseline;

    @Option(names = "--out", paramLabel = "DIR", description = "where QUESTION.csv and report.html go")
    private Path out;

    private MethodsProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new MethodsProgram(), args);
    }

    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new MethodsProgram(), args, output, messages);
    }

    private MethodQuestion asked() {
        return Arrays.stream(MethodQuestion.values())
                .filter(known -> known.word().equals(question))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("the question \"" + question + "\" is not one of "
                        + Arrays.stream(MethodQuestion.values())
                                .map(MethodQuestion::word)
                                .collect(Collectors.joining(", "))));
    }

    @Override
    protected int work() throws IOException {
        MethodQuestion asked = asked();
        if (file.isEmpty()) {
            output().println(asked.title() + ": " + asked.table());
            output().flush();
            return DONE;
        }
        if (!(density > 0 && density <= MOST)) {
            throw new IllegalArgumentException("--density takes a density above 0 and up to 10, was " + density);
        }
        if (!(uncertainty >= 0 && uncertainty <= 1)) {
            throw new IllegalArgumentException("--uncertainty takes 0 to 1, was " + uncertainty);
        }
        if (baseline < 0) {
            throw new IllegalArgumentException("--baseline takes 0 or more, was " + baseline);
        }
        OPTIONS.stream().filter(this::isGiven).forEach(asked::requireUseOf);
        MethodAnswer answer =
                asked.answer(new MethodInput(file.get(), reference, frame, density, uncertainty, noise, baseline));
        if (out != null) {
            Provenance made = provenance();
            publish(out, directory -> {
                answer.write(directory.resolve(asked.word() + ".csv"));
                Files.writeString(directory.resolve("report.html"), page(asked, answer, made));
            });
        }
        output().println(asked.title());
        answer.shown().forEach(row -> output().println("  " + line(row)));
        answer.conditions().forEach(condition -> output().println("holds for: " + condition));
        answer.findings().forEach(finding -> output().println("finding: " + finding));
        output().flush();
        if (out != null) {
            say("wrote " + out.resolve("report.html"));
        }
        return answer.isComplete() ? DONE : INCOMPLETE;
    }

    private static String line(List<String> row) {
        String value = row.get(2).isEmpty()
                ? "not determined"
                : row.get(2)
                        + (row.get(3).isEmpty() ? "" : " (u " + row.get(3) + ")")
                        + (row.get(4).isEmpty() ? "" : " " + row.get(4));
        return row.get(0) + ", " + row.get(1) + ": " + value + (row.get(5).isEmpty() ? "" : "; " + row.get(5));
    }

    private static String page(MethodQuestion asked, MethodAnswer answer, Provenance made) {
        Page page = new Page(asked.title(), "", answer.findings(), Set.of())
                .table(new ReportTable(
                        asked.word(),
                        "Figures",
                        "u is the standard uncertainty; it is left out where no uncertainty was stated",
                        MethodAnswer.COLUMNS,
                        answer.shown()));
        return page.heading("What they hold for")
                .list(answer.conditions())
                .provenance(made)
                .finished();
    }
}
