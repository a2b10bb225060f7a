// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.NoisePower;
import org.tonewedge.core.tone.PaperRange;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.standards.density.CallierFactor;

/**
 * What is said of films after their curves, beside a reference film: tables and charts of matching frames, printing
 * exposure, coloured patches, range, tone reproduction and grain.
 *
 * <pre>{@code
 * ToneReport report = ToneReport.builder(table.brackets(), "Ostwick Reference 125", "metered", "shadow").
 *         curves(curvesByFilm).
 *         paper("grade 2", paperCurve).
 *         build();
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

    private static final String LEFT_OUT = "; until then the film is left out";

    private final String referenceFilm;
    private final String paperName;
    private final List<Section> sections;
    private final List<String> notices;
    private final List<String> cautions;
    private final Map<String, PatchRendering> renderings;
    private final Map<String, ToneReproduction> roads;
    private final Map<String, Granularity> grain;
    private final PrintPictures pictures;

    /** Works all sections out, one after the other. */
    private ToneReport(Builder builder) {
        Notices found = new Notices();
        found.addAll(builder.leftOut);
        MatchedFrames frames = new MatchedFrames(
                builder.brackets, builder.shadow, builder.referenceFrame, Map.copyOf(builder.curves), found);
        referenceFilm = frames.reference().film();
        paperName = builder.paperName;
        grain = Map.copyOf(builder.grain);
        pictures = builder.pictures;
        PrintExposures exposures = new PrintExposures(frames, Optional.ofNullable(builder.callier), found);
        cautions = Stream.concat(frames.doubts().stream(), exposures.cautions().stream())
                .toList();
        List<Section> made = new ArrayList<>(List.of(frames.section(), exposures.section()));
        PatchRenderings patches = new PatchRenderings(frames, found);
        made.addAll(patches.sections());
        renderings = patches.byFilm();
        if (frames.brackets().stream().anyMatch(bracket -> frames.curve(bracket).isPresent())) {
            made.add(Latitudes.section(frames, found));
        }
        if (!builder.papers.isEmpty()) {
            made.add(PaperChoices.section(frames, builder.papers, found));
        }
        if (builder.paper == null) {
            roads = Map.of();
        } else {
            Reproductions reproductions = new Reproductions(frames, builder.paper, builder.flare, found);
            reproductions.section().ifPresent(made::add);
            roads = reproductions.byFilm();
        }
        if (!grain.isEmpty()) {
            made.add(Grains.section(frames, grain, builder.noise));
        }
        sections = List.copyOf(made);
        notices = found.all();
    }

    /**
     * Begins a report on bracketed frames.
     *
     * @param brackets the series, that of the reference film among them
     * @param referenceFilm the label of the reference film
     * @param referenceFrame the label of the reference frame that the others are to match
     * @param shadow the label of the patch whose density is matched; a film that lacks it on a frame is left out, with a
     *     {@linkplain #notices() notice}
     * @return a builder to which more data are added
     * @throws IllegalArgumentException if the reference film, its frame or the patch on it is not there
     */
    public static Builder builder(List<Bracket> brackets, String referenceFilm, String referenceFrame, String shadow) {
        return new Builder(brackets, referenceFilm, referenceFrame, shadow);
    }

    /** Collects the data of a report. Not thread safe. */
    public static final class Builder {

        private final List<Bracket> brackets;
        private final String referenceFrame;
        private final String shadow;
        private final List<String> leftOut = new ArrayList<>();
        private Map<String, FilmCurve> curves = Map.of();
        private String paperName = "";
        private CharacteristicCurve paper;
        private List<PaperRange> papers = List.of();
        private Map<String, Granularity> grain = Map.of();
        private Map<String, NoisePower> noise = Map.of();
        private CallierFactor callier;
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
            reference.stripOf(shadow);
            brackets = Stream.concat(
                            Stream.of(reference),
                            all.stream()
                                    .filter(bracket -> !bracket.equals(reference))
                                    .filter(bracket -> hasOnEveryFrame(bracket, shadow)))
                    .toList();
            this.referenceFrame = referenceFrame;
            this.shadow = shadow;
        }

        /** Whether a film can be matched; if not, it is left out and the others are compared. */
        private boolean hasOnEveryFrame(Bracket bracket, String patch) {
            try {
                bracket.stripOf(patch);
                return true;
            } catch (IllegalArgumentException e) {
                leftOut.add(bracket + ": " + e.getMessage() + LEFT_OUT);
                return false;
            }
        }

        /**
         * Adds films that are not compared, to be told with what could not be determined.
         *
         * @param reasons why, with what to do
         * @return this builder
         */
        public Builder leftOut(Collection<String> reasons) {
            reasons.forEach(reason -> leftOut.add(reason + LEFT_OUT));
            return this;
        }

        /**
         * Adds characteristic curves.
         *
         * @param byFilm the curve of each film by its label, developed as its frames were; films may be missing
         * @return this builder
         */
        public Builder curves(Map<String, FilmCurve> byFilm) {
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
            flare = Checks.within("flare", part, 0, 1, "give it as a fraction of the exposure of the metered grey");
            return this;
        }

        /** States that an enlarger with a condenser prints, which sees diffuse densities denser. */
        Builder callier(CallierFactor factor) {
            callier = factor;
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
        return sections.stream().map(Section::page).toList();
    }

    /** Writes the tables for programs as CSV into a directory: the same figures as {@link #tables()}, unrounded. */
    void writeTables(Path directory) throws IOException {
        for (Section section : sections) {
            section.writeCsv(directory);
        }
    }

    /**
     * Returns what could not be determined.
     *
     * @return each figure with the reason and what to do; empty if all is there
     */
    public List<String> notices() {
        return notices;
    }

    /**
     * Returns what to mind in using the figures.
     *
     * @return what the page says too; empty if there is nothing
     */
    public List<String> cautions() {
        return cautions;
    }

    /**
     * Draws the charts.
     *
     * @param files what writes them
     * @return the charts written
     * @throws IOException if a file cannot be written
     */
    public List<ReportFigure> writeFigures(ChartFiles files) throws IOException {
        List<ReportFigure> figures = new ArrayList<>();
        if (!renderings.isEmpty()) {
            files.write(PatchChart.of(List.copyOf(renderings.values())), "patches");
            figures.add(new ReportFigure(
                    "patches",
                    "Coloured patches in monochrome",
                    "Stops lighter or darker than a neutral of the same reflectance; bars are expanded uncertainties"
                            + " (k = 2), twice those in the tables."));
        }
        ToneReproduction referenceRoad = roads.get(referenceFilm);
        int index = 0;
        for (Map.Entry<String, ToneReproduction> road : roads.entrySet()) {
            if (referenceRoad != null && !road.getValue().equals(referenceRoad)) {
                String name = "tone-reproduction-" + ++index;
                files.write(
                        QuadrantChart.of(road.getKey(), road.getValue(), referenceFilm, referenceRoad, paperName),
                        name);
                List<ReportFigure> own = new ArrayList<>();
                own.add(new ReportFigure(
                                name,
                                "From subject to print: " + road.getKey(),
                                "Four quadrants: camera, film, printing on the paper, and the reproduction. Thin lines follow"
                                        + " three tones on " + road.getKey()
                                        + ": three stops under the metered grey, the grey, and"
                                        + " two stops over.")
                        .tall());
                own.addAll(new Prints(referenceFilm, referenceRoad, paperName, pictures, grain)
                        .write(road.getKey(), road.getValue(), renderings, index, files));
                own.forEach(figure -> figures.add(figure.about(road.getKey())));
            }
        }
        return List.copyOf(figures);
    }
}
