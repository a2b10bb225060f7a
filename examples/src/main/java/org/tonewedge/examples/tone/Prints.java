// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.RenderedPatch;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.ReportFigure;

/** What the prints would show, film beside reference: a grey scale, the patches, and a scene. */
final class Prints {

    private static final int DARKEST_STOPS = -5;
    private static final int LIGHTEST_STOPS = 4;
    private static final double LOG_UNITS_PER_STOP = Math.log10(2);

    private final String reference;
    private final ToneReproduction referenceRoad;
    private final String paper;
    private final PrintPictures pictures;
    private final Map<String, Granularity> grain;

    Prints(
            String reference,
            ToneReproduction referenceRoad,
            String paper,
            PrintPictures pictures,
            Map<String, Granularity> grain) {
        this.reference = reference;
        this.referenceRoad = referenceRoad;
        this.paper = paper;
        this.pictures = pictures;
        this.grain = grain;
    }

    /** Writes the prints of a film beside those of the reference. */
    List<ReportFigure> write(
            String film, ToneReproduction road, Map<String, PatchRendering> renderings, int index, ChartFiles files)
            throws IOException {
        PrintTone own = new PrintTone(road);
        PrintTone others = new PrintTone(referenceRoad);
        List<ReportFigure> figures = new ArrayList<>();
        String scale = "print-scale-" + index;
        files.write(scale(film, own, others), scale);
        figures.add(new ReportFigure(
                scale,
                "Prints side by side: " + film,
                "A grey scale from " + -DARKEST_STOPS + " stops under the metered grey to " + LIGHTEST_STOPS
                        + " over it, as " + paper
                        + " prints it from both films at matched shadow density; the numbers are"
                        + " print densities."));
        if (renderings.containsKey(film) && renderings.containsKey(reference)) {
            String patches = "print-patches-" + index;
            files.write(patches(film, road, renderings), patches);
            figures.add(new ReportFigure(
                    patches,
                    "",
                    "The patches of the chart as printed: densities read on the frames, taken through the printing and the"
                            + " curve of the paper."));
        }
        if (!files.formats().contains(ChartFiles.Format.PNG)) {
            return figures;
        }
        List<ScenePicture.Print> prints = List.of(
                print(reference, others, referenceRoad, renderings, 0), print(film, own, road, renderings, index));
        ScenePicture scene = new ScenePicture(pictures.scene(), pictures.viewingFlare(), prints);
        String picture = "print-scene-" + index + ".png";
        files.writeGrey(scene.width(), scene.height(), scene.codes(), picture);
        figures.add(new ReportFigure(picture, "", sceneCaption(film, scene, prints)));
        return figures;
    }

    private ScenePicture.Print print(
            String film, PrintTone tone, ToneReproduction road, Map<String, PatchRendering> renderings, long seed) {
        ColourResponse colours = Optional.ofNullable(renderings.get(film))
                .map(rendering -> new ColourResponse(rendering.groups()))
                .orElse(ColourResponse.NEUTRAL);
        double base = road.film().basePlusFog().value();
        Optional<Grain> simulated = Optional.ofNullable(grain.get(film))
                .filter(measured -> pictures.enlargement().isPresent())
                .filter(measured -> measured.meanDensity().value() > base)
                .map(measured ->
                        new Grain(measured, base, pictures.enlargement().getAsDouble(), seed));
        return new ScenePicture.Print(tone, colours, simulated);
    }

    private String sceneCaption(String film, ScenePicture scene, List<ScenePicture.Print> prints) {
        List<String> said = new ArrayList<>();
        Scene subject = pictures.scene();
        said.add((subject.name().isEmpty() ? "An invented scene" : subject.name()) + " as printed from " + reference
                + " (left) and from " + film + " (right).");
        said.add(colours(subject, prints));
        said.add(grain(film, prints));
        said.add(
                pictures.viewingFlare() == 0
                        ? "No light reflected by the surface of the print; a density of 0 is the white of the screen."
                        : "The surface of the print reflects " + number(pictures.viewingFlare())
                                + " of a perfect white; a density of 0 is the white of the screen.");
        said.add("No unsharpness.");
        if (subject.black() > 0) {
            said.add(subject.black() + " of its pixels are black in the file, darker than it can tell.");
        }
        said.add(
                scene.unmeasuredPart() == 0
                        ? "All its tones lie within the readings."
                        : String.format(
                                Locale.ROOT,
                                "%.1f %% of it lies beyond the readings and is drawn as the nearest tone measured.",
                                100 * scene.unmeasuredPart()));
        return String.join(" ", said);
    }

