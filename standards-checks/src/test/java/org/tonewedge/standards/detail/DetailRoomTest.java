// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.tone.DensityImage;

/** Bars, resolving power, noise spectra, patches and the sharpness of prints, against closed forms. */
class DetailRoomTest {

    private static final double PITCH = 5;

    private static DensityImage bars(double frequency, double modulation, double degrees, double noise, long seed) {
        Random random = new Random(seed);
        double[] densities = new double[90 * 120];
        double cycles = frequency * PITCH / 1000;
        for (int i = 0; i < densities.length; i++) {
            double x = i % 90 * Math.cos(Math.toRadians(degrees))
                    + Math.floorDiv(i, 90) * Math.sin(Math.toRadians(degrees));
            double wave = Math.sin(2 * Math.PI * cycles * x + 0.7);
            densities[i] = -Math.log10(0.2 * (1 + modulation * wave) * (1 + noise * random.nextGaussian()));
        }
        return DensityImage.of(densities, 90, PITCH);
    }

    @ParameterizedTest
    @ValueSource(doubles = {10, 17, 23.3, 40, 60})
    void aSineWaveHasTheModulationPutIn(double frequency) {
        for (double degrees : new double[] {0, 1, 3}) {
            Estimate found = TargetModulation.ofSine(bars(frequency, 0.4, degrees, 0, 1), frequency)
                    .modulation();
            assertEquals(0.4, found.value(), 0.004, frequency + " at " + degrees + "°");
        }
        Estimate asBars = TargetModulation.ofBars(bars(frequency, 0.4, 0, 0, 1), frequency)
                .modulation();
        assertEquals(0.4 * Math.PI / 4, asBars.value(), 0.004); // the fundamental of bars is 4/π of their modulation
    }

    @Test
    @Tag("slow")
    void theIntervalOfAModulationHoldsIt() {
        int held = 0;
        double bias = 0;
        for (int seed = 0; seed < 300; seed++) {
            Estimate found =
                    TargetModulation.ofSine(bars(30, 0.05, 0, 0.2, seed), 30).modulation();
            held += Math.abs(found.value() - 0.05) <= 1.96 * found.standardUncertainty() ? 1 : 0;
            bias += (found.value() - 0.05) / 300;
        }
        assertTrue(held >= 270 && held <= 297, held + " of 300");
        assertEquals(0, bias, 0.001);
    }

    /** Rectangular between the logarithms of both: their mean, with the width over √12 (JCGM 100:2008, 4.3.7). */
    @Test
    void resolvingPowerLiesBetweenTheLastResolvedTargetAndTheNext() {
        TargetModulation coarse = TargetModulation.ofSine(bars(20, 0.3, 0, 0.1, 1), 20);
        TargetModulation fine = TargetModulation.ofSine(bars(40, 0.1, 0, 0.1, 2), 40);
        TargetModulation none = TargetModulation.ofSine(bars(80, 0, 0, 0.1, 3), 80);
        assertFalse(none.isResolved(), none.toString());
        Estimate found = ResolvingPower.ofTargets(List.of(none, coarse, fine)).cyclesPerMillimetre();
        assertEquals(Math.sqrt(40 * 80), found.value(), 1e-9);
        assertEquals(found.value() * Math.log(2) / Math.sqrt(12), found.standardUncertainty(), 1e-9);
        assertTrue(ResolvingPower.ofTargets(List.of(coarse, fine)).isLowerBound());
        assertThrows(
                NotDeterminableException.class,
                () -> ResolvingPower.ofTargets(List.of(TargetModulation.ofSine(bars(15, 0, 0, 0.1, 5), 15), coarse)));
    }

    /** By hand: logarithms ln 2 apart have the deviation ln 2, and the mean of three that over √3; targets, as above. */
    @Test
    void observersAreAveragedByLogarithms() {
        ResolvingPower found = ResolvingPower.ofObservations(2, 40, 80, 160);
        assertEquals(80, found.cyclesPerMillimetre().value(), 1e-9);
        double spread = Math.log(2) / Math.sqrt(3);
        assertEquals(
                80 * Math.hypot(spread, Math.log(2) / Math.sqrt(12)),
                found.cyclesPerMillimetre().standardUncertainty(),
                1e-9);
        assertThrows(IllegalArgumentException.class, () -> ResolvingPower.ofObservations(1, 40, 80));
    }

