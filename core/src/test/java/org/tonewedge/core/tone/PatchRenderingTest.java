// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.Repeatability;

class PatchRenderingTest {

    private static final double[] GREYS = {0.03, 0.09, 0.19, 0.36, 0.59, 0.90};
    private static final List<Patch> COLOURS = List.of(
            Patch.of("brick", PatchGroup.RED, 0.12),
            Patch.of("poppy", PatchGroup.RED, 0.20),
            Patch.of("sky", PatchGroup.BLUE, 0.25),
            Patch.of("leaf", PatchGroup.GREEN, 0.15));
    private static final double[] STOPS = {-0.8, -0.4, 0.5, 0};

    /** The film of the chart: log exposure is log reflectance less 1, a logistic curve. */
    private final CharacteristicCurve film = Brackets.logistic(0.20, 1.4, 2.2, -1.6, -4, 1);

    private Bracket chart(DoubleUnaryOperator density) {
        return Brackets.chart(0.20, density, GREYS, COLOURS, STOPS);
    }

    @Test
    void findsThroughTheCurveWhatWasPutIn() {
        PatchRendering rendering = PatchRendering.throughCurve(
                chart(logReflectance -> film.density(logReflectance - 1)), "metered", film, Repeatability.of(0.01));

        for (int i = 0; i < COLOURS.size(); i++) {
            assertEquals(STOPS[i], rendering.patches().get(i).stops().value(), 1e-9);
        }
        assertEquals(Shade.DARKER, rendering.patch("brick").shade());
        assertEquals(Shade.LIGHTER, rendering.patch("sky").shade());
        assertEquals(Shade.ALIKE, rendering.patch("leaf").shade());
        assertEquals(-0.6, rendering.groups().get(PatchGroup.RED).value(), 1e-9);
        assertEquals(
                List.of(PatchGroup.RED, PatchGroup.GREEN, PatchGroup.BLUE),
                List.copyOf(rendering.groups().keySet()));
        assertEquals(
                Math.log10(0.12) - 1 - 0.8 * Math.log10(2),
                rendering.patch("brick").effective().value(),
                1e-9);
    }

    @Test
    void comparesAboveEachBasePlusFog() {
        // The roll of the frames has 0.05 more base plus fog than the strip of the curve.
        Bracket chart =
                Brackets.chart(0.25, logReflectance -> 0.05 + film.density(logReflectance - 1), GREYS, COLOURS, STOPS);

        assertEquals(
                -0.8,
                PatchRendering.throughCurve(chart, "metered", film, Repeatability.of(0.01))
                        .patch("brick")
                        .stops()
                        .value(),
                1e-9);
    }

    @Test
    void findsOnTheFrameAloneWhatWasPutInOnAStraightLine() {
        PatchRendering rendering = PatchRendering.onFrame(
                chart(logReflectance -> 1.5 + 0.6 * logReflectance), "metered", Repeatability.of(0.01));

        for (int i = 0; i < COLOURS.size(); i++) {
            assertEquals(STOPS[i], rendering.patches().get(i).stops().value(), 1e-9);
        }
        assertEquals(
                Math.log10(0.25) + 0.5 * Math.log10(2),
                rendering.patch("sky").effective().value(),
                1e-9);
    }

    @Test
    void findsOnTheFrameAloneNearlyWhatWasPutInOnACurve() {
        PatchRendering rendering = PatchRendering.onFrame(
                chart(logReflectance -> film.density(logReflectance - 1)), "metered", Repeatability.of(0.01));

        // What is left is the error of a cubic through six greys, 0.04 stop at worst here.
        for (int i = 0; i < COLOURS.size(); i++) {
            assertEquals(STOPS[i], rendering.patches().get(i).stops().value(), 0.05);
        }
    }

