// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.comparison.DemoStrips;

/**
 * Makes demo readings of bracketed frames on three of the demo films, and of a paper. No film, paper, chart or place in
 * them exists; the densities come from the curves of the demo strips and from a formula, with seeded noise.
 */
public final class DemoFrames {

    private static final long SEED = 20_260_201;
    private static final double NOISE = 0.004;
    private static final int REPEATS = 2;
    private static final double GREY = 0.18;

    private static final List<Patch> CHART = List.of(
            Patch.of("shadow", PatchGroup.NEUTRAL, 0.028),
            Patch.of("slate", PatchGroup.NEUTRAL, 0.09),
            Patch.of("grey", PatchGroup.NEUTRAL, GREY),
            Patch.of("ash", PatchGroup.NEUTRAL, 0.36),
            Patch.of("linen", PatchGroup.NEUTRAL, 0.61),
            Patch.of("chalk", PatchGroup.NEUTRAL, 0.88),
            Patch.of("brick", PatchGroup.RED, 0.11),
            Patch.of("poppy", PatchGroup.RED, 0.16),
            Patch.of("moss", PatchGroup.GREEN, 0.14),
            Patch.of("apple", PatchGroup.GREEN, 0.28),
            Patch.of("ink", PatchGroup.BLUE, 0.07),
            Patch.of("sky", PatchGroup.BLUE, 0.26),
            Patch.of("teal", PatchGroup.CYAN, 0.20),
            Patch.of("foxglove", PatchGroup.MAGENTA, 0.19),
            Patch.of("straw", PatchGroup.YELLOW, 0.58),
            Patch.of("hand", PatchGroup.SKIN, 0.34));

    /** The demo strips whose films were taken into the camera, the reference first, and what they make of colours. */
    private static final Map<String, Map<PatchGroup, Double>> FILMS = Map.of(
            "R00", response(-0.25, 0.05, 0.20, 0.15, -0.05, 0.00, -0.05),
            "S02", response(0.30, -0.05, 0.10, -0.05, 0.20, 0.05, 0.20),
            "S03", response(-1.60, 0.25, 0.75, 0.50, -0.30, -0.45, -0.60));

    /** How much denser base plus fog is in blue than to the eye: one of the films has a tinted base. */
    private static final Map<String, Double> TINT = Map.of("R00", 0.01, "S02", 0.00, "S03", 0.13);

    private DemoFrames() {}

    /** Stops lighter than a neutral of the same reflectance, by group. */
    private static Map<PatchGroup, Double> response(
            double red, double green, double blue, double cyan, double magenta, double yellow, double skin) {
        Map<PatchGroup, Double> response = new EnumMap<>(PatchGroup.class);
        response.put(PatchGroup.NEUTRAL, 0.0);
        response.put(PatchGroup.RED, red);
        response.put(PatchGroup.GREEN, green);
        response.put(PatchGroup.BLUE, blue);
        response.put(PatchGroup.CYAN, cyan);
        response.put(PatchGroup.MAGENTA, magenta);
        response.put(PatchGroup.YELLOW, yellow);
        response.put(PatchGroup.SKIN, skin);
        return response;
    }

    /**
     * Returns bracketed frames of the demo chart on three demo films: nine frames a third of a stop apart, metered for the
     * speed on the box, each patch read twice; base plus fog to the eye and in blue.
     *
     * @return one series for each film, the reference first
     */
    public static List<Bracket> brackets() {
        Random random = new Random(SEED);
        return DemoStrips.strips().stream()
                .filter(strip -> FILMS.containsKey(strip.id()))
                .map(strip -> bracket(strip, random))
                .toList();
    }

    private static Bracket bracket(Strip strip, Random random) {
        CharacteristicCurve curve = CharacteristicCurve.through(strip);
        // A meter places the grey at 8/S lux seconds.
        double grey = Math.log10(8 / strip.boxSpeed().orElseThrow());
        Map<PatchGroup, Double> response = FILMS.get(strip.id());
        List<Frame> frames = new ArrayList<>();
        for (int third = -4; third <= 4; third++) {
            ExposureInterval exposure = ExposureInterval.ofStops(third / 3.0);
            List<PatchReading> readings = new ArrayList<>();
            for (Patch patch : CHART) {
                double logExposure = grey
                        + exposure.logUnits()
                        + Math.log10(patch.reflectance().orElseThrow() / GREY)
                        + ExposureInterval.ofStops(response.get(patch.group())).logUnits();
                readings.add(PatchReading.of(patch, repeats(curve.density(logExposure), random)));
            }
            frames.add(new Frame(label(third), exposure, readings));
        }
        double base = curve.basePlusFog().value();
        return Bracket.of(strip.film(), basePlusFog(base, random), frames)
                .with(SpectralResponse.VISUAL)
                .with(TransmissionGeometry.DIFFUSE)
                .withBasePlusFog(
                        SpectralResponse.STATUS_M_BLUE,
                        basePlusFog(
                                base + TINT.get(strip.id()),
                                new Random(SEED + strip.id().hashCode())));
    }

    private static List<Density> basePlusFog(double base, Random random) {
        return Stream.generate(() -> Density.of(reading(base, random))).limit(3).toList();
    }

    private static double[] repeats(double density, Random random) {
        return IntStream.range(0, REPEATS)
                .mapToDouble(i -> reading(density, random))
                .toArray();
    }

    /**
     * Returns a paper strip of densities from 0.06 to 2.06, with a log exposure range by ISO 6846 of 1.38.
     *
     * @return the strip, on an axis of lux seconds
     */
    public static Strip paper() {
        Strip.Builder paper = Strip.builder("P2").film("Saltmarsh grade 2").basePlusFog(0.06, 0.06);
        for (int i = 0; i <= 30; i++) {
            double logExposure = rounded(-0.6 + 0.1 * i);
            double density = 0.06 + 2.0 / (1 + Math.exp(-4.4 * (logExposure - 0.75)));
            // Without noise, which would make the flat ends turn back.
            paper.reading(LogExposure.ofLogLuxSeconds(logExposure), Density.of(rounded(density)));
        }
        return paper.build();
    }

    /** A label such as {@code +2/3}, in plain characters. */
    private static String label(int third) {
        if (third == 0) {
            return "metered";
        }
        int whole = Math.abs(third) / 3;
        int part = Math.abs(third) % 3;
        return (third > 0 ? "+" : "-")
                + (whole > 0 ? whole : "")
                + (whole > 0 && part > 0 ? " " : "")
                + (part > 0 ? part + "/3" : "");
    }

    /** A reading of a densitometer with three decimals. */
    private static double reading(double density, Random random) {
        return rounded(density + NOISE * random.nextGaussian());
    }

    private static double rounded(double value) {
        return Math.rint(value * 1000) / 1000;
    }

    /**
     * Writes the demo readings.
     *
     * @param args the directory for {@code frames.csv} and {@code paper.csv}
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] args) throws IOException {
        Path directory = Files.createDirectories(Path.of(args[0]));
        try (Writer writer = Files.newBufferedWriter(directory.resolve("frames.csv"), StandardCharsets.UTF_8)) {
            BracketTable.write(brackets(), writer);
        }
        try (Writer writer = Files.newBufferedWriter(directory.resolve("paper.csv"), StandardCharsets.UTF_8)) {
            ReadingsTable.write(List.of(paper()), writer);
        }
    }
}
