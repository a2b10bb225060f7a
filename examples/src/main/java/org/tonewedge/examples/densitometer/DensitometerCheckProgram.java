package org.tonewedge.examples.densitometer;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.Reader;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.CorrectionKind;
import org.tonewedge.standards.densitometer.verdict.DecisionRule;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;
import org.tonewedge.standards.densitometer.verdict.Finding;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Judges a densitometer by its log of a step tablet: a report in the terminal, a residual plot, a JUnit-style file for
 * continuous integration, and the correction as CSV and as a C header.
 *
 * <p>Exit status: 0 if the densitometer passed, 1 if it did not, 2 if the check could not be made.
 */
@Command(
        name = "densitometer-check",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {"Judges a densitometer by its readings of a step tablet with a certificate.", ""},
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {"0:the densitometer passed", "1:it did not pass", "2:the check could not be made"},
        footerHeading = "%nThe layout of the log:%n",
        footer = {
            "  a form, then where each value stands:",
            "    bare                          a density alone on each line, steps in turn",
            "    keys step=S density=D         pairs such as S=3 D=0.42 or S:3, D:0.42",
            "    comma step=1 density=3        columns by number (comma, tab or semicolon)",
            "    comma step=no density=dens    columns by the names of the header row",
            "  fields: step run time milliseconds temperature density sample dark open gain integration",
            "          open_dark open_gain open_integration; field=fixed:VALUE where it is always the same",
            "  decimals=N and width=N let half lines be noticed",
            "",
            "The certificate: CSV with the columns step, density, expanded_uncertainty and, if it is not 2,",
            "  coverage_factor; one row a step from the clear end"
        })
public final class DensitometerCheckProgram extends CommandProgram {

    /** What {@link DensityCorrection#table} takes. */
    private static final int LEAST_ROWS = 2;

    private static final int GREATEST_ROWS = 10_000;

    private final InputStream standardInput;

    @Parameters(paramLabel = "LOG", description = "the log, or - for standard input as it streams")
    private String log;

    @Option(names = "--tablet", required = true, paramLabel = "FILE", description = "the certificate of the tablet")
    private Path tablet;

    @Option(names = "--layout", paramLabel = "TEXT", description = "the layout of the log (default: guessed and shown)")
    private String layout;

    @Option(
            names = "--tolerance",
            paramLabel = "D",
            defaultValue = "0.02",
            description = "the departure that is always allowed (default: ${DEFAULT-VALUE})")
    private double absolute;

    @Option(
            names = "--tolerance-percent",
            paramLabel = "P",
            defaultValue = "2",
            description = "the departure allowed in %% of density, if that is more (default: ${DEFAULT-VALUE})")
    private double percent;

    @Option(
            names = "--guarded",
            description = "let a step pass only if error and uncertainty together are within the tolerance")
    private boolean guarded;

    @Option(names = "--from", paramLabel = "D", description = "judge no step below this density")
    private Optional<Double> from = Optional.empty();

    @Option(names = "--to", paramLabel = "D", description = "judge no step above this density")
    private Optional<Double> to = Optional.empty();

    @Option(names = "--from-dense-end", description = "a log without step numbers begins at the dense end")
    private boolean fromDenseEnd;

    @Option(
            names = "--readings-per-step",
            paramLabel = "N",
            defaultValue = "1",
            description =
                    "in a log without step numbers, readings of a step before the next (default: ${DEFAULT-VALUE})")
    private int readingsPerStep;

    @Option(
            names = "--correction",
            paramLabel = "FORM",
            description = "${COMPLETION-CANDIDATES} (default: the leak if there is one, else offset and slope)")
    private CorrectionKind correction;