    /** On a straight line of gradient g, one reading each: u² = s²/g² (1 + Σ w²), w the weights of interpolation. */
    @Test
    void propagatesTheRepeatability() {
        Bracket chart = Brackets.chart(
                0.2,
                logReflectance -> 1.5 + 0.6 * logReflectance,
                GREYS,
                List.of(Patch.of("on a grey", PatchGroup.RED, 0.36)),
                0);
        double expected = ExposureInterval.ofLogUnits(0.01 / 0.6 * Math.sqrt(2)).stops();

        assertEquals(
                expected,
                PatchRendering.throughCurve(chart, "metered", Brackets.line(0.2, 0.6, 0, 0, 4), Repeatability.of(0.01))
                        .patch("on a grey")
                        .stops()
                        .standardUncertainty(),
                1e-9);
        assertEquals(
                expected,
                PatchRendering.onFrame(chart, "metered", Repeatability.of(0.01))
                        .patch("on a grey")
                        .stops()
                        .standardUncertainty(),
                1e-6);
    }

    @Test
    @Tag("slow")
    void statedIntervalsHoldTheTruthAsOftenAsTheySay() {
        Bracket truth = chart(logReflectance -> film.density(logReflectance - 1));
        double repeatability = 0.01;
        Random random = new Random(4);
        int tries = 2000;
        int patchHeld = 0;
        int groupHeld = 0;
        for (int i = 0; i < tries; i++) {
            PatchRendering rendering = PatchRendering.throughCurve(
                    noisy(truth, repeatability, random), "metered", film, Repeatability.of(repeatability));
            patchHeld += holds(rendering.patch("sky").stops(), 0.5) ? 1 : 0;
            groupHeld += holds(rendering.groups().get(PatchGroup.RED), -0.6) ? 1 : 0;
        }
        // 95 % ± 3 standard deviations of a binomial of 2000 tries, about 1.5 %.
        assertEquals(0.95, patchHeld / (double) tries, 0.015);
        assertEquals(0.95, groupHeld / (double) tries, 0.015);
    }

    /**
     * A patch two stops darker than the grey of its reflectance, in the toe: an error of base plus fog shifts the patch by
     * 1/g and the grey by 1/G, so that u² = s² (1/g² + 1/G² + (1/g − 1/G)²) with one reading of each.
     */
    @Test
    @Tag("slow")
    void countsTheUncertaintyOfBasePlusFogWhereGradientsDiffer() {
        Bracket chart = Brackets.chart(
                0.20,
                logReflectance -> film.density(logReflectance - 1.5),
                GREYS,
                List.of(Patch.of("dark", PatchGroup.RED, 0.19)),
                -2);
        double repeatability = 0.003;
        double grey = Math.log10(0.19) - 1.5;
        double perGrey = 1 / film.gradient(grey);
        double perPatch = 1 / film.gradient(grey - 2 * Math.log10(2));
        double expected = ExposureInterval.ofLogUnits(
                        repeatability * Math.hypot(Math.hypot(perPatch, perGrey), perPatch - perGrey))
                .stops();
        Estimate found = PatchRendering.throughCurve(chart, "metered", film, Repeatability.of(repeatability))
                .patch("dark")
                .stops();
        assertEquals(expected, found.standardUncertainty(), 1e-6);

        Random random = new Random(4);
        int tries = 4000;
        int held = 0;
        for (int i = 0; i < tries; i++) {
            held += holds(
                            PatchRendering.throughCurve(
                                            noisy(chart, repeatability, random),
                                            "metered",
                                            film,
                                            Repeatability.of(repeatability))
                                    .patch("dark")
                                    .stops(),
                            -2)
                    ? 1
                    : 0;
        }
        // 95 % ± 3 standard deviations of a binomial of 4000 tries, about 1.0 %.
        assertEquals(0.95, held / (double) tries, 0.011, "share of intervals that hold the truth");
    }

