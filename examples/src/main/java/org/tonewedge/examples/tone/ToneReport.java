package org.tonewedge.examples.tone;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.tone.CameraExposure;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.NoisePower;
import org.tonewedge.core.tone.PaperChoice;
import org.tonewedge.core.tone.PaperRange;
import org.tonewedge.core.tone.PatchDifference;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.core.tone.PrintTime;
import org.tonewedge.core.tone.Printing;
import org.tonewedge.core.tone.RenderedPatch;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneDifference;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.core.tone.UsefulRange;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;

/**
 * What is said of films after their curves, beside a reference film: tables and charts of matching frames, printing
 * exposure, coloured patches, range, tone reproduction and grain.
 *
 * <pre>{@code
 * ToneReport report = ToneReport.builder(table.brackets(), "Ostwick Reference 125", "metered", "shadow")
 *         .curves(curvesByFilm)
 *         .paper("grade 2", paperCurve)
 *         .build();
 * report.tables();
 * report.writeFigures(directory);
 * }</pre>
 *
 * <p>Only sections whose data are there appear. What could not be determined is a dash in its table and a line in
 * {@link #notices()}.
 *
 * <p>Immutable and thread safe.
 */
public final class ToneReport {

    private static final double USUAL_REPEATABILITY = 0.01;
    private static final double GREY = 0.18;
    private static final Density GREY_PRINTS_TO = Density.of(0.75);
    private static final PrintTime REFERENCE_TIME = PrintTime.ofSeconds(10);
    private static final double SHADE_TOLERANCE = 0.04;
    private static final List<SubjectTone> TONES =
            IntStream.rangeClosed(-4, 3).mapToObj(SubjectTone::ofStops).toList();
    private static final String NONE = "\u2013";

    private final List<Bracket> brackets;
    private final Bracket reference;
    private final String referenceFrame;
    private final String shadow;
    private final Map<String, CharacteristicCurve> curves;
    private final String paperName;
    private final Optional<CharacteristicCurve> paper;
    private final List<PaperRange> papers;
    private final Map<String, Granularity> grain;
    private final Map<String, NoisePower> noise;
    private final double flare;
    private final PrintPictures pictures;

    private ToneReport(Builder builder) {
        brackets = builder.brackets;
        reference = brackets.get(0);
        referenceFrame = builder.referenceFrame;
        shadow = builder.shadow;
        curves = Map.copyOf(builder.curves);
        paperName = builder.paperName;
        paper = Optional.ofNullable(builder.paper);
        papers = List.copyOf(builder.papers);
        grain = Map.copyOf(builder.grain);
        noise = Map.copyOf(builder.noise);
        flare = builder.flare;
        pictures = builder.pictures;
    }

    /**
     * Begins a report on bracketed frames.
     *
     * @param brackets the series, that of the reference film among them
     * @param referenceFilm the label of the reference film
     * @param referenceFrame the label of the reference frame that the others are to match
     * @param shadow the label of the patch whose density is matched, read on every frame
     * @return a builder to which more data are added
     * @throws IllegalArgumentException if the film, the frame or the patch is not there
     */
    public static Builder builder(List<Bracket> brackets, String referenceFilm, String referenceFrame, String shadow) {
        return new Builder(brackets, referenceFilm, referenceFrame, shadow);
    }

    /** Collects the data of a report. Not thread safe. */
    public static final class Builder {

        private final List<Bracket> brackets;
        private final String referenceFrame;
        private final String shadow;
        private Map<String, CharacteristicCurve> curves = Map.of();
        private String paperName = "";
        private CharacteristicCurve paper;
        private List<PaperRange> papers = List.of();
        private Map<String, Granularity> grain = Map.of();
        private Map<String, NoisePower> noise = Map.of();
        private double flare;
        private PrintPictures pictures = PrintPictures.usual();

        private Builder(List<Bracket> all, String referenceFilm, String referenceFrame, String shadow) {
            Bracket reference = all.stream()
                    .filter(bracket -> bracket.film().equals(referenceFilm))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("there is no bracket on film '" + referenceFilm
                            + "'; there are "
                            + String.join(", ", all.stream().map(Bracket::film).toList())));
            reference.frame(referenceFrame);
            all.forEach(bracket -> bracket.stripOf(shadow));
            brackets = Stream.concat(Stream.of(reference), all.stream().filter(bracket -> bracket != reference))
                    .toList();
            this.referenceFrame = referenceFrame;
            this.shadow = shadow;
        }

