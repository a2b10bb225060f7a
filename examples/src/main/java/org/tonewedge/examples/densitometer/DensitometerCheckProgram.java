// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.standards.densitometer.input.Certificate;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.input.StatedKind;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.RunningSummary;
import org.tonewedge.standards.densitometer.verdict.CorrectionKind;
import org.tonewedge.standards.densitometer.verdict.DecisionRule;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;
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
            "    bare                          a density alone on each line, steps in order",
            "    keys step=S density=D         pairs such as S=3 D=0.42 or S:3, D:0.42",
            "    words step=Step density=D     a number beside its word: Step 3 D 0.42, or 0.42 D",
            "    json step=step density=d      an object of JSON on each line",
            "    comma step=1 density=3        columns by number (comma, tab, semicolon or blank)",
            "    comma step=no density=dens    columns by the names of the header row",
            "  fields: step run time milliseconds temperature density sample dark open gain integration",
            "          open_dark open_gain open_integration; field=fixed:VALUE if it never changes",
            "  with decimals=N and width=N incomplete lines are noticed; decimal=comma reads 0,42",
            "  time stamps, levels and tags before the values, [10:15:30] or I (7500) dens:, are understood",
            "",
            "The certificate: CSV with the columns step, density, expanded_uncertainty and, if it is not 2,",
            "  coverage_factor; one row per step from the clear end; density_NAME for a channel"
        })
public final class DensitometerCheckProgram extends CommandProgram {

    /** What {@link DensityCorrection#table} takes. */
    private static final int LEAST_ROWS = 2;

    private static final String ANY_CHANNEL = "*";

    private static final int GREATEST_ROWS = 10_000;
    private static final double LONGEST_IDLE = 86_400;
    private static final int USUAL_READINGS = 3;
    private static final Duration QUIET = Duration.ofSeconds(3);
    private static final int LONGEST_WRITING = 30;

    private final InputStream standardInput;

    @Parameters(
            paramLabel = "LOG",
            description =
                    "the log: a file, a device or pipe, or - for standard input; a source without an end is read live")
    private String log;

    @Option(
            names = "--tablet",
            required = true,
            paramLabel = "FILE",
            description =
                    "the certificate of the tablet; its file name names the tablet, so name it by the serial number")
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