    /**
     * On a line of gradient g a patch lies (D<sub>patch</sub> − D<sub>neutral</sub>)/g = L from the neutral, so an error of g
     * gives it L u(g)/g, and the mean of patches their mean L: in closed form.
     */
    @Test
    void countsTheErrorOfTheCurve() {
        double gradient = 0.6;
        double ofGradient = 0.03;
        Bracket chart = Brackets.chart(0.20, x -> 0.20 + gradient * (x + 2.5), GREYS, COLOURS, STOPS);
        FigureEstimator ofCurve = figure -> Estimate.of(
                figure.applyAsDouble(Brackets.line(0.20, gradient, -2.5, -4, 4)),
                Math.abs(figure.applyAsDouble(Brackets.line(0.20, gradient + 1e-6, -2.5, -4, 4))
                                - figure.applyAsDouble(Brackets.line(0.20, gradient - 1e-6, -2.5, -4, 4)))
                        / 2e-6
                        * ofGradient,
                9);
        CharacteristicCurve line = Brackets.line(0.20, gradient, -2.5, -4, 4);
        Repeatability repeatability = Repeatability.of(0.004);
        PatchRendering exact = PatchRendering.throughCurve(chart, "metered", line, repeatability);
        PatchRendering counted = PatchRendering.throughCurve(chart, "metered", line, ofCurve, repeatability);

        Estimate brick = counted.patch("brick").stops();
        double fromReadings = exact.patch("brick").stops().standardUncertainty();
        double fromCurve = 0.8 * ofGradient / gradient;
        assertEquals(-0.8, brick.value(), 1e-9);
        assertEquals(Math.hypot(fromReadings, fromCurve), brick.standardUncertainty(), 1e-6);
        // Welch and Satterthwaite, JCGM 100:2008, G.4.1: a stated repeatability, nine degrees of freedom for the curve.
        assertEquals(9 * Math.pow(brick.standardUncertainty() / fromCurve, 4), brick.degreesOfFreedom(), 1e-3);
        assertEquals(
                Math.hypot(exact.groups().get(PatchGroup.RED).standardUncertainty(), 0.6 * ofGradient / gradient),
                counted.groups().get(PatchGroup.RED).standardUncertainty(),
                1e-6);
    }

    @Test
    void refusesAPatchWhoseErrorByTheCurveIsNotKnown() {
        FigureEstimator unknown = figure -> {
            throw new NotDeterminableException("the readings do not determine it");
        };

        PatchRendering rendering = PatchRendering.throughCurve(
                chart(logReflectance -> film.density(logReflectance - 1)),
                "metered",
                film,
                unknown,
                Repeatability.of(0.01));

        assertEquals(List.of(), rendering.patches());
        assertEquals("the readings do not determine it", rendering.refusals().get(COLOURS.get(0)));
    }

    /** Brick and poppy are each uncertain by the curve by 0.1 stop: their mean by no more. */
    @Test
    void boundsTheErrorByTheCurveOfAGroupByThoseOfItsPatches() {
        FigureEstimator ofPatches = figure -> {
            double value = figure.applyAsDouble(film);
            if (Math.abs(value + 0.6) < 1e-9) {
                throw new NotDeterminableException("the readings do not determine the mean");
            }
            return Estimate.of(value, 0.1);
        };
        Bracket chart = chart(logReflectance -> film.density(logReflectance - 1));
        Repeatability repeatability = Repeatability.of(0.01);

        Estimate red = PatchRendering.throughCurve(chart, "metered", film, ofPatches, repeatability)
                .groups()
                .get(PatchGroup.RED);

        double exact = PatchRendering.throughCurve(chart, "metered", film, repeatability)
                .groups()
                .get(PatchGroup.RED)
                .standardUncertainty();
        assertEquals(Math.hypot(exact, 0.1), red.standardUncertainty(), 1e-12);
    }

