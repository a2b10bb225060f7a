// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
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
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.examples.command.ReportProgram;
import org.tonewedge.examples.command.TableOptions;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.scan.ScanFile;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.standards.detail.EdgeResponse;
import org.tonewedge.standards.detail.ModulationTransfer;
import org.tonewedge.standards.detail.PatchGrid;
import org.tonewedge.standards.detail.ResolvingPower;
import org.tonewedge.standards.detail.ScanCalibration;
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
            "Measures edges, bars, grain and patches on scans of film and writes detail.html, detail.csv,",
            "mtf.csv, patches.csv, readings.csv, and a picture of each scan with its regions.",
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
            "  NAME=X,Y,WIDTH,HEIGHT in whole pixels from the top left corner, or in millimetres with mm after",
            "  the numbers. What the option needs follows, such as 2,1.5,10,6mm/4x6. Each region is read on",
            "  every scan; one named SCAN/NAME, where SCAN is the name of a file without its extension, is",
            "  read on that scan alone."
        })
public final class DetailProgram extends ReportProgram {

    private static final String FREQUENCY_UNIT = "cycles/mm";
    /** The region of a figure that all grain regions of a scan give together. */
    private static final String GRAIN = "grain";

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
            description =
                    "a region filled by R rows of C patches; may be repeated. For a chart that lies rotated or skewed give"
                            + " X,Y of its four corners instead, from the first patch along its row and around:"
                            + " X,Y,X,Y,X,Y,X,Y/RxC")
    private Map<String, String> charts = new LinkedHashMap<>();

    @Option(
            names = "--steps",
            paramLabel = "STRIP=REGION/N",
            description = "a rough box around a strip of N steps, which are found in it; may be repeated")
    private Map<String, String> steps = new LinkedHashMap<>();

    @Option(
            names = "--base",
            paramLabel = "STRIP=REGION",
            description = "an unexposed region of a strip of --steps; may be repeated")
    private Map<String, String> bases = new LinkedHashMap<>();

    @Option(
            names = "--reversal",
            description =
                    "the films of --steps are reversal films: step 1, the clear end of the tablet, is the lightest")
    private boolean reversal;

    @Option(
            names = "--tablet-region",
            paramLabel = "NAME=REGION",
            description =
                    "a rough box around the tablet of --tablet, whose steps are found in it; the densities of the scans"
                            + " are then based on the tablet. If only one scan has a tablet, it serves all scans.")
    private Map<String, String> tabletRegions = new LinkedHashMap<>();

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
            names = "--scanner",
            paramLabel = "FILE",
            description =
                    "a scan at the same setting with a sharp edge, such as a blade, or an empty gate, for --scanner-edge"
                            + " and --scanner-noise (default: the first scan)")
    private Path scanner;

    @Option(
            names = "--scanner-edge",
            paramLabel = "REGION",
            description = "a region around that edge; sharpness is then given without the scanner")
    private String scannerEdge;

    @Option(
            names = "--scanner-floor",
            paramLabel = "M",
            defaultValue = "0.1",
            description =
                    "the least modulation of the scanner that sharpness is divided by, since noise is divided too (default: ${DEFAULT-VALUE})")
    private double scannerFloor;

    @Option(
            names = "--scanner-noise",
            paramLabel = "REGION",
            description = "an even region without grain, such as the empty gate; its noise is subtracted from grain")
    private String scannerNoise;

    @Option(
            names = "--grain-at",
            paramLabel = "D",
            description =
                    "a density at which granularity is interpolated among the --grain regions of each scan, such as"
                            + " base plus fog and 1.0, so that films are compared at equal density")
    private Double grainAt;

    @Option(
            names = "--reference",
            paramLabel = "SCAN",
            description = "the scan of the reference film, beside which the others are set")
    private String reference;

    @Option(
            names = "--title",
            paramLabel = "TEXT",
            defaultValue = "Detail on film",
            description = "the title of the page (default: ${DEFAULT-VALUE})")
    private String title;

    private final DetailTable table = new DetailTable();
    private final Crops crops = new Crops();
    private final Map<String, ModulationTransfer> transfers = new LinkedHashMap<>();
    private final List<List<String>> patches = new ArrayList<>();
    private final StepReadingsTable readings = new StepReadingsTable();
    private final Map<String, ScanCalibration> calibrations = new LinkedHashMap<>();
    private final List<String> calibrated = new ArrayList<>();
    private Optional<CharacteristicCurve> filmCurve = Optional.empty();
    private ScannerShare share = new ScannerShare(Optional.empty(), Optional.empty(), 1, 1);

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
        refuseWithout("--curve", List.of("--strip", TableOptions.SHEET, "--encoding", "--decimal", "--correction"));
        if (edges.isEmpty() && grain.isEmpty() && bars.isEmpty() && charts.isEmpty() && steps.isEmpty()) {
            throw new IllegalArgumentException("no region is given; name one with --edge, --grain, --bars, --chart or"
                    + " --steps, such as --edge a=40,30,200,120");
        }
        refuseOneName();
        refuseRegionsOfNoScan();
        if (reference != null && !scans().contains(reference)) {
            throw new IllegalArgumentException("--reference " + Checks.shortened(reference)
                    + " is not one of the scans; they are " + String.join(", ", scans()));
        }
        if (grainAt != null) {
            Density.of(grainAt);
        }
        if (!tabletRegions.isEmpty() && tables().certifiedTablet().isEmpty()) {
            throw new IllegalArgumentException("--tablet-region needs --tablet, the file of its certificate");
        }
        if (scannerEdge == null && scannerNoise == null && scanner != null) {
            throw new IllegalArgumentException(
                    "--scanner has no effect without --scanner-edge or --scanner-noise; give one of them");
        }
        refuseWithout("--scanner-edge", List.of("--scanner-floor"));
        if (!(scannerFloor > 0 && scannerFloor < 1)) {
            throw new IllegalArgumentException("--scanner-floor must be above 0 and below 1, was " + scannerFloor);
        }
        filmCurve = curve == null ? Optional.empty() : Optional.of(curveOfFilm());
        publish(out(), directory -> {
            calibrate();
            measureScanner(directory);
            for (Path file : files) {
                try (ScanFile scan = ScanFile.open(file)) {
                    measure(open(file, scan), directory);
                }
            }
            table.write(directory.resolve("detail.csv"));
            writeTransfers(directory.resolve("mtf.csv"));
            writePatches(directory.resolve("patches.csv"));
            readings.write(directory.resolve("readings.csv"));
            List<String> remarks = new ArrayList<>(curve == null ? givenNotes() : notes());
            remarks.addAll(calibrated);
            Page page = new Page(title, "", remarks, plots().formats());
            List<String> ordered = referenceFirst();
            List<String> pictures = new ArrayList<>(ordered);
            scanOfScanner().ifPresent(file -> pictures.add(stem(file)));
            new DetailPage(
                            table,
                            transfers,
                            share.transfer().isPresent(),
                            Optional.ofNullable(reference),
                            crops.write(ordered, directory),
                            pictures)
                    .write(page, ordered, plots().files(directory), directory.resolve("detail.html"));
        });
        table.missing()
                .forEach(row -> say(row.scan() + ", " + row.region() + ": no " + row.figure() + ": " + row.notes()));
        say("wrote " + out().resolve("detail.html") + " with "
                + Figures.counted(table.rows().size(), "figure"));
        return table.missing().isEmpty() ? DONE : INCOMPLETE;
    }

    private CharacteristicCurve curveOfFilm() throws IOException {
        ReadingsTable readings = tables().readings(List.of(curve));
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
        List<String> names = new ArrayList<>(scans());
        scanOfScanner().ifPresent(file -> names.add(stem(file)));
        for (String scan : names) {
            if (Collections.frequency(names, scan) > 1) {
                throw new IllegalArgumentException("two scans are named " + Checks.shortened(scan)
                        + "; rename one, so that the results stay distinct");
            }
        }
    }

    private List<String> referenceFirst() {
        List<String> ordered = new ArrayList<>(scans());
        if (reference != null) {
            ordered.remove(reference);
            ordered.add(0, reference);
        }
        return ordered;
    }

    /** The scan of the scanner itself, unless it is among those of film. */
    private Optional<Path> scanOfScanner() {
        return Optional.ofNullable(scanner)
                .filter(own -> files.stream().noneMatch(file -> absolute(file).equals(absolute(own))));
    }

    private static Path absolute(Path file) {
        return file.toAbsolutePath().normalize();
    }

    private List<String> scans() {
        return files.stream().map(DetailProgram::stem).toList();
    }

    private static String stem(Path file) {
        return file.getFileName().toString().replaceFirst("\\.[A-Za-z]+$", "");
    }

    /** All regions on one scan, by name. */
    private Map<String, ScanCorners> regionsOf(OpenScan scan) throws IOException {
        Map<String, ScanCorners> found = new LinkedHashMap<>();
        if (scanner == null && scan.name().equals(stem(files.get(0)))) {
            if (scannerEdge != null) {
                found.put("scanner-edge", scan.outline(scannerEdge));
            }
            if (scannerNoise != null) {
                found.put("scanner-noise", scan.outline(scannerNoise));
            }
        }
        for (Map<String, String> asked : regions()) {
            for (Map.Entry<String, String> region : on(scan.name(), asked).entrySet()) {
                try {
                    found.put(region.getKey(), scan.outline(region.getValue().split("[@/]", 2)[0]));
                } catch (IllegalArgumentException e) {
                    throw new IllegalArgumentException(
                            scan.name() + ", region " + region.getKey() + ": " + e.getMessage(), e);
                }
            }
        }
        return found;
    }

    /** The regions asked for, by name, of each option. */
    private List<Map<String, String>> regions() {
        return List.of(edges, grain, bars, charts, steps, bases, tabletRegions);
    }

    /** A region of a scan that is not there would be read nowhere. */
    private void refuseRegionsOfNoScan() {
        List<String> names = new ArrayList<>(scans());
        scanOfScanner().ifPresent(file -> names.add(stem(file)));
        for (Map<String, String> asked : regions()) {
            for (String region : asked.keySet()) {
                int slash = region.indexOf('/');
                if (slash >= 0 && !names.contains(region.substring(0, slash))) {
                    throw new IllegalArgumentException("region " + Checks.shortened(region)
                            + " is on none of the scans; they are " + String.join(", ", names));
                }
            }
        }
    }

    /** The regions asked for that are read on one scan, by their names. */
    private static Map<String, String> on(String scan, Map<String, String> asked) {
        Map<String, String> found = new LinkedHashMap<>();
        asked.forEach((name, text) -> {
            int slash = name.indexOf('/');
            if (slash < 0 || name.substring(0, slash).equals(scan)) {
                String region = name.substring(slash + 1);
                if (found.put(region, text) != null) {
                    throw new IllegalArgumentException("region " + region + " is given for all scans and for " + scan
                            + "; name each region with its scan, or rename one");
                }
            }
        });
        return found;
    }

    private OpenScan open(Path file, ScanFile scan) {
        if (pixelsPerMillimetre != null && !(pixelsPerMillimetre > 0 && pixelsPerMillimetre < 1e5)) {
            throw new IllegalArgumentException(
                    "--pixels-per-mm must be above 0 and below 100000, was " + pixelsPerMillimetre);
        }
        OpenScan opened = new OpenScan(
                stem(file),
                scan,
                channel,
                dark,
                Optional.ofNullable(openGate),
                Optional.ofNullable(pixelsPerMillimetre));
        if (!calibrations.isEmpty()) {
            ScanCalibration only = calibrations.values().iterator().next();
            ScanCalibration own = calibrations.getOrDefault(opened.name(), calibrations.size() == 1 ? only : null);
            if (own == null) {
                throw new IllegalArgumentException(opened.name() + " has no tablet of its own, and "
                        + calibrations.size() + " other scans have one; give it one with --tablet-region "
                        + opened.name() + "/NAME=REGION");
            }
            opened.calibrate(own);
        }
        return opened;
    }

    /** Finds the tablets on all scans, before anything is measured. */
    private void calibrate() throws IOException {
        if (tabletRegions.isEmpty()) {
            return;
        }
        StepTablet tablet = tables().certifiedTablet().orElseThrow();
        Map<String, ScanCalibration> found = new LinkedHashMap<>();
        List<Path> scanned = new ArrayList<>(files);
        scanOfScanner()
                .filter(file -> tabletRegions.keySet().stream().anyMatch(name -> name.startsWith(stem(file) + "/")))
                .ifPresent(scanned::add);
        for (Path file : scanned) {
            Map<String, String> boxes = on(stem(file), tabletRegions);
            if (boxes.size() > 1) {
                throw new IllegalArgumentException(stem(file) + " has " + boxes.size() + " tablets: "
                        + String.join(", ", boxes.keySet()) + "; give one for each scan");
            }
            for (String box : boxes.values()) {
                try (ScanFile scan = ScanFile.open(file)) {
                    found.put(stem(file), open(file, scan).calibration(tablet, box));
                } catch (NotDeterminableException e) {
                    throw new IllegalArgumentException("the tablet on " + stem(file) + ": " + e.getMessage(), e);
                }
                calibrated.add("Densities on " + stem(file) + " by its tablet: " + found.get(stem(file)) + ".");
            }
        }
        calibrations.putAll(found);
        calibrated.forEach(this::say);
    }

    private void measureScanner(Path directory) throws IOException {
        if (scannerEdge == null && scannerNoise == null) {
            return;
        }
        Path from = scanner == null ? files.get(0) : scanner;
        try (ScanFile file = ScanFile.open(from)) {
            OpenScan scan = open(from, file);
            Map<String, ScanCorners> regions = new LinkedHashMap<>();
            Optional<ModulationTransfer> transfer = Optional.empty();
            if (scannerEdge != null) {
                regions.put("scanner-edge", scan.outline(scannerEdge));
                try {
                    transfer = Optional.of(SlantedEdge.withDefaults()
                            .determineInTransmittance(scan.image(scan.region(scannerEdge)))
                            .modulationTransfer());
                } catch (NotDeterminableException e) {
                    throw new IllegalArgumentException("--scanner-edge " + scannerEdge + ": " + e.getMessage(), e);
                }
            }
            Optional<DensityImage> noise = Optional.empty();
            if (scannerNoise != null) {
                regions.put("scanner-noise", scan.outline(scannerNoise));
                noise = Optional.of(scan.image(scan.region(scannerNoise)));
            }
            share = new ScannerShare(transfer, noise, 1000 / scan.resolution(), scannerFloor);
            transfer.ifPresent(own -> {
                table.add(
                        scan.name(),
                        DetailPage.SCANNER,
                        "scanner_mtf50",
                        FREQUENCY_UNIT,
                        "in transmittance",
                        own::mtf50);
                transfers.put(DetailPage.SCANNER, own);
            });
            noise.ifPresent(empty -> table.add(
                    scan.name(),
                    DetailPage.SCANNER,
                    "scanner_noise",
                    "1000 D",
                    String.format(Locale.ROOT, "aperture of %.4g um", aperture),
                    () -> GranularityMethod.withDefaults()
                            .withAperture(aperture)
                            .determine(empty)
                            .timesThousand()));
            if (scanOfScanner().isPresent()) {
                new RegionPicture(file)
                        .write(regions, scan.taken(), directory.resolve(RegionPicture.nameOf(scan.name())));
            }
        }
    }

    private void measure(OpenScan scan, Path directory) throws IOException {
        String name = scan.name();
        Map<String, ScanCorners> regions = regionsOf(scan);
        for (Map.Entry<String, String> edge : on(name, edges).entrySet()) {
            DensityImage image = scan.image(scan.region(edge.getValue()));
            measureEdge(name, edge.getKey(), image);
            crops.add(edge.getKey(), false, name, image);
        }
        List<Supplier<Granularity>> areas = new ArrayList<>();
        List<Supplier<Granularity>> films = new ArrayList<>();
        for (Map.Entry<String, String> area : on(name, grain).entrySet()) {
            DensityImage image = scan.image(scan.region(area.getValue()));
            Supplier<Granularity> measured = measureGrain(name, area.getKey(), image);
            areas.add(measured);
            if (share.noise().isPresent()) {
                films.add(measureFilmGrain(name, area.getKey(), image, measured));
            }
            crops.add(area.getKey(), true, name, image);
        }
        if (grainAt != null && !areas.isEmpty()) {
            table.add(
                    name,
                    GRAIN,
                    "rms_granularity",
                    "1000 D",
                    String.format(Locale.ROOT, "interpolated at density %.4g; %s", grainAt, aperture()),
                    () -> Granularity.at(
                                    Density.of(grainAt),
                                    areas.stream().map(Supplier::get).toList())
                            .timesThousand());
            if (share.noise().isPresent()) {
                table.add(
                        name,
                        GRAIN,
                        DetailPage.FILM_GRAIN,
                        "1000 D",
                        filmGrain(),
                        () -> Granularity.at(
                                        Density.of(grainAt),
                                        films.stream().map(Supplier::get).toList())
                                .timesThousand());
            }
        }
        measureBars(scan);
        for (Map.Entry<String, String> chart : on(name, charts).entrySet()) {
            measureChart(scan, chart.getKey(), chart.getValue());
        }
        for (Map.Entry<String, String> strip : on(name, steps).entrySet()) {
            measureSteps(scan, strip.getKey(), strip.getValue());
        }
        new RegionPicture(scan.file()).write(regions, scan.taken(), directory.resolve(RegionPicture.nameOf(name)));
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
        Supplier<ModulationTransfer> whole = () -> main.get().modulationTransfer();
        Supplier<ModulationTransfer> alone =
                share.transfer().isPresent() ? once(() -> share.without(main.get(), image.pitch())) : whole;
        String which = share.transfer().isPresent() ? space + "; " + share.limit() : space;
        table.add(scan, region, "mtf50", FREQUENCY_UNIT, which, () -> {
            transfers.put(scan + ", " + region, alone.get());
            return alone.get().mtf50();
        });
        table.add(
                scan, region, "mtf10", FREQUENCY_UNIT, which, () -> alone.get().mtf10());
        if (share.transfer().isPresent()) {
            table.add(
                    scan,
                    region,
                    "mtf50_with_scanner",
                    FREQUENCY_UNIT,
                    space,
                    () -> whole.get().mtf50());
            table.add(
                    scan,
                    region,
                    "mtf10_with_scanner",
                    FREQUENCY_UNIT,
                    space,
                    () -> whole.get().mtf10());
        }
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

    private String aperture() {
        return String.format(
                Locale.ROOT,
                "aperture of %.4g um; scanner and film together, including the scanner's own noise",
                aperture);
    }

    private Supplier<Granularity> measureGrain(String scan, String region, DensityImage image) {
        String through = aperture();
        Supplier<Granularity> measured = once(
                () -> GranularityMethod.withDefaults().withAperture(aperture).determine(image));
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
        return measured;
    }

    /** How the scanner was taken out of grain, in words. */
    private String filmGrain() {
        return String.format(
                Locale.ROOT,
                "aperture of %.4g um; the film alone: noise of the scanner at density %.2f subtracted, more than that at"
                        + " higher densities is still included%s",
                aperture,
                Arrays.stream(share.noise().orElseThrow().densities()).average().orElseThrow(),
                share.transfer().isPresent()
                        ? ", blur of the scanner divided out"
                        : "; blur of the scanner is still included, give --scanner-edge to divide it out");
    }

    private Supplier<Granularity> measureFilmGrain(
            String scan, String region, DensityImage image, Supplier<Granularity> measured) {
        Supplier<Estimate> alone = once(() -> share.without(image, aperture));
        table.add(scan, region, DetailPage.FILM_GRAIN, "1000 D", filmGrain(), alone);
        return () -> new Granularity(
                aperture,
                measured.get().meanDensity(),
                Estimate.of(
                        alone.get().value() / 1000,
                        alone.get().standardUncertainty() / 1000,
                        alone.get().degreesOfFreedom()));
    }

    private void measureBars(OpenScan scan) throws IOException {
        String name = scan.name();
        List<TargetModulation> targets = new ArrayList<>();
        for (Map.Entry<String, String> target : on(name, bars).entrySet()) {
            String[] parts = target.getValue().split("@", -1);
            if (parts.length != 2) {
                throw new IllegalArgumentException("--bars " + target.getKey()
                        + ": give the frequency after the region, such as 40,30,200,120@25, was '" + target.getValue()
                        + "'");
            }
            double frequency = number("--bars " + target.getKey(), parts[1]);
            DensityImage image = scan.image(scan.region(parts[0]));
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

    private void measureChart(OpenScan scan, String region, String text) throws IOException {
        String[] parts = text.split("/", -1);
        String[] sides = parts.length == 2 ? parts[1].toLowerCase(Locale.ROOT).split("x", -1) : new String[0];
        if (sides.length != 2) {
            throw new IllegalArgumentException("--chart " + region
                    + ": give rows and columns after the region, such as 40,30,600,400/4x6, was '" + text + "'");
        }
        PatchGrid grid = PatchGrid.of(count("--chart " + region, sides[0]), count("--chart " + region, sides[1]));
        for (OpenScan.ReadPatch patch : scan.patches(grid, parts[0])) {
            PatchGrid.Area area = patch.nominal();
            add(scan.name(), region, region + "-" + area.row() + "-" + area.column(), patch);
        }
    }

    /** The steps of a strip, numbered as those of the tablet it was exposed through. */
    private void measureSteps(OpenScan scan, String strip, String text) throws IOException {
        String[] parts = text.split("/", -1);
        if (parts.length != 2) {
            throw new IllegalArgumentException("--steps " + strip
                    + ": give the number of steps after the region, such as 40,30,900,60/21, was '" + text + "'");
        }
        int count = count("--steps " + strip, parts[1]);
        List<OpenScan.ReadPatch> found;
        try {
            found = new ArrayList<>(scan.steps(count, scan.region(parts[0])));
        } catch (NotDeterminableException e) {
            table.add(scan.name(), strip, "steps", "", "", () -> {
                throw e;
            });
            return;
        }
        double first = found.get(0).nominal().density().value();
        double last = found.get(count - 1).nominal().density().value();
        if (first < last != reversal) {
            Collections.reverse(found);
        }
        String id = files.size() == 1 ? strip : scan.name() + " " + strip;
        for (int k = 0; k < count; k++) {
            add(scan.name(), strip, strip + "-" + (k + 1), found.get(k));
            readings.add(id, Integer.toString(k + 1), found.get(k));
        }
        String base = on(scan.name(), bases).get(strip);
        if (base != null) {
            OpenScan.ReadPatch unexposed = scan.even(scan.region(base)).get(0);
            add(scan.name(), strip, strip + "-base", unexposed);
            readings.add(id, "", unexposed);
        }
    }

    private void add(String scan, String chart, String patch, OpenScan.ReadPatch read) {
        PatchGrid.Area nominal = read.nominal();
        String notes =
                nominal.rejected() == 0 ? "" : nominal.rejected() + " of " + nominal.pixels() + " pixels rejected";
        table.add(
                scan,
                patch,
                DetailPage.PATCH,
                "D",
                notes,
                () -> read.density()
                        .orElseThrow(() -> new NotDeterminableException(read.reason()))
                        .estimate());
        read.density()
                .ifPresent(area -> patches.add(List.of(
                        scan,
                        chart,
                        Integer.toString(area.row()),
                        Integer.toString(area.column()),
                        Double.toString(area.density().value()),
                        Double.toString(area.scatter()),
                        Integer.toString(area.pixels()),
                        Integer.toString(area.rejected()),
                        Double.toString(area.gradientAcross()),
                        Double.toString(area.gradientDown()))));
    }

    private static double number(String option, String text) {
        try {
            return Double.parseDouble(text.strip());
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(option + ": '" + text + "' is not a number", e);
        }
    }

    private static int count(String option, String text) {
        try {
            return Integer.parseInt(text.strip());
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(option + ": '" + text + "' is not a whole number", e);
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