    private static DensityImage noise(int side, double deviation, long seed) {
        Random random = new Random(seed);
        return DensityImage.of(
                random.doubles((long) side * side)
                        .map(u -> 1 + deviation * random.nextGaussian())
                        .toArray(),
                side,
                PITCH);
    }

    /** White noise has the power s² p² at every frequency; through a circle of area A the deviation √(s² p² / A). */
    @Test
    void whiteNoiseIsFlatAndGivesSelwynsLaw() {
        NoiseSpectrum spectrum = NoiseSpectrum.of(noise(512, 0.05, 1), 64);
        double expected = 0.05 * 0.05 * PITCH * PITCH;
        int outside = 0;
        for (Estimate power : spectrum.powers()) {
            outside += Math.abs(power.value() - expected) > 2 * power.standardUncertainty() ? 1 : 0;
        }
        assertTrue(outside <= 6, outside + " of 32 powers are farther than 2 standard uncertainties");
        for (double aperture : new double[] {24, 48, 96}) {
            Estimate through = spectrum.deviationThrough(aperture);
            assertEquals(
                    Math.sqrt(expected / (Math.PI * aperture * aperture / 4)), through.value(), 0.06 * through.value());
        }
    }

    /** Noise blurred by [1 2 1] / 4 along the rows has the power s² p² cos⁴(πu) there, u in cycles per pixel. */
    @Test
    @Tag("slow")
    void blurredNoiseHasTheSpectrumOfTheBlur() {
        int side = 512;
        DensityImage white = noise(side, 0.05, 2);
        double[] blurred = new double[side * side];
        for (int y = 0; y < side; y++) {
            for (int x = 0; x < side; x++) {
                blurred[y * side + x] = 0.25 * white.density((x + side - 1) % side, y)
                        + 0.5 * white.density(x, y)
                        + 0.25 * white.density((x + 1) % side, y);
            }
        }
        NoiseSpectrum spectrum = NoiseSpectrum.of(DensityImage.of(blurred, side, PITCH), 32);
        double power = 0.05 * 0.05 * PITCH * PITCH;
        for (int u = 2; u <= 14; u += 4) {
            double mean = 0;
            for (int v = -12; v <= 12; v++) {
                mean += spectrum.power(u, v) / 25;
            }
            double expected = power * Math.pow(Math.cos(Math.PI * u / 32), 4);
            // The Hann window mixes each frequency with its neighbours: a wave's power falls by less than a tenth of
            // it.
            assertEquals(expected, mean, 0.08 * expected + 0.004 * power, "u = " + u);
        }
        // Divided by the square of what the blur passes, it is white again where the blur passes enough.
        double[] frequencies = new double[40];
        double[] ones = new double[40];
        for (int i = 0; i < 40; i++) {
            frequencies[i] = i * 4.0;
            ones[i] = 0.5;
        }
        NoiseSpectrum none = NoiseSpectrum.of(DensityImage.of(new double[side * side], side, PITCH), 32);
        NoiseSpectrum corrected = spectrum.corrected(none, ModulationTransfer.of(frequencies, ones));
        assertEquals(4 * spectrum.power(3, 2), corrected.power(3, 2), 1e-12);
    }

    /**
     * White noise of power W behind the eye has the variance γ² W ∫ 2πf A² df; up to the 100 cycles per millimetre of the scan
     * the integral is 488.953 for a print 5 times as large at 400 mm, by {@code method_results.py} (SciPy 1.17.1).
     */
    @Test
    void graininessOfWhiteNoiseIsTheIntegralOfTheEye() {
        NoiseSpectrum spectrum = NoiseSpectrum.of(noise(512, 0.05, 3), 256);
        double power = 0.05 * 0.05 * PITCH * PITCH / 1e6; // square millimetres
        double expected = 2.5 * Math.sqrt(power * 488.953);
        Estimate found = PrintGraininess.at(5, 400).determine(spectrum, 2.5);
        assertEquals(expected, found.value(), 3 * found.standardUncertainty());
        assertEquals(expected, found.value(), 0.1 * expected);
        ModulationTransfer half = ModulationTransfer.of(new double[] {0, 200}, new double[] {0.5, 0.5});
        assertEquals(
                0.5 * found.value(),
                PrintGraininess.at(5, 400).determine(spectrum, half, 2.5).value(),
                1e-9);
        assertTrue(PrintGraininess.at(15, 400).determine(spectrum, 2.5).value() > found.value());
    }

