// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.examples.command.ReportProgram;
import org.tonewedge.examples.command.StripOptions;
import org.tonewedge.examples.command.TableOptions;
import org.tonewedge.examples.detail.DetailSection;
import org.tonewedge.examples.tone.FilmCurve;
import org.tonewedge.examples.tone.ToneOptions;
import org.tonewedge.examples.tone.TonePage;
import org.tonewedge.examples.tone.ToneReport;
import org.tonewedge.standards.comparison.CurveDrawing;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.FilmMean;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Compares the film strips of a readings table with one of them: a table, plots and a page to publish.
 *
 * <p>Exit status: 0 if every strip had a result, 1 if some had none, 2 if the comparison could not be made.
 */
@Command(
        name = "film-comparison",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Compares film strips with a reference strip and writes comparison.csv, report.html, and a plot and a page for"
                    + " each strip; uncertainty.csv gives the uncertainties of the figures.",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:every strip had a result",
            "1:some strips had no result; comparison.csv says why",
            "2:the comparison could not be made; nothing was compared"
        },
        footerHeading = "%nThe readings table:%n",
        footer = {
            "  CSV, XLSX or ODS, one row per reading below a header row; or a grid, steps down and strips across,",
            "  as written by readings-template to fill in:",
            "  strip            identifier of the piece of film (required)",
            "  film, developer  labels",
            "  minutes, celsius time and temperature of development",
            "  box_speed        the speed on the box",
            "  density_response, density_geometry  by what densities were read, such as visual and diffuse",
            "  log_exposure     log10 of the exposure in lux seconds; empty for a base-plus-fog reading.",
            "                   Use relative_log_exposure instead if only ratios are known, step under a tablet,",
            "                   stops in a bracket; then exposure, or lux and seconds, once for each strip.",
            "  density          the gross density read (required); repeat readings have their own rows"
        })
public final class FilmComparisonProgram extends ReportProgram {

    private static final int MANY_STRIPS = 10;
    /** Of so many strips without a result the reason is told if it is short; the page has the others. */
    private static final int MOST_REASONS = 3;

    private static final int LONGEST_REASON = 300;
    /** File systems take 255 bytes. */
    private static final int LONGEST_NAME = 60;

