// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.verdict.CorrectionKind;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/** Simulated scans of a tablet and patches; what was put in is in {@link ScanSimulation}. */
class ScanCalibrationTest {

    private static final ScanCodeTable NOMINAL = ScanCodeTable.densities(ScanSimulation.NOMINAL);

    /** Where the box ends with a step, bare light at its other end may be one more step: then the row is refused. */
    @Test
    @Tag("slow")
    void findsTheStepsWhereverTheyLieInTheBox() throws IOException {
        Random random = new Random(11);
        int refused = 0;
        for (int i = 0; i < 40; i++) {
            ScanSimulation made = new ScanSimulation(ScanSimulation.Scanner.FLARING, i % 2 == 1, random);
            try {
                List<ScanRegion> found =
                        StepFinder.of(ScanSimulation.STEPS).find(made.scan, ScanSimulation.BOX, NOMINAL);
                for (int k = 0; k < found.size(); k++) {
                    ScanRegion step = found.get(k);
                    double middle = made.start + (k + 0.5) * made.stepWidth;
                    assertEquals(middle, step.x() + 0.5 * step.width(), 0.1 * made.stepWidth, "step " + (k + 1));
                }
            } catch (NotDeterminableException e) {
                double before = made.start - ScanSimulation.BOX.x();
                double behind = ScanSimulation.BOX.width() - before - ScanSimulation.STEPS * made.stepWidth;
                assertTrue(Math.min(before, behind) < 0.5 * made.stepWidth, e.getMessage());
                refused++;
            }
        }
        assertTrue(refused <= 4, refused + " of 40");
    }

    @Test
    void findsAStandingRowAsItFindsALyingOne() throws IOException {
        ScanSimulation made = new ScanSimulation(ScanSimulation.Scanner.HONEST, false, new Random(2));
        List<ScanRegion> lying = StepFinder.of(ScanSimulation.STEPS).find(made.scan, ScanSimulation.BOX, NOMINAL);
        int width = made.scan.width();
        int height = made.scan.height();
        short[] turned = new short[width * height];
        made.scan.read(new ScanRegion(0, 0, width, height), (y, codes) -> {
            for (int x = 0; x < width; x++) {
                turned[x * height + y] = (short) codes[x];
            }
        });
        ScanRegion box = new ScanRegion(
                ScanSimulation.BOX.y(),
                ScanSimulation.BOX.x(),
                ScanSimulation.BOX.height(),
                ScanSimulation.BOX.width());
        List<ScanRegion> standing =
                StepFinder.of(ScanSimulation.STEPS).find(ScanRows.of(turned, height, 65_535), box, NOMINAL);
        for (int k = 0; k < lying.size(); k++) {
            ScanRegion step = lying.get(k);
            assertEquals(new ScanRegion(step.y(), step.x(), step.height(), step.width()), standing.get(k));
        }
    }

    @Test
    void aRowThatCouldLieElsewhereOrIsNotThereIsRefused() throws IOException {
        ScanSimulation made = new ScanSimulation(ScanSimulation.Scanner.HONEST, false, new Random(2));
        String fewer = assertThrows(
                        NotDeterminableException.class,
                        () -> StepFinder.of(ScanSimulation.STEPS - 1).find(made.scan, ScanSimulation.BOX, NOMINAL))
                .getMessage();
        assertTrue(fewer.contains("one more step"), fewer);
        String none = assertThrows(
                        NotDeterminableException.class,
                        () -> StepFinder.of(ScanSimulation.STEPS)
                                .find(made.scan, new ScanRegion(0, 92, 700, 16), NOMINAL))
                .getMessage();
        assertTrue(none.contains("no row of 21"), none);
        String small = assertThrows(
                        NotDeterminableException.class,
                        () -> StepFinder.of(ScanSimulation.STEPS)
                                .find(made.scan, new ScanRegion(0, 10, 100, 16), NOMINAL))
                .getMessage();
        assertTrue(small.contains("too short"), small);
    }