        /**
         * Adds characteristic curves.
         *
         * @param byFilm the curve of each film by its label, developed as its frames were; films may be missing
         * @return this builder
         */
        public Builder curves(Map<String, CharacteristicCurve> byFilm) {
            curves = byFilm;
            return this;
        }

        /**
         * Adds a paper to print on; the reference film needs a curve too.
         *
         * @param label the paper in the printer's words
         * @param curve the curve of the paper
         * @return this builder
         * @throws IllegalArgumentException if the label is blank
         */
        public Builder paper(String label, CharacteristicCurve curve) {
            paperName = Checks.notBlank("label of a paper", label);
            paper = curve;
            return this;
        }

        /**
         * Adds papers to choose among.
         *
         * @param ranges the papers and their log exposure ranges
         * @return this builder
         */
        public Builder paperRanges(List<PaperRange> ranges) {
            papers = ranges;
            return this;
        }

        /**
         * Adds granularities.
         *
         * @param byFilm the granularity of each film by its label; films may be missing
         * @return this builder
         */
        public Builder granularities(Map<String, Granularity> byFilm) {
            grain = byFilm;
            return this;
        }

        /**
         * Adds noise powers, told beside granularities.
         *
         * @param byFilm the noise power of each film by its label; films may be missing
         * @return this builder
         */
        public Builder noisePowers(Map<String, NoisePower> byFilm) {
            noise = byFilm;
            return this;
        }

        /**
         * States camera flare.
         *
         * @param part the exposure by stray light as a part of that of the metered grey, from 0 to 1
         * @return this builder
         * @throws IllegalArgumentException if the part is out of range
         */
        public Builder flare(double part) {
            flare = Checks.within("flare", part, 0, 1, "give it as a part of the exposure of the metered grey");
            return this;
        }

        /** States what pictures of prints show. */
        Builder pictures(PrintPictures shown) {
            pictures = shown;
            return this;
        }