    /**
     * On a line of gradient g each of three patches, read once, has u(D)/g of its own. Between two neutrals they are compared
     * with means of those, by the way between them: 1/2 and 1/2 for brick, 1/4 and 3/4 for poppy and sea. Base plus fog cancels.
     */
    @Test
    void countsSharedNeutralsOnceInGroupsAndPairs() {
        double gradient = 0.6;
        double s = 0.01;
        double half = 0.09 * Math.sqrt(10);
        double quarters = 0.09 * Math.pow(10, 0.75);
        Bracket chart = Brackets.chart(
                0.20,
                x -> 0.20 + gradient * (x + 2.5),
                new double[] {0.009, 0.09, 0.9},
                List.of(
                        Patch.of("brick", PatchGroup.RED, half),
                        Patch.of("poppy", PatchGroup.RED, quarters),
                        Patch.of("sea", PatchGroup.CYAN, quarters)),
                0,
                0,
                0);

        PatchRendering rendering = PatchRendering.throughCurve(
                chart, "metered", Brackets.line(0.20, gradient, -2.5, -4, 4), Repeatability.of(s));

        double red = Math.sqrt(1 / 2.0 + 0.375 * 0.375 + 0.625 * 0.625);
        assertEquals(
                s * red / gradient / Math.log10(2),
                rendering.groups().get(PatchGroup.RED).standardUncertainty(),
                1e-9);
        double difference = Math.sqrt(1 / 2.0 + 1 + 2 * 0.125 * 0.125);
        PatchRendering.ComplementaryPair pair = PatchRendering.ComplementaryPair.ALL.get(0);
        assertEquals(
                s * difference / gradient / Math.log10(2),
                rendering.pairs().get(pair).standardUncertainty(),
                1e-9);
        assertTrue(rendering
                .records()
                .contains(ResultRecord.ofEstimate(
                        "pair.red.cyan", rendering.pairs().get(pair), "stops")));
    }

    /**
     * A cubic whose slopes are the means of both secants weighs four points of equal distance, at the fraction t between
     * the inner two, by (−t³ + 2t² − t)/2, (3t³ − 5t² + 2)/2, (−3t³ + 4t² + t)/2 and (t³ − t²)/2: E. Catmull and R. Rom, A
     * class of local interpolating splines (1974) (from memory; the Hermite form gives the same).
     */
    @Test
    void countsTheNeutralsOnTheFrameAsTheCubicWeighsThem() {
        double gradient = 0.6;
        double s = 0.004;
        double t = 0.3;
        Bracket chart = Brackets.chart(
                0.20,
                x -> 0.20 + gradient * (x + 2.5),
                new double[] {0.01, 0.02, 0.04, 0.08, 0.16, 0.32},
                List.of(Patch.of("brick", PatchGroup.RED, 0.04 * Math.pow(2, t))),
                0);

        Estimate brick = PatchRendering.onFrame(chart, "metered", Repeatability.of(s))
                .patch("brick")
                .stops();

        double[] weights = {
            (-t * t * t + 2 * t * t - t) / 2,
            (3 * t * t * t - 5 * t * t + 2) / 2,
            (-3 * t * t * t + 4 * t * t + t) / 2,
            (t * t * t - t * t) / 2
        };
        double squares = Arrays.stream(weights).map(weight -> weight * weight).sum();
        assertEquals(0, brick.value(), 1e-9);
        assertEquals(s * Math.sqrt(1 + squares) / gradient / Math.log10(2), brick.standardUncertainty(), 1e-7);
    }

    private static boolean holds(Estimate estimate, double truth) {
        return Math.abs(estimate.value() - truth) <= estimate.expandedUncertainty(1.96);
    }

    private static Bracket noisy(Bracket bracket, double deviation, Random random) {
        List<Frame> frames = new ArrayList<>();
        for (Frame frame : bracket.frames()) {
            frames.add(new Frame(
                    frame.label(),
                    frame.exposure(),
                    frame.readings().stream()
                            .map(reading -> PatchReading.of(
                                    reading.patch(), reading.density().value() + deviation * random.nextGaussian()))
                            .toList()));
        }
        List<Density> basePlusFog = bracket.basePlusFogReadings().stream()
                .map(density -> Density.of(density.value() + deviation * random.nextGaussian()))
                .toList();
        return Bracket.of(bracket.film(), basePlusFog, frames);
    }