    @Option(
            names = "--table-rows",
            paramLabel = "N",
            defaultValue = "33",
            description = "rows of the correction table (default: ${DEFAULT-VALUE})")
    private int rows;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "where report.html, residuals.svg/.png and junit.xml go, and correction.csv and correction.h"
                    + " unless the firmware's arithmetic is wrong")
    private Path out;

    @Mixin
    private PlotOptions plots;

    private DensitometerCheckProgram(InputStream standardInput) {
        this.standardInput = standardInput;
    }

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new DensitometerCheckProgram(System.in), args);
    }

    /**
     * Runs the program without leaving the virtual machine.
     *
     * @param args the command line
     * @param input what {@code -} reads
     * @param output where the report goes
     * @param messages where progress and errors go
     * @return the exit status
     */
    static int run(String[] args, InputStream input, PrintWriter output, PrintWriter messages) {
        return run(new DensitometerCheckProgram(input), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        if (!(rows >= LEAST_ROWS && rows <= GREATEST_ROWS)) {
            throw new IllegalArgumentException("--table-rows must be from " + LEAST_ROWS + " to " + GREATEST_ROWS
                    + ", was " + rows + "; the usual number is 33");
        }
        StepTablet steps = certified();
        DensitometerCheck check = check();
        DensitometerVerdict verdict;
        if (log.equals("-")) {
            verdict = check.judge(summarise(standardInput, steps));
        } else {
            try (InputStream bytes = Files.newInputStream(InputFiles.existing(Path.of(log)))) {
                verdict = check.judge(summarise(bytes, steps));
            }
        }
        Optional<DensityCorrection> corrected = correction(verdict);
        CheckReport report = CheckReport.of(verdict, corrected);
        output().print(report.asText());
        output().flush();
        if (out != null) {
            publish(out, directory -> write(verdict, corrected, report, directory));
            say("wrote " + out.resolve("report.html"));
        }
        return verdict.isPassed() ? DONE : INCOMPLETE;
    }

    private StepTablet certified() throws IOException {
        try (Reader certificate = Files.newBufferedReader(InputFiles.existing(tablet), StandardCharsets.UTF_8)) {
            return CertificateTable.read(certificate, String.valueOf(tablet.getFileName()));
        } catch (CharacterCodingException e) {
            throw new IllegalArgumentException(
                    tablet + ": the certificate has bytes that are not UTF-8; save it as UTF-8", e);
        }
    }

    private DensitometerCheck check() {
        DensitometerCheck check = DensitometerCheck.withDefaults().with(new DensityTolerance(absolute, percent / 100));
        if (guarded) {
            check = check.with(DecisionRule.GUARDED_ACCEPTANCE);
        }
        if (from.isPresent() || to.isPresent()) {
            check = check.withDensities(Density.of(from.orElse(-0.2)), Density.of(to.orElse(10.0)));
        }
        return check;
    }

    private ReadingsSummary summarise(InputStream bytes, StepTablet steps) throws IOException {
        BufferedInputStream lines = new BufferedInputStream(bytes);
        LogLayout stated;
        if (layout == null) {
            LayoutGuess guess = LayoutGuess.from(lines);
            say(guess.toString());
            say("if that is right, state it: --layout \"" + guess.layout() + '"');
            stated = guess.layout();
        } else {
            stated = LogLayout.parse(layout);
        }
        return ReadingsSummary.read(
                lines,
                stated,
                steps,
                fromDenseEnd ? ReadingOrder.FROM_DENSE_END : ReadingOrder.FROM_CLEAR_END,
                readingsPerStep);
    }

    private Optional<DensityCorrection> correction(DensitometerVerdict verdict) {
        try {
            return Optional.of(correction == null ? verdict.correction() : verdict.correction(correction));
        } catch (DensitometerInputException e) {
            say("no correction: " + e.getMessage());
            return Optional.empty();
        }
    }

    /** A fault that a correction would only be laid over; cut decimals and a few stray readings are none. */
    private static Optional<Finding> faultOfArithmetic(DensitometerVerdict verdict) {
        return verdict.findings().stream()
                .filter(found -> switch (found.kind()) {
                    case ARITHMETIC -> verdict.isArithmeticWrong();
                    case ARITHMETIC_SUSPECTED, IMPLAUSIBLE_DENSITIES -> true;
                    default -> false;
                })
                .findFirst();
    }

    private void write(
            DensitometerVerdict verdict, Optional<DensityCorrection> corrected, CheckReport report, Path directory)
            throws IOException {
        plots.files(directory).write(ResidualChart.of(verdict, corrected), "residuals");
        Files.writeString(directory.resolve("report.html"), report.asHtml("residuals", plots.formats(), provenance()));
        JUnitFile.write(verdict, directory.resolve("junit.xml"));
        Path table = directory.resolve("correction.csv");
        Path header = directory.resolve("correction.h");
        Optional<Finding> fault = faultOfArithmetic(verdict);
        if (fault.isPresent()) {
            say("no correction is written while the firmware's arithmetic is wrong: "
                    + fault.get().words() + "; " + fault.get().remedy() + ", and check again");
        } else if (corrected.isPresent()) {
            CorrectionFiles.writeCsv(corrected.get(), rows, table);
            CorrectionFiles.writeHeader(corrected.get(), rows, header);
        }
    }
}