    @Option(
            names = "--guard-band",
            paramLabel = "W",
            description = "as --guarded, with a guard band of W times the expanded uncertainty")
    private Optional<Double> guardBand = Optional.empty();

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
                    "in a log without step numbers, readings of each step before the next (default: ${DEFAULT-VALUE})")
    private int readingsPerStep;

    @Option(
            names = "--readings",
            paramLabel = "N",
            description = "end a live log as soon as every step has N readings (default: when every step has 3 and"
                    + " nothing arrives for 3 seconds)")
    private Optional<Integer> readings = Optional.empty();

    @Option(
            names = "--idle",
            paramLabel = "SECONDS",
            defaultValue = "300",
            description = "end a live log when nothing arrives for this long (default: ${DEFAULT-VALUE})")
    private double idleSeconds;

    @Option(
            names = "--baud",
            paramLabel = "N",
            description = "set a serial device to this speed and switch off its echo, with the tool stty")
    private Optional<Integer> baud = Optional.empty();

    @Option(
            names = "--channels",
            paramLabel = "NAME=PLACE",
            split = ",",
            description =
                    "judge each channel by the column density_NAME of the certificate, reading the density at PLACE of"
                            + " the layout, such as red=r,green=g,blue=b; or at each * of it, with the counts of the channel:"
                            + " density=d_* sample=raw_*. Results go to a folder for each in DIR")
    private Map<String, String> channels = new LinkedHashMap<>();

    @Option(
            names = "--kind",
            paramLabel = "KIND",
            description =
                    "transmission or reflection; as --geometry and --response refused if the certificate has another."
                            + " Certificate and log may state all three in remarks, # kind: reflection")
    private Optional<String> kind = Optional.empty();

    @Option(names = "--geometry", paramLabel = "TEXT", description = "the geometry of the densities, as certified")
    private Optional<String> geometry = Optional.empty();

    @Option(names = "--response", paramLabel = "TEXT", description = "the spectral response, as certified")
    private Optional<String> response = Optional.empty();

    @Option(names = "--instrument", paramLabel = "TEXT", description = "what is calibrated, for the statement")
    private Optional<String> instrument = Optional.empty();

    @Option(
            names = "--conditions",
            paramLabel = "TEXT",
            description = "conditions of the calibration, for the statement")
    private Optional<String> conditions = Optional.empty();

    @Option(
            names = "--correction",
            paramLabel = "FORM",
            description = "${COMPLETION-CANDIDATES} (default: with leak if there is one, otherwise offset and slope)")
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
            description =
                    "where report.html, residuals.svg/.png, junit.xml, summary.json and statement.html/.txt go, and"
                            + " correction.csv and correction.h unless a fault forbids a correction")
    private Path out;

    @Mixin
    private PlotOptions plots;

    private final Clock clock;
    private final boolean ownsProcess;
    private final Instant begun;
    private final List<Path> pending = new ArrayList<>();
    private boolean started;
    private volatile CountDownLatch waiting = new CountDownLatch(0);

    private DensitometerCheckProgram(InputStream standardInput, Clock clock, boolean ownsProcess) {
        this.standardInput = standardInput;
        this.clock = clock;
        this.ownsProcess = ownsProcess;
        this.begun = clock.instant();
    }

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        System.setProperty("java.awt.headless", "true");
        DensitometerCheckProgram program = new DensitometerCheckProgram(System.in, Clock.systemUTC(), true);
        Charset terminal = Terminal.charset();
        int status = run(program, args, new Terminal(System.out, terminal), new Terminal(System.err, terminal));
        program.waiting.countDown();
        System.exit(status);
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
        return run(args, input, output, messages, Clock.systemUTC());
    }

    /** As above, with the clock that dates the results. */
    static int run(String[] args, InputStream input, PrintWriter output, PrintWriter messages, Clock clock) {
        return run(new DensitometerCheckProgram(input, clock, false), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        checkOptions();
        DensitometerCheck check = check();
        LogLayout stated = layout == null || layout.contains(ANY_CHANNEL) ? null : LogLayout.parse(layout);
        StatedKind kind = statedKind();
        started = true;
        if (out != null) {
            channels.keySet().forEach(channel -> pending.add(out.resolve(channel)));
            pending.addAll(channels.isEmpty() ? List.of(out) : List.of());
        }
        Certificate certificate = certificate();
        certificate.checkKind(kind);
        if (channels.isEmpty()) {
            return check(check, certificate, certificate.tablet(), stated, out);
        }
        int status = DONE;
        for (Map.Entry<String, String> channel : channels.entrySet()) {
            output().println("Channel " + channel.getKey());
            StepTablet steps = certificate.tablet(channel.getKey());
            LogLayout placed = layout.contains(ANY_CHANNEL)
                    ? LogLayout.parse(layout.replace(ANY_CHANNEL, channel.getValue()))
                    : stated.withDensity(channel.getValue());
            Path folder = out == null ? null : out.resolve(channel.getKey());
            status = Math.max(status, check(check, certificate, steps, placed, folder));
        }
        return status;
    }

    /** Checks one density, and writes the results to its folder if there is one. */
    private int check(DensitometerCheck check, Certificate certificate, StepTablet steps, LogLayout stated, Path folder)
            throws IOException {
        DensitometerVerdict verdict = judge(check, steps, stated);
        StatedKind kind = statedKind().orElse(kindOf(verdict));
        certificate.checkKind(kind);
        String withheld = verdict.correctionWithheld().orElse("");
        Optional<DensityCorrection> corrected = Optional.empty();
        try {
            corrected = Optional.of(correction == null ? verdict.correction() : verdict.correction(correction));
        } catch (DensitometerInputException e) {
            withheld = e.getMessage();
        }
        CheckReport report = CheckReport.of(verdict, corrected, withheld);
        output().print(report.asText());
        output().flush();
        if (!withheld.isEmpty()) {
            say(withheld);
        }
        if (folder != null) {
            Optional<DensityCorrection> found = corrected;
            String reason = withheld;
            Provenance made = provenance();
            CheckReport statement = CalibrationStatement.of(
                    verdict,
                    certificate,
                    kind,
                    reason.isEmpty() ? found : Optional.empty(),
                    instrument,
                    conditions,
                    clock.instant());
            publish(folder, directory -> {
                CheckOutputs.write(
                        verdict, report, found, reason, rows, plots, made, begun, clock.instant(), directory);
                CheckOutputs.writeStatement(statement, made, directory);
            });
            pending.remove(folder);
            say("wrote " + folder.resolve(CheckOutputs.PAGE) + " and the calibration statement beside it");
        }
        return verdict.isPassed() ? DONE : INCOMPLETE;
    }

    private StatedKind statedKind() {
        List<String> stated = new ArrayList<>();
        kind.ifPresent(text -> stated.add("kind: " + text));
        geometry.ifPresent(text -> stated.add("geometry: " + text));
        response.ifPresent(text -> stated.add("response: " + text));
        return StatedKind.ofRemarks(stated, "options");
    }

    /** What the first remarks of the log state. */
    private StatedKind kindOf(DensitometerVerdict verdict) {
        return StatedKind.ofRemarks(
                verdict.summary().tally().examples(LineKind.COMMENT).stream()
                        .map(LogTally.Example::text)
                        .toList(),
                log);
    }

    private void checkOptions() {
        if (!(rows >= LEAST_ROWS && rows <= GREATEST_ROWS)) {
            throw new IllegalArgumentException("--table-rows must be from " + LEAST_ROWS + " to " + GREATEST_ROWS
                    + ", was " + rows + "; the usual number is 33");
        }
        if (!(idleSeconds > 0 && idleSeconds <= LONGEST_IDLE)) {
            throw new IllegalArgumentException(
                    "--idle takes seconds above 0 and up to " + LONGEST_IDLE + ", was " + idleSeconds);
        }
        if (!channels.isEmpty() && layout == null) {
            throw new IllegalArgumentException(
                    "--channels needs --layout, such as --layout \"comma step=step density=r\""
                            + " --channels red=r,green=g,blue=b");
        }
        if (!channels.isEmpty() && (log.equals("-") || !Files.isRegularFile(Path.of(log)))) {
            throw new IllegalArgumentException(
                    "--channels reads the log once for each channel; record it in a file first");
        }
        if (channels.isEmpty() && layout != null && layout.contains(ANY_CHANNEL)) {
            throw new IllegalArgumentException(
                    "* in --layout stands for the place of a channel; name the channels: --channels red=r,green=g");
        }
        for (String channel : channels.keySet()) {
            if (!channel.matches("[A-Za-z0-9_-]+")) {
                throw new IllegalArgumentException(
                        "channel \"" + channel + "\" must be a word of letters and digits, as in density_NAME");
            }
        }
        if (readings.isPresent() && readings.get() < 1) {
            throw new IllegalArgumentException("--readings takes 1 or more, was " + readings.get());
        }
    }

    /** An earlier result must not stand beside a check that could not be made. */
    @Override
    protected void failed(String message) {
        if (out == null || !(started || Files.isDirectory(out))) {
            return;
        }
        for (Path folder : pending.isEmpty() ? List.of(out) : List.copyOf(pending)) {
            try {
                publish(folder, directory -> CheckOutputs.writeError(message, begun, clock.instant(), directory));
            } catch (IOException | IllegalArgumentException e) {
                say("no result was written to " + folder + ": " + e.getMessage());
            }
        }
    }

    private DensitometerVerdict judge(DensitometerCheck check, StepTablet steps, LogLayout stated) throws IOException {
        if (log.equals("-")) {
            return judgeLive(() -> standardInput, check, steps, stated);
        }
        Path path = InputFiles.existing(Path.of(log));
        if (Files.isRegularFile(path)) {
            try (BufferedInputStream lines = new BufferedInputStream(SerialDevice.open(path))) {
                return check.judge(ReadingsSummary.read(
                        lines,
                        stated == null ? shown(LayoutGuess.from(lines)) : stated,
                        steps,
                        order(),
                        readingsPerStep));
            }
        }
        SerialDevice.prepare(path, baud, this::say);
        // Not closed: closing would wait for the thread that reads the device.
        return judgeLive(() -> SerialDevice.open(path), check, steps, stated);
    }

    /** Judges a stream that may not end of itself: when the tablet is complete, nothing comes any more, or on a signal. */
    private DensitometerVerdict judgeLive(
            LiveInput.Source source, DensitometerCheck check, StepTablet steps, LogLayout stated) throws IOException {
        TabletGuide[] guide = new TabletGuide[1];
        LiveInput live = new LiveInput(
                source,
                () -> guide[0] != null && guide[0].isComplete()
                        ? QUIET
                        : Duration.ofMillis((long) (1000 * idleSeconds)));
        CountDownLatch written = stopOnSignal(live);
        try {
            BufferedInputStream lines = new BufferedInputStream(live);
            List<StepTablet.Step> wanted = steps.steps().stream()
                    .filter(step -> step.density().value() >= from.orElse(-0.2)
                            && step.density().value() <= to.orElse(10.0))
                    .toList();
            RunningSummary[] summary = new RunningSummary[1];
            BiFunction<LogLayout, Consumer<String>, TabletGuide> guides = (placed, line) -> {
                summary[0] = RunningSummary.of(placed, steps, order(), readingsPerStep);
                return new TabletGuide(
                        summary[0],
                        wanted,
                        check.tolerance(),
                        readings.orElse(USUAL_READINGS),
                        readingsPerStep,
                        placed.namesSteps(),
                        readings.isPresent(),
                        live::isDrained,
                        line);
            };
            EarlyReadings early = new EarlyReadings(guides, this::say);
            LogLayout known = stated == null ? shown(LayoutGuess.from(lines, early)) : stated;
            guide[0] = guides.apply(known, stated == null ? early.after(known) : this::say);
            RunningSummary running = summary[0];
            LogTally tally = DensitometerLogReader.of(known).read(lines, guide[0]);
            boolean soFar = !guide[0].isComplete()
                    && (live.ending() == LiveInput.Ending.IDLE || live.ending() == LiveInput.Ending.STOPPED);
            if (live.ending() == LiveInput.Ending.STOPPED) {
                say("stopped; this is the verdict so far");
            } else if (live.ending() == LiveInput.Ending.IDLE && soFar) {
                say("nothing arrived for " + idleSeconds + " seconds; this is the verdict so far");
            }
            return soFar ? check.judgeSoFar(running.summarySoFar(tally)) : check.judge(running.summary(tally));
        } finally {
            // The hook waits until the results are written, which is when the program has returned.
            waiting = written;
        }
    }

    /** On SIGINT or SIGTERM the stream ends, and the machine stays up until the results are written. */
    private CountDownLatch stopOnSignal(LiveInput live) {
        CountDownLatch written = new CountDownLatch(1);
        if (ownsProcess) {
            Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                live.stop();
                try {
                    if (!written.await(LONGEST_WRITING, TimeUnit.SECONDS)) {
                        System.err.println("the results could not be written in time");
                    }
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            }));
        }
        return written;
    }

    private ReadingOrder order() {
        return fromDenseEnd ? ReadingOrder.FROM_DENSE_END : ReadingOrder.FROM_CLEAR_END;
    }

    private LogLayout shown(LayoutGuess guess) {
        say(guess.toString());
        say("if that is right, state it: --layout \"" + guess.layout() + '"');
        return guess.layout();
    }

    private Certificate certificate() throws IOException {
        try (InputStream certificate = Files.newInputStream(InputFiles.existing(tablet))) {
            return Certificate.read(String.valueOf(tablet.getFileName()), certificate);
        }
    }

    private DensitometerCheck check() {
        DensitometerCheck check = DensitometerCheck.withDefaults().with(new DensityTolerance(absolute, percent / 100));
        if (guardBand.isPresent()) {
            check = check.with(DecisionRule.ofGuardBand(guardBand.get()));
        } else if (guarded) {
            check = check.with(DecisionRule.GUARDED_ACCEPTANCE);
        }
        if (from.isPresent() || to.isPresent()) {
            check = check.withDensities(Density.of(from.orElse(-0.2)), Density.of(to.orElse(10.0)));
        }
        return check;
    }
}
