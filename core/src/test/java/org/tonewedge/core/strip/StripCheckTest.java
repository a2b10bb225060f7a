// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

class StripCheckTest {

    private static Strip strip(double... densities) {
        Strip.Builder strip = Strip.builder("S3").basePlusFog(0.20);
        for (int i = 0; i < densities.length; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(-3 + 0.5 * i), Density.of(densities[i]));
        }
        return strip.build();
    }

    private static List<StripFinding.Kind> kinds(Strip strip) {
        return StripCheck.withDefaults().check(strip).stream()
                .map(StripFinding::kind)
                .toList();
    }

    @Test
    void aGoodStripAndSmallNoiseGiveNoFinding() {
        assertEquals(List.of(), kinds(strip(0.21, 0.19, 0.22, 0.45, 0.90, 1.4)));
    }

    @Test
    void dustIsFoundWhereTheDensityFalls() {
        List<StripFinding> found = StripCheck.withDefaults().check(strip(0.20, 0.30, 0.95, 0.80, 1.10));
        assertEquals(1, found.size());
        assertEquals(StripFinding.Kind.DENSITY_FALLS, found.get(0).kind());
        assertEquals(-1.5, found.get(0).exposure().value());
        assertTrue(found.get(0).message().contains("'S3'")
                && found.get(0).message().contains("D 0.95"));
    }

    @Test
    void aStripReadBackwardsIsToldAsOne() {
        assertEquals(List.of(StripFinding.Kind.DENSITIES_REVERSED), kinds(strip(1.5, 1.1, 0.7, 0.4, 0.25)));
    }

    @Test
    void stepsBelowBasePlusFogAreFound() {
        assertEquals(List.of(StripFinding.Kind.BELOW_BASE_PLUS_FOG), kinds(strip(0.10, 0.30, 0.50, 0.80)));
    }

    /** A step whose exposure was left empty counts as base plus fog. */
    @Test
    void basePlusFogReadingsThatDisagreeAreFound() {
        Strip strip = Strip.builder("S5")
                .basePlusFog(0.238, 0.243, 0.298)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.25))
                .reading(LogExposure.ofLogLuxSeconds(-1.6), Density.of(0.5))
                .build();
        List<StripFinding> found = StripCheck.withDefaults().check(strip);
        assertEquals(1, found.size(), found::toString);
        assertEquals(StripFinding.Kind.BASE_PLUS_FOG_DISAGREES, found.get(0).kind());
        assertTrue(found.get(0).message().contains("D 0.298"), found.get(0).message());
    }

    @Test
    void repeatsThatDisagreeAreFound() {
        Strip strip = Strip.builder("S4")
                .basePlusFog(0.2)
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.6))
                .build();
        assertEquals(List.of(StripFinding.Kind.REPEATS_DISAGREE), kinds(strip));
        assertEquals(List.of(), StripCheck.withDefaults().withTolerance(0.2).check(strip));
    }

    private static Strip spaced(double spacing, double... densities) {
        Strip.Builder strip = Strip.builder("S5").basePlusFog(0.20);
        for (int i = 0; i < densities.length; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(-3 + spacing * i), Density.of(densities[i]));
        }
        return strip.build();
    }

    @Test
    void aSoftStripInFineStepsReadBackwardsIsFoundToo() {
        double[] densities = new double[31];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 0.20 + 0.03 * (30 - i); // no step falls by more than the tolerance
        }
        assertEquals(List.of(StripFinding.Kind.DENSITIES_REVERSED), kinds(spaced(0.1, densities)));
    }

    @Test
    void aSlowFallAfterTheMaximumIsFoundOnce() {
        assertEquals(
                List.of(StripFinding.Kind.DENSITY_FALLS),
                kinds(spaced(0.1, 0.20, 0.40, 0.70, 1.00, 0.97, 0.93, 0.89, 0.85)));
    }

    @Test
    void aLevelToeThatContradictsBasePlusFogIsFound() {
        assertEquals(List.of(StripFinding.Kind.LEVEL_ABOVE_BASE_PLUS_FOG), kinds(spaced(0.15, 0.26, 0.26, 0.27, 0.50)));
        assertEquals(List.of(), kinds(spaced(0.15, 0.21, 0.22, 0.24, 0.50)));
    }

    @Test
    void crowdedAndDistantStepsAreFound() {
        assertEquals(
                List.of(StripFinding.Kind.STEPS_TOO_CLOSE, StripFinding.Kind.STEPS_TOO_CLOSE),
                kinds(spaced(0.001, 0.20, 0.21, 0.22)));
        assertEquals(
                List.of(StripFinding.Kind.STEPS_TOO_FAR_APART, StripFinding.Kind.STEPS_TOO_FAR_APART),
                kinds(spaced(0.7, 0.20, 0.50, 0.90)));
    }

    /** A line of gradient 0.6 against log H, its exposures entered in stops. */
    private static double[] inStops(double stop, double gradient) {
        double[] densities = new double[9];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 0.2 + gradient * Math.log10(2) * stop * i;
        }
        return densities;
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 0.5, 1 / 3.0})
    void stopsTakenForLogarithmsAreFoundOnce(double stop) {
        Strip strip = spaced(stop, inStops(stop, 0.6));
        List<StripFinding> found = StripCheck.withDefaults().check(strip);
        assertEquals(List.of(StripFinding.Kind.EXPOSURES_IN_STOPS), kinds(strip));
        assertEquals(-3, found.get(0).exposure().value());
        // 0.6 log10 2 = 0.18
        assertTrue(found.get(0).message().contains("no more than 0.18 per unit; are these stops?"), found::toString);
    }

    @Test
    void thirdsOfAStopMayBeRounded() {
        double[] exposures = {-1, -0.7, -0.3, 0, 0.3, 0.7, 1, 1.3, 1.7};
        assertEquals(List.of(StripFinding.Kind.EXPOSURES_IN_STOPS), kinds(at(exposures, inStops(1 / 3.0, 0.6))));
    }

    /** Steps of a tablet, and film of ordinary contrast at whatever steps, are right. */
    @ParameterizedTest
    @CsvSource({"0.3, 0.2", "0.15, 0.2", "0.1, 0.2", "0.30103, 0.2", "0.3333333, 0.5", "0.5, 0.5", "1, 0.5", "0.5, 0.01"
    })
    void logarithmsAreNotTakenForStops(double gap, double gradient) {
        double[] densities = new double[9];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 0.2 + gradient * gap * i;
        }
        assertFalse(kinds(spaced(gap, densities)).contains(StripFinding.Kind.EXPOSURES_IN_STOPS));
    }

    /** Over two of these steps density rises by 0.34 per unit, over one by 0.5. */
    @Test
    void wholeLogUnitsBeyondToeAndShoulderAreNotTakenForStops() {
        assertFalse(kinds(spaced(1, 0.20, 0.22, 0.72, 0.90, 0.92)).contains(StripFinding.Kind.EXPOSURES_IN_STOPS));
    }

    @Test
    void whatManyStepsHaveInCommonIsToldOnce() {
        Strip.Builder twice = Strip.builder("S7").basePlusFog(0.20);
        Strip.Builder pieces = Strip.builder("S8").basePlusFog(0.20);
        for (int i = 0; i < 12; i++) {
            for (int piece = 0; piece < 2; piece++) {
                Density density = Density.of(0.2 + 0.09 * i + 0.06 * piece);
                twice.reading(LogExposure.ofLogLuxSeconds(-3 + 0.15 * i + 0.005 * piece), density);
                pieces.reading(LogExposure.ofLogLuxSeconds(-3 + 0.15 * i), density);
            }
        }
        List<StripFinding> close = StripCheck.withDefaults().check(twice.build());
        assertFinding(true, StripFinding.Kind.STEPS_TOO_CLOSE, close);
        assertTrue(
                close.get(0).message().endsWith("So at 11 more steps: was the strip entered twice?"), close::toString);
        List<StripFinding> repeats = StripCheck.withDefaults().check(pieces.build());
        assertFinding(true, StripFinding.Kind.REPEATS_DISAGREE, repeats);
        assertEquals(-3, repeats.get(0).exposure().value());
        assertTrue(repeats.get(0).message().contains("So at 11 more steps: are these two pieces"), repeats::toString);
        assertEquals(1, repeats.size());
    }

    private static Strip at(double[] exposures, double... densities) {
        Strip.Builder strip = Strip.builder("S6").basePlusFog(0.20);
        for (int i = 0; i < exposures.length; i++) {
            strip.reading(LogExposure.ofLogLuxSeconds(exposures[i]), Density.of(densities[i % densities.length]));
        }
        return strip.build();
    }

    /** Eleven stops from 0.002 lx s, entered as they are. */
    @Test
    void luxSecondsEnteredAsLogarithmsAreToldOnce() {
        double[] exposures = new double[11];
        double[] densities = new double[11];
        for (int i = 0; i < exposures.length; i++) {
            exposures[i] = 0.002 * Math.pow(2, i);
            densities[i] = 0.2 + 0.12 * i;
        }
        List<StripFinding> found = StripCheck.withDefaults().check(at(exposures, densities));
        assertEquals(1, found.size(), found::toString);
        assertEquals(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS, found.get(0).kind());
        assertTrue(
                found.get(0).message().contains("are these exposures, not their logarithms?"),
                found.get(0).message());
    }

    /** The same stops of a reversal material, whose density falls. */
    @Test
    void luxSecondsOfAReversalMaterialAreToldToo() {
        double[] exposures = new double[11];
        double[] densities = new double[11];
        for (int i = 0; i < exposures.length; i++) {
            exposures[i] = 0.002 * Math.pow(2, i);
            densities[i] = 1.6 - 0.12 * i;
        }
        assertEquals(List.of(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS), kinds(at(exposures, densities)));
    }

    /** A curve that is straight over the numbers as they stand: logarithms, although each is twice the one before. */
    @Test
    void logarithmsThatDoubleAreNotTakenForLuxSeconds() {
        for (double start : new double[] {0.05, 0.1, 0.2}) {
            double[] exposures = new double[5];
            double[] densities = new double[5];
            for (int i = 0; i < exposures.length; i++) {
                exposures[i] = start * Math.pow(2, i);
                densities[i] = 0.2 + 0.65 * exposures[i];
            }
            assertFalse(kinds(at(exposures, densities)).contains(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS));
        }
    }

    /** Logarithms above 0 in equal steps, wherever they begin and however many, are not taken for exposures. */
    @Test
    @Tag("slow")
    void logarithmsAboveZeroAreNotTakenForLuxSeconds() {
        for (int steps = 5; steps <= 41; steps++) {
            for (double start : new double[] {0.001, 0.02, 0.05, 0.1, 0.3, 1}) {
                for (double spacing : new double[] {0.05, 0.1, 0.15, 0.3, 0.45}) {
                    double[] exposures = new double[steps];
                    double[] densities = new double[steps];
                    for (int i = 0; i < steps; i++) {
                        exposures[i] = start + spacing * i;
                        densities[i] = 0.2 + 0.05 * i;
                    }
                    assertEquals(List.of(), kinds(at(exposures, densities)));
                }
            }
        }
    }

    @Test
    void netDensitiesBesideBasePlusFogAreToldOnce() {
        List<StripFinding> found =
                StripCheck.withDefaults().check(spaced(0.15, 0.01, 0.02, 0.05, 0.09, 0.14, 0.21, 0.35, 0.60));
        assertEquals(1, found.size(), found::toString);
        assertEquals(StripFinding.Kind.BELOW_BASE_PLUS_FOG, found.get(0).kind());
        assertTrue(
                found.get(0).message().contains("5 steps are below base plus fog, D 0.20, down to D 0.01"),
                found.get(0).message());
        assertTrue(found.get(0).message().contains("are these net densities?"));
    }

    /** A straight line of gradient 0.6 with a toe, by the formula. */
    private static Strip wedge(int skip, int twice) {
        Strip.Builder strip = Strip.builder("S7").basePlusFog(0.20);
        for (int i = 0; i < 21; i++) {
            int read = i + (skip >= 0 && i >= skip ? 1 : 0) - (twice >= 0 && i >= twice ? 1 : 0);
            double x = 0.15 * (read - 4);
            strip.reading(
                    LogExposure.ofLogLuxSeconds(-3 + 0.15 * i),
                    Density.of(0.20 + 0.6 * 0.15 * Math.log1p(Math.exp(x / 0.15))));
        }
        return strip.build();
    }

    @Test
    void aSkippedStepIsNamedWithItsPlaceAndRemedy() {
        assertEquals(List.of(), kinds(wedge(-1, -1)));
        List<StripFinding> found = StripCheck.withDefaults().check(wedge(12, -1));
        assertEquals(1, found.size(), found::toString);
        assertEquals(StripFinding.Kind.STEP_SKIPPED, found.get(0).kind());
        assertEquals(-3 + 0.15 * 12, found.get(0).exposure().value(), 1e-12);
        assertTrue(
                found.get(0).message().contains("skipped")
                        && found.get(0).message().contains("Count the steps"),
                found.get(0).message());
    }

    /** The steps on either side of the place, by the formula: 0.2 + 0.09 ln(1 + e^7) and 0.2 + 0.09 ln(1 + e^9), 7 and 9 steps on. */
    @Test
    void aSkippedStepIsToldWithItsNeighbours() {
        String message = StripCheck.withDefaults().check(wedge(12, -1)).get(0).message();
        assertTrue(
                message.contains(
                        "between D 0.8301 at log H \u22121.35 lx·s and D 1.01 at log H \u22121.20 lx·s density rises"),
                message);
    }

    /** The wedge with a skipped step, its densities above base plus fog times a factor and its last step farther on. */
    private static Strip skipped(double factor, double farther) {
        Strip.Builder strip = Strip.builder("S8").basePlusFog(0.20);
        List<ExposedStep> steps = wedge(12, -1).steps();
        for (int i = 0; i < steps.size(); i++) {
            ExposedStep step = steps.get(i);
            double moved = i == 20 ? farther : 0;
            double density = 0.2 + factor * (step.density().value() - 0.2 + 0.6 * moved);
            strip.reading(LogExposure.ofLogLuxSeconds(step.exposure().value() + moved), Density.of(density));
        }
        return strip.build();
    }

    /** "The next step" means something where no gap is more than twice another, and no three rises are above 0.3. */
    @Test
    void aSkippedStepIsNamedAmongEvenAndFineStepsOnly() {
        assertEquals(List.of(StripFinding.Kind.STEP_SKIPPED), kinds(skipped(1, 0.05)));
        assertEquals(List.of(), kinds(skipped(1, 0.16)));
        assertEquals(List.of(), kinds(skipped(3.5, 0)));
    }

    /** One reading that is off is dust, even if a moved curve would come nearer to it than the whole one. */
    @Test
    void oneReadingThatIsOffIsNoSkippedStep() {
        for (int dusty = 4; dusty < 17; dusty++) {
            Strip.Builder strip = Strip.builder("S9").basePlusFog(0.20);
            List<ExposedStep> steps = wedge(-1, -1).steps();
            for (int i = 0; i < steps.size(); i++) {
                strip.reading(
                        steps.get(i).exposure(),
                        Density.of(steps.get(i).density().value() + (i == dusty ? 0.045 : 0)));
            }
            assertEquals(List.of(), kinds(strip.build()), "dust on step " + dusty);
        }
    }

    /** A step with repeats that disagree lies before one below base plus fog, which is looked for first. */
    @Test
    void findingsComeByRisingExposure() {
        Strip strip = Strip.builder("S10")
                .basePlusFog(0.5)
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.50))
                .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.60))
                .reading(LogExposure.ofLogLuxSeconds(-1.7), Density.of(0.44))
                .reading(LogExposure.ofLogLuxSeconds(-1.4), Density.of(0.80))
                .build();
        List<StripFinding> found = StripCheck.withDefaults().check(strip);
        assertEquals(StripFinding.Kind.REPEATS_DISAGREE, found.get(0).kind());
        assertTrue(kinds(strip).contains(StripFinding.Kind.BELOW_BASE_PLUS_FOG));
    }

    /** Three steps are level; two may be chance. */
    @Test
    void threeLevelStepsContradictBasePlusFog() {
        assertEquals(List.of(StripFinding.Kind.LEVEL_ABOVE_BASE_PLUS_FOG), kinds(spaced(0.15, 0.26, 0.26, 0.27)));
        assertEquals(List.of(), kinds(spaced(0.15, 0.26, 0.26)));
    }

    @Test
    void aStepReadTwiceIsNamedWithItsPlace() {
        List<StripFinding> found = StripCheck.withDefaults().check(wedge(-1, 9));
        assertEquals(1, found.size(), found::toString);
        assertEquals(StripFinding.Kind.STEP_READ_TWICE, found.get(0).kind());
        assertEquals(-3 + 0.15 * 9, found.get(0).exposure().value(), 1e-12);
    }

    /** Where the curve is level, a step more or less makes no difference, and none is claimed. */
    @Test
    void aSkippedStepInTheLevelToeIsNotNamed() {
        assertEquals(List.of(), kinds(wedge(1, -1)));
    }

    /**
     * A slice of {@link StepShiftSimulation}, whose 4,000 strips a film name 96 % of such faults and accuse none of the
     * good strips: a binomial of 200 with 96 % is 170 or less in 6 of 10<sup>10</sup> runs.
     */
    @Test
    void faultsOfSimulatedStripsAreNamedAndGoodStripsAreNotAccused() {
        StepShiftSimulation simulation = new StepShiftSimulation(21, 0.15, 0.005);
        Random random = new Random(7);
        int named = 0;
        int clear = 0;
        while (clear < 200) {
            StepShiftSimulation.Fault fault =
                    clear % 2 == 0 ? StepShiftSimulation.Fault.SKIP : StepShiftSimulation.Fault.TWICE;
            StepShiftSimulation.Case read = simulation.read(StepShiftSimulation.Shape.FAMILY, fault, random);
            if (read.rise() >= 0.12) {
                clear++;
                named += StepShiftSimulation.names(read, fault) ? 1 : 0;
            }
        }
        assertTrue(named > 170, "named " + named + " of 200");
        for (StepShiftSimulation.Shape shape : StepShiftSimulation.Shape.values()) {
            for (int i = 0; i < 100; i++) {
                Strip good = simulation
                        .read(shape, StepShiftSimulation.Fault.NONE, random)
                        .strip();
                assertFalse(StepShiftSimulation.accuses(good), () -> shape + ": " + kinds(good));
            }
        }
    }

    /** A quarter, which a computer adds exactly, is the tolerance: a difference of it is noise, one of 0.001 more is not. */
    @ParameterizedTest
    @CsvSource({"0.25, false", "0.251, true"})
    void aDifferenceOfTheToleranceIsNoise(double difference, boolean found) {
        StripCheck check = StripCheck.withDefaults().withTolerance(0.25);
        Strip repeats = Strip.builder("R")
                .basePlusFog(0.25)
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5 + difference))
                .build();
        assertFinding(found, StripFinding.Kind.REPEATS_DISAGREE, check.check(repeats));
        Strip base = Strip.builder("B")
                .basePlusFog(0.25, 0.25 + difference)
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                .build();
        assertFinding(found, StripFinding.Kind.BASE_PLUS_FOG_DISAGREES, check.check(base));
        Strip below = Strip.builder("U")
                .basePlusFog(0.5)
                .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5 - difference))
                .reading(LogExposure.ofLogLuxSeconds(-0.6), Density.of(1))
                .build();
        assertFinding(found, StripFinding.Kind.BELOW_BASE_PLUS_FOG, check.check(below));
        assertFinding(found, StripFinding.Kind.DENSITIES_REVERSED, check.check(strip(0.5, 0.5, 0.5, 0.5 - difference)));
        assertFinding(found, StripFinding.Kind.DENSITY_FALLS, check.check(strip(0.25, 0.75, 0.75 - difference, 1.0)));
    }

    private static void assertFinding(boolean expected, StripFinding.Kind kind, List<StripFinding> found) {
        assertEquals(expected, found.stream().anyMatch(finding -> finding.kind() == kind), found::toString);
    }

    /** Half a log unit between steps is near enough; of three steps that are below base plus fog the thinnest is told. */
    @Test
    void stepsHalfALogUnitApartAreNearEnough() {
        assertEquals(List.of(), kinds(strip(0.20, 0.40, 0.90, 1.4)));
        List<StripFinding> net = StripCheck.withDefaults().check(strip(0.04, 0.02, 0.06, 0.90));
        assertEquals(
                List.of(StripFinding.Kind.BELOW_BASE_PLUS_FOG),
                net.stream().map(StripFinding::kind).toList());
        assertTrue(
                net.get(0).message().contains("3 steps are below base plus fog"),
                net.get(0).message());
        assertTrue(net.get(0).message().contains("down to D 0.02"), net.get(0).message());
    }

    /** Five exposures, each ⁴√10 times the one before and ten times in all, are told; four may be anything. */
    @Test
    void fiveStepsOverAFactorOfTenMayBeExposures() {
        double[] exposures = new double[5];
        for (int i = 0; i < exposures.length; i++) {
            exposures[i] = 0.01 * Math.pow(10.001, i / 4.0);
        }
        double[] densities = {0.20, 0.35, 0.50, 0.65, 0.80};
        assertEquals(List.of(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS), kinds(at(exposures, densities)));
        assertFalse(
                kinds(at(Arrays.copyOf(exposures, 4), densities)).contains(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS));
        double[] fewer = Arrays.stream(exposures)
                .map(e -> 0.01 * Math.pow(e / 0.01, 0.99))
                .toArray();
        assertFalse(kinds(at(fewer, densities)).contains(StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS));
    }
}