        /**
         * Makes the report.
         *
         * @return the report
         */
        public ToneReport build() {
            return new ToneReport(this);
        }
    }

    /**
     * Returns the tables.
     *
     * @return a table for each section whose data are there
     */
    public List<ReportTable> tables() {
        return new Findings().tables;
    }

    /** The tables for programs: the same figures as {@link #tables()}, unrounded. */
    List<DataTable> data() {
        return List.copyOf(new Findings().data);
    }

    /**
     * Returns what could not be determined.
     *
     * @return each figure with the reason and what to do; empty if all is there
     */
    public List<String> notices() {
        return List.copyOf(new Findings().notices);
    }

    /**
     * Draws the charts.
     *
     * @param files what writes them
     * @return the charts written
     * @throws IOException if a file cannot be written
     */
    public List<ReportFigure> writeFigures(ChartFiles files) throws IOException {
        Findings findings = new Findings();
        List<ReportFigure> figures = new ArrayList<>();
        if (!findings.renderings.isEmpty()) {
            files.write(PatchChart.of(List.copyOf(findings.renderings.values())), "patches");
            figures.add(new ReportFigure(
                    "patches",
                    "Coloured patches in monochrome",
                    "Stops lighter or darker than a neutral of the same reflectance; bars are expanded uncertainties"
                            + " (k = 2) from the repeatability of the readings."));
        }
        ToneReproduction referenceRoad = findings.roads.get(reference.film());
        int index = 0;
        for (Map.Entry<String, ToneReproduction> road : findings.roads.entrySet()) {
            if (referenceRoad != null && road.getValue() != referenceRoad) {
                String name = "tone-reproduction-" + ++index;
                files.write(
                        QuadrantChart.of(road.getKey(), road.getValue(), reference.film(), referenceRoad, paperName),
                        name);
                List<ReportFigure> own = new ArrayList<>();
                own.add(new ReportFigure(
                        name,
                        "From subject to print: " + road.getKey(),
                        "Four quadrants: camera, film, printing on the paper, and the reproduction. Thin lines follow"
                                + " three tones on " + road.getKey()
                                + ": three stops under the metered grey, the grey, and"
                                + " two stops over."));
                own.addAll(new Prints(reference.film(), referenceRoad, paperName, pictures, grain)
                        .write(road.getKey(), road.getValue(), findings.renderings, index, files));
                own.forEach(figure -> figures.add(figure.about(road.getKey())));
            }
        }
        return List.copyOf(figures);
    }

    /** Works all sections out, one after the other. */
    private final class Findings {

        private final List<ReportTable> tables = new ArrayList<>();
        private final List<DataTable> data = new ArrayList<>();
        /** Why a figure could not be determined, by what it is. */
        private final Map<String, String> reasons = new LinkedHashMap<>();

        private final Set<String> notices = new LinkedHashSet<>();
        private final Map<String, Frame> chosen = new LinkedHashMap<>();
        private final Map<String, PatchRendering> renderings = new LinkedHashMap<>();
        private final Map<String, ToneReproduction> roads = new LinkedHashMap<>();

        Findings() {
            matchShadows();
            printExposures();
            renderPatches();
            if (!curves.isEmpty()) {
                ranges();
            }
            if (!papers.isEmpty()) {
                choosePapers();
            }
            if (paper.isPresent() && curves.containsKey(reference.film())) {
                reproduceTones();
            }
            if (!grain.isEmpty()) {
                compareGrain();
            }
        }

        private void matchShadows() {
            List<List<String>> rows = new ArrayList<>();
            List<DataRow> plain = new ArrayList<>();
            for (Bracket bracket : brackets) {
                ShadowMatch onFrames = ShadowMatch.of(bracket, shadow, reference, referenceFrame);
                ShadowMatch match = Optional.ofNullable(curves.get(bracket.film()))
                        .map(onFrames::along)
                        .orElse(onFrames);
                chosen.put(bracket.film(), bracket == reference ? bracket.frame(referenceFrame) : match.frame());
                String framesInterval = bracket.film() + ", exact interval on the frames";
                Optional<Estimate> stopsOnFrames =
                        determined(framesInterval, () -> onFrames.stops(repeatability(bracket)));
                String curveInterval = bracket.film() + ", exact interval on the curve";
                Optional<Estimate> stopsOnCurve = match == onFrames
                        ? Optional.empty()
                        : determined(curveInterval, () -> match.stops(repeatability(bracket)));
                plain.add(new DataRow()
                        .text("film", bracket.film())
                        .text("frame", match.frame().label())
                        .number("frame_stops", match.frame().exposure().stops())
                        .number(
                                "shadow_density",
                                match.wanted().value() + match.residual().value())
                        .number("residual", match.residual().value())
                        .text("bracket_reaches", word(match.reach()))
                        .estimate("stops_on_frames", stopsOnFrames, why(framesInterval))
                        .estimate(
                                "stops_on_curve",
                                stopsOnCurve,
                                match == onFrames
                                        ? "there is no curve of the film; give a strip of it"
                                        : why(curveInterval)));
                rows.add(List.of(
                        bracket.film(),
                        match.frame().label(),
                        match.frame().exposure().toString(),
                        twoDecimals(match.wanted().value() + match.residual().value()),
                        Figures.signed(rounded(match.residual().value())),
                        switch (match.reach()) {
                            case ENCLOSED -> "yes";
                            case MORE_EXPOSURE_NEEDED -> "no: expose more";
                            case LESS_EXPOSURE_NEEDED -> "no: expose less";
                        },
                        stopsOnFrames.map(ToneReport::stops).orElse(NONE),
                        stopsOnCurve.map(ToneReport::stops).orElse(NONE)));
            }
            data.add(new DataTable("shadow-match", plain));
            tables.add(new ReportTable(
                    "shadow-match",
                    "Matching the shadow",
                    "The frame whose patch '" + shadow + "' is nearest the reference's frame '" + referenceFrame
                            + "', densities above base plus fog. Exact intervals are stops more exposure than the"
                            + " reference frame, with standard uncertainties.",
                    List.of(
                            "Film",
                            "Frame",
                            "Its exposure",
                            "Shadow density",
                            "Residual",
                            "Bracket reaches",
                            "Exact on frames, stops ± u (k = 1)",
                            "Exact on curve, stops ± u (k = 1)"),
                    rows));
        }

        private void printExposures() {
            List<List<String>> rows = new ArrayList<>();
            List<DataRow> plain = new ArrayList<>();
            Density referenceGrey = grey(reference).density();
            for (Bracket bracket : brackets) {
                ExposureInterval forBase = PrintExposure.forBasePlusFog(bracket.basePlusFog(), reference.basePlusFog());
                ExposureInterval forGrey =
                        PrintExposure.forDensity(grey(bracket).density(), referenceGrey);
                plain.add(new DataRow()
                        .text("film", bracket.film())
                        .number("base_fog", bracket.basePlusFog().value())
                        .number("base_fog_stops", forBase.stops())
                        .number("base_fog_factor", forBase.ratio())
                        .number(
                                "base_fog_seconds",
                                REFERENCE_TIME.changedBy(forBase).seconds())
                        .number("grey_density", grey(bracket).density().value())
                        .number("grey_stops", forGrey.stops())
                        .number("grey_factor", forGrey.ratio())
                        .number(
                                "grey_seconds",
                                REFERENCE_TIME.changedBy(forGrey).seconds()));
                rows.add(List.of(
                        bracket.film(),
                        twoDecimals(bracket.basePlusFog().value()),
                        forBase.toString(),
                        twoDecimals(forBase.ratio()),
                        REFERENCE_TIME.changedBy(forBase).toString(),
                        twoDecimals(grey(bracket).density().value()),
                        forGrey.toString(),
                        twoDecimals(forGrey.ratio()),
                        REFERENCE_TIME.changedBy(forGrey).toString()));
            }
            data.add(new DataTable("print-exposure", plain));
            tables.add(new ReportTable(
                    "print-exposure",
                    "Printing exposure",
                    "Change against the reference, so that unexposed film, or the patch '"
                            + grey(reference).patch().label() + "' of the matched frames, prints alike; times for "
                            + REFERENCE_TIME + " with the reference, on a paper that keeps reciprocity.",
                    List.of(
                            "Film",
                            "Base + fog",
                            "For base + fog",
                            "Factor",
                            "Time",
                            "Grey density",
                            "For the grey",
                            "Factor",
                            "Time"),
                    rows));
        }

        /** The neutral patch nearest to 18 % on the chosen frame. */
        private PatchReading grey(Bracket bracket) {
            return chosen.get(bracket.film()).neutrals().stream()
                    .min(Comparator.comparingDouble(reading ->
                            Math.abs(Math.log10(reading.patch().reflectance().orElseThrow() / GREY))))
                    .orElseGet(() -> chosen.get(bracket.film()).reading(shadow));
        }

        private void renderPatches() {
            for (Bracket bracket : brackets) {
                String frame = chosen.get(bracket.film()).label();
                CharacteristicCurve curve = curves.get(bracket.film());
                try {
                    PatchRendering rendering = curve == null || !curves.containsKey(reference.film())
                            ? PatchRendering.onFrame(bracket, frame, repeatability(bracket))
                            : PatchRendering.throughCurve(bracket, frame, curve, repeatability(bracket));
                    notices.addAll(rendering.refusals().values());
                    if (!rendering.patches().isEmpty()) {
                        renderings.put(bracket.film(), rendering);
                    }
                } catch (NotDeterminableException e) {
                    notices.add(e.getMessage());
                }
            }
            PatchRendering ofReference = renderings.get(reference.film());
            if (ofReference == null) {
                return;
            }
            List<List<String>> groups = new ArrayList<>();
            List<List<String>> patches = new ArrayList<>();
            List<DataRow> plainGroups = new ArrayList<>();
            List<DataRow> plainPatches = new ArrayList<>();
            Set<PatchGroup> present = EnumSet.noneOf(PatchGroup.class);
            renderings
                    .values()
                    .forEach(rendering -> present.addAll(rendering.groups().keySet()));
            renderings.forEach((film, rendering) -> {
                groups.add(groupRow(film, "from neutral", present, rendering.groups()));
                plainGroups.add(plainGroups(film, "neutral", present, rendering.groups()));
                if (rendering != ofReference) {
                    groups.add(groupRow(film, "from the reference", present, rendering.groupsAgainst(ofReference)));
                    plainGroups.add(plainGroups(film, "reference", present, rendering.groupsAgainst(ofReference)));
                }
                addPatchRows(patches, plainPatches, film, rendering, ofReference);
            });
            data.add(new DataTable("colour-groups", plainGroups));
            data.add(new DataTable("colour-patches", plainPatches));
            List<String> headings = new ArrayList<>(List.of("Film", "Stops lighter (k = 1)"));
            present.forEach(group -> headings.add(group.label()));
            tables.add(new ReportTable(
                    "colour-groups",
                    "Colours in monochrome, by group",
                    "Stops lighter (+) or darker (\u2212) than a neutral of the same reflectance on the matched frame, and"
                            + " than on the reference film, with standard uncertainties from the readings.",
                    headings,
                    groups));
            tables.add(new ReportTable(
                    "colour-patches",
                    "Colours in monochrome, by patch",
                    "As above. Alike means no more than the expanded uncertainty (k = 2).",
                    List.of(
                            "Film",
                            "Patch",
                            "Group",
                            "Reflectance",
                            "Density",
                            "From neutral, stops ± u (k = 1)",
                            "Shade",
                            "From the reference, stops ± u (k = 1)",
                            "Shade"),
                    patches));
        }

        private List<String> groupRow(
                String film, String what, Set<PatchGroup> present, Map<PatchGroup, Estimate> figures) {
            List<String> row = new ArrayList<>(List.of(film, what));
            present.forEach(group -> row.add(figures.containsKey(group) ? stops(figures.get(group)) : NONE));
            return row;
        }

        private static DataRow plainGroups(
                String film, String against, Set<PatchGroup> present, Map<PatchGroup, Estimate> figures) {
            DataRow row = new DataRow().text("film", film).text("against", against);
            present.forEach(group -> row.estimate(
                    word(group) + "_stops",
                    Optional.ofNullable(figures.get(group)),
                    "no patch of the group could be compared with the " + against));
            return row;
        }

        private void addPatchRows(
                List<List<String>> rows,
                List<DataRow> plain,
                String film,
                PatchRendering rendering,
                PatchRendering ofReference) {
            Map<String, PatchDifference> differences = new LinkedHashMap<>();
            if (rendering != ofReference) {
                rendering
                        .against(ofReference)
                        .forEach(
                                difference -> differences.put(difference.patch().label(), difference));
            }
            for (RenderedPatch patch : rendering.patches()) {
                Optional<PatchDifference> difference =
                        Optional.ofNullable(differences.get(patch.patch().label()));
                String none = rendering == ofReference
                        ? "this is the reference film"
                        : "the reference film has no figure for the patch";
                plain.add(new DataRow()
                        .text("film", film)
                        .text("patch", patch.patch().label())
                        .text("group", word(patch.patch().group()))
                        .number("reflectance", patch.patch().reflectance().orElseThrow())
                        .number("density", patch.density().value())
                        .estimate("stops_vs_neutral", Optional.of(patch.stops()), "")
                        .text("shade_vs_neutral", word(patch.shade()))
                        .estimate("stops_vs_reference", difference.map(PatchDifference::stops), none)
                        .text("shade_vs_reference", difference.map(found -> word(found.shade())), none));
                rows.add(List.of(
                        film,
                        patch.patch().label(),
                        patch.patch().group().label(),
                        twoDecimals(patch.patch().reflectance().orElseThrow()),
                        twoDecimals(patch.density().value()),
                        stops(patch.stops()),
                        word(patch.shade()),
                        difference.map(found -> stops(found.stops())).orElse(NONE),
                        difference.map(found -> word(found.shade())).orElse(NONE)));
            }
        }

        private void ranges() {
            List<List<String>> rows = new ArrayList<>();
            List<DataRow> plain = new ArrayList<>();
            for (Bracket bracket : brackets) {
                CharacteristicCurve curve = curves.get(bracket.film());
                if (curve == null) {
                    continue;
                }
                String film = bracket.film();
                Optional<UsefulRange> range = determined(film + ", useful range", () -> UsefulRange.of(curve));
                Optional<ExposureInterval> subject =
                        determined(film + ", range of the chart", () -> subjectRange(bracket, curve));
                // Where the useful range is at least so long, so are its density range and the latitude.
                String atLeast = range.filter(found -> found.completeness() == UsefulRange.Completeness.AT_LEAST)
                        .map(found -> "\u2265 ")
                        .orElse("");
                String noRange = why(film + ", useful range");
                String noSubject = why(film + ", range of the chart");
                plain.add(new DataRow()
                        .text("film", film)
                        .number(
                                "useful_range",
                                range.map(found -> found.logExposureRange().logUnits()),
                                noRange)
                        .number(
                                "useful_range_stops",
                                range.map(found -> found.logExposureRange().stops()),
                                noRange)
                        .number(
                                "density_range",
                                range.map(found -> found.densityRange().value()),
                                noRange)
                        .text("completeness", range.map(found -> word(found.completeness())), noRange)
                        .number("neutrals_range", subject.map(ExposureInterval::logUnits), noSubject)
                        .number(
                                "latitude_stops",
                                range.flatMap(found -> subject.map(found::latitude))
                                        .map(ExposureInterval::stops),
                                range.isEmpty() ? noRange : noSubject));
                rows.add(List.of(
                        film,
                        range.map(found -> atLeast
                                        + twoDecimals(found.logExposureRange().logUnits()))
                                .orElse(NONE),
                        range.map(found -> atLeast
                                        + oneDecimal(found.logExposureRange().stops()))
                                .orElse(NONE),
                        range.map(found -> atLeast
                                        + twoDecimals(found.densityRange().value()))
                                .orElse(NONE),
                        subject.map(found -> twoDecimals(found.logUnits())).orElse(NONE),
                        range.flatMap(found -> subject.map(found::latitude))
                                .map(found -> atLeast + oneDecimal(found.stops()))
                                .orElse(NONE)));
            }
            if (!plain.isEmpty()) {
                data.add(new DataTable("range-latitude", plain));
            }
            tables.add(new ReportTable(
                    "range-latitude",
                    "Range and latitude",
                    "Useful range from 0.10 above base plus fog to the end of the shoulder; \u2265 where the curve was not"
                            + " measured that far. The latitude is what the useful range leaves beside the image of the"
                            + " neutral patches.",
                    List.of(
                            "Film",
                            "Useful range, log units",
                            "in stops",
                            "Density range",
                            "Image of the neutrals, log units",
                            "Latitude, stops"),
                    rows));
        }

        private ExposureInterval subjectRange(Bracket bracket, CharacteristicCurve curve) {
            return exposure(bracket, curve, lightest(bracket)).minus(exposure(bracket, curve, darkest(bracket)));
        }

        private PatchReading darkest(Bracket bracket) {
            return byDensity(bracket).get(0);
        }

        private PatchReading lightest(Bracket bracket) {
            List<PatchReading> all = byDensity(bracket);
            return all.get(all.size() - 1);
        }

        private List<PatchReading> byDensity(Bracket bracket) {
            List<PatchReading> neutrals = chosen.get(bracket.film()).neutrals().stream()
                    .sorted(Comparator.comparing(PatchReading::density))
                    .toList();
            if (neutrals.isEmpty()) {
                throw new NotDeterminableException(bracket + " has no neutral patch of known reflectance");
            }
            return neutrals;
        }

        private LogExposure exposure(Bracket bracket, CharacteristicCurve curve, PatchReading reading) {
            return curve.pointAbove(reading.density().minus(bracket.basePlusFog()))
                    .logExposure();
        }

        private void choosePapers() {
            List<List<String>> rows = new ArrayList<>();
            List<DataRow> plain = new ArrayList<>();
            for (Bracket bracket : brackets) {
                String what = bracket.film() + ", paper";
                Optional<PaperChoice> chosenPaper = determined(
                        what,
                        () -> PaperChoice.among(
                                lightest(bracket)
                                        .density()
                                        .minus(darkest(bracket).density()),
                                papers));
                plain.add(new DataRow()
                        .text("film", bracket.film())
                        .number(
                                "density_range",
                                chosenPaper.map(choice -> choice.negativeRange().value()),
                                why(what))
                        .text("paper", chosenPaper.map(choice -> choice.paper().label()), why(what))
                        .number(
                                "paper_range",
                                chosenPaper.map(choice ->
                                        choice.paper().logExposureRange().logUnits()),
                                why(what))
                        .number(
                                "excess",
                                chosenPaper.map(choice -> choice.excess().value()),
                                why(what)));
                chosenPaper.ifPresent(choice -> rows.add(List.of(
                        bracket.film(),
                        twoDecimals(choice.negativeRange().value()),
                        choice.paper().label(),
                        twoDecimals(choice.paper().logExposureRange().logUnits()),
                        Figures.signed(rounded(choice.excess().value())))));
            }
            data.add(new DataTable("paper-choice", plain));
            tables.add(new ReportTable(
                    "paper-choice",
                    "Paper for the negative",
                    "The paper whose log exposure range is nearest the density range between the darkest and the lightest"
                            + " neutral of the matched frame. A positive excess prints the ends to pure white or black.",
                    List.of("Film", "Density range", "Paper", "Its range", "Excess"),
                    rows));
        }

        private void reproduceTones() {
            CharacteristicCurve onPaper = paper.orElseThrow();
            Optional<ToneReproduction> referenceRoad = determined(reference.film() + ", tone reproduction", () -> {
                CharacteristicCurve curve = curves.get(reference.film());
                CameraExposure camera = camera(reference, curve);
                Density grey = curve.densityAt(camera.exposureOf(SubjectTone.METERED));
                return ToneReproduction.of(camera, curve, Printing.matching(grey, onPaper, GREY_PRINTS_TO), onPaper);
            });
            if (referenceRoad.isEmpty()) {
                return;
            }
            ToneReproduction ofReference = referenceRoad.get();
            roads.put(reference.film(), ofReference);
            for (Bracket bracket : brackets) {
                CharacteristicCurve curve = curves.get(bracket.film());
                if (curve != null && bracket != reference) {
                    determined(
                                    bracket.film() + ", tone reproduction",
                                    () -> ToneReproduction.of(
                                            camera(bracket, curve),
                                            curve,
                                            ofReference
                                                    .printing()
                                                    .changedBy(PrintExposure.forBasePlusFog(
                                                            curve.basePlusFog(),
                                                            ofReference.film().basePlusFog())),
                                            onPaper))
                            .ifPresent(road -> roads.put(bracket.film(), road));
                }
            }
            tables.add(toneTable(ofReference));
            List<DataRow> plain = new ArrayList<>();
            roads.forEach((film, road) -> TONES.forEach(tone -> plain.add(plainTone(film, road, ofReference, tone))));
            data.add(new DataTable("tone-reproduction", plain));
        }

        private CameraExposure camera(Bracket bracket, CharacteristicCurve curve) {
            LogExposure grey = exposure(bracket, curve, grey(bracket));
            return CameraExposure.metered(grey.minus(ExposureInterval.ofRatio(1 + flare)))
                    .withFlare(flare);
        }

        private ReportTable toneTable(ToneReproduction ofReference) {
            List<String> headings = new ArrayList<>(List.of("Tone, stops from grey"));
            roads.forEach((film, road) -> {
                headings.add(film + ", print density");
                if (road != ofReference) {
                    headings.add("Difference");
                    headings.add("Prints");
                } else {
                    headings.add("Gradient");
                }
            });
            List<List<String>> rows = new ArrayList<>();
            for (SubjectTone tone : TONES) {
                List<String> row =
                        new ArrayList<>(List.of(Figures.signed(tone.stops()).replaceAll("\\.00$", "")));
                roads.forEach((film, road) -> addTone(row, film, road, ofReference, tone));
                rows.add(row);
            }
            return new ReportTable(
                    "tone-reproduction",
                    "From subject to print",
                    "The matched frames on " + paper.orElseThrow().name()
                            + ", the reference printed so that the grey has"
                            + " density " + Figures.plain(GREY_PRINTS_TO.value())
                            + ", the others with the change for base plus fog. Flare " + Figures.plain(flare)
                            + " of the exposure of the grey. The gradient is that of reproduction; prints are alike within "
                            + SHADE_TOLERANCE + ".",
                    headings,
                    rows);
        }

        private void addTone(
                List<String> row, String film, ToneReproduction road, ToneReproduction ofReference, SubjectTone tone) {
            String what = film + ", print of the tone " + tone;
            row.add(tried(what, () -> twoDecimals(road.tone(tone).printDensity().value())));
            if (road == ofReference) {
                row.add(tried(what, () -> twoDecimals(road.tone(tone).gradient().value())));
                return;
            }
            Optional<ToneDifference> difference = determined(
                    what, () -> road.against(ofReference, List.of(tone)).get(0));
            row.add(difference
                    .map(found -> Figures.signed(rounded(found.difference().value())))
                    .orElse(NONE));
            row.add(difference.map(found -> word(found.shade(SHADE_TOLERANCE))).orElse(NONE));
        }

        /** A tone of a film; what cannot be determined of it is among the notices by way of the table to read. */
        private static DataRow plainTone(
                String film, ToneReproduction road, ToneReproduction ofReference, SubjectTone tone) {
            DataRow row = new DataRow().text("film", film).number("tone_stops", tone.stops());
            plain(row, "print_density", () -> road.tone(tone).printDensity().value());
            plain(row, "gradient", () -> road.tone(tone).gradient().value());
            if (road == ofReference) {
                String own = "this is the reference film";
                return row.number("density_vs_reference", Optional.empty(), own)
                        .text("shade_vs_reference", Optional.empty(), own);
            }
            try {
                ToneDifference found = road.against(ofReference, List.of(tone)).get(0);
                return row.number("density_vs_reference", found.difference().value())
                        .text("shade_vs_reference", word(found.shade(SHADE_TOLERANCE)));
            } catch (NotDeterminableException e) {
                return row.number("density_vs_reference", Optional.empty(), e.getMessage())
                        .text("shade_vs_reference", Optional.empty(), e.getMessage());
            }
        }

        private static void plain(DataRow row, String column, Supplier<Double> figure) {
            try {
                row.number(column, figure.get());
            } catch (NotDeterminableException e) {
                row.number(column, Optional.empty(), e.getMessage());
            }
        }

        private void compareGrain() {
            Function<Granularity, Double> figure = found -> found.selwyn().value();
            OptionalDouble ofReference = Optional.ofNullable(grain.get(reference.film()))
                    .map(found -> OptionalDouble.of(figure.apply(found)))
                    .orElse(OptionalDouble.empty());
            List<List<String>> rows = new ArrayList<>();
            List<DataRow> plain = new ArrayList<>();
            for (Bracket bracket : brackets) {
                Granularity found = grain.get(bracket.film());
                if (found != null) {
                    DensityDifference above = found.meanDensity().minus(bracket.basePlusFog());
                    Optional<NoisePower> measured = Optional.ofNullable(noise.get(bracket.film()));
                    Optional<Estimate> power = measured.map(NoisePower::power);
                    plain.add(new DataRow()
                            .text("film", bracket.film())
                            .number("density_above_base_fog", above.value())
                            .number("aperture_micrometres", found.aperture())
                            .estimate("granularity_x1000", Optional.of(found.timesThousand()), "")
                            .number("selwyn_micrometres", figure.apply(found))
                            .number(
                                    "ratio_vs_reference",
                                    ofReference.isPresent()
                                            ? Optional.of(figure.apply(found) / ofReference.getAsDouble())
                                            : Optional.empty(),
                                    "there is no scan of the reference film")
                            .estimate("noise_power_square_micrometres", power, "the scan has too few pixels")
                            .number(
                                    "noise_power_to_cycles_per_millimetre",
                                    measured.map(NoisePower::highestFrequency),
                                    "the scan has too few pixels"));
                    rows.add(List.of(
                            bracket.film(),
                            twoDecimals(above.value()),
                            oneDecimal(found.aperture()),
                            oneDecimal(found.timesThousand().value()) + " ± "
                                    + oneDecimal(found.timesThousand().standardUncertainty()),
                            twoDecimals(figure.apply(found)),
                            ofReference.isPresent()
                                    ? twoDecimals(figure.apply(found) / ofReference.getAsDouble())
                                    : NONE,
                            power.map(of -> String.format(Locale.ROOT, "%.2g", of.value()))
                                    .orElse(NONE)));
                }
            }
            data.add(new DataTable("granularity", plain));
            tables.add(new ReportTable(
                    "granularity",
                    "Granularity",
                    "Root mean square deviation of density, times 1000, with its standard uncertainty; the Selwyn form"
                            + " \u03c3 \u221a(2A) does not depend on the aperture. The noise power is that of low frequencies, "
                            + ToneOptions.NOISE_SPAN
                            + "; where it is well above half the square of the Selwyn form, the scan has large-scale"
                            + " unevenness. Figures compare at like densities only; 1.0 above base plus fog is usual.",
                    List.of(
                            "Film",
                            "Density above base + fog",
                            "Aperture, µm",
                            "Granularity × 1000",
                            "σ √(2A), µm",
                            "Against the reference",
                            "Noise power, µm²"),
                    rows));
        }

        private double repeatability(Bracket bracket) {
            return bracket.repeatability().orElse(USUAL_REPEATABILITY);
        }

        /** What can be determined; else a notice. */
        private <T> Optional<T> determined(String what, Supplier<T> figure) {
            try {
                return Optional.of(figure.get());
            } catch (NotDeterminableException e) {
                notices.add(what + ": " + e.getMessage());
                reasons.put(what, e.getMessage());
                return Optional.empty();
            }
        }

        /** Why something was not {@link #determined}; empty if it was. */
        private String why(String what) {
            return reasons.getOrDefault(what, "");
        }

        private String tried(String what, Supplier<String> figure) {
            return determined(what, figure).orElse(NONE);
        }
    }

    private static String word(Object shade) {
        return shade.toString().toLowerCase(Locale.ROOT);
    }

    private static String stops(Estimate stops) {
        return Figures.signed(rounded(stops.value())) + " ± " + twoDecimals(stops.standardUncertainty());
    }

    private static double rounded(double value) {
        return Math.rint(value * 100) / 100;
    }

    private static String twoDecimals(double value) {
        return String.format(Locale.ROOT, "%.2f", value).replace('-', '\u2212');
    }

    private static String oneDecimal(double value) {
        return String.format(Locale.ROOT, "%.1f", value).replace('-', '\u2212');
    }
}
