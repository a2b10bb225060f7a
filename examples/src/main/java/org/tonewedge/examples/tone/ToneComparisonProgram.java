// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.command.ReportProgram;
import org.tonewedge.examples.command.StripOptions;
import org.tonewedge.examples.command.TableOptions;
import org.tonewedge.examples.page.Page;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Compares films after their curves: which frame matches the reference, how to change the printing exposure, how colours
 * are rendered, how tones come out in the print, how grainy the films are.
 *
 * <p>Exit status: 0 if all that was asked was determined, 1 if something could not be, 2 if the comparison could not be
 * made.
 */
@Command(
        name = "tone-comparison",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Compares bracketed frames of films with those of a reference film and writes tone.html, its tables as CSV and"
                    + " its charts as SVG and PNG.",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:everything was determined",
            "1:something could not be determined; tone.html says what and why",
            "2:the comparison could not be made"
        },
        footerHeading = "%nThe table of frames:%n",
        footer = {
            "  CSV, UTF-8, with a header row, commas between fields, decimal points, one row per reading:",
            "  film         the film; its rows make one bracketed series (required)",
            "  frame        label of the frame (required, except for base plus fog)",
            "  stops        exposure of the frame in stops from the metered exposure, in any row of the frame",
            "  patch        label of the patch; empty for a reading of unexposed film, its base plus fog",
            "  group        neutral, red, green, blue, cyan, magenta, yellow, skin or other",
            "  reflectance  luminous reflectance factor of the patch, such as 0.18",
            "  density      the gross density read (required); repeat readings have their own rows",
            "  density_response  by what response the film was read, such as visual; base plus fog may also",
            "               be read by others, such as status M blue, closer to what paper sees",
            "  density_geometry  diffuse, projection f/4.5, projection f/1.6 or specular"
        })
public final class ToneComparisonProgram extends ReportProgram {

    @Parameters(paramLabel = "FILE", description = "the table of frames")
    private Path file;

    @Option(
            names = "--reference",
            required = true,
            paramLabel = "NAME",
            description = "the film with which the others are compared, or a strip of it in --strips")
    private String reference;

    @Option(
            names = "--frame",
            required = true,
            paramLabel = "LABEL",
            description = "the frame of the reference film that the others must match")
    private String frame;

    @Option(
            names = "--strips",
            paramLabel = "FILE",
            description =
                    "a readings table with strips of the films, under the same film labels, to which curves are fitted; may be"
                            + " repeated for several tables")
    private List<Path> strips = new ArrayList<>();

    @Mixin
    private StripOptions choice;

    @Mixin
    private ToneOptions options;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Tone comparison",
            description = "the title of the page (default: ${DEFAULT-VALUE})")
    private String title;

    @Option(names = TableOptions.FRAMES_SHEET, paramLabel = "NAME", description = TableOptions.FRAMES_SHEET_HELP)
    private Optional<String> framesSheet = Optional.empty();

    /** How the curve of each film was drawn, and what to know of it. */
    private final List<String> drawn = new ArrayList<>();

    /** Why films have no curve. */
    private final List<String> withoutCurve = new ArrayList<>();

    private ToneComparisonProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new ToneComparisonProgram(), args);
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
        return run(new ToneComparisonProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        refuseWithout("--strips", List.of("--paper", "--strip"));
        refuseWithout("--strips", TableOptions.SHEET, "give the sheet of the frames by " + TableOptions.FRAMES_SHEET);
        refuseWithout("--paper", ToneOptions.OF_PAPER);
        refuseWithout("--scan", List.of("--scan-pitch", "--grain"));
        refuseWithout("--scene", List.of("--scene-grey"));
        BracketTable table = tables().frames(file, framesSheet);
        Map<String, FilmCurve> curves = new LinkedHashMap<>();
        String film = reference;
        if (!strips.isEmpty()) {
            ReadingsTable readings = tables().readings(strips);
            readings.notices().forEach(this::say);
            choice.check(readings.strips());
            Optional<Strip> named = choice.named(readings.strips(), reference);
            if (named.isPresent()) {
                film = named.get().film();
                addCurve(film, named.get(), curves);
            }
            addCurves(table, readings, curves);
        }
        ToneReport report = options.report(table, film, frame, curves, this::say);
        List<String> remarks = new ArrayList<>(notes());
        remarks.addAll(choice.choices());
        publish(out(), directory -> {
            Page page = new Page(title, "", remarks, plots().formats());
            TonePage.write(report, directory, plots().files(directory)).addTo(page);
            if (!strips.isEmpty()) {
                page.heading("The curves of the films").list(drawn).list(withoutCurve);
            }
            Files.writeString(
                    directory.resolve("tone.html"), page.provenance(origin()).finished());
        });
        List<String> missing = report.notices();
        missing.forEach(this::say);
        say("wrote " + out().resolve("tone.html") + " for "
                + Figures.counted(table.brackets().size(), "film"));
        return missing.isEmpty() && withoutCurve.isEmpty() ? DONE : INCOMPLETE;
    }

    /** The curve of each film that has frames; a film without a strip, or without a curve, does without. */
    private void addCurves(BracketTable table, ReadingsTable readings, Map<String, FilmCurve> curves) {
        for (Bracket bracket : table.brackets()) {
            String film = bracket.film();
            if (curves.containsKey(film)) {
                continue;
            }
            Optional<Strip> strip = choice.of(readings.strips(), film);
            if (strip.isEmpty()) {
                sayWithoutCurve("film '" + film + "' has no strip in " + readings.name());
                continue;
            }
            addCurve(film, strip.get(), curves);
        }
    }

    private void sayWithoutCurve(String reason) {
        withoutCurve.add(reason + "; figures that need its curve are left out");
        say(withoutCurve.get(withoutCurve.size() - 1));
    }

    private void addCurve(String film, Strip strip, Map<String, FilmCurve> curves) {
        StripFigures figures = StripFigures.of(strip);
        Optional<FilmCurve> curve = FilmCurve.of(figures);
        if (curve.isEmpty()) {
            sayWithoutCurve(figures.get(FilmFigure.CONTRAST_OVER_130).reason());
            return;
        }
        curves.put(film, curve.get());
        List<String> told = new ArrayList<>(List.of(figures.verdict()));
        told.addAll(figures.notes());
        drawn.add(film + ", " + strip + ": " + String.join("; ", told));
    }
}
