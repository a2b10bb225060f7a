package org.tonewedge.examples.detail;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.ReportProgram;
import org.tonewedge.examples.page.Page;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.standards.detail.EdgeResponse;
import org.tonewedge.standards.detail.ModulationTransfer;
import org.tonewedge.standards.detail.PatchGrid;
import org.tonewedge.standards.detail.ResolvingPower;
import org.tonewedge.standards.detail.SlantedEdge;
import org.tonewedge.standards.detail.TargetModulation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Measures detail on scans of film: sharpness of edges, modulation of bars, grain of even areas, densities of patches.
 *
 * <p>Exit status: 0 if all that was asked was determined, 1 if something could not be, 2 if the program could not run.
 */
@Command(
        name = "detail",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Measures edges, bars, grain and patches on scans of film and writes detail.html, detail.csv, mtf.csv,"
                    + " patches.csv, and a picture of each scan with its regions.",
            ""
        },
        parameterListHeading = "Input:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:everything was determined",
            "1:something could not be determined; detail.csv says what and why",
            "2:the program could not run"
        },
        footerHeading = "%nRegions:%n",
        footer = {
            "  NAME=X,Y,WIDTH,HEIGHT in whole pixels from the top left corner, behind it what the option needs; each is read",
            "  on every scan. A region named SCAN/NAME, with the name of a file without its ending, is read on that scan alone."
        })
public final class DetailProgram extends ReportProgram {

    private static final String FREQUENCY_UNIT = "cycles/mm";

    @Parameters(
            arity = "1..*",
            paramLabel = "FILE",
            description = "scans: PNG or TIFF, 8 or 16 bits, grey or RGB, linear in transmittance")
    private List<Path> files;

    @Option(
            names = "--pixels-per-mm",
            paramLabel = "P",
            description = "resolution of the scans on the film (default: what each file states)")
    private Double pixelsPerMillimetre;

    @Option(
            names = "--edge",
            paramLabel = "NAME=REGION",
            description = "a region around a straight edge, tilted by 3 to 10 degrees; may be repeated")
    private Map<String, String> edges = new LinkedHashMap<>();

    @Option(names = "--grain", paramLabel = "NAME=REGION", description = "an evenly exposed region; may be repeated")
    private Map<String, String> grain = new LinkedHashMap<>();

    @Option(
            names = "--bars",
            paramLabel = "NAME=REGION@F",
            description = "a region filled by bars of F cycles per millimetre; may be repeated")
    private Map<String, String> bars = new LinkedHashMap<>();

    @Option(
            names = "--chart",
            paramLabel = "NAME=REGION/RxC",
            description = "a region filled by R rows of C patches; may be repeated")
    private Map<String, String> charts = new LinkedHashMap<>();

    @Option(
            names = "--curve",
            paramLabel = "FILE",
            description = "a readings table with the curve of the film; edges and bars are then read in exposure")
    private Path curve;

    @Option(names = "--strip", paramLabel = "ID", description = "the strip of that table (default: its only strip)")
    private String strip;

    @Option(
            names = "--aperture",
            paramLabel = "MICROMETRES",
            defaultValue = "48",
            description = "the diameter of the aperture for granularity (default: ${DEFAULT-VALUE})")
    private double aperture;

    @Option(
            names = "--open-gate",
            paramLabel = "CODE",
            description = "the code of the scanner's open gate (default: the highest code)")
    private Double openGate;

    @Option(
            names = "--dark",
            paramLabel = "CODE",
            defaultValue = "0",
            description = "the code of the scanner without light (default: ${DEFAULT-VALUE})")
    private double dark;