    @Test
    void patchesLoseTheirDustAndKeepTheirDensity() {
        Random random = new Random(4);
        double[] densities = new double[120 * 60];
        for (int i = 0; i < densities.length; i++) {
            int patch = i % 120 / 30 + 4 * (i / 120 / 30);
            densities[i] = 0.3 + 0.2 * patch + 0.001 * (i % 30) + 0.01 * random.nextGaussian();
        }
        for (int x = 38; x < 44; x++) {
            densities[15 * 120 + x] = 2.5; // a hair over the second patch
        }
        List<PatchGrid.Area> areas = PatchGrid.of(2, 4).read(DensityImage.of(densities, 120, PITCH));
        assertEquals(8, areas.size());
        for (int i = 0; i < 8; i++) {
            assertEquals(
                    0.3 + 0.2 * i + 0.001 * 14.5,
                    areas.get(i).density().value(),
                    0.003,
                    areas.get(i).toString());
            assertEquals(0.03, areas.get(i).gradientAcross(), 0.012);
        }
        assertTrue(
                areas.get(1).rejected() >= 6 && areas.get(1).rejected() <= 9,
                areas.get(1).toString());
        assertThrows(
                NotDeterminableException.class,
                () -> PatchGrid.of(20, 40).read(DensityImage.of(densities, 120, PITCH)));
    }

    @Test
    void aPerfectChainIsSharpAndABlurIsLess() {
        double[] frequencies = new double[400];
        double[] perfect = new double[400];
        double[] blurred = new double[400];
        for (int i = 0; i < 400; i++) {
            frequencies[i] = i;
            perfect[i] = 1;
            blurred[i] = Math.exp(-2 * Math.pow(Math.PI * i * 0.008, 2));
        }
        PrintSharpness print = PrintSharpness.at(5, 400);
        assertEquals(
                1, print.determine(ModulationTransfer.of(frequencies, perfect)).value(), 1e-9);
        double soft =
                print.determine(ModulationTransfer.of(frequencies, blurred)).value();
        double larger = PrintSharpness.at(15, 400)
                .determine(ModulationTransfer.of(frequencies, blurred))
                .value();
        assertTrue(soft < 1 && larger < soft, soft + ", enlarged more " + larger);
        // The formula in the class (constants from memory) by NumPy 2.4.6, method_results.py; its peak lies at 7.89.
        assertEquals(0.8105276, PrintSharpness.sensitivity(4), 1e-7);
        assertEquals(0.9808779, PrintSharpness.sensitivity(7.890914), 1e-7);
        assertEquals(0.6907515, PrintSharpness.sensitivity(16), 1e-7);
        assertEquals(0.7161972, PrintSharpness.at(5, 400).onFilm(1), 1e-7);
    }

    @Test
    void tablesOfModulationMultiplyAndRefuseWhatTheyDoNotKnow() {
        ModulationTransfer a = ModulationTransfer.of(new double[] {0, 50, 100}, new double[] {1, 0.6, 0.2});
        assertEquals(62.5, a.mtf50().value(), 1e-9);
        assertEquals(0.36, a.times(a).at(50).value(), 1e-12);
        assertEquals(1, a.dividedBy(a, 0.1).at(50).value(), 1e-12);
        assertEquals(6.25, a.magnified(10).mtf50().value(), 1e-9);
        assertThrows(NotDeterminableException.class, a::mtf10);
        assertThrows(IllegalArgumentException.class, () -> a.at(101));
        assertThrows(
                IllegalArgumentException.class, () -> ModulationTransfer.of(new double[] {0, 0}, new double[] {1, 1}));
        Estimate uncertain = ModulationTransfer.of(
                        new double[] {0, 50, 100}, new double[] {1, 0.6, 0.2}, new double[] {0, 0.02, 0.02})
                .at(50);
        assertEquals(0.02, uncertain.standardUncertainty(), 0.004);
    }

