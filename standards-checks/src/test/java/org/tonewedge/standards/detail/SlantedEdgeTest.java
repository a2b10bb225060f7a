// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;

/**
 * Edges whose modulation transfer has a closed form: Gaussian spread exp(−2 (πfs)²), exponential spread 1 / (1 + (2πfa)²),
 * slit |sin πfw / πfw| (Fourier transforms of the line spreads, any table of transforms).
 */
class SlantedEdgeTest {

    private static final double PITCH = 5;

    private static final CharacteristicCurve FILM = ScannedFilm.curve(1.6, 0.64);

    private static DensityImage edge(EdgeSimulation.Shape shape, double size, double degrees, double noise, long seed) {
        int width = 60 + (int) (120 * Math.tan(Math.toRadians(degrees)));
        double[] values = EdgeSimulation.edge(shape, size, degrees, width, 120, 0.5, 1.5, noise, new Random(seed));
        return DensityImage.of(values, width, PITCH);
    }

    @ParameterizedTest
    @EnumSource(
            value = EdgeSimulation.Shape.class,
            names = {"GAUSSIAN", "EXPONENTIAL", "SLIT"})
    @Tag("slow")
    void followsTheClosedFormAtEveryAngle(EdgeSimulation.Shape shape) {
        for (double degrees : new double[] {2, 5, 10, 20, 40}) {
            for (double size : new double[] {1, 2.5}) {
                double pixels = shape == EdgeSimulation.Shape.SLIT ? 2 * size : size;
                ModulationTransfer found = SlantedEdge.withDefaults()
                        .determineInDensity(edge(shape, pixels, degrees, 0, 1))
                        .modulationTransfer();
                for (double modulation : new double[] {0.8, 0.5, 0.3, 0.1}) {
                    double expected = shape.frequency(modulation, pixels) * 1000 / PITCH;
                    assertEquals(
                            expected,
                            found.frequencyAt(modulation).value(),
                            0.005 * expected,
                            shape + " of " + pixels + " pixels at " + degrees + "°, modulation " + modulation);
                }
            }
        }
    }

    /** A window too narrow for their tails would cut off the halation, and the rise of modulation by adjacency effects. */
    @ParameterizedTest
    @EnumSource(
            value = EdgeSimulation.Shape.class,
            names = {"HALATION", "ADJACENCY"})
    void theWindowIsAsWideAsTheSpread(EdgeSimulation.Shape shape) {
        double[] values = EdgeSimulation.edge(shape, 1.2, 5, 100, 120, 0.5, 1.5, 0, new Random(1));
        EdgeResponse read = read(values);
        for (double cyclesPerPixel : new double[] {0.02, 0.04, 0.06, 0.1, 0.15, 0.2}) {
            assertEquals(
                    shape.modulation(cyclesPerPixel, 1.2),
                    read.modulationTransfer().at(cyclesPerPixel * 1000 / PITCH).value(),
                    0.01,
                    shape + " at " + cyclesPerPixel);
        }
        double expected = shape.frequency(0.5, 1.2) * 1000 / PITCH;
        assertEquals(expected, read.modulationTransfer().mtf50().value(), 0.002 * expected);
        assertEquals(List.of(), read.notes());
    }

