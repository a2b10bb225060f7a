// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.tone.DensityImage;

/** Patches whose pixels follow a formula, so that mean, scatter and gradients are worked by hand. */
class PatchPixelsTest {

    private static final double ACROSS = 0.01;
    private static final double DOWN = 0.02;

    private static PatchPixels filled(ScanRegion region, int thinning, DoubleBinaryOperator density) {
        PatchPixels pixels = new PatchPixels(region, thinning);
        for (int y = region.y(); y < region.y() + region.height(); y++) {
            int line = pixels.lineOf(y);
            for (int i = 0; line >= 0 && i < pixels.across(); i++) {
                pixels.set(line, i, density.applyAsDouble(pixels.columnOf(i), y));
            }
        }
        return pixels;
    }

    private static PatchGrid.Area area(int width, int height, DoubleBinaryOperator density) {
        return filled(new ScanRegion(0, 0, width, height), 1, density).area(1, 1, width, height);
    }

    /**
     * A plane and a chessboard of 4 by 4 parts ±c, which has no gradient: 16 pixels have the variance (16² − 1)/12 = 21.25 along
     * each axis. The parts scatter by c about the plane, with 16 − 3 degrees of freedom; the mean of 16 has c/√13.
     */
    @Test
    void theUncertaintyIsThatOfThePartsAboutAPlane() {
        double c = 0.004;
        PatchGrid.Area area = area(
                16,
                16,
                (x, y) ->
                        0.5 + ACROSS * (x - 7.5) + DOWN * (y - 7.5) + ((int) (x / 4) + (int) (y / 4)) % 2 * 2 * c - c);
        assertEquals(0.5, area.density().value(), 1e-12);
        assertEquals(16 * ACROSS, area.gradientAcross(), 1e-12);
        assertEquals(16 * DOWN, area.gradientDown(), 1e-12);
        double variance = 21.25 * (ACROSS * ACROSS + DOWN * DOWN) + c * c;
        assertEquals(Math.sqrt(variance * 256 / 255), area.scatter(), 1e-12);
        assertEquals(c / Math.sqrt(13), area.estimate().standardUncertainty(), 1e-12);
        assertEquals(13, area.estimate().degreesOfFreedom());
        assertEquals(16, area.blocks().length);
    }

    /**
     * Dust over two corners: the plane through what is left is the same, and its parts do not scatter about it. Of 16 parts of
     * 5 by 3 pixels dust leaves 0 and 3 pixels of two, counted by hand; a part counts with 4.
     */
    @Test
    void dustInACornerDoesNotTiltThePlane() {
        PatchGrid.Area area = area(20, 12, (x, y) -> x + y < 8 || (x > 16 && y < 3) ? 3 : 0.5 + ACROSS * x + DOWN * y);
        assertEquals(20 * ACROSS, area.gradientAcross(), 1e-12);
        assertEquals(12 * DOWN, area.gradientDown(), 1e-12);
        assertEquals(36 + 9, area.rejected());
        assertEquals(240, area.pixels());
        assertEquals(0, area.estimate().standardUncertainty(), 1e-12);
        double[] blocks = area.blocks();
        for (double block : blocks) {
            assertEquals(area.density().value(), block, 1e-12, "the mean, as the plane goes through it");
        }
        assertEquals(14, blocks.length);
        assertEquals(14 - 3, area.estimate().degreesOfFreedom());
    }

    /** Every third pixel of every third row, from column 5 and row 7: 7 by 5 of 20 by 14 pixels. */
    @Test
    void aThinnedPatchHasTheGradientsOfTheWhole() {
        ScanRegion region = new ScanRegion(5, 7, 20, 14);
        PatchPixels pixels = filled(region, 3, (x, y) -> 0.5 + ACROSS * x + DOWN * y);
        assertEquals(7, pixels.across());
        assertEquals(23, pixels.columnOf(6));
        assertEquals(List.of(0, 1, 4), List.of(pixels.lineOf(7), pixels.lineOf(10), pixels.lineOf(19)));
        for (int none : new int[] {4, 6, 8, 21, 22}) {
            assertEquals(-1, pixels.lineOf(none), "row " + none);
        }
        PatchGrid.Area area = pixels.area(2, 3, 40, 30);
        assertEquals(35, area.pixels());
        assertEquals(40 * ACROSS, area.gradientAcross(), 1e-12);
        assertEquals(30 * DOWN, area.gradientDown(), 1e-12);
        assertEquals(0.5 + ACROSS * (5 + 9) + DOWN * (7 + 6), area.density().value(), 1e-12);
        assertEquals(List.of(2, 3), List.of(area.row(), area.column()));
    }

    /** Sixteen pixels in a line have one gradient: 16 values 0.01 apart scatter by 0.01 √(16 · 17/12). */
    @Test
    void aLineOfPixelsHasOneGradient() {
        PatchGrid.Area lying = area(16, 1, (x, y) -> 0.5 + ACROSS * x);
        assertEquals(16 * ACROSS, lying.gradientAcross(), 1e-12);
        assertEquals(0, lying.gradientDown());
        assertEquals(ACROSS * Math.sqrt(16 * 17 / 12.0), lying.scatter(), 1e-12);
        PatchGrid.Area standing = area(1, 16, (x, y) -> 0.5 + DOWN * y);
        assertEquals(16 * DOWN, standing.gradientDown(), 1e-12);
        assertEquals(0, standing.gradientAcross());
        assertEquals(15, standing.estimate().degreesOfFreedom(), "four parts of four pixels are too few");
        assertEquals(standing.scatter() / 4, standing.estimate().standardUncertainty(), 1e-12);
    }

