// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;
import org.tonewedge.fitting.parametric.StripFit;

/**
 * How often 95 % intervals hold the truth: of the stops by which a film renders coloured patches lighter, alone, as groups, as
 * complementary pairs and against a reference film, and of the exposure that matches the shadow of the reference.
 *
 * <p>Each case invents two films, a strip of 21 steps of each, and frames a third of a stop apart with six neutral and nine
 * coloured patches. All are read with errors of 0.01: the steps once, base plus fog three times, each patch as often as stated.
 *
 * <p>Run with the number of cases and of readings, such as {@code 3000 2}, and perhaps how much less all frames are exposed, in
 * log units, such as {@code 3000 2 0.6}.
 */
public final class ToneSimulation {

    private static final double NOISE = 0.01;
    private static final Repeatability KNOWN = Repeatability.of(NOISE);
    private static final ExposureAxis AXIS = ExposureAxis.LUX_SECONDS;
    private static final String METERED = "0";
    private static final double[] NEUTRALS = {0.028, 0.09, 0.18, 0.36, 0.61, 0.88};
    private static final double[] COLOURS = {0.11, 0.16, 0.14, 0.28, 0.07, 0.26, 0.20, 0.19, 0.48};
    private static final List<PatchGroup> GROUPS = List.of(
            PatchGroup.RED,
            PatchGroup.RED,
            PatchGroup.GREEN,
            PatchGroup.GREEN,
            PatchGroup.BLUE,
            PatchGroup.BLUE,
            PatchGroup.CYAN,
            PatchGroup.MAGENTA,
            PatchGroup.YELLOW);

    private final Random random;
    private final int readings;
    private final double less;
    private final DoubleSummaryStatistics shadowDensities = new DoubleSummaryStatistics();
    private final Map<String, Tally> tallies = new LinkedHashMap<>();

    ToneSimulation(long seed, int readings) {
        this(seed, readings, 0);
    }

    ToneSimulation(long seed, int readings, double less) {
        random = new Random(seed);
        this.readings = readings;
        this.less = less;
    }

    /** What became of one kind of figure. */
    private static final class Tally {

        private int cases;
        private int held;
        private int refused;
        private double squaredErrors;
        private double variances;