    /** A slice of the figures in the documentation of the room, which {@link ScanSimulation} makes. */
    @ParameterizedTest
    @EnumSource(ScanSimulation.Scanner.class)
    @Tag("slow")
    void densitiesComeBackThroughTheTablet(ScanSimulation.Scanner scanner) throws IOException {
        Random random = new Random(7);
        int held = 0;
        double[] bias = new double[ScanSimulation.PATCH_DENSITIES.length];
        int scans = 30;
        for (int i = 0; i < scans; i++) {
            Estimate[] readings = new ScanSimulation(scanner, i % 2 == 1, random).readings();
            for (int p = 0; p < readings.length; p++) {
                double truth = ScanSimulation.PATCH_DENSITIES[p];
                held += readings[p].interval(0.95).contains(truth) ? 1 : 0;
                bias[p] += (readings[p].value() - truth) / scans;
                assertTrue(readings[p].standardUncertainty() < 0.02, readings[p].toString());
            }
        }
        for (int p = 0; p < bias.length; p++) {
            assertEquals(0, bias[p], 0.004, scanner + " at D " + ScanSimulation.PATCH_DENSITIES[p]);
        }
        assertTrue(held >= 0.93 * scans * bias.length, held + " of " + scans * bias.length);
    }

    @Test
    @Tag("slow")
    void theFormOfTheCorrectionFollowsTheScanner() throws IOException {
        Random random = new Random(5);
        for (ScanSimulation.Scanner scanner : ScanSimulation.Scanner.values()) {
            ScanSimulation made = new ScanSimulation(scanner, false, random);
            ScanCalibration calibration = ScanCalibration.of(
                    made.tablet,
                    PatchGrid.readEach(
                            made.scan,
                            StepFinder.of(ScanSimulation.STEPS).find(made.scan, ScanSimulation.BOX, NOMINAL),
                            NOMINAL));
            boolean leaks = calibration.correction().kind() == CorrectionKind.OFFSET_SLOPE_AND_LEAK;
            assertEquals(scanner == ScanSimulation.Scanner.FLARING, leaks, calibration.toString());
            double slope = calibration.correction().slope().orElseThrow();
            assertEquals(scanner == ScanSimulation.Scanner.GAMMA_ENCODED ? 1 / 2.2 : 1, slope, 0.01);
            ScanCodeTable densities = ScanCodeTable.densities(calibration.encoding(ScanSimulation.NOMINAL));
            double nominal = calibration.correction().lowestReading() + 0.2;
            int code = (int) Math.round(65_535 * Math.pow(10, -nominal));
            assertEquals(
                    calibration
                            .correction()
                            .correct(Density.of(NOMINAL.value(code)))
                            .value(),
                    densities.value(code),
                    0);
            assertThrows(OutsideMeasuredRangeException.class, () -> densities.value(1));
        }
    }

    @Test
    void whatIsNoCalibrationIsRefused() throws IOException {
        ScanSimulation made = new ScanSimulation(ScanSimulation.Scanner.HONEST, false, new Random(2));
        List<PatchGrid.Area> steps = PatchGrid.readEach(
                made.scan, StepFinder.of(ScanSimulation.STEPS).find(made.scan, ScanSimulation.BOX, NOMINAL), NOMINAL);
        StepTablet nominal = StepTablet.nominal(21, Density.of(0.05), 0.15);
        assertThrows(IllegalArgumentException.class, () -> ScanCalibration.of(nominal, steps));
        assertThrows(IllegalArgumentException.class, () -> ScanCalibration.of(made.tablet, steps.subList(0, 20)));
    }

    /** Eleven steps from 0.1 on whose nominal densities are true ones over 2.2, in four parts each, or in none. */
    private static List<PatchGrid.Area> gammaEncoded(boolean inParts) {
        List<PatchGrid.Area> steps = new ArrayList<>();
        for (int k = 0; k < 11; k++) {
            double nominal = (0.1 + 0.2 * k) / 2.2;
            double off = k % 2 == 0 ? 0.001 : -0.001;
            double[] parts = {nominal - off, nominal + off, nominal + off, nominal - off};
            steps.add(area(nominal, inParts ? parts : new double[0]));
        }
        return steps;
    }

