// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.core.tone.NoisePower;
import org.tonewedge.core.tone.PaperRange;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.spreadsheet.Spreadsheets;
import org.tonewedge.standards.density.CallierFactor;
import picocli.CommandLine.Option;

/** The options of a tone comparison, for every program that makes one. */
public final class ToneOptions {

    /** The names of the options. */
    public static final List<String> NAMES = List.of(
            "--shadow",
            "--callier",
            "--paper",
            "--paper-range",
            "--flare",
            "--scan",
            "--scan-pitch",
            "--scene",
            "--scene-grey",
            "--viewing-flare",
            "--grain");

    /** Those that have no effect without a paper to print on. */
    public static final List<String> OF_PAPER =
            List.of("--flare", "--scene", "--scene-grey", "--viewing-flare", "--grain");

    private static final double MOST_ENLARGEMENT = 100;

    // Wide enough for every paper; they only tell an ISO range R from log units.
    private static final int LEAST_ISO_RANGE = 20;
    private static final int GREATEST_ISO_RANGE = 300;

    private static final double NOISE_BLOCK = 1000;
    private static final double NOISE_LIMIT = 10;
    /** At which frequencies noise power is measured, in words. */
    static final String NOISE_SPAN = "1 to 10 cycles per millimetre";

    @Option(
            names = "--shadow",
            paramLabel = "PATCH",
            defaultValue = "shadow",
            description = "the patch of the frames whose density is matched (default: ${DEFAULT-VALUE})")
    private String shadow;

    @Option(
            names = "--callier",
            paramLabel = "Q",
            description =
                    "the Callier factor of an enlarger with a condenser, specular over diffuse density above base plus"
                            + " fog, such as 1.3, for the printing exposure (default: diffuse light)")
    private Double callier;

    @Option(
            names = "--paper",
            paramLabel = "FILE",
            description = "a readings table with one strip, the paper to print on")
    private Path paper;

    @Option(
            names = "--paper-range",
            paramLabel = "LABEL=R",
            description = "a paper to choose from, by its ISO range R such as 110; may be repeated")
    private Map<String, Double> paperRanges = new LinkedHashMap<>();

    @Option(
            names = "--flare",
            paramLabel = "PART",
            defaultValue = "0",
            description =
                    "camera flare as a fraction of the exposure of the metered grey, such as 0.02 (default: none)")
    private double flare;

    @Option(
            names = "--scan",
            paramLabel = "FILM=FILE",
            description =
                    "a scan of an evenly exposed area of a film for its granularity and noise power: PNG or TIFF, 16-bit grey,"
                            + " linear in transmittance with the open gate at full scale; may be repeated")
    private Map<String, Path> scans = new LinkedHashMap<>();

    @Option(
            names = "--scan-pitch",
            paramLabel = "MICROMETRES",
            defaultValue = "4",
            description = "the pixel pitch of the scans on the film (default: ${DEFAULT-VALUE})")
    private double scanPitch;

    @Option(
            names = "--scene",
            paramLabel = "FILE",
            description =
                    "a picture to print from every film: PNG or TIFF, grey or RGB of 16 bits, linear in luminance (default: an"
                            + " invented still life)")
    private Path scene;

    @Option(
            names = "--scene-grey",
            paramLabel = "PART",
            defaultValue = "0.18",
            description = "the metered grey of the scene as a fraction of its full scale (default: ${DEFAULT-VALUE})")
    private double sceneGrey;

    @Option(
            names = "--viewing-flare",
            paramLabel = "PART",
            defaultValue = "0",
            description =
                    "light that the surface of a print reflects, as a fraction of the white, such as 0.005, in pictures (default:"
                            + " none)")
    private double viewingFlare;

    @Option(
            names = "--grain",
            paramLabel = "TIMES",
            description = "show simulated grain in pictures at this enlargement, for films with a --scan")
    private Double enlargement;

    /** Leaves the options to the command line. */
    public ToneOptions() {}