    @Option(
            names = "--channel",
            paramLabel = "NAME",
            defaultValue = "green",
            description = "the channel of RGB scans: red, green or blue (default: ${DEFAULT-VALUE})")
    private ScanFile.Channel channel;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Detail on film",
            description = "the title of the page (default: ${DEFAULT-VALUE})")
    private String title;

    private final DetailTable table = new DetailTable();
    private final Map<String, ModulationTransfer> transfers = new LinkedHashMap<>();
    private final List<List<String>> patches = new ArrayList<>();
    private Optional<CharacteristicCurve> filmCurve = Optional.empty();

    private DetailProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new DetailProgram(), args);
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
        return run(new DetailProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        refuseWithout("--curve", List.of("--strip"));
        if (edges.isEmpty() && grain.isEmpty() && bars.isEmpty() && charts.isEmpty()) {
            throw new IllegalArgumentException(
                    "no region was given; name one with --edge, --grain, --bars or --chart, such as --edge a=40,30,200,120");
        }
        refuseOneName();
        filmCurve = curve == null ? Optional.empty() : Optional.of(curveOfFilm());
        publish(out(), directory -> {
            for (Path file : files) {
                try (ScanFile scan = ScanFile.open(file)) {
                    measure(stem(file), scan);
                    new RegionPicture(scan)
                            .write(regionsOf(stem(file)), directory.resolve(stem(file) + "-regions.png"));
                }
            }
            table.write(directory.resolve("detail.csv"));
            writeTransfers(directory.resolve("mtf.csv"));
            writePatches(directory.resolve("patches.csv"));
            Page page = new Page(title, "", notes(), plots().formats());
            new DetailPage(table, transfers)
                    .write(page, scans(), plots().files(directory), directory.resolve("detail.html"));
        });
        table.missing()
                .forEach(row -> say(row.scan() + ", " + row.region() + ": no " + row.figure() + ": " + row.notes()));
        say("wrote " + out().resolve("detail.html") + " with " + table.rows().size() + " figures");
        return table.missing().isEmpty() ? DONE : INCOMPLETE;
    }

    private CharacteristicCurve curveOfFilm() throws IOException {
        ReadingsTable readings = ReadingsTable.read(InputFiles.existing(curve));
        readings.notices().forEach(this::say);
        if (strip == null && readings.strips().size() != 1) {
            throw new IllegalArgumentException(
                    curve + " has " + readings.strips().size() + " strips; choose one with --strip");
        }
        Strip of = strip == null ? readings.strips().get(0) : readings.strip(strip);
        return CurveFit.of(CurveFamily.TOE_SHOULDER).fit(of).curve();
    }

    /** Two scans of one name would share their rows and their picture. */
    private void refuseOneName() {
        for (String scan : scans()) {
            if (Collections.frequency(scans(), scan) > 1) {
                throw new IllegalArgumentException("two scans are named " + Checks.shortened(scan)
                        + "; rename one, so that the results stay distinct");
            }
        }
    }

    private List<String> scans() {
        return files.stream().map(DetailProgram::stem).toList();
    }

    private static String stem(Path file) {
        return file.getFileName().toString().replaceFirst("\\.[A-Za-z]+$", "");
    }

    /** All regions on one scan, by name. */
    private Map<String, ScanRegion> regionsOf(String scan) {
        Map<String, ScanRegion> found = new LinkedHashMap<>();
        List.of(edges, grain, bars, charts)
                .forEach(asked -> on(scan, asked)
                        .forEach((name, text) -> found.put(name, ScanRegion.parse(text.split("[@/]", 2)[0]))));
        return found;
    }

    /** The regions asked for that are read on one scan, by their names. */
    private static Map<String, String> on(String scan, Map<String, String> asked) {
        Map<String, String> found = new LinkedHashMap<>();
        asked.forEach((name, text) -> {
            int slash = name.indexOf('/');
            if (slash < 0 || name.substring(0, slash).equals(scan)) {
                found.put(name.substring(slash + 1), text);
            }
        });
        return found;
    }

    private void measure(String name, ScanFile scan) throws IOException {
        double resolution = resolution(name, scan);
        for (Map.Entry<String, String> edge : on(name, edges).entrySet()) {
            measureEdge(name, edge.getKey(), image(scan, ScanRegion.parse(edge.getValue()), resolution));
        }
        for (Map.Entry<String, String> area : on(name, grain).entrySet()) {
            measureGrain(name, area.getKey(), image(scan, ScanRegion.parse(area.getValue()), resolution));
        }
        measureBars(name, scan, resolution);
        for (Map.Entry<String, String> chart : on(name, charts).entrySet()) {
            measureChart(name, chart.getKey(), chart.getValue(), scan, resolution);
        }
    }

    private double resolution(String name, ScanFile scan) throws IOException {
        if (pixelsPerMillimetre != null) {
            if (!(pixelsPerMillimetre > 0 && pixelsPerMillimetre < 1e5)) {
                throw new IllegalArgumentException(
                        "--pixels-per-mm must be above 0 and below 100000, was " + pixelsPerMillimetre);
            }
            return pixelsPerMillimetre;
        }
        return scan.pixelsPerMillimetre()
                .orElseThrow(() -> new IllegalArgumentException(
                        name + " does not state its resolution; give it with --pixels-per-mm"));
    }

    private DensityImage image(ScanFile scan, ScanRegion region, double resolution) throws IOException {
        ScanFile.Codes codes = scan.read(region, channel);
        double open = openGate == null ? codes.highest() : openGate;
        if (!(open > dark)) {
            throw new IllegalArgumentException("--open-gate must be above --dark, were " + open + " and " + dark);
        }
        double[] densities = new double[codes.values().length];
        for (int i = 0; i < densities.length; i++) {
            double light = codes.values()[i] - dark;
            if (!(light > 0)) {
                throw new IllegalArgumentException(
                        "region " + region + ", column "
                                + (region.x() + i % region.width()) + ", row " + (region.y() + i / region.width())
                                + ": code " + codes.values()[i]
                                + " is black, beyond the range of the scanner; scan with more exposure or choose another region");
            }
            densities[i] = -Math.log10(light / (open - dark));
        }
        return DensityImage.of(densities, region.width(), 1000 / resolution);
    }

    private void measureEdge(String scan, String region, DensityImage image) {
        SlantedEdge method = SlantedEdge.withDefaults();
        String space = filmCurve
                .map(found -> "in exposure, through the curve of " + found.name())
                .orElse("in transmittance; give --curve for exposure");
        Supplier<EdgeResponse> main = once(() -> filmCurve
                .map(found -> method.determineInExposure(image, found))
                .orElseGet(() -> method.determineInTransmittance(image)));
        Supplier<EdgeResponse> inDensity = once(() -> method.determineInDensity(image));
        table.add(scan, region, "mtf50", FREQUENCY_UNIT, space, () -> {
            EdgeResponse response = main.get();
            transfers.put(scan + ", " + region, response.modulationTransfer());
            return response.modulationTransfer().mtf50();
        });
        table.add(
                scan,
                region,
                "mtf10",
                FREQUENCY_UNIT,
                space,
                () -> main.get().modulationTransfer().mtf10());
        table.add(
                scan,
                region,
                "mtf50_density",
                FREQUENCY_UNIT,
                "in density",
                () -> inDensity.get().modulationTransfer().mtf50());
        table.add(
                scan,
                region,
                "mtf10_density",
                FREQUENCY_UNIT,
                "in density",
                () -> inDensity.get().modulationTransfer().mtf10());
        table.add(
                scan,
                region,
                "acutance",
                "1/um^2",
                "in density",
                () -> inDensity.get().acutance());
        table.add(
                scan,
                region,
                "edge_width",
                "um",
                "5 % to 95 %, " + space,
                () -> Estimate.of(main.get().width(), 0));
        table.add(
                scan,
                region,
                "edge_angle",
                "degrees",
                "",
                () -> Estimate.of(main.get().angle(), 0));
        try {
            main.get().notes().forEach(note -> say(scan + ", " + region + ": " + note));
        } catch (NotDeterminableException e) {
            return; // its rows say so
        }
    }

    /** A supplier that works once; a failure is thrown again each time. */
    private static <T> Supplier<T> once(Supplier<T> work) {
        List<T> done = new ArrayList<>(1);
        return () -> {
            if (done.isEmpty()) {
                done.add(work.get());
            }
            return done.get(0);
        };
    }

    private void measureGrain(String scan, String region, DensityImage image) {
        String through = String.format(
                Locale.ROOT,
                "aperture of %.4g um; scanner and film together, including the scanner's own noise",
                aperture);
        Supplier<Granularity> measured = once(
                () -> GranularityMethod.withDefaults().withAperture(aperture).measure(image));
        table.add(
                scan,
                region,
                "mean_density",
                "D",
                "",
                () -> Estimate.of(measured.get().meanDensity().value(), 0));
        table.add(
                scan,
                region,
                "rms_granularity",
                "1000 D",
                through,
                () -> measured.get().timesThousand());
    }

    private void measureBars(String name, ScanFile scan, double resolution) throws IOException {
        List<TargetModulation> targets = new ArrayList<>();
        for (Map.Entry<String, String> target : on(name, bars).entrySet()) {
            String[] parts = target.getValue().split("@", -1);
            if (parts.length != 2) {
                throw new IllegalArgumentException("--bars " + target.getKey()
                        + ": give the frequency after the region, such as 40,30,200,120@25, was '" + target.getValue()
                        + "'");
            }
            double frequency = number("--bars " + target.getKey(), parts[1]);
            DensityImage image = image(scan, ScanRegion.parse(parts[0]), resolution);
            String space = filmCurve.isPresent() ? "in exposure" : "in transmittance; give --curve for exposure";
            String notes = String.format(Locale.ROOT, "bars of %.6g cycles/mm, %s", frequency, space);
            table.add(name, target.getKey(), "bar_modulation", "ratio", notes, () -> {
                TargetModulation found = filmCurve
                        .map(of -> TargetModulation.ofBars(image, frequency, of))
                        .orElseGet(() -> TargetModulation.ofBars(image, frequency));
                targets.add(found);
                return found.modulation();
            });
        }
        if (targets.size() > 1) {
            String region = String.join("+", on(name, bars).keySet());
            table.add(
                    name,
                    region,
                    "resolving_power",
                    FREQUENCY_UNIT,
                    boundOf(targets),
                    () -> ResolvingPower.ofTargets(targets).cyclesPerMillimetre());
        }
    }

    private static String boundOf(List<TargetModulation> targets) {
        return targets.stream().allMatch(TargetModulation::isResolved)
                ? "lower bound: every target is resolved"
                : "between the finest resolved target and the next";
    }

    private void measureChart(String scan, String region, String text, ScanFile file, double resolution)
            throws IOException {
        String[] parts = text.split("/", -1);
        String[] sides = parts.length == 2 ? parts[1].toLowerCase(Locale.ROOT).split("x", -1) : new String[0];
        if (sides.length != 2) {
            throw new IllegalArgumentException("--chart " + region
                    + ": give rows and columns after the region, such as 40,30,600,400/4x6, was '" + text + "'");
        }
        PatchGrid grid =
                PatchGrid.of((int) number("--chart " + region, sides[0]), (int) number("--chart " + region, sides[1]));
        DensityImage image = image(file, ScanRegion.parse(parts[0]), resolution);
        for (PatchGrid.Area area : grid.read(image)) {
            String patch = region + "-" + area.row() + "-" + area.column();
            String notes = area.rejected() == 0 ? "" : area.rejected() + " of " + area.pixels() + " pixels rejected";
            table.add(scan, patch, DetailPage.PATCH, "D", notes, area::estimate);
            patches.add(List.of(
                    scan,
                    region,
                    Integer.toString(area.row()),
                    Integer.toString(area.column()),
                    Double.toString(area.density().value()),
                    Double.toString(area.scatter()),
                    Integer.toString(area.pixels()),
                    Integer.toString(area.rejected()),
                    Double.toString(area.across()),
                    Double.toString(area.down())));
        }
    }

    private static double number(String option, String text) {
        try {
            return Double.parseDouble(text.strip());
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(option + ": '" + text + "' is not a number", e);
        }
    }

    private void writeTransfers(Path file) throws IOException {
        if (transfers.isEmpty()) {
            return;
        }
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord("edge", "cycles_per_mm", "modulation", "u");
            transfers.forEach((name, transfer) -> {
                for (double frequency : transfer.frequencies()) {
                    Estimate found = transfer.at(frequency);
                    csv.writeRecord(
                            name,
                            Double.toString(frequency),
                            Double.toString(found.value()),
                            Double.toString(found.standardUncertainty()));
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private void writePatches(Path file) throws IOException {
        if (patches.isEmpty()) {
            return;
        }
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(
                    "scan", "chart", "row", "column", "density", "scatter", "pixels", "rejected", "across", "down");
            patches.forEach(csv::writeRecord);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