    @Test
    void comparesWithTheReferenceFilm() {
        Bracket other = Brackets.chart(
                0.20, logReflectance -> film.density(logReflectance - 1), GREYS, COLOURS, -0.3, -0.4, 0.2, 0);
        PatchRendering rendering = PatchRendering.throughCurve(
                chart(logReflectance -> film.density(logReflectance - 1)), "metered", film, Repeatability.of(0.01));
        PatchRendering reference = PatchRendering.throughCurve(other, "metered", film, Repeatability.of(0.01));

        List<PatchDifference> differences = rendering.against(reference);

        assertEquals(-0.5, differences.get(0).stops().value(), 1e-9);
        assertEquals(Shade.DARKER, differences.get(0).shade());
        assertEquals(
                Math.hypot(
                        rendering.patch("brick").stops().standardUncertainty(),
                        reference.patch("brick").stops().standardUncertainty()),
                differences.get(0).stops().standardUncertainty(),
                1e-12);
        assertEquals(Shade.ALIKE, differences.get(1).shade());
        Map<PatchGroup, Estimate> groups = rendering.groupsAgainst(reference);
        assertEquals(-0.25, groups.get(PatchGroup.RED).value(), 1e-9);
        assertEquals(0.3, groups.get(PatchGroup.BLUE).value(), 1e-9);
        rendering
                .against(rendering)
                .forEach(difference -> assertEquals(0, difference.stops().value(), 0));
    }