    private static String colours(Scene subject, List<ScenePicture.Print> prints) {
        if (!subject.isColoured()) {
            return "Grey, so that spectral response plays no part.";
        }
        String how =
                "Colours expose the films as luminance does, shifted by what the coloured patches of their hue show,"
                        + " in proportion to saturation";
        return prints.stream().allMatch(print -> print.colours().isKnown())
                ? how + "."
                : how + "; a film without readings of coloured patches sees luminance alone.";
    }

    private String grain(String film, List<ScenePicture.Print> prints) {
        if (pictures.enlargement().isEmpty()) {
            return "No grain.";
        }
        List<String> of = new ArrayList<>();
        for (int i = 0; i < prints.size(); i++) {
            String name = i == 0 ? reference : film;
            of.add(prints.get(i)
                    .grain()
                    .map(simulated -> String.format(
                            Locale.ROOT,
                            "%s from a granularity × 1000 of %.1f through %s µm",
                            name,
                            grain.get(name).timesThousand().value(),
                            number(grain.get(name).aperture())))
                    .orElse(name + " without grain, because there is no scan of an exposed area"));
        }
        return "Simulated grain at " + number(pictures.enlargement().getAsDouble())
                + " times enlargement, where a pixel is 0.1 mm of the print: " + String.join(", ", of)
                + "; random, the same in every run.";
    }

    /** A number that the user gave, as it was given. */
    private static String number(double given) {
        return Double.toString(given).replaceAll("\\.0$", "");
    }

    private Chart scale(String film, PrintTone own, PrintTone others) {
        List<String> stops = IntStream.rangeClosed(DARKEST_STOPS, LIGHTEST_STOPS)
                .mapToObj(stop -> stop == 0 ? "metered" : (stop > 0 ? "+" : "\u2212") + Math.abs(stop))
                .toList();
        PrintSwatches swatches =
                new PrintSwatches(List.of(reference, film), stops, List.of(densities(others), densities(own)));
        return new Chart("Grey scale as printed", "stops from the metered grey; print densities", swatches, List.of());
    }

    private static List<OptionalDouble> densities(PrintTone print) {
        return IntStream.rangeClosed(DARKEST_STOPS, LIGHTEST_STOPS)
                .mapToDouble(stop -> stop * LOG_UNITS_PER_STOP)
                .mapToObj(tone ->
                        print.isMeasured(tone) ? OptionalDouble.of(print.density(tone)) : OptionalDouble.empty())
                .toList();
    }

    private Chart patches(String film, ToneReproduction road, Map<String, PatchRendering> renderings) {
        List<Patch> patches = renderings.get(reference).patches().stream()
                .map(RenderedPatch::patch)
                .filter(patch -> renderings.get(film).patches().stream()
                        .anyMatch(other -> other.patch().equals(patch)))
                .toList();
        PrintSwatches swatches = new PrintSwatches(
                List.of(reference, film),
                patches.stream().map(Patch::label).toList(),
                List.of(
                        densities(patches, renderings.get(reference), referenceRoad),
                        densities(patches, renderings.get(film), road)));
        return new Chart("Patches as printed", "print densities", swatches, List.of());
    }

    private static List<OptionalDouble> densities(
            List<Patch> patches, PatchRendering rendering, ToneReproduction road) {
        return patches.stream()
                .map(patch -> rendering.patch(patch.label()))
                .map(patch -> printed(patch, road))
                .toList();
    }

    private static OptionalDouble printed(RenderedPatch patch, ToneReproduction road) {
        try {
            return OptionalDouble.of(road.paper()
                    .densityAt(road.printing().exposureUnder(patch.density()))
                    .value());
        } catch (NotDeterminableException e) {
            return OptionalDouble.empty();
        }
    }
}