    /**
     * Makes the report that the options ask for.
     *
     * @param table the bracketed frames
     * @param referenceFilm the film of the table that the others are compared with
     * @param referenceFrame its frame that the others are to match
     * @param curves the curves of films of the table, by label; may be empty
     * @param notices told what a reader of the input should know
     * @return the report
     * @throws IOException if a file cannot be read
     * @throws IllegalArgumentException if an option names something that is not there
     */
    public ToneReport report(
            BracketTable table,
            String referenceFilm,
            String referenceFrame,
            Map<String, FilmCurve> curves,
            Consumer<String> notices)
            throws IOException {
        table.notices().forEach(notices);
        ToneReport.Builder builder = ToneReport.builder(
                        table.brackets(), table.bracket(referenceFilm).film(), referenceFrame, shadow)
                .leftOut(table.leftOut().values())
                .curves(curves)
                .paperRanges(paperRanges.entrySet().stream()
                        .map(range -> paperRange(range.getKey(), range.getValue()))
                        .toList())
                .flare(flare)
                .pictures(pictures());
        if (callier != null) {
            builder.callier(CallierFactor.of(Estimate.of(callier, 0)));
        }
        addScans(table, builder, notices);
        if (paper != null) {
            ReadingsTable readings = ReadingsTable.read(
                    Spreadsheets.open(InputFiles.rereadable(paper), Optional.empty(), CsvDialect.guessed()));
            readings.notices().forEach(notices);
            Strip strip = onlyStrip(readings);
            builder.paper(strip.film(), CharacteristicCurve.through(strip));
        }
        ToneReport report = builder.build();
        report.cautions().forEach(notices);
        return report;
    }

    private PrintPictures pictures() throws IOException {
        Checks.within("--viewing-flare", viewingFlare, 0, 1, "give it as a fraction of the white, such as 0.005");
        if (!(sceneGrey > 0 && sceneGrey <= 1)) {
            throw new IllegalArgumentException("--scene-grey must be above 0 and at most 1, was " + sceneGrey
                    + "; give the fraction of full scale that represents the metered grey, such as 0.18");
        }
        if (enlargement != null && !(enlargement >= 1 && enlargement <= MOST_ENLARGEMENT)) {
            throw new IllegalArgumentException("--grain must be from 1 to " + MOST_ENLARGEMENT + ", was " + enlargement
                    + "; give the enlargement of the film");
        }
        return new PrintPictures(
                scene == null ? Scene.invented() : Scene.read(scene, sceneGrey),
                viewingFlare,
                enlargement == null ? OptionalDouble.empty() : OptionalDouble.of(enlargement));
    }

    /** A range in log units, such as 1.1, taken for an ISO range would be a paper that no negative fits. */
    private static PaperRange paperRange(String label, double range) {
        if (!(range >= LEAST_ISO_RANGE && range <= GREATEST_ISO_RANGE)) {
            throw new IllegalArgumentException("--paper-range '" + label + "' must be from " + LEAST_ISO_RANGE + " to "
                    + GREATEST_ISO_RANGE + ", was " + range
                    + "; give ISO range R, 100 times the log exposure range, such as 110");
        }
        return PaperRange.ofIsoRange(label, range);
    }

    private static Strip onlyStrip(ReadingsTable readings) {
        if (readings.strips().size() > 1) {
            throw new IllegalArgumentException(
                    readings.name() + " has " + readings.strips().size() + " strips; --paper takes a table with one");
        }
        return readings.strips().get(0);
    }

    private void addScans(BracketTable table, ToneReport.Builder builder, Consumer<String> notices) throws IOException {
        Map<String, Granularity> grain = new LinkedHashMap<>();
        Map<String, NoisePower> noise = new LinkedHashMap<>();
        for (Map.Entry<String, Path> scan : scans.entrySet()) {
            if (table.leftOut().containsKey(scan.getKey())) {
                continue;
            }
            String film = table.bracket(scan.getKey()).film();
            DensityImage image = ScanReader.read(scan.getValue(), scanPitch);
            grain.put(film, GranularityMethod.withDefaults().determine(image));
            try {
                noise.put(film, NoisePower.of(image, NOISE_BLOCK, NOISE_LIMIT));
            } catch (NotDeterminableException e) {
                notices.accept(film + ", noise power: " + e.getMessage());
            }
        }
        builder.granularities(grain).noisePowers(noise);
    }
}
