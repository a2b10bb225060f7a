package org.tonewedge.examples.tone;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.core.tone.PaperRange;
import org.tonewedge.examples.command.ReportProgram;
import picocli.CommandLine.Command;
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
            "0:all was determined",
            "1:something could not be determined; tone.html says what and why",
            "2:the comparison could not be made"
        },
        footerHeading = "%nThe table of frames:%n",
        footer = {
            "  CSV, UTF-8, with a header row, commas between fields, points in decimals, one row a reading:",
            "  film         the film; its rows make one bracketed series (needed)",
            "  frame        label of the frame (needed but for base plus fog)",
            "  stops        exposure of the frame in stops from the metered one, in any row of the frame",
            "  patch        label of the patch; empty for a reading of unexposed film, its base plus fog",
            "  group        neutral, red, green, blue, cyan, magenta, yellow, skin or other",
            "  reflectance  luminous reflectance factor of the patch, such as 0.18",
            "  density      the gross density read (needed); repeats are rows of their own"
        })
public final class ToneComparisonProgram extends ReportProgram {

    @Parameters(paramLabel = "FILE", description = "the table of frames")
    private Path file;

    @Option(
            names = "--reference",
            required = true,
            paramLabel = "FILM",
            description = "the film the others are compared with")
    private String reference;

    @Option(
            names = "--frame",
            required = true,
            paramLabel = "LABEL",
            description = "the frame of the reference film that the others are to match")
    private String frame;

    @Option(
            names = "--shadow",
            paramLabel = "PATCH",
            defaultValue = "shadow",
            description = "the patch whose density is matched (default: ${DEFAULT-VALUE})")
    private String shadow;

    @Option(
            names = "--strips",
            paramLabel = "FILE",
            description = "a readings table with a strip of each film, under the same film label")
    private Path strips;

    @Option(
            names = "--paper",
            paramLabel = "FILE",
            description = "a readings table with one strip, the paper to print on; needs --strips")
    private Path paper;

    @Option(
            names = "--paper-range",
            paramLabel = "LABEL=R",
            description = "a paper to choose among, by its ISO range such as 110; may be repeated")
    private Map<String, Double> paperRanges = new LinkedHashMap<>();

    @Option(
            names = "--flare",
            paramLabel = "PART",
            defaultValue = "0",
            description = "camera flare as a part of the exposure of the metered grey, such as 0.02 (default: none)")
    private double flare;

    @Option(
            names = "--scan",
            paramLabel = "FILM=FILE",
            description = "a scan of an evenly exposed area of a film for its granularity: PNG or TIFF, 16-bit grey,"
                    + " linear in transmittance with the open gate at full scale; may be repeated")
    private Map<String, Path> scans = new LinkedHashMap<>();

    @Option(
            names = "--scan-pitch",
            paramLabel = "MICROMETRES",
            defaultValue = "4",
            description = "the distance of the pixels of the scans on the film (default: ${DEFAULT-VALUE})")
    private double scanPitch;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Tone comparison",
            description = "the title of the page (default: ${DEFAULT-VALUE})")
    private String title;

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
    protected int report() throws IOException {
        BracketTable table = BracketTable.read(file);
        table.notices().forEach(this::say);
        ToneReport.Builder builder = ToneReport.builder(table.brackets(), reference, frame, shadow)
                .flare(flare)
                .paperRanges(paperRanges.entrySet().stream()
                        .map(range -> PaperRange.ofIsoRange(range.getKey(), range.getValue()))
                        .toList())
                .granularities(granularities(table));
        if (strips != null) {
            builder.curves(curves(read(strips), table));
        }
        if (paper != null) {
            Strip onPaper = onlyStrip(read(paper));
            builder.paper(onPaper.film(), CharacteristicCurve.through(onPaper));
        }
        ToneReport report = builder.build();
        Files.createDirectories(out());
        TonePage.write(title, notes(), report, report.writeFigures(out()), out());
        List<String> missing = report.notices();
        missing.forEach(this::say);
        say("wrote " + out().resolve("tone.html") + " for " + table.brackets().size() + " films");
        return missing.isEmpty() ? DONE : INCOMPLETE;
    }

    private ReadingsTable read(Path table) throws IOException {
        ReadingsTable readings = ReadingsTable.read(table);
        readings.notices().forEach(this::say);
        return readings;
    }

    private static Strip onlyStrip(ReadingsTable readings) {
        if (readings.strips().size() > 1) {
            throw new IllegalArgumentException(
                    readings.name() + " has " + readings.strips().size() + " strips; --paper takes a table with one");
        }
        return readings.strips().get(0);
    }

    /** The curve of each film that has frames; the first strip of a film counts. */
    private Map<String, CharacteristicCurve> curves(ReadingsTable readings, BracketTable table) {
        Map<String, CharacteristicCurve> curves = new LinkedHashMap<>();
        for (Strip strip : readings.strips()) {
            boolean framed =
                    table.brackets().stream().anyMatch(bracket -> bracket.film().equals(strip.film()));
            if (framed && curves.containsKey(strip.film())) {
                say(strip + " is left aside: film '" + strip.film() + "' has the curve of "
                        + curves.get(strip.film()).name());
            } else if (framed) {
                curves.put(strip.film(), CharacteristicCurve.through(strip));
            }
        }
        return curves;
    }

    private Map<String, Granularity> granularities(BracketTable table) throws IOException {
        Map<String, Granularity> found = new LinkedHashMap<>();
        for (Map.Entry<String, Path> scan : scans.entrySet()) {
            table.bracket(scan.getKey());
            found.put(
                    scan.getKey(),
                    GranularityMethod.withDefaults().measure(ScanReader.read(scan.getValue(), scanPitch)));
        }
        return found;
    }
}