    /** A patch with a scatter of 0.04 in 400 pixels: a standard uncertainty of 0.04 / 20 = 0.002 with 399 degrees of freedom. */
    private static PatchGrid.Area area(double nominal, double... parts) {
        return new PatchGrid.Area(1, 1, new ScanRegion(0, 0, 20, 20), nominal, 0.04, 400, 0, 0.01, 0.02, parts);
    }

    /**
     * Codes by the power 1/2.2 of light have a 2.2th of the density, and a 2.2th of its scatter and gradients. The uncertainty is
     * composed of 2.2 times that of the patch and that of the calibration; the degrees of freedom are by Welch and Satterthwaite's
     * formula (JCGM 100:2008, G.4.1), by hand.
     */
    @Test
    void aPatchIsSteepenedAsTheScannerFlattenedIt() {
        double[] certified =
                IntStream.range(0, 11).mapToDouble(k -> 0.1 + 0.2 * k).toArray();
        StepTablet tablet = StepTablet.calibrated("made", 0.005, certified);
        List<PatchGrid.Area> steps = gammaEncoded(true);
        ScanCalibration calibration = ScanCalibration.of(tablet, steps);
        for (double density : new double[] {0.1, 0.5, 1.23, 2.0996, 2.1}) {
            PatchGrid.Area nominal = area(density / 2.2, density / 2.2 + 0.001, density / 2.2 - 0.001);
            PatchGrid.Area found = calibration.corrected(nominal);
            Estimate ofCalibration = calibration.correction().correct(nominal.density());
            double own = 2.2 * 0.002;
            assertEquals(density, found.density().value(), 0.001);
            assertEquals(2.2 * 0.04, found.scatter(), 0.001);
            assertEquals(2.2 * 0.01, found.gradientAcross(), 0.0005);
            assertEquals(2.2 * 0.02, found.gradientDown(), 0.001);
            assertEquals(2.2 * 0.002, found.blocks()[0] - found.blocks()[1], 0.0001);
            double both = Math.hypot(own, ofCalibration.standardUncertainty());
            assertEquals(both, found.estimate().standardUncertainty(), 0.005 * both);
            double degrees = Math.pow(both, 4)
                    / (Math.pow(own, 4) / 399
                            + Math.pow(ofCalibration.standardUncertainty(), 4) / ofCalibration.degreesOfFreedom());
            assertEquals(degrees, found.estimate().degreesOfFreedom(), 0.02 * degrees);
        }
        for (double end : new double[] {
            calibration.correction().lowestReading(), calibration.correction().highestReading()
        }) {
            assertEquals(2.2 * 0.04, calibration.corrected(area(end)).scatter(), 0.001, "at an end of the tablet");
        }
        Collections.reverse(steps);
        assertEquals(
                calibration.correction().slope(),
                ScanCalibration.of(tablet, steps).correction().slope(),
                "from the dense end");
        DensityCorrection whole =
                ScanCalibration.of(tablet, gammaEncoded(false)).correction();
        assertEquals(1 / 2.2, whole.slope().orElseThrow(), 0.002, "steps too small for parts");
    }

    /**
     * Every part of a step counts once, also where one step has more parts than the others: parts 0.02 below and above the
     * certificate leave no offset.
     */
    @Test
    void everyPartOfAStepIsAReadingOfIt() {
        StepTablet tablet = StepTablet.calibrated("made", 0.005, new double[] {0.1, 0.6, 1.1, 1.6});
        List<PatchGrid.Area> steps = List.of(
                area(0.1, 0.08, 0.12), area(0.6, 0.58, 0.62), area(1.1, 1.08, 1.12), area(1.6, 1.58, 1.62, 1.6));
        DensityCorrection correction = ScanCalibration.of(tablet, steps).correction();
        assertEquals(1, correction.slope().orElseThrow(), 1e-9);
        assertEquals(0, correction.offset().orElseThrow(), 1e-9);
        // bounds of what is answered: the means of the first and last steps and the margin
        assertEquals(0.1 - DensityCorrection.MARGIN, correction.lowestReading(), 1e-9);
        assertEquals(1.6 + DensityCorrection.MARGIN, correction.highestReading(), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> ScanCalibration.of(tablet, steps.subList(0, 3)));
    }