    /** Light that falls off by a twentieth of the edge over the region looks like light spread wide. */
    @Test
    void sidesThatAreNotLevelAreNoted() {
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1, 5, 100, 120, 0.5, 1.5, 0.01, new Random(1));
        assertEquals(List.of(), notes(values));
        for (int i = 0; i < values.length; i++) {
            values[i] += 0.0005 * (i % 100);
        }
        assertTrue(notes(values).toString().contains("not level up to the end of the region"));
    }

    /** As above, on one side alone: the light side or the dark one. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aSideThatIsNotLevelIsNoted(boolean light) {
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1, 5, 100, 120, 0.5, 1.5, 0.01, new Random(1));
        for (int i = 0; i < values.length; i++) {
            int beyond = light ? 50 - i % 100 : i % 100 - 50;
            values[i] += 0.001 * Math.max(0, beyond);
        }
        assertTrue(notes(values).toString().contains("not level up to the end of the region"));
    }

    /** A twentieth of all densities on another base: modulations are ratios, so that nothing else changes. */
    @Test
    void contrastAndBaseOfTheDensitiesDoNotMatter() {
        double[] grain = EdgeSimulation.grain(100, 120, 2, new Random(8));
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.HALATION, 1.2, 5, 100, 120, 0.5, 1.5, 0, new Random(1));
        Arrays.setAll(values, i -> values[i] + 0.01 * grain[i]);
        EdgeResponse expected = read(values);
        EdgeResponse found = read(Arrays.stream(values).map(v -> 2 + 0.05 * v).toArray());
        Estimate fifty = expected.modulationTransfer().mtf50();
        Estimate same = found.modulationTransfer().mtf50();
        assertEquals(fifty.value(), same.value(), 1e-6 * fifty.value());
        assertEquals(fifty.standardUncertainty(), same.standardUncertainty(), 1e-6 * fifty.standardUncertainty());
        assertEquals(fifty.degreesOfFreedom(), same.degreesOfFreedom(), 1e-6 * fifty.degreesOfFreedom());
        assertEquals(expected.places()[0], found.places()[0], 1e-6 * PITCH);
        assertEquals(expected.notes(), found.notes());
    }

    /**
     * White noise averaged with Gaussian weights of s pixels has the correlations exp(−r²/4s²), whose sum makes the variance of
     * a mean of rows 2 s √π times that of independent ones (integral of the Gaussian function). 400 rows in grain of 3 pixels
     * tell as much as 38, 120 as much as 11; the fewest that count are three. They leave one degree less, which the 200
     * drawings lower: relative variances 2/n add.
     */
    @ParameterizedTest
    @CsvSource({"400, 600, 3", "120, 100, 3", "120, 100, 1.5", "30, 300, 6"})
    void grainLeavesTheDegreesOfFreedomOfIndependentRows(int rows, int columns, double size) {
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1, 5, columns, rows, 0.5, 1.5, 0, new Random(1));
        double[] grain = EdgeSimulation.grain(columns, rows, size, new Random(12));
        Arrays.setAll(values, i -> values[i] + 0.03 * grain[i]);
        double found = SlantedEdge.withDefaults()
                .determineInDensity(DensityImage.of(values, columns, PITCH))
                .modulationTransfer()
                .mtf50()
                .degreesOfFreedom();
        double together = Math.max(3, rows / (2 * size * Math.sqrt(Math.PI)));
        double expected = 1 / (1 / (together - 1) + 1 / 199.0);
        assertEquals(expected, found, 0.1 * expected);
    }

    /** The step of 0.5 over the scatter, told in parts of it, times the root of the rows: 31 and 44 for a scatter of 0.35, 55 for 0.2. */
    @ParameterizedTest
    @CsvSource({"0.35, 120, true", "0.35, 240, false", "0.2, 120, false"})
    void aFaintEdgeIsNoted(double scatter, int rows, boolean isFaint) {
        double[] values = EdgeSimulation.edge(
                EdgeSimulation.Shape.GAUSSIAN, 1, 5, 100, rows, 2.5, 3, 0.5 * scatter, new Random(2));
        List<String> notes = SlantedEdge.withDefaults()
                .determineInDensity(DensityImage.of(values, 100, PITCH))
                .notes();
        assertEquals(
                isFaint,
                notes.stream().anyMatch(note -> note.startsWith("the edge is faint: single pixels scatter by 0.3")),
                notes::toString);
    }

    /** Grain of 3 pixels, in which only some eleven of 120 rows tell anything new: u would be half of the scatter. */
    @Test
    void grainThatSpansRowsMakesAnEdgeLessSure() {
        EdgeSimulation.Tally found = EdgeSimulation.inGrain(3, 120, 50, 11);
        assertTrue(found.coverage() >= 0.9, found::toString);
        assertTrue(found.overstatement() > 0.85 && found.overstatement() < 1.25, found::toString);
    }

    /** What bins leave of an edge without noise is alike in all rows, and no grain. */
    @ParameterizedTest
    @EnumSource(
            value = EdgeSimulation.Shape.class,
            names = {"GAUSSIAN", "EXPONENTIAL", "SLIT"})
    void anEdgeWithoutNoiseHasAnInterval(EdgeSimulation.Shape shape) {
        Estimate found = SlantedEdge.withDefaults()
                .determineInDensity(edge(shape, 2, 5, 0, 3))
                .modulationTransfer()
                .mtf50();
        assertTrue(found.degreesOfFreedom() > 30, found::toString);
        assertTrue(found.interval(0.95).contains(shape.frequency(0.5, 2) * 1000 / PITCH), found::toString);
    }

    /** Light that falls off along the edge, by the same on both sides of it, leaves each row as sharp as it was. */
    @Test
    void lightThatFallsOffAlongTheEdgeIsNotGrain() {
        double[] even =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1, 5, 70, 120, 0.5, 1.5, 0.03, new Random(7));
        double[] uneven = even.clone();
        for (int i = 0; i < uneven.length; i++) {
            uneven[i] += 0.1 * Math.floorDiv(i, 70) / 120;
        }
        double expected = fifty(even).standardUncertainty();
        assertEquals(expected, fifty(uneven).standardUncertainty(), 0.15 * expected);
    }

    private static Estimate fifty(double[] values) {
        return SlantedEdge.withDefaults()
                .determineInDensity(DensityImage.of(values, 70, PITCH))
                .modulationTransfer()
                .mtf50();
    }

    /** Coarse grain, the mean of 5 by 5 pixels, and a speck of dust on the side: neither is light that spreads wide. */
    @Test
    void grainAndDustDoNotWidenTheWindow() {
        double[] grain = new double[100 * 120];
        Random random = new Random(3);
        for (int i = 0; i < grain.length; i++) {
            double of = 0.1 * random.nextGaussian() / 25;
            for (int j = 0; j < 25; j++) {
                grain[(i + j / 5 * 100 + j % 5) % grain.length] += of;
            }
        }
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1, 5, 100, 120, 0.5, 1.5, 0.005, new Random(1));
        double clean = read(values).places()[0];
        double[] grainy = values.clone();
        Arrays.setAll(grainy, i -> values[i] + grain[i]);
        assertEquals(clean, read(grainy).places()[0], PITCH);
        for (int i = 0; i < 16; i++) {
            values[(60 + i / 4) * 100 + 2 + i % 4] += 2;
        }
        assertEquals(clean, read(values).places()[0], PITCH);
        assertEquals(List.of(), notes(values));
    }

    private static EdgeResponse read(double[] values) {
        return SlantedEdge.withDefaults().determineInDensity(DensityImage.of(values, 100, PITCH));
    }

    private static List<String> notes(double[] values) {
        return read(values).notes();
    }

    /** The same edge mirrored, turned and with light and dark exchanged. */
    @Test
    void doesNotDependOnTheWayTheEdgeLies() {
        DensityImage image = edge(EdgeSimulation.Shape.GAUSSIAN, 1.5, 5, 0.01, 3);
        double[] turned = new double[image.width() * image.height()];
        double[] inverted = new double[turned.length];
        for (int y = 0; y < image.height(); y++) {
            for (int x = 0; x < image.width(); x++) {
                turned[x * image.height() + y] = image.density(x, y);
                inverted[y * image.width() + image.width() - 1 - x] = 2 - image.density(x, y);
            }
        }
        double expected = mtf50(image);
        assertEquals(expected, mtf50(DensityImage.of(turned, image.height(), PITCH)), 1e-9);
        assertEquals(expected, mtf50(DensityImage.of(inverted, image.width(), PITCH)), 2e-3 * expected);
    }

    private static double mtf50(DensityImage image) {
        return SlantedEdge.withDefaults()
                .determineInDensity(image)
                .modulationTransfer()
                .mtf50()
                .value();
    }

    /** A slice of the table in the documentation of the room, which {@link EdgeSimulation} makes. */
    @ParameterizedTest
    @CsvSource({
        "GAUSSIAN, 1.0, 3, 0.02",
        "GAUSSIAN, 2.0, 10, 0.05",
        "EXPONENTIAL, 1.0, 5, 0.02",
        "SLIT, 3.0, 20, 0.05",
        "ADJACENCY, 1.2, 20, 0.02"
    })
    @Tag("slow")
    void intervalsHoldTheTruthAndTheMeanIsRight(EdgeSimulation.Shape shape, double size, double degrees, double noise) {
        EdgeSimulation.Tally tally = new EdgeSimulation.Tally(shape.frequency(0.5, size) * 1000 / PITCH);
        for (int seed = 0; seed < 60; seed++) {
            tally.add(SlantedEdge.withDefaults()
                    .determineInDensity(edge(shape, size, degrees, noise, seed))
                    .modulationTransfer()
                    .mtf50());
        }
        assertEquals(0, tally.bias(), 0.01, tally.toString());
        assertTrue(tally.coverage() >= 0.86, tally.toString());
        assertTrue(tally.overstatement() < 1.3, tally.toString());
    }

    /** Light is blurred and the film answers with a curve: read through the curve, the blur of the light comes back. */
    @Test
    void exposureComesBackThroughTheCurve() {
        double blur = 1.6;
        CharacteristicCurve curve = ScannedFilm.curve(2, 1.5);
        double[] light = EdgeSimulation.edge(
                EdgeSimulation.Shape.GAUSSIAN,
                blur,
                5,
                60,
                120,
                Math.pow(10, -2.4),
                Math.pow(10, -0.9),
                0,
                new Random(1));
        double[] image =
                Arrays.stream(light).map(h -> curve.density(Math.log10(h))).toArray();
        double expected = EdgeSimulation.Shape.GAUSSIAN.frequency(0.5, blur) * 1000 / PITCH;
        DensityImage scan = DensityImage.of(image, 60, PITCH);
        Estimate inExposure = SlantedEdge.withDefaults()
                .determineInExposure(scan, curve)
                .modulationTransfer()
                .mtf50();
        assertEquals(expected, inExposure.value(), 0.01 * expected);
        double inDensity = mtf50(scan);
        assertTrue(
                Math.abs(inDensity / expected - 1) > 0.05,
                "the curve bends the edge, so density differs: " + inDensity);
    }

    /** A scanner and a film in a row, both Gaussian: s² = s1² + s2², and division takes the scanner out again. */
    @Test
    void theScannerComesOutByDivision() {
        ModulationTransfer both = SlantedEdge.withDefaults()
                .determineInDensity(edge(EdgeSimulation.Shape.GAUSSIAN, Math.hypot(1.2, 0.9), 5, 0, 1))
                .modulationTransfer();
        ModulationTransfer scanner = SlantedEdge.withDefaults()
                .determineInDensity(edge(EdgeSimulation.Shape.GAUSSIAN, 0.9, 8, 0, 2))
                .modulationTransfer();
        double expected = EdgeSimulation.Shape.GAUSSIAN.frequency(0.5, 1.2) * 1000 / PITCH;
        assertEquals(expected, both.dividedBy(scanner, 0.1).mtf50().value(), 0.01 * expected);
    }

    /**
     * The film spreads light, answers with its curve, and the scanner spreads what it transmits: the whole chain is simulated,
     * by sums over the places between the pixels. What the film did in exposure is known in closed form.
     */
    @ParameterizedTest
    @CsvSource({
        "GAUSSIAN, 1.2, GAUSSIAN, 0.9, 1.0",
        "GAUSSIAN, 1.2, GAUSSIAN, 0.9, -1.5",
        "EXPONENTIAL, 0.8, GAUSSIAN, 0.9, 1.0",
        "GAUSSIAN, 1.0, EXPONENTIAL, 0.8, 1.0"
    })
    void theScannerComesOutOfAnEdgeInExposure(
            EdgeSimulation.Shape film, double spread, EdgeSimulation.Shape scanner, double blur, double range) {
        ModulationTransfer alone = SlantedEdge.withDefaults()
                .determineInExposure(scanned(film, spread, scanner, blur, range), FILM)
                .modulationTransferWithout(ScannedFilm.scanner(scanner, blur), 0.1);
        for (double modulation : new double[] {0.8, 0.5, 0.3}) {
            double expected = film.frequency(modulation, spread) * 1000 / ScannedFilm.PITCH;
            assertEquals(expected, alone.frequencyAt(modulation).value(), 0.01 * expected);
        }
    }

    /** Spreads that no film of two parameters has; the table in the Javadoc tells how far they are off. */
    @ParameterizedTest
    @CsvSource({"SLIT, 4", "HALATION, 1.1", "ADJACENCY, 1.2"})
    void theScannerComesOutOfSpreadsOfOtherShape(EdgeSimulation.Shape film, double spread) {
        Estimate found = SlantedEdge.withDefaults()
                .determineInExposure(scanned(film, spread, EdgeSimulation.Shape.GAUSSIAN, 0.9, 1.0), FILM)
                .modulationTransferWithout(gaussianScanner(0.9), 0.1)
                .mtf50();
        double expected = film.frequency(0.5, spread) * 1000 / ScannedFilm.PITCH;
        assertEquals(expected, found.value(), 0.025 * expected);
        assertEquals(expected, found.value(), 2 * found.standardUncertainty());
    }

    /** Modulation that rises without end is no film: the fit does not converge, and says so. */
    @Test
    void aTransferThatNoFilmHasIsRefused() {
        double[] frequencies = new double[40];
        double[] measured = new double[frequencies.length];
        Arrays.setAll(frequencies, j -> 2.5 * j);
        Arrays.setAll(measured, j -> 1 + 0.1 * j);
        ScannerChain chain = new ScannerChain(
                frequencies, gaussianScanner(0.9), new ScannedEdge(0.2, 1.4, 0.1, 0.2, Light.OF_DENSITY));
        NotDeterminableException e = assertThrows(NotDeterminableException.class, () -> chain.fit(measured));
        assertTrue(e.getMessage().contains("no such film was found"), e.getMessage());
    }

    /**
     * Dividing exposures by a scanner that blurs transmittance shows the film too sharp: 1.1602 times by {@code
     * method_results.py} (SciPy 1.17.1, NumPy 2.4.6), which computes the edge on a line by itself.
     */
    @Test
    void theQuotientInExposureIsTooSharp() {
        double quotient = SlantedEdge.withDefaults()
                .determineInExposure(scannedGaussian(1.2, 0.9, 1.0), FILM)
                .modulationTransfer()
                .dividedBy(gaussianScanner(0.9), 0.1)
                .mtf50()
                .value();
        assertEquals(1.1602, quotient / gaussianFilm(1.2), 0.01);
    }

    /** What the film did in density is not known in closed form; on a faint edge all quantities are one. */
    @Test
    void theScannerComesOutOfAFaintEdgeInDensity() {
        double expected = gaussianFilm(1.2);
        EdgeResponse edge = SlantedEdge.withDefaults().determineInDensity(scannedGaussian(1.2, 0.9, 0.05));
        assertEquals(
                expected,
                edge.modulationTransferWithout(gaussianScanner(0.9), 0.1)
                        .mtf50()
                        .value(),
                0.01 * expected);
    }

    /** So are their uncertainties: a faint edge in noise, and the exposures that a curve makes of its densities. */
    @Test
    void aFaintEdgeIsAsUncertainInExposureAsInDensity() {
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1.5, 5, 80, 120, 0.98, 1.02, 0.002, new Random(5));
        DensityImage image = DensityImage.of(values, 80, PITCH);
        ModulationTransfer inDensity =
                SlantedEdge.withDefaults().determineInDensity(image).modulationTransfer();
        ModulationTransfer inExposure =
                SlantedEdge.withDefaults().determineInExposure(image, FILM).modulationTransfer();
        for (double frequency : new double[] {5, 10, 20, 30}) {
            Estimate expected = inDensity.at(frequency);
            assertEquals(expected.value(), inExposure.at(frequency).value(), 0.01);
            assertEquals(
                    1,
                    inExposure.at(frequency).standardUncertainty() / expected.standardUncertainty(),
                    0.05,
                    "at " + frequency);
        }
    }

    /** Nothing is taken out, however far beyond the scan the transfer is stated. */
    @Test
    @Tag("slow")
    void aPerfectScannerLeavesTheEdgeAsItIs() {
        EdgeResponse edge = SlantedEdge.withDefaults().determineInExposure(scannedGaussian(1.2, 0.1, 1.0), FILM);
        ModulationTransfer perfect = ModulationTransfer.of(new double[] {0, 1e6}, new double[] {1, 1});
        double own = edge.modulationTransfer().mtf50().value();
        assertEquals(own, edge.modulationTransferWithout(perfect, 0.1).mtf50().value(), 0.005 * own);
    }

    /** The film passes half where the scanner passes an eighth: too much is unknown to undo the bend of the curve. */
    @Test
    void aFilmTooSharpForTheScannerIsRefused() {
        EdgeResponse edge = SlantedEdge.withDefaults().determineInExposure(scannedGaussian(0.7, 1.2, 1.0), FILM);
        ModulationTransfer scanner = gaussianScanner(1.2);
        NotDeterminableException e =
                assertThrows(NotDeterminableException.class, () -> edge.modulationTransferWithout(scanner, 0.1));
        assertTrue(e.getMessage().contains("scan finer"), e.getMessage());
    }

    /** An edge over a range of log H about −1.4, without noise; the spreads in pixels. */
    private static DensityImage scanned(
            EdgeSimulation.Shape film, double spread, EdgeSimulation.Shape scanner, double blur, double range) {
        return ScannedFilm.edge(film, spread, scanner, blur, FILM, -1.4 - range / 2, -1.4 + range / 2, 0, 1);
    }

    private static DensityImage scannedGaussian(double spread, double blur, double range) {
        return scanned(EdgeSimulation.Shape.GAUSSIAN, spread, EdgeSimulation.Shape.GAUSSIAN, blur, range);
    }

    private static ModulationTransfer gaussianScanner(double blur) {
        return ScannedFilm.scanner(EdgeSimulation.Shape.GAUSSIAN, blur);
    }

    /** MTF50 of a Gaussian spread, in cycles per millimetre: a closed form. */
    private static double gaussianFilm(double spread) {
        return EdgeSimulation.Shape.GAUSSIAN.frequency(0.5, spread) * 1000 / ScannedFilm.PITCH;
    }

    /**
     * A slice of the simulation in {@link EdgeResponse#modulationTransferWithout}. Of 12 intervals of 95 % fewer than 9 hold the
     * truth twice in a thousand times (binomial).
     */
    @Test
    @Tag("slow")
    void intervalsHoldTheTruthWithoutTheScanner() {
        EdgeSimulation.Tally tally =
                ScannedFilm.measured(EdgeSimulation.Shape.GAUSSIAN, 1.2, EdgeSimulation.Shape.GAUSSIAN, 0.9, 1.0, 12);
        assertEquals(0, tally.bias(), 0.02, tally.toString());
        assertTrue(tally.coverage() >= 0.75, tally.toString());
    }

    /**
     * As above, for a spread that no film of two parameters has: its error is in the uncertainty. Of 8 intervals fewer than 6
     * hold the truth six times in a thousand.
     */
    @Test
    @Tag("slow")
    void intervalsHoldTheTruthBesideAdjacencyEffects() {
        EdgeSimulation.Tally tally =
                ScannedFilm.measured(EdgeSimulation.Shape.ADJACENCY, 1.2, EdgeSimulation.Shape.GAUSSIAN, 0.9, 1.0, 8);
        assertTrue(tally.coverage() >= 0.75, tally.toString());
    }

    /**
     * As above, for a slit on an edge of high contrast, whose transfer changes its sign where the modulus does not show it. Of 10
     * intervals fewer than 8 hold the truth twelve times in a thousand.
     */
    @Test
    @Tag("slow")
    void intervalsHoldTheTruthOfASlitAtHighContrast() {
        EdgeSimulation.Tally tally =
                ScannedFilm.measured(EdgeSimulation.Shape.SLIT, 4, EdgeSimulation.Shape.GAUSSIAN, 0.9, 1.5, 10);
        assertTrue(tally.coverage() >= 0.8, tally.toString());
    }

    /** For a Gaussian spread s, ∫ (dD/dx)² dx = ΔD² / (2 s √π): a closed form. */
    @Test
    void acutanceOfAGaussianEdge() {
        double spread = 3 * PITCH;
        EdgeResponse response =
                SlantedEdge.withDefaults().determineInDensity(edge(EdgeSimulation.Shape.GAUSSIAN, 3, 5, 0, 1));
        double end = 0.0005;
        double half = spread * Math.sqrt(2 * Math.log(1 / (end * spread * Math.sqrt(2 * Math.PI))));
        double held = EdgeSimulation.erf(half / spread); // of the squared gradient within the ends, spread s/√2
        double difference = EdgeSimulation.erf(half / spread / Math.sqrt(2));
        double expected = held / (2 * spread * Math.sqrt(Math.PI)) / (2 * half) / difference;
        assertEquals(expected, response.acutance(end).value(), 0.03 * expected);
        NotDeterminableException none = assertThrows(NotDeterminableException.class, () -> response.acutance(1));
        assertTrue(none.getMessage().contains("state a lower end gradient"), none.getMessage());
    }

    @Test
    void whatIsNoEdgeIsRefusedWithARemedy() {
        Random random = new Random(1);
        double[] flat = random.doubles(80 * 80, 0.9, 1.1).toArray();
        refused(DensityImage.of(flat, 80, PITCH), "place");
        refused(edge(EdgeSimulation.Shape.GAUSSIAN, 1, 0, 0, 1), "tilt it");
        refused(edge(EdgeSimulation.Shape.GAUSSIAN, 20, 5, 0, 1), "wide");
        refused(DensityImage.of(new double[36], 6, PITCH), "larger region");
    }

    private static void refused(DensityImage image, String words) {
        NotDeterminableException refused = assertThrows(
                NotDeterminableException.class, () -> SlantedEdge.withDefaults().determineInDensity(image));
        assertTrue(refused.getMessage().contains(words), refused.getMessage());
    }
}
