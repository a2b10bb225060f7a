// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.command.ReportProgram;
import org.tonewedge.examples.command.StripDoubts;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.parametric.CurveFitException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Makes a development plan of the test strips of one film: how long to develop for stated contrasts, and what to expect.
 *
 * <p>Exit status: 0 if every target has a time, 1 if some have none, 2 if no plan could be made.
 */
@Command(
        name = "development-plan",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Computes how long to develop a film, from strips of it developed for different times;",
            "writes plan.csv, plan.html and its plots.",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:every target has a time",
            "1:some targets have none; plan.html and plan.csv say why",
            "2:no plan could be made"
        },
        footerHeading = "%nThe readings table:%n",
        footer = {
            "  CSV, XLSX or ODS, one row per reading below a header row; or a grid, steps down and strips across,",
            "  as written by readings-template to fill in:",
            "  strip            identifier of the piece of film (required)",
            "  film, developer  labels",
            "  minutes          time of development (required, at least two different times)",
            "  celsius          temperature of development",
            "  log_exposure     log10 of the exposure in lux seconds; empty for a base-plus-fog reading.",
            "                   Use relative_log_exposure instead if only ratios are known, step under a tablet,",
            "                   stops in a bracket; then exposure, or lux and seconds, once for each strip.",
            "  density          the gross density read (required); repeat readings have their own rows"
        })
public final class DevelopmentPlanProgram extends ReportProgram {

    private static final double LEAST_PAPER_RANGE = 0.2;
    private static final double GREATEST_PAPER_RANGE = 3.0;

    /** So many films are named in a message. */
    private static final int MOST_NAMED = 50;

