package org.tonewedge.examples.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.CameraExposure;
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
        ScenePicture scene = new ScenePicture(List.of(print));
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

    /** sRGB codes of 0.18 and 0.5 by IEC 61966-2-1:1999, worked by hand: 0.461356 and 0.735357 of the range. */
    @Test
    void greysAreThoseOfSrgb() {
        assertEquals(0.461356, PrintTone.code(-Math.log10(0.18)) / 65_535.0, 1e-5);
        assertEquals(0.735357, PrintTone.code(-Math.log10(0.5)) / 65_535.0, 1e-5);
        assertEquals(65_535, PrintTone.code(0));
        assertEquals(1.2, PrintTone.densityOf(PrintTone.code(1.2)), 1e-3);
    }

    @Test
    void tonesBeyondTheReadingsAreCounted() throws Exception {
        PrintTone print = new PrintTone(road("R00"));
        assertFalse(print.isMeasured(2.9));
        assertEquals(print.density(2.8), print.density(2.9));
    }
}