    /** Of 16 parts of 2 by 2 pixels, some lose one: eight whole ones have 8 − 3 degrees of freedom, seven are too few. */
    @ParameterizedTest
    @CsvSource({"8, 5", "9, 54"})
    void eightPartsAreEnough(int broken, double degrees) {
        PatchGrid.Area area = area(8, 8, (x, y) -> {
            boolean first = x % 2 == 0 && y % 2 == 0;
            return first && 2 * y + x / 2 < broken ? Double.NaN : 0.5 + 0.001 * ((x * 7 + y * 5) % 4);
        });
        assertEquals(degrees, area.estimate().degreesOfFreedom());
    }

    /** The median distance of −2, −1, 0, 1 and 2 hundredths is 0.01: dust begins at 4 · 1.4826 · 0.01 = 0.059304. */
    @ParameterizedTest
    @CsvSource({"0.0593, 0", "0.0594, 1", "-0.0593, 0", "-0.0594, 1"})
    void dustIsFourRobustDeviationsAway(double off, int rejected) {
        PatchGrid.Area area = area(5, 25, (x, y) -> x == 2 && y == 12 ? 1 + off : 1 + 0.01 * (x - 2));
        assertEquals(rejected, area.rejected());
    }

    @Test
    void tooFewPixelsAreRefused() {
        assertEquals(16, area(4, 4, (x, y) -> 1).pixels());
        assertThrows(NotDeterminableException.class, () -> area(5, 3, (x, y) -> 1));
        assertEquals(7, area(4, 4, (x, y) -> 4 * y + x < 7 ? Double.NaN : 1).rejected(), "nine of sixteen are enough");
        String half = assertThrows(
                        NotDeterminableException.class, () -> area(4, 4, (x, y) -> 4 * y + x < 8 ? Double.NaN : 1))
                .getMessage();
        assertTrue(half.contains("8 of 16 pixels have no density"), half);
        assertEquals(2.5, PatchPixels.median(new double[] {4, 1, 3, 2}));
        assertEquals(3, PatchPixels.median(new double[] {4, 1, 3}));
    }

    private static final int WIDE = 60;
    private static final int HIGH = 40;

    /** Six patches of 20 by 20 pixels; of the side, 0.2 is left out at each edge: 12 pixels, from the fifth on. */
    @Test
    void aGridLeavesOutTheRims() throws IOException {
        double[] densities = new double[WIDE * HIGH];
        short[] codes = new short[densities.length];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = 0.2 + 0.001 * (i % WIDE) + 0.002 * Math.floorDiv(i, WIDE);
            codes[i] = (short) Math.round(65_535 * Math.pow(10, -densities[i]));
        }
        List<PatchGrid.Area> image = PatchGrid.of(2, 3).read(DensityImage.of(densities, WIDE, 10));
        ScanCodeTable table = ScanCodeTable.densities(ScanEncoding.ofTransmittanceSteps(0, 65_535, 65_535));
        List<PatchGrid.Area> scan =
                PatchGrid.of(2, 3).read(ScanRows.of(codes, WIDE, 65_535), new ScanRegion(0, 0, WIDE, HIGH), table);
        for (List<PatchGrid.Area> areas : List.of(image, scan)) {
            assertEquals(6, areas.size());
            PatchGrid.Area last = areas.get(5);
            assertEquals(new ScanRegion(44, 24, 12, 12), last.region());
            assertEquals(List.of(2, 3), List.of(last.row(), last.column()));
            assertEquals(0.2 + 0.001 * 49.5 + 0.002 * 29.5, last.density().value(), 1e-5);
            assertEquals(20 * 0.001, last.gradientAcross(), 1e-4);
            assertEquals(20 * 0.002, last.gradientDown(), 1e-4);
            assertEquals(new ScanRegion(4, 4, 12, 12), areas.get(0).region());
            assertEquals(List.of(1, 2), List.of(areas.get(1).row(), areas.get(1).column()));
        }
        List<PatchGrid.Area> each = PatchGrid.readEach(
                ScanRows.of(codes, WIDE, 65_535),
                List.of(new ScanRegion(4, 4, 12, 12), new ScanRegion(44, 24, 12, 8)),
                table);
        assertEquals(12 * 0.001, each.get(1).gradientAcross(), 1e-4);
        assertEquals(8 * 0.002, each.get(1).gradientDown(), 1e-4);
        assertEquals(List.of(1, 2), List.of(each.get(1).row(), each.get(1).column()));
        List<PatchGrid.Area> wider = PatchGrid.of(2, 3).withMargin(0.1).read(DensityImage.of(densities, WIDE, 10));
        assertEquals(new ScanRegion(2, 2, 16, 16), wider.get(0).region());
        assertThrows(
                NotDeterminableException.class,
                () -> PatchGrid.of(8, 12).read(DensityImage.of(densities, WIDE, 10)),
                "3 by 3 pixels without the rim");
    }

    /** A density of 0.7 in place of 0.5, and half of all differences. */
    @Test
    void aCorrectedPatchChangesByAFactor() {
        PatchGrid.Area area = area(16, 16, (x, y) -> 0.5 + ACROSS * (x - 7.5) + 0.001 * ((x * 7 + y * 5) % 4 - 1.5));
        PatchGrid.Area half = area.with(Estimate.of(0.7, 0.01, 5), 0.5);
        assertEquals(0.7, half.density().value());
        assertEquals(0.5 * area.scatter(), half.scatter(), 1e-12);
        assertEquals(0.5 * area.gradientAcross(), half.gradientAcross(), 1e-12);
        for (int i = 0; i < 16; i++) {
            assertEquals(0.7 + 0.5 * (area.blocks()[i] - area.density().value()), half.blocks()[i], 1e-12);
        }
    }
}