    @Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description = "the readings table, or several: one for each session")
    private List<Path> files;

    @Option(names = "--film", paramLabel = "LABEL", description = "the film, if the table has strips of several")
    private String film;

    @Option(
            names = "--current",
            paramLabel = "STRIP",
            description = "the strip that was developed as you do now (default: the first)")
    private String current;

    @Option(
            names = "--celsius",
            paramLabel = "T",
            split = ",",
            description = "temperatures to plan for, with commas between (default: those of the strips)")
    private List<Double> celsius = new ArrayList<>();

    @Option(
            names = "--average-gradient",
            paramLabel = "G",
            description = "plan for this average gradient too, such as that of a reference film")
    private Double averageGradient;

    @Option(
            names = "--subject",
            paramLabel = "STOPS",
            description = "plan for a subject of this luminance range too, with --flare and --paper")
    private Double subject;

    @Option(
            names = "--flare",
            paramLabel = "STOPS",
            defaultValue = "0",
            description = "how much flare shortens the subject range (default: ${DEFAULT-VALUE})")
    private double flare;

    @Option(
            names = "--paper",
            paramLabel = "RANGE",
            defaultValue = "1.05",
            description = "log exposure range of the paper in log units (default: ${DEFAULT-VALUE})")
    private double paper;

    @Option(
            names = "--normal-range",
            paramLabel = "STOPS",
            defaultValue = "7",
            description = "range of the normal subject, for N-2 to N+2 (default: ${DEFAULT-VALUE})")
    private double normalRange;

    @Option(
            names = "--repeatability",
            paramLabel = "PART",
            defaultValue = "0",
            description = "how well your development repeats, as a fraction of the contrast, such as 0.02")
    private double repeatability;

    @Option(
            names = "--extrapolate",
            description = "answer beyond the tested times and temperatures too, and flag such answers")
    private boolean extrapolate;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Development plan",
            description = "the title of the page (default: ${DEFAULT-VALUE})")
    private String title;

    private DevelopmentPlanProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new DevelopmentPlanProgram(), args);
    }

    /** Runs the program without leaving the virtual machine. */
    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new DevelopmentPlanProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        refuseWithout("--subject", List.of("--flare", "--paper"));
        ReadingsTable table = tables().readings(files);
        table.notices().forEach(this::say);
        List<Strip> strips = strips(table);
        List<String> doubts = StripDoubts.of(strips);
        doubts.forEach(this::say);
        DevelopmentReport report = plan(strips);
        Optional<PlannedDevelopment> aim = report.plan().developments().stream()
                .filter(line -> line.time().isPresent())
                .findFirst();
        List<String> notes = Stream.concat(notes().stream(), doubts.stream()).toList();
        publish(out(), directory -> {
            ChartFiles files = plots().files(directory);
            files.write(DevelopmentCharts.family(report, aim), "family");
            files.write(DevelopmentCharts.contrastTime(report, aim), "contrast-time");
            PlanCsv.write(report, directory.resolve("plan.csv"));
            DevelopmentPage.write(report, title, notes, plots().formats(), origin(), directory.resolve("plan.html"));
        });
        say(report.advice());
        report.cautions().forEach(caution -> say(caution.description()));
        long without =
                report.lines().stream().filter(line -> line.time().isEmpty()).count();
        say("wrote " + out().resolve("plan.html") + " and plan.csv, "
                + Figures.counted(report.lines().size(), "line")
                + (without == 0 ? "" : ", " + without + " of them without a time"));
        return without == 0 ? DONE : INCOMPLETE;
    }

    private List<Strip> strips(ReadingsTable table) {
        List<String> films = table.strips().stream().map(Strip::film).distinct().toList();
        String named = String.join(
                        ", ",
                        films.stream().limit(MOST_NAMED).map(Checks::shortened).toList())
                + (films.size() > MOST_NAMED ? ", …" : "");
        if (film == null && films.size() > 1) {
            throw new IllegalArgumentException(
                    table.name() + " has strips of " + films.size() + " films; name one of them by --film: " + named);
        }
        List<Strip> strips = table.strips().stream()
                .filter(strip -> film == null || strip.film().equals(film))
                .toList();
        if (strips.isEmpty()) {
            throw new IllegalArgumentException(
                    table.name() + " has no strip of film '" + Checks.shortened(film) + "'; it has " + named);
        }
        return strips;
    }

    private DevelopmentReport plan(List<Strip> strips) {
        Strip now = current == null
                ? strips.get(0)
                : strips.stream()
                        .filter(strip -> strip.id().equals(current))
                        .findFirst()
                        .orElseThrow(() -> new IllegalArgumentException("there is no strip '" + current
                                + "' of the film; "
                                + "there are "
                                + String.join(
                                        ", ", strips.stream().map(Strip::id).toList())));
        try {
            DevelopmentSeries tested = DevelopmentSeries.of(strips).withDevelopmentRepeatability(repeatability);
            DevelopmentSeries series = extrapolate ? tested.withExtrapolation() : tested;
            return DevelopmentReport.of(
                    series,
                    targets(),
                    ExposureInterval.ofStops(normalRange),
                    celsius.stream().map(Temperature::ofCelsius).toList(),
                    now);
        } catch (CurveFitException e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
    }

    private List<ContrastTarget> targets() {
        List<ContrastTarget> targets = new ArrayList<>();
        targets.add(ContrastTarget.isoContrastCondition());
        targets.add(ContrastTarget.usualZones());
        if (averageGradient != null) {
            targets.add(
                    ContrastTarget.of("stated average gradient", ContrastMeasure.AVERAGE_GRADIENT, averageGradient));
        }
        if (subject != null) {
            // The bounds only tell log units from an ISO range R, 100 times as much.
            if (!(paper >= LEAST_PAPER_RANGE && paper <= GREATEST_PAPER_RANGE)) {
                throw new IllegalArgumentException(
                        "--paper is the log exposure range of the paper in log units, such as 1.10, and must be from "
                                + LEAST_PAPER_RANGE + " to " + GREATEST_PAPER_RANGE + ", was " + paper
                                + "; divide an ISO range R by 100");
            }
            targets.add(ContrastTarget.ofSubject(
                    ExposureInterval.ofStops(subject),
                    ExposureInterval.ofStops(flare),
                    ExposureInterval.ofLogUnits(paper)));
        }
        return targets;
    }
}