    /** Closed form: exp(−f/100) falls to 0.3 at 120.4, so that the last of the scanner's own frequencies above it is 120. */
    @Test
    void aStepIsDividedByUpToItsOwnFloor() {
        ModulationTransfer film = falling(4, 50, 80);
        ModulationTransfer scanner = falling(10, 21, 100);
        ModulationTransfer alone = film.times(scanner).dividedBy(scanner, 0.3);
        assertEquals(120, alone.highestFrequency());
        assertEquals(Math.exp(-100.0 / 80), alone.at(100).value(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> film.dividedBy(scanner, 1));
    }

    private static ModulationTransfer falling(double step, int count, double decay) {
        double[] frequencies = new double[count];
        double[] modulations = new double[count];
        for (int i = 0; i < count; i++) {
            frequencies[i] = i * step;
            modulations[i] = Math.exp(-i * step / decay);
        }
        return ModulationTransfer.of(frequencies, modulations);
    }

    /**
     * White grain and white noise of a scanner that blurs neither: the film's variance is the difference. The intervals of 200
     * films hold the truth in 95 ± 4.5 % of cases, three standard deviations of such a count; half the noise of the grain and
     * as much as the grain, so that the uncertainty of the noise counts.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.04})
    @Tag("slow")
    void grainWithoutTheScannerHasIntervalsThatHoldIt(double noise) {
        double grain = 0.04;
        double aperture = 48;
        // Of white noise a scan knows the part up to its Nyquist frequencies: 0.9809 of the deviation through this
        // aperture, the root of the sum of (2 J1(x) / x)^2 over the grid of a block, by method_results.py (SciPy
        // 1.17.1).
        double truth = 0.9809 * grain * PITCH / Math.sqrt(Math.PI * aperture * aperture / 4);
        ModulationTransfer perfect = ModulationTransfer.of(new double[] {0, 1e6}, new double[] {1, 1});
        int held = 0;
        for (int film = 0; film < 200; film++) {
            Estimate found = NoiseSpectrum.of(noise(192, Math.hypot(grain, noise), 2L * film), 32)
                    .corrected(NoiseSpectrum.of(noise(128, noise, 2L * film + 1), 32), perfect)
                    .deviationThrough(aperture);
            held += found.interval(0.95).contains(truth) ? 1 : 0;
        }
        assertTrue(held >= 181 && held <= 199, held + " of 200");
    }

    /** Closed form: the deviation is inverse to the transfer, so 2 % of the one is 2 % of the other; of 200 draws. */
    @Test
    void grainWithoutTheScannerIncludesTheUncertaintyOfItsTransfer() {
        NoiseSpectrum film = NoiseSpectrum.of(noise(192, 0.05, 8), 32);
        NoiseSpectrum scanner = NoiseSpectrum.of(noise(192, 0.02, 9), 32);
        double[] frequencies = {0, 1e6};
        double[] half = {0.5, 0.5};
        Estimate exact = film.corrected(scanner, ModulationTransfer.of(frequencies, half))
                .deviationThrough(48);
        Estimate uncertain = film.corrected(
                        scanner, ModulationTransfer.of(frequencies, half, new double[] {0.01, 0.01}))
                .deviationThrough(48);
        assertEquals(exact.value(), uncertain.value(), 1e-12);
        double added =
                Math.sqrt(Math.pow(uncertain.standardUncertainty(), 2) - Math.pow(exact.standardUncertainty(), 2));
        assertEquals(0.02, added / exact.value(), 0.0025);
    }

    /** A chart turned by 14 degrees and drawn in perspective; the densities are those put in. */
    @Test
    void patchesAreReadWithinFourCorners() throws IOException {
        int side = 500;
        ScanCorners corners = ScanCorners.of(90, 60, 440, 150, 360, 470, 40, 380);
        short[] codes = new short[side * side];
        Random random = new Random(5);
        for (int i = 0; i < codes.length; i++) {
            codes[i] = (short) code(1.5, random);
        }
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 4; column++) {
                ScanCorners patch = corners.part(column / 4.0, row / 3.0, (column + 1) / 4.0, (row + 1) / 3.0);
                ScanRegion around = patch.bounds();
                for (int k = 0; k < around.pixels(); k++) {
                    int x = around.x() + k % around.width();
                    int y = around.y() + k / around.width();
                    if (patch.contains(x, y)) {
                        codes[y * side + x] = (short) code(0.1 + 0.1 * (row * 4 + column), random);
                    }
                }
            }
        }
        ScanCodeTable densities = ScanCodeTable.densities(ScanEncoding.ofTransmittanceSteps(0, 65_535, 65_535));
        PatchGrid grid = PatchGrid.of(3, 4);
        List<PatchGrid.Area> areas = grid.read(ScanRows.of(codes, side, 65_535), corners, densities);
        assertEquals(12, areas.size());
        for (int i = 0; i < 12; i++) {
            PatchGrid.Area area = areas.get(i);
            assertEquals(
                    0.1 + 0.1 * i, area.estimate().value(), 4 * area.estimate().standardUncertainty() + 1e-4);
            assertEquals(i / 4 + 1, area.row());
            assertEquals(i % 4 + 1, area.column());
            assertEquals(0, area.gradientAcross(), 0.004);
            assertTrue(area.rejected() < 0.002 * area.pixels(), area.toString());
            // The patch fills the corners, not the box around them.
            assertTrue(area.pixels() < 0.9 * area.region().pixels(), area.region() + ", " + area.pixels());
        }
    }

    private static int code(double density, Random random) {
        return (int) Math.rint(65_535 * Math.pow(10, -density - 0.01 * random.nextGaussian()));
    }

    @Test
    void cornersThatGoAroundNothingAreRefused() {
        for (String text : List.of(
                "0,0,100,0,0,100,100,100", "0,0,100,0,200,0,300,0", "0,0,1,0,100,100,0,100", "0,0,100,0,20,20,0,100")) {
            IllegalArgumentException e =
                    assertThrows(IllegalArgumentException.class, () -> ScanCorners.parse(text, 1), text);
            assertTrue(e.getMessage().contains("do not go around a chart"), e.getMessage());
        }
        ScanCorners read = ScanCorners.parse("1,2,11,2,11,12,1,12mm", 20);
        assertEquals(ScanCorners.of(new ScanRegion(20, 40, 200, 200)), read);
        assertEquals(read, ScanCorners.parse(read.toString(), 1));
        assertThrows(IllegalArgumentException.class, () -> ScanCorners.parse("1,2,11,2,11,12,1,x", 1));
    }

    @Test
    void theRecordsOfAModulationTransferTellWhatIsNotReached() {
        double[] frequencies = {10, 20, 40};
        double[] modulations = {0.9, 0.6, 0.3};
        ModulationTransfer transfer = ModulationTransfer.of(frequencies, modulations, new double[] {0.01, 0.01, 0.01});

        assertTrue(transfer.records().contains(ResultRecord.ofEstimate("mtf50", transfer.mtf50(), "cycles/mm")));
        assertTrue(transfer.records().contains(ResultRecord.ofEstimate("point.3.modulation", transfer.at(40), "")));
        String reason =
                assertThrows(NotDeterminableException.class, transfer::mtf10).getMessage();
        assertTrue(transfer.records().contains(ResultRecord.ofMissing("mtf10", "cycles/mm", reason)));
    }

    @Test
    void theRecordOfALowerBoundHasNoUncertainty() {
        ResolvingPower read = ResolvingPower.ofObservations(2, 40, 80, 160);
        TargetModulation coarse = TargetModulation.ofSine(bars(20, 0.3, 0, 0.1, 1), 20);
        TargetModulation fine = TargetModulation.ofSine(bars(40, 0.1, 0, 0.1, 2), 40);
        ResolvingPower bound = ResolvingPower.ofTargets(List.of(coarse, fine));

        assertTrue(read.records()
                .contains(ResultRecord.ofEstimate("resolving_power", read.cyclesPerMillimetre(), "cycles/mm")));
        assertTrue(bound.records().contains(ResultRecord.ofNumber("resolving_power", 40, "cycles/mm")));
        assertTrue(bound.records().contains(ResultRecord.ofText("lower_bound", "true")));
    }
}