    /** Grain larger than a pixel: 4 by 4 pixels share one normal deviate, so that the mean scatters four times as much. */
    @Test
    @Tag("slow")
    void theUncertaintyOfAPatchKnowsGrainLargerThanAPixel() throws IOException {
        Random random = new Random(9);
        int side = 160;
        int held = 0;
        int patches = 400;
        for (int i = 0; i < patches; i++) {
            short[] codes = new short[side * side];
            double[] grain = random.doubles((long) side * side / 16)
                    .map(u -> 0.03 * random.nextGaussian())
                    .toArray();
            for (int k = 0; k < codes.length; k++) {
                double density = 0.7 + grain[k / side / 4 * (side / 4) + k % side / 4];
                codes[k] = (short) Math.round(65_535 * Math.pow(10, -density));
            }
            PatchGrid.Area area = PatchGrid.readEach(
                            ScanRows.of(codes, side, 65_535), List.of(new ScanRegion(0, 0, side, side)), NOMINAL)
                    .get(0);
            held += area.estimate().interval(0.95).contains(0.7) ? 1 : 0;
        }
        assertTrue(held >= 0.92 * patches && held <= 0.98 * patches, held + " of " + patches);
    }

    @Test
    void aPatchIsReadFromRowsAsFromAnImageAndThinnedIfLarge() throws IOException {
        int side = 1500;
        short[] codes = new short[side * side];
        Random random = new Random(1);
        for (int k = 0; k < codes.length; k++) {
            codes[k] = (short) (20_000 + 300 * random.nextGaussian());
        }
        PatchGrid.Area area = PatchGrid.of(1, 1)
                .read(ScanRows.of(codes, side, 65_535), new ScanRegion(0, 0, side, side), NOMINAL)
                .get(0);
        assertTrue(area.pixels() <= PatchGrid.MOST_PIXELS && area.pixels() > PatchGrid.MOST_PIXELS / 4);
        assertEquals(-Math.log10(20_000 / 65_535.0), area.density().value(), 0.0002);
    }

    /** JCGM 100:2008, G.4.1: of two independent parts, neither fewer than the least nor more than their sum. */
    @Test
    void aCorrectedPatchKeepsItsDegreesOfFreedom() throws IOException {
        ScanSimulation made = new ScanSimulation(ScanSimulation.Scanner.HONEST, false, new Random(4));
        List<PatchGrid.Area> steps = PatchGrid.readEach(
                made.scan, StepFinder.of(ScanSimulation.STEPS).find(made.scan, ScanSimulation.BOX, NOMINAL), NOMINAL);
        ScanCalibration calibration = ScanCalibration.of(made.tablet, steps);
        for (PatchGrid.Area step : steps) {
            double own = step.estimate().degreesOfFreedom();
            double ofCalibration =
                    calibration.correction().correct(step.density()).degreesOfFreedom();
            double found = calibration.corrected(step).estimate().degreesOfFreedom();
            assertTrue(Double.isFinite(own), "the patch has degrees of freedom: " + own);
            assertTrue(
                    found >= Math.min(own, ofCalibration) - 1e-9 && found <= own + ofCalibration + 1e-9,
                    own + " and " + ofCalibration + " gave " + found);
        }
        assertTrue(
                steps.stream()
                        .anyMatch(step -> Double.isFinite(
                                calibration.corrected(step).estimate().degreesOfFreedom())),
                "all infinite");
    }
}