        void add(Estimate found, double truth) {
            cases++;
            held += found.interval(0.95).contains(truth) ? 1 : 0;
            squaredErrors += (found.value() - truth) * (found.value() - truth);
            variances += found.standardUncertainty() * found.standardUncertainty();
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%5.1f %% of %6d, off %.3f, u %.3f stop, refused %d",
                    100.0 * held / cases,
                    cases,
                    Math.sqrt(squaredErrors / cases),
                    Math.sqrt(variances / cases),
                    refused);
        }
    }

    /** A film whose curve and colours are known. */
    private final class Film {

        private final ParametricForm form;
        private final double base = between(0.1, 0.35);
        private final double toe = between(-2.3, -1.8);
        /** How much lighter each colour is rendered than a neutral of the same reflectance, in log units. */
        private final double[] lighter =
                random.doubles(COLOURS.length, -0.25, 0.25).toArray();

        Film() {
            form = CurveFamily.TOE_SHOULDER.form(
                    base, between(0.45, 0.95), toe, between(0.10, 0.25), toe + between(1.7, 2.3), between(0.10, 0.25));
        }

        private double between(double least, double most) {
            return least + (most - least) * random.nextDouble();
        }

        private double[] read(double density, int times) {
            return DoubleStream.generate(() -> density + NOISE * random.nextGaussian())
                    .limit(times)
                    .toArray();
        }

        Strip strip() {
            Strip.Builder strip = Strip.builder("strip").basePlusFog(read(base, 3));
            for (int i = 0; i < 21; i++) {
                double x = toe - 0.9 + 0.15 * i;
                strip.reading(new LogExposure(x, AXIS), Density.of(read(form.density(x), 1)[0]));
            }
            return strip.build();
        }

        CharacteristicCurve curve() {
            return CharacteristicCurve.of(
                    "truth",
                    form,
                    new LogExposure(toe - 0.9, AXIS),
                    new LogExposure(toe + 2.1, AXIS),
                    Density.of(base));
        }

        /** The log exposure of a neutral on the metered frame. */
        double exposure(double reflectance) {
            return toe + 1.0 - less + Math.log10(reflectance / 0.18);
        }

        Bracket frames() {
            List<Frame> frames = new ArrayList<>();
            for (int thirds = -4; thirds <= 4; thirds++) {
                ExposureInterval more = ExposureInterval.ofStops(thirds / 3.0);
                List<PatchReading> patches = new ArrayList<>();
                for (double neutral : NEUTRALS) {
                    patches.add(patch(Patch.of("grey " + neutral, PatchGroup.NEUTRAL, neutral), more.logUnits()));
                }
                for (int i = 0; i < COLOURS.length; i++) {
                    patches.add(patch(Patch.of("" + i, GROUPS.get(i), COLOURS[i]), more.logUnits() + lighter[i]));
                }
                frames.add(new Frame("" + thirds, more, patches));
            }
            return Bracket.of(
                    "film", DoubleStream.of(read(base, 3)).mapToObj(Density::of).toList(), frames);
        }

        private PatchReading patch(Patch patch, double more) {
            double x = exposure(patch.reflectance().orElseThrow()) + more;
            return PatchReading.of(patch, read(form.density(x), readings));
        }

        double stops(int colour) {
            return ExposureInterval.ofLogUnits(lighter[colour]).stops();
        }

        double stops(PatchGroup group) {
            return IntStream.range(0, COLOURS.length)
                    .filter(i -> GROUPS.get(i) == group)
                    .mapToDouble(this::stops)
                    .average()
                    .orElseThrow();
        }
    }

    /** How a rendering is made. */
    @FunctionalInterface
    private interface Way {
        PatchRendering of(Bracket frames, CharacteristicCurve truth, Strip strip, StripFit fit);
    }

    private static final Map<String, Way> WAYS = new LinkedHashMap<>();

    static {
        WAYS.put(
                "along the true curve",
                (frames, truth, strip, fit) -> PatchRendering.throughCurve(frames, METERED, truth, KNOWN));
        WAYS.put(
                "along a fit",
                (frames, truth, strip, fit) ->
                        PatchRendering.throughCurve(frames, METERED, fit.curve(), fit::estimate, KNOWN));
        WAYS.put(
                "along a fit as if exact",
                (frames, truth, strip, fit) -> PatchRendering.throughCurve(frames, METERED, fit.curve(), KNOWN));
        WAYS.put(
                "through readings as if exact",
                (frames, truth, strip, fit) ->
                        PatchRendering.throughCurve(frames, METERED, CharacteristicCurve.through(strip), KNOWN));
        WAYS.put("on the frame", (frames, truth, strip, fit) -> PatchRendering.onFrame(frames, METERED, KNOWN));
    }

    /** Runs so many cases. */
    void run(int cases) {
        for (int i = 0; i < cases; i++) {
            Film film = new Film();
            Film reference = new Film();
            Bracket frames = film.frames();
            Bracket ofReference = reference.frames();
            Strip strip = film.strip();
            Strip referenceStrip = reference.strip();
            StripFit fit = StripFit.of(strip, KNOWN);
            StripFit referenceFit = StripFit.of(referenceStrip, KNOWN);
            WAYS.forEach((name, way) -> {
                try {
                    PatchRendering own = way.of(frames, film.curve(), strip, fit);
                    PatchRendering other = way.of(ofReference, reference.curve(), referenceStrip, referenceFit);
                    patches(name, film, reference, own, other);
                } catch (NotDeterminableException e) {
                    tally(name + ": films").refused++;
                }
            });
            shadows(film, reference, frames, ofReference, fit);
        }
    }

    private Tally tally(String figure) {
        return tallies.computeIfAbsent(figure, any -> new Tally());
    }

    private void patches(String way, Film film, Film reference, PatchRendering own, PatchRendering other) {
        tally(way + ": patches").refused += own.refusals().size();
        own.patches()
                .forEach(patch -> tally(way + ": patches")
                        .add(
                                patch.stops(),
                                film.stops(Integer.parseInt(patch.patch().label()))));
        if (!own.refusals().isEmpty() || !other.refusals().isEmpty()) {
            return; // the truth of a group is that of all its patches
        }
        own.groups().forEach((group, stops) -> tally(way + ": groups").add(stops, film.stops(group)));
        own.pairs()
                .forEach((pair, stops) ->
                        tally(way + ": pairs").add(stops, film.stops(pair.one()) - film.stops(pair.other())));
        own.groupsAgainst(other)
                .forEach((group, stops) -> tally(way + ": groups against the reference")
                        .add(stops, film.stops(group) - reference.stops(group)));
    }

    private void shadows(Film film, Film reference, Bracket frames, Bracket ofReference, StripFit fit) {
        double wanted = reference.form.density(reference.exposure(NEUTRALS[0])) - reference.base;
        shadowDensities.accept(wanted);
        double truth = ExposureInterval.ofLogUnits(
                        film.form.logExposure(film.base + wanted) - film.exposure(NEUTRALS[0]))
                .stops();
        ShadowMatch match = ShadowMatch.of(frames, "grey " + NEUTRALS[0], ofReference, METERED);
        Map<String, ShadowMatch> ways = new LinkedHashMap<>();
        ways.put("shadow on frames", match);
        ways.put("shadow along the true curve", match.along(film.curve()));
        ways.put("shadow along a fit", match.along(fit.curve(), fit::estimate));
        ways.forEach((name, way) -> {
            try {
                tally(name).add(way.stops(KNOWN), truth);
            } catch (NotDeterminableException e) {
                tally(name).refused++;
            }
        });
    }

    /** The share of 95 % intervals that hold the truth. */
    double coverage(String figure) {
        Tally tally = tally(figure);
        return (double) tally.held / tally.cases;
    }

    /**
     * Prints a line for each figure: coverage and number of intervals, root mean squares of errors and of stated
     * uncertainties, and how many were refused; at last the densities of the shadows.
     *
     * @param args the number of cases, the readings of each patch, and the log units of less exposure
     */
    public static void main(String[] args) {
        ToneSimulation simulation =
                new ToneSimulation(1, Integer.parseInt(args[1]), args.length > 2 ? Double.parseDouble(args[2]) : 0);
        simulation.run(Integer.parseInt(args[0]));
        simulation.tallies.forEach((figure, tally) -> System.out.printf("%-60s %s%n", figure, tally));
        DoubleSummaryStatistics shadows = simulation.shadowDensities;
        System.out.printf(
                Locale.ROOT,
                "shadows %.2f to %.2f above base plus fog, mean %.2f%n",
                shadows.getMin(),
                shadows.getMax(),
                shadows.getAverage());
    }
}