    @Test
    void namesPatchesThatCannotBeJudgedAndJudgesTheRest() {
        List<Patch> colours = List.of(
                Patch.of("brick", PatchGroup.RED, 0.12),
                Patch.of("soot", PatchGroup.OTHER, 0.01),
                Patch.of("lamp", PatchGroup.YELLOW, 1.1));
        Bracket chart = Brackets.chart(0.2, x -> film.density(x - 1), GREYS, colours, -0.8, 0, 0);
        PatchRendering rendering = PatchRendering.throughCurve(chart, "metered", film, Repeatability.of(0.01));

        assertEquals(1, rendering.patches().size());
        assertEquals(2, rendering.refusals().size());
        String soot = rendering.refusals().get(colours.get(1));
        assertTrue(rendering.records().contains(ResultRecord.ofMissing("patch.2.stops", "stops", soot)));
        assertTrue(soot.contains("'soot'") && soot.contains("outside the neutral scale"), soot);
        assertTrue(assertThrows(IllegalArgumentException.class, () -> rendering.patch("lamp"))
                .getMessage()
                .contains("'lamp'"));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> rendering.patch("moss"))
                .getMessage()
                .contains("brick"));
    }

    @Test
    void needsAReflectanceAndANeutralScale() {
        Bracket shadows = Brackets.shadows("Quay", 0.2, 3, 1, stops -> 0.3);

        assertThrows(
                NotDeterminableException.class,
                () -> PatchRendering.throughCurve(shadows, "f1", film, Repeatability.of(0.01)));
        assertThrows(
                NotDeterminableException.class, () -> PatchRendering.onFrame(shadows, "f1", Repeatability.of(0.01)));
    }

    @Test
    void findsNoCommonPatchWithAnotherChart() {
        PatchRendering one = PatchRendering.onFrame(chart(x -> 1.5 + 0.6 * x), "metered", Repeatability.of(0.01));
        PatchRendering two = PatchRendering.onFrame(
                Brackets.chart(0.2, x -> 1.5 + 0.6 * x, GREYS, List.of(Patch.of("rust", PatchGroup.RED, 0.1)), 0),
                "metered",
                Repeatability.of(0.01));

        assertThrows(IllegalArgumentException.class, () -> one.against(two));
        assertThrows(IllegalArgumentException.class, () -> one.groupsAgainst(two));
    }

    private static final List<Patch> OPPOSITES = List.of(
            Patch.of("poppy", PatchGroup.RED, 0.20),
            Patch.of("sea", PatchGroup.CYAN, 0.22),
            Patch.of("sky", PatchGroup.BLUE, 0.25),
            Patch.of("lemon", PatchGroup.YELLOW, 0.50));

    private PatchRendering opposites(double red, double cyan, double blue, double yellow) {
        Bracket chart = Brackets.chart(
                0.20, logReflectance -> film.density(logReflectance - 1), GREYS, OPPOSITES, new double[] {
                    red, cyan, blue, yellow
                });
        return PatchRendering.throughCurve(chart, "metered", film, Repeatability.of(0.01));
    }

    @Test
    void complementaryColoursAreSetAgainstEachOther() {
        PatchRendering rendering = opposites(0.6, -0.3, 0.1, 0.1);
        Map<PatchRendering.ComplementaryPair, Estimate> pairs = rendering.pairs();
        Estimate red = pairs.get(new PatchRendering.ComplementaryPair(PatchGroup.RED, PatchGroup.CYAN));
        assertEquals(0.9, red.value(), 1e-9);
        assertEquals(2, pairs.size(), "no magenta was read");
        // The two readings alone, at the gradient there, are what is left: each 0.01 over the gradient.
        double low = film.gradient(rendering.patch("sea").effective().value());
        double high = film.gradient(rendering.patch("poppy").effective().value());
        double own = Math.hypot(0.01 / low, 0.01 / high) / Math.log10(2);
        assertEquals(own, red.standardUncertainty(), 0.1 * own);
        PatchRendering reference = opposites(0, 0, 0.1, 0.1);
        List<String> findings = rendering.findingsAgainst(reference);
        assertEquals(1, findings.size(), findings.toString());
        assertTrue(findings.get(0).contains("renders red lighter against cyan than"), findings.get(0));
        assertTrue(findings.get(0).contains("by 0.9 ± 0."), findings.get(0));
        assertEquals(List.of(), reference.findingsAgainst(opposites(0, 0, 0.1, 0.1)));
    }

    /** Readings that are all but exact leave what interpolation between the neutrals may be off. */
    @Test
    void interpolationCountsOnTheFrame() {
        PatchRendering rendering = PatchRendering.onFrame(
                chart(logReflectance -> film.density(logReflectance - 1)), "metered", Repeatability.of(1e-9));
        for (Patch patch : COLOURS) {
            double u = rendering.patch(patch.label()).stops().standardUncertainty();
            assertTrue(u > 1e-5, () -> patch.label() + " " + u);
        }
    }

    /** The mean of four readings has half the uncertainty of one (JCGM 100:2008, 4.2.3), along a curve and on the frame. */
    @Test
    void fourReadingsHalveTheUncertainty() {
        Bracket once = chart(logReflectance -> film.density(logReflectance - 1));
        Bracket fourTimes = Brackets.readTimes(once, 4);
        CharacteristicCurve higher = Brackets.logistic(0.25, 1.4, 2.2, -1.6, -4, 1);
        for (Patch patch : COLOURS) {
            assertEquals(
                    PatchRendering.throughCurve(once, "metered", higher, Repeatability.of(0.01))
                                    .patch(patch.label())
                                    .stops()
                                    .standardUncertainty()
                            / 2,
                    PatchRendering.throughCurve(fourTimes, "metered", higher, Repeatability.of(0.01))
                            .patch(patch.label())
                            .stops()
                            .standardUncertainty(),
                    1e-12);
            // On the frame, interpolation adds a part that more readings do not lessen.
            assertEquals(
                    PatchRendering.onFrame(once, "metered", Repeatability.of(0.01))
                            .patch(patch.label())
                            .stops()
                            .standardUncertainty(),
                    PatchRendering.onFrame(fourTimes, "metered", Repeatability.of(0.02))
                            .patch(patch.label())
                            .stops()
                            .standardUncertainty(),
                    1e-9);
        }
    }

    @Test
    void theRecordsNameEveryPatchAndGroup() {
        PatchRendering rendering = PatchRendering.throughCurve(
                chart(logReflectance -> film.density(logReflectance - 1)), "metered", film, Repeatability.of(0.01));
        List<ResultRecord> records = rendering.records();

        RenderedPatch first = rendering.patches().get(0);
        assertTrue(records.contains(ResultRecord.ofText("patch.1", first.patch().label())));
        assertTrue(records.contains(ResultRecord.ofEstimate("patch.1.stops", first.stops(), "stops")));
        rendering
                .groups()
                .forEach((group, mean) -> assertTrue(
                        records.contains(ResultRecord.ofEstimate(
                                "group." + group.name().toLowerCase(Locale.ROOT), mean, "stops")),
                        group::label));
        assertEquals(
                records.size(),
                records.stream().map(ResultRecord::name).distinct().count());
    }
}
