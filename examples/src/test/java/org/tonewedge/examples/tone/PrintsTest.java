// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Transparency;
import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.WritableRaster;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.CameraExposure;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.core.tone.Printing;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.examples.chart.ChartFiles;

/** Every pixel of a print has the density that the road through the four quadrants gives its tone. */
class PrintsTest {

    @TempDir
    private Path folder;

    private static ToneReproduction road(String id) throws Exception {
        Strip film = ReadingsTable.read(Path.of("demo/strips.csv")).strip(id);
        Strip paper = ReadingsTable.read(Path.of("demo/paper.csv")).strips().get(0);
        CharacteristicCurve negative = CharacteristicCurve.through(film);
        CharacteristicCurve positive = CharacteristicCurve.through(paper);
        CameraExposure camera =
                CameraExposure.metered(new LogExposure(negative.lowestExposure().value() + 1.9, negative.axis()));
        Density grey = negative.densityAt(camera.exposureOf(SubjectTone.METERED));
        return ToneReproduction.of(camera, negative, Printing.matching(grey, positive, Density.of(0.7)), positive);
    }

    @Test
    void everyPixelHasTheDensityOfTheFourQuadrants() throws Exception {
        ToneReproduction road = road("R00");
        PrintTone print = new PrintTone(road);
        ScenePicture scene = picture(Scene.invented(), 0, print);
        new ChartFiles(folder, Set.of(ChartFiles.Format.PNG))
                .writeGrey(scene.width(), scene.height(), scene.codes(), "scene.png");
        BufferedImage image = ImageIO.read(folder.resolve("scene.png").toFile());
        int measured = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                double luminance = SyntheticScene.logLuminance(x, y);
                if (print.isMeasured(luminance)) {
                    measured++;
                    double expected =
                            road.tone(new SubjectTone(luminance)).printDensity().value();
                    double drawn = PrintTone.densityOf(image.getRaster().getSample(x, y, 0));
                    if (!(Math.abs(drawn - expected) <= 0.01)) {
                        assertEquals(expected, drawn, 0.01, x + "," + y);
                    }
                }
            }
        }
        assertTrue(measured > 0.9 * image.getWidth() * image.getHeight(), measured + " pixels");
    }

    private static ScenePicture picture(Scene scene, double flare, PrintTone print) {
        return new ScenePicture(
                scene, flare, List.of(new ScenePicture.Print(print, ColourResponse.NEUTRAL, Optional.empty())));
    }

    /** A picture of 16 bits whose pixels are given, in one channel or three. */
    private Path scene(String name, int width, int[][] pixels) throws Exception {
        int bands = pixels[0].length;
        ComponentColorModel model = new ComponentColorModel(
                ColorSpace.getInstance(bands == 1 ? ColorSpace.CS_GRAY : ColorSpace.CS_sRGB),
                false,
                false,
                Transparency.OPAQUE,
                DataBuffer.TYPE_USHORT);
        WritableRaster raster = model.createCompatibleWritableRaster(width, pixels.length / width);
        for (int i = 0; i < pixels.length; i++) {
            raster.setPixel(i % width, i / width, pixels[i]);
        }
        Path file = folder.resolve(name);
        String format = name.substring(name.indexOf('.') + 1);
        assertTrue(ImageIO.write(new BufferedImage(model, raster, false, null), format, file.toFile()));
        return file;
    }

    @ParameterizedTest
    @ValueSource(strings = {"grey.png", "grey.tif"})
    void aSceneOfOnesOwnHasTheDensitiesOfTheFourQuadrants(String name) throws Exception {
        int width = 64;
        int[][] pixels = new int[width * 32][];
        for (int i = 0; i < pixels.length; i++) {
            pixels[i] = new int[] {1 + i * 31};
        }
        ToneReproduction road = road("R00");
        PrintTone print = new PrintTone(road);
        ScenePicture picture = picture(Scene.read(scene(name, width, pixels), 0.2), 0, print);
        int measured = 0;
        for (int i = 0; i < pixels.length; i++) {
            double tone = Math.log10(pixels[i][0] / 65_535.0 / 0.2);
            if (print.isMeasured(tone)) {
                measured++;
                double expected =
                        road.tone(new SubjectTone(tone)).printDensity().value();
                assertEquals(expected, PrintTone.densityOf(picture.codes()[i]), 0.01, "pixel " + i);
            }
        }
        assertTrue(measured > pixels.length / 2, measured + " pixels");
        assertEquals((double) (pixels.length - measured) / pixels.length, picture.unmeasuredPart(), 1e-9);
    }

    /** Luminance of the three primaries: ITU-R BT.709. */
    @Test
    void coloursExposeAsTheirPatchesDo() throws Exception {
        int[][] pixels = {
            {20_000, 20_000, 20_000}, {20_000, 0, 0}, {20_000, 10_000, 10_000}, {20_000, 10_000, 0}, {0, 0, 0}
        };
        Scene scene = Scene.read(scene("colours.png", 5, pixels), 0.18);
        ColourResponse response = new ColourResponse(
                Map.of(PatchGroup.RED, Estimate.of(-1, 0.1), PatchGroup.YELLOW, Estimate.of(0.5, 0.1)));
        double stop = Math.log10(2);
        double grey = Math.log10(20_000 / 65_535.0 / 0.18);
        assertEquals(grey, scene.logExposure(0, 0, response), 1e-6);
        assertEquals(grey + Math.log10(0.2126), scene.logLuminance(1, 0), 1e-6);
        assertEquals(grey + Math.log10(0.2126) - stop, scene.logExposure(1, 0, response), 1e-6);
        assertEquals(-0.5 * stop, scene.logExposure(2, 0, response) - scene.logLuminance(2, 0), 1e-6);
        // Orange lies half-way from red to yellow: −0.25 stops.
        assertEquals(-0.25 * stop, scene.logExposure(3, 0, response) - scene.logLuminance(3, 0), 1e-6);
        assertEquals(0, scene.logExposure(3, 0, ColourResponse.NEUTRAL) - scene.logLuminance(3, 0), 1e-6);
        assertEquals(1, scene.black());
    }

    @Test
    void otherPicturesAreRefusedByWhatTheyAre() throws Exception {
        Path eight = folder.resolve("eight.png");
        ImageIO.write(new BufferedImage(4, 4, BufferedImage.TYPE_INT_RGB), "png", eight.toFile());
        assertTrue(assertThrows(IllegalArgumentException.class, () -> Scene.read(eight, 0.18))
                .getMessage()
                .contains("3 channels of 8 bits; save the scene as grey or RGB of 16 bits"));
        Path text = Files.writeString(folder.resolve("text.png"), "no picture");
        assertTrue(assertThrows(IllegalArgumentException.class, () -> Scene.read(text, 0.18))
                .getMessage()
                .contains("is not a PNG or TIFF image"));
        byte[] whole = Files.readAllBytes(scene("whole.png", 5, new int[][] {{1}, {2}, {3}, {4}, {5}}));
        Path cut = Files.write(folder.resolve("cut.png"), Arrays.copyOf(whole, whole.length - 25));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> Scene.read(cut, 0.18))
                .getMessage()
                .contains("is damaged or cut short"));
    }

    /**
     * Grain made for pixels of 10 µm, read through the aperture of 48 µm it was stated for, has the stated granularity; with
     * 10,000 readings its standard deviation scatters by 0.7 %. Elsewhere its square goes with density above base plus fog.
     */
    @ParameterizedTest
    @CsvSource({"1.2, 10, 1", "0.7, 10, 0.7071", "1.2, 5, 1"})
    void simulatedGrainHasTheStatedGranularity(double density, double enlargement, double part) {
        double stated = 0.0120;
        Granularity measured = new Granularity(48, Density.of(1.2), Estimate.of(stated, 0.0002));
        Grain grain = new Grain(measured, 0.2, enlargement, 7);
        int side = (int) Math.round(100 * Math.ceil(48 / grain.pitchMicrometres()));
        double[] densities = new double[side * side];
        for (int i = 0; i < densities.length; i++) {
            densities[i] = grain.next(density);
        }
        Granularity found = GranularityMethod.withDefaults()
                .withAperture(48)
                .determine(DensityImage.of(densities, side, grain.pitchMicrometres()));
        assertEquals(stated * part, found.standardDeviation().value(), 0.03 * stated);
        assertEquals(0, grain.deviation(0.2));
    }

    @Test
    void grainIsTheSameInEveryRunAndKeepsTheMean() throws Exception {
        PrintTone tone = new PrintTone(road("R00"));
        Granularity measured = new Granularity(48, Density.of(1.2), Estimate.of(0.01, 0.0002));
        char[][] codes = new char[3][];
        for (int i = 0; i < codes.length; i++) {
            Optional<Grain> grain = i == 2 ? Optional.empty() : Optional.of(new Grain(measured, 0.2, 8, 3));
            codes[i] = new ScenePicture(
                            Scene.invented(), 0, List.of(new ScenePicture.Print(tone, ColourResponse.NEUTRAL, grain)))
                    .codes();
        }
        assertArrayEquals(codes[0], codes[1]);
        double difference = 0;
        double square = 0;
        for (int i = 0; i < codes[0].length; i++) {
            double one = codes[0][i] - codes[2][i];
            difference += one / codes[0].length;
            square += one * one / codes[0].length;
        }
        assertTrue(square > 500 * 500, "grain of " + Math.sqrt(square) + " codes");
        assertEquals(0, difference, 200);
    }

    /** (R + 0.01) / 1.01 by hand: black of density 2 shows as 0.019802, density 1.7033; white stays white. */
    @Test
    void flareLiftsBlacksAndKeepsWhite() {
        assertEquals(1.7033, PrintTone.densityOf(PrintTone.code(2, 0.01)), 1e-3);
        assertEquals(65_535, PrintTone.code(0, 0.01));
        assertEquals(PrintTone.code(1.3), PrintTone.code(1.3, 0));
    }

    /**
     * sRGB codes of 0.18 and 0.5 by IEC 61966-2-1:1999, worked by hand: 0.461356 and 0.735357 of the range. Of D 1.20, a
     * reflectance of 10<sup>−1.2</sup>, it is 1.055 · 10<sup>−0.5</sup> − 0.055 = 0.278620, code 18,259.
     */
    @Test
    void greysAreThoseOfSrgb() {
        assertEquals(0.461356, PrintTone.code(-Math.log10(0.18)) / 65_535.0, 1e-5);
        assertEquals(0.735357, PrintTone.code(-Math.log10(0.5)) / 65_535.0, 1e-5);
        assertEquals(65_535, PrintTone.code(0));
        assertEquals(18_259, PrintTone.code(1.2), 1);
        assertEquals(1.2, PrintTone.densityOf(18_259), 1e-4);
    }

    @Test
    void tonesBeyondTheReadingsAreCounted() throws Exception {
        PrintTone print = new PrintTone(road("R00"));
        assertFalse(print.isMeasured(2.9));
        assertEquals(print.density(2.8), print.density(2.9));
    }
}