    @Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description = "the readings table, or several: one for each session")
    private List<Path> files;

    @Option(
            names = "--reference",
            required = true,
            paramLabel = "NAME",
            description = "the strip with which the others are compared, or a film, whose strip is then used")
    private String reference;

    @Option(
            names = "--curve",
            paramLabel = "KIND",
            defaultValue = "fit",
            description = {
                "fit: toe, straight line and shoulder, fitted robustly (default);",
                "spline: a monotone smoothing spline;",
                "through: the monotone cubic through the readings, which gives only what they resolve"
            })
    private DrawingChoice curve;

    @Option(
            names = "--repeatability",
            paramLabel = "D",
            description =
                    "standard deviation of a reading, for --curve spline and through (default: 0.01, the usual value)")
    private Double repeatability;

    @Option(
            names = "--reference-speed",
            paramLabel = "S",
            description =
                    "assume this speed for the reference film where exposures are relative: speeds and stops from the"
                            + " box are then given, marked as assumed, and tables of relative exposures that have a strip"
                            + " of the reference film combine with others")
    private Double referenceSpeed;

    @Mixin
    private StripOptions choice;

    @Option(
            names = "--sort",
            paramLabel = "KEY",
            defaultValue = RowOrder.GIVEN,
            description =
                    "the order on the pages: given, name, speed, box, reference, contrast, or a figure's column such as"
                            + " gamma; figures are sorted greatest first, stops fastest first (default:"
                            + " ${DEFAULT-VALUE})")
    private String sort;

    @Option(names = "--reverse", description = "reverse the order")
    private boolean reverse;

    @Option(
            names = "--detail",
            paramLabel = "FILE",
            description =
                    "a detail.csv of scans of the films, for a section on sharpness and grain; a scan is named as its"
                            + " film, such as bellmarsh-400.png for Bellmarsh 400")
    private Path detail;

    @Option(names = "--no-film-pages", description = "write only the report on all films, no page for each")
    private boolean noFilmPages;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Film comparison",
            description = "the title of the report (default: ${DEFAULT-VALUE})")
    private String title;

    @ArgGroup(exclusive = false, heading = "%nSections on tone, if you have bracketed frames of the films:%n")
    private Tone tone;

    @Mixin
    private ToneOptions toneOptions;

    /** What the sections on tone need; {@link ToneOptions} holds what they may have besides. */
    private static final class Tone {

        @Option(
                names = "--frames",
                required = true,
                paramLabel = "FILE",
                description = "a table of bracketed frames, whose films are those of the readings table")
        private Path frames;

        @Option(
                names = "--frame",
                required = true,
                paramLabel = "LABEL",
                description = "the frame of the reference film that the others must match")
        private String frame;

        @Option(names = TableOptions.FRAMES_SHEET, paramLabel = "NAME", description = TableOptions.FRAMES_SHEET_HELP)
        private Optional<String> sheet = Optional.empty();
    }

    private FilmComparisonProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        if (!List.of(args).contains(PlotOptions.NO_PLOTS)) {
            ChartFiles.prepare();
        }
        runAndExit(new FilmComparisonProgram(), args);
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
        return run(new FilmComparisonProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        if (curve == DrawingChoice.FIT && repeatability != null) {
            throw new IllegalArgumentException(
                    "--repeatability has no effect on --curve fit, whose uncertainties come from"
                            + " the scatter of the readings; leave it out, or choose --curve spline or through");
        }
        RowOrder order = new RowOrder(sort, reverse);
        refuseWithout("--frames", ToneOptions.NAMES);
        refuseWithout("--paper", ToneOptions.OF_PAPER);
        refuseWithout("--scan", List.of("--scan-pitch", "--grain"));
        refuseWithout("--scene", List.of("--scene-grey"));
        ReadingsTable table = tables().readings(files);
        table.notices().forEach(this::say);
        withoutTime(table.strips()).ifPresent(this::say);
        if (curve == DrawingChoice.THROUGH) {
            say("uncertainties of curves through the readings are somewhat too small; --curve fit states them better");
        }
        // All input is read before anything is written.
        BracketTable frames = tone == null ? null : tables().frames(tone.frames, tone.sheet);
        FilmComparison comparison =
                new ComparedTables(choice, reference, drawing()).compare(table.strips(), referenceSpeed);
        if (frames != null) {
            // A wrong label is told before charts are drawn.
            frames.bracket(comparison.reference().strip().film()).frame(tone.frame);
        }
        Optional<DetailSection> loupe = detail == null
                ? Optional.empty()
                : Optional.of(DetailSection.read(
                        InputFiles.existing(detail),
                        comparison.rows().stream()
                                .map(row -> row.figures().strip().film())
                                .distinct()
                                .toList(),
                        comparison.reference().strip().film()));
        List<String> toneNotices = new ArrayList<>();
        publish(out(), directory -> toneNotices.addAll(write(comparison, order, frames, loupe, directory)));
        loupe.ifPresent(section -> section.missing().forEach(this::say));
        CommonCause.of(comparison.rows()).ifPresent(this::say);
        CommonCause.cautions(comparison.rows()).forEach(this::say);
        List<StripComparison> missing = comparison.rows().stream()
                .filter(row -> !ComparisonTable.hasResult(row))
                .toList();
        if (missing.size() <= MOST_REASONS) {
            missing.stream()
                    .map(row -> row.get(FilmFigure.CONTRAST_OVER_130).reason())
                    .filter(reason -> reason.length() <= LONGEST_REASON)
                    .forEach(this::say);
        }
        List<String> without = missing.stream()
                .map(row -> Checks.shortened(row.figures().strip().id()))
                .toList();
        say("wrote " + out().resolve("report.html") + " and comparison.csv for "
                + Figures.counted(comparison.rows().size(), "strip")
                + (without.isEmpty() ? "" : "; no result for " + String.join(", ", without) + ", see the notes there"));
        return without.isEmpty() && toneNotices.isEmpty() ? DONE : INCOMPLETE;
    }

    /** Names strips whose development time was not stated, if that of most is. */
    private static Optional<String> withoutTime(List<Strip> strips) {
        List<String> without = strips.stream()
                .filter(strip -> strip.processing().time().isEmpty())
                .map(strip -> Checks.shortened(strip.id()))
                .toList();
        return without.isEmpty() || 2 * without.size() >= strips.size()
                ? Optional.empty()
                : Optional.of("no minutes are stated for " + String.join(", ", without)
                        + ", but they are for the other strips: enter the development time, without which a contrast says"
                        + " little");
    }

    private CurveDrawing drawing() {
        return curve.drawing(
                repeatability == null ? CurveDrawing.USUAL_REPEATABILITY : Repeatability.of(repeatability));
    }

    /** Writes all results and returns what the sections on tone could not determine. */
    private List<String> write(
            FilmComparison comparison,
            RowOrder order,
            BracketTable frames,
            Optional<DetailSection> loupe,
            Path directory)
            throws IOException {
        Map<String, String> plots = plotNames(
                comparison.rows().stream().map(row -> row.figures().strip()).toList());
        ChartFiles files = plots().files(directory);
        List<String> notices = new ArrayList<>();
        int[] drawn = new int[1];
        files.writeAll(
                comparison.rows(),
                row -> plots.get(row.figures().strip().id()),
                CurveChart::ofStrip,
                row -> {
                    // Charts are drawn by several threads; counted and told at once, the numbers come in order.
                    synchronized (drawn) {
                        tellDrawn(row.figures(), ++drawn[0], comparison.rows().size());
                    }
                },
                () -> notices.addAll(writePages(comparison, order, frames, loupe, directory, plots, files)));
        return notices;
    }

    /** Writes all but the plots of strips and returns what the sections on tone could not determine. */
    private List<String> writePages(
            FilmComparison comparison,
            RowOrder order,
            BracketTable frames,
            Optional<DetailSection> loupe,
            Path directory,
            Map<String, String> plots,
            ChartFiles files)
            throws IOException {
        if (!files.formats().isEmpty()) {
            files.write(CurveChart.ofAll(comparison), "all-strips");
        }
        ComparisonTable.of(comparison.rows()).writeCsv(directory.resolve("comparison.csv"));
        UncertaintyTable.of(comparison).writeCsv(directory.resolve("uncertainty.csv"));
        if (comparison.films().stream().anyMatch(FilmMean::includesStripToStrip)) {
            FilmTable.of(comparison.films()).writeCsv(directory.resolve("films.csv"));
        }
        List<String> notes = new ArrayList<>(notes());
        CommonCause.of(comparison.rows()).ifPresent(notes::add);
        notes.addAll(CommonCause.cautions(comparison.rows()));
        Optional<String> assumed = Assumed.remark(comparison);
        assumed.ifPresent(notes::add);
        if (comparison.rows().stream()
                .anyMatch(row -> !row.figures().strip().statedErrors().isEmpty())) {
            notes.add(
                    "Uncertainties include the stated errors of tablet, exposure and correction. What a film shares with"
                            + " the reference, such as the errors of one tablet, cancels in stops from the reference as far as the"
                            + " two were read at the same steps.");
        }
        Map<String, FilmCurve> toneCurves = frames == null ? Map.of() : toneCurves(frames, comparison);
        notes.addAll(choice.choices());
        if (comparison.films().stream().anyMatch(FilmMean::includesStripToStrip)) {
            notes.add("films.csv takes strips of one film and development together; its uncertainties include the"
                    + " variation from strip to strip.");
        }
        ReportPage page = new ReportPage(comparison, order, !noFilmPages, curve, title, notes, files.formats());
        page.addComparison("all-strips", strip -> plots.get(strip.id()));
        List<String> toneNotices = new ArrayList<>();
        Optional<TonePage> sections = Optional.empty();
        if (frames != null) {
            ToneReport report = toneOptions.report(
                    frames, comparison.reference().strip().film(), tone.frame, toneCurves, this::say);
            report.notices().forEach(this::say);
            toneNotices.addAll(report.notices());
            sections = Optional.of(TonePage.write(report, directory, files));
            sections.get().addTo(page.page());
        }
        loupe.ifPresent(section -> page.page().table(section.table()).list(section.missing()));
        Files.writeString(directory.resolve("report.html"), page.finished(origin()));
        if (!noFilmPages) {
            List<StripComparison> rows = order.sorted(comparison.rows());
            List<String> remarks = new ArrayList<>(notes());
            assumed.ifPresent(remarks::add);
            new FilmPages(comparison, rows, plots, remarks, files.formats(), sections, toneCurves, origin())
                    .write(directory);
        }
        return toneNotices;
    }

    private void tellDrawn(StripFigures strip, int count, int all) {
        if (all >= MANY_STRIPS) {
            say("plotted " + count + " of " + all + ": " + strip.strip().id());
        }
    }

    /** The curve of the strip that stands for each film with frames; a film without one does without. */
    private Map<String, FilmCurve> toneCurves(BracketTable table, FilmComparison comparison) {
        List<Strip> strips =
                comparison.rows().stream().map(row -> row.figures().strip()).toList();
        Strip ofReference = comparison.reference().strip();
        Map<String, FilmCurve> curves = new LinkedHashMap<>();
        for (Bracket bracket : table.brackets()) {
            String film = bracket.film();
            Optional<Strip> strip =
                    film.equals(ofReference.film()) ? Optional.of(ofReference) : choice.of(strips, film);
            if (strip.isEmpty()) {
                say("film '" + film + "' of " + tone.frames.getFileName() + " has no strip in "
                        + String.join(
                                ", ",
                                files.stream()
                                        .map(file -> String.valueOf(file.getFileName()))
                                        .toList())
                        + "; figures that need its curve are left out");
            }
            strip.map(Strip::id)
                    .flatMap(id -> FilmCurve.of(comparison.between(id, id).figures()))
                    .ifPresent(drawn -> curves.put(film, drawn));
        }
        return curves;
    }

    /** File names for the plots: the strip's identifier with everything but letters, digits, - and _ replaced. */
    static Map<String, String> plotNames(List<Strip> strips) {
        Map<String, String> names = new LinkedHashMap<>();
        Set<String> taken = new HashSet<>();
        for (Strip strip : strips) {
            String id = strip.id().replaceAll("[^\\p{Alnum}_-]", "_");
            String base = "strip-" + id.substring(0, Math.min(LONGEST_NAME, id.length()));
            String name = base;
            // Some file systems do not tell capitals apart.
            for (int i = 2; !taken.add(name.toLowerCase(Locale.ROOT)); i++) {
                name = base + "-" + i;
            }
            names.put(strip.id(), name);
        }
        return names;
    }
}
