// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.tonewedge.core.tone.Brackets.AXIS;
import static org.tonewedge.core.tone.Brackets.line;
import static org.tonewedge.core.tone.Brackets.logistic;

import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

class ToneReproductionTest {

    private static final LogExposure METERED = new LogExposure(-1, AXIS);

    private final CharacteristicCurve film = line(0.20, 0.60, -3, -3, 1);
    private final CharacteristicCurve paper = line(0.05, 1.70, 0, 0, 1.2);
    private final Printing printing = Printing.matching(film.densityAt(METERED), paper, Density.of(0.75));

    /** End-to-end gamma is the product of the separate gammas (stated in an encyclopedia article; here it is exact). */
    @Test
    void multipliesTheGammasOfStraightLines() {
        ToneReproduction road = ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper);

        for (double stops : new double[] {-2, -1, 0, 1, 2}) {
            ReproducedTone tone = road.tone(SubjectTone.ofStops(stops));
            assertEquals(0.60 * 1.70, tone.gradient().value(), 1e-12);
            assertEquals(
                    0.75 - 0.60 * 1.70 * stops * Math.log10(2),
                    tone.printDensity().value(),
                    1e-12);
            assertEquals(Math.pow(10, -tone.printDensity().value()), tone.reflectance(), 1e-12);
        }
    }

    /** A negative of gamma 0.6: 0.3 log exposure gives 0.18 density (camera maker's text on negative film, figure 2.2). */
    @Test
    void givesTheDensityOfOneStopOnAnUsualNegative() {
        assertEquals(
                0.18,
                ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper)
                        .negativeDensityRange(new SubjectTone(0), new SubjectTone(0.3))
                        .value(),
                1e-12);
    }

    /**
     * Arithmetic: 0.0015 lx·s of flare stay when the light of the tone doubles. The metered 0.1628937… lx·s are H = q L t / N²
     * of 4000 cd/m² at f/8, 1/250 s (form of ISO 12232:2006, docstring example of a general imaging library).
     */
    @Test
    void addsFlareAsAnExposure() {
        double image = 0.1628937086212269;
        CameraExposure camera =
                CameraExposure.metered(LogExposure.ofLuxSeconds(image)).withFlare(0.0015 / image);

        assertEquals(0.1643937086212269, camera.exposureOf(SubjectTone.METERED).exposure(), 1e-12);
        assertEquals(
                Math.log10(2 * image + 0.0015),
                camera.exposureOf(SubjectTone.ofStops(1)).value(),
                1e-12);
    }

    /** By the definition: 160:1 in the subject, with 1 % of its lightest tone as flare, is (1 + 0.01) / (1/160 + 0.01). */
    @Test
    void givesTheFlareFactor() {
        CameraExposure camera = CameraExposure.metered(METERED).withFlare(0.01);
        double imageRange = 1.01 / (1 / 160.0 + 0.01);

        assertEquals(160 / imageRange, camera.flareFactor(SubjectTone.ofLuminance(1, 160), SubjectTone.METERED), 1e-9);
        assertEquals(
                1, CameraExposure.metered(METERED).flareFactor(SubjectTone.ofStops(-3), SubjectTone.METERED), 1e-12);
        assertThrows(
                IllegalArgumentException.class, () -> camera.flareFactor(SubjectTone.METERED, SubjectTone.METERED));
    }

    @Test
    void findsTheToneOfAnExposure() {
        CameraExposure camera = CameraExposure.metered(METERED).withFlare(0.02);
        SubjectTone tone = SubjectTone.ofStops(-4);

        assertEquals(tone.logLuminance(), camera.toneAt(camera.exposureOf(tone)).logLuminance(), 1e-12);
        LogExposure flareAlone = METERED.plus(ExposureInterval.ofRatio(0.02));
        assertThrows(NotDeterminableException.class, () -> camera.toneAt(flareAlone));
    }

    /**
     * Densities of Zones 0 to X, one stop apart, of table 51 of a zone-system test, read on nhchau.com (2008), are only put in.
     * The expected ones are arithmetic: a paper of gradient 1 shows the same differences, the other way round.
     */
    @Test
    void carriesAMeasuredFilmToThePrint() {
        double[] zones = {.02, .11, .21, .34, .48, .62, .76, .97, 1.18, 1.33, 1.44};
        Strip.Builder strip = Strip.builder("zones").basePlusFog(0);
        IntStream.range(0, zones.length)
                .forEach(zone ->
                        strip.reading(new LogExposure((zone - 5) * Math.log10(2), AXIS), Density.of(zones[zone])));
        CharacteristicCurve measured = CharacteristicCurve.through(strip.build());
        CharacteristicCurve evenPaper = line(0, 1, 0, 0, 2);
        ToneReproduction road = ToneReproduction.of(
                CameraExposure.metered(new LogExposure(0, AXIS)),
                measured,
                Printing.matching(Density.of(.62), evenPaper, Density.of(0.9)),
                evenPaper);

        List<SubjectTone> tones = IntStream.range(0, zones.length)
                .mapToObj(zone -> SubjectTone.ofStops(zone - 5))
                .toList();
        List<ReproducedTone> printed = road.tones(tones);
        for (int zone = 0; zone < zones.length; zone++) {
            assertEquals(
                    0.9 - (zones[zone] - .62), printed.get(zone).printDensity().value(), 1e-9);
        }
        assertEquals(
                1.18 - .21,
                road.negativeDensityRange(tones.get(2), tones.get(8)).value(),
                1e-9);
    }

    @Test
    void knowsTheTonesThatFilmAndPaperHold() {
        ToneReproduction road = ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper);

        // The paper ends first: its range of 1.2 is 2.0 log units of the subject at gradient 0.6.
        assertEquals(
                2.0,
                road.lightest().logLuminance() - road.darkest().orElseThrow().logLuminance(),
                1e-9);
        assertEquals(
                paper.maximumDensity().value(),
                road.tone(road.darkest().orElseThrow()).printDensity().value(),
                1e-9);
        assertEquals(
                paper.minimumDensity().value(),
                road.tone(road.lightest()).printDensity().value(),
                1e-9);

        // A film that was measured less far ends first.
        ToneReproduction shorter = road.withFilm(line(0.20, 0.60, -3, -1.5, -0.5));
        assertEquals(-0.5, shorter.darkest().orElseThrow().logLuminance(), 1e-9);
        assertEquals(0.5, shorter.lightest().logLuminance(), 1e-9);
    }

    /** Flare of 2 % of the metered tone keeps every shadow above log H −1.70 of it, and the film was measured below that. */
    @Test
    void withOrdinaryFlareTheShadowsHaveNoEnd() {
        CharacteristicCurve longPaper = line(0.05, 0.50, 0, 0, 4);
        ToneReproduction road = ToneReproduction.of(
                CameraExposure.metered(METERED).withFlare(0.02),
                film,
                Printing.matching(film.densityAt(METERED), longPaper, Density.of(1.0)),
                longPaper);
        assertTrue(road.darkest().isEmpty());
        assertTrue(road.tone(SubjectTone.ofStops(-30)).printDensity().value() > 1);
        assertTrue(road.lightest().logLuminance() > 0);
    }

    /** A film that reverses: density rises to the metered tone and beyond, then falls; the paper's black comes first. */
    @Test
    void staysOnTheBranchOfTheMeteredTone() {
        CharacteristicCurve reversing = Brackets.curve(x -> 1.4 - 0.4 * x * x, x -> -0.8 * x, 0.2, -1.5, 1.5);
        ToneReproduction road = ToneReproduction.of(
                CameraExposure.metered(new LogExposure(-0.5, AXIS)),
                reversing,
                Printing.matching(Density.of(1.3), paper, Density.of(0.75)),
                paper);

        // The paper gets more light than it was measured for under 1.3 − (1.2 − 0.7/1.7), at x = −√(…/0.4).
        double thinnest = 1.3 - (1.2 - 0.7 / 1.7);
        double crossing = Math.sqrt((1.4 - thinnest) / 0.4);
        assertEquals(-crossing + 0.5, road.darkest().orElseThrow().logLuminance(), 1e-9);
        assertEquals(crossing + 0.5, road.lightest().logLuminance(), 1e-9);
    }

    @Test
    void refusesTonesBeyondFilmOrPaper() {
        ToneReproduction road = ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper);

        assertThrows(OutsideMeasuredRangeException.class, () -> road.tone(SubjectTone.ofStops(-8)));
        assertThrows(OutsideMeasuredRangeException.class, () -> road.tone(SubjectTone.ofStops(5)));
        List<SubjectTone> tones = List.of(SubjectTone.ofStops(0), SubjectTone.ofStops(-8));
        for (Executable several : List.<Executable>of(() -> road.tones(tones), () -> road.against(road, tones))) {
            String message =
                    assertThrows(OutsideMeasuredRangeException.class, several).getMessage();
            assertTrue(message.startsWith("the tone −8 stops from the metered tone: "), message);
        }
        ToneReproduction tooDim = road.withPrinting(printing.changedBy(ExposureInterval.ofStops(-30)));
        assertThrows(OutsideMeasuredRangeException.class, tooDim::darkest);
    }

    @Test
    void refusesAnotherAxisByName() {
        CameraExposure elsewhere = CameraExposure.metered(LogExposure.ofLuxSeconds(0.01));

        assertThrows(IllegalArgumentException.class, () -> ToneReproduction.of(elsewhere, film, printing, paper));
        Printing otherLight = new Printing(new LogExposure(1, ExposureAxis.relativeTo("another lamp")));
        assertThrows(
                IllegalArgumentException.class,
                () -> ToneReproduction.of(CameraExposure.metered(METERED), film, otherLight, paper));
    }

    @Test
    void predictsWhatPrintsLighterAndDarker() {
        ToneReproduction reference = ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper);
        // More contrast about the same metered density: shadows print darker, highlights lighter.
        CharacteristicCurve harder = line(0.20 + 0.60 * 2 - 0.75 * 2, 0.75, -3, -3, 1);
        List<SubjectTone> tones =
                DoubleStream.of(-1, 0, 1).mapToObj(SubjectTone::ofStops).toList();

        List<ToneDifference> differences = reference.withFilm(harder).against(reference, tones);

        double expected = 0.15 * 1.70 * Math.log10(2);
        assertEquals(expected, differences.get(0).difference().value(), 1e-9);
        assertEquals(
                List.of(Shade.DARKER, Shade.ALIKE, Shade.LIGHTER),
                differences.stream().map(difference -> difference.shade(0.02)).toList());
        assertThrows(
                IllegalArgumentException.class,
                () -> reference.against(
                        ToneReproduction.of(
                                CameraExposure.metered(METERED), film, printing, line(0.05, 1.70, 0, 0, 1.2)),
                        tones));
    }

    /** A change of printing exposure for base plus fog prints two films alike that differ by nothing else. */
    @Test
    void printsAlikeAfterTheBasePlusFogIsMadeUpFor() {
        ToneReproduction reference = ToneReproduction.of(CameraExposure.metered(METERED), film, printing, paper);
        CharacteristicCurve fogged = line(0.35, 0.60, -3, -3, 1);

        ToneReproduction made = reference
                .withFilm(fogged)
                .withPrinting(
                        printing.changedBy(PrintExposure.forBasePlusFog(fogged.basePlusFog(), film.basePlusFog())));

        ToneDifference difference =
                made.against(reference, List.of(SubjectTone.ofStops(1))).get(0);
        assertEquals(0, difference.difference().value(), 1e-12);
    }

    @Test
    void saysWhatItIs() {
        ToneStage<SubjectTone, Density> stage = ToneReproduction.of(
                        CameraExposure.metered(METERED), film, printing, logistic(0.05, 2, 5, 0.5, -1, 3))
                .stage();

        assertEquals("camera, test curve, printing, test curve", stage.toString());
        assertTrue(stage.gradientAt(SubjectTone.METERED).value() < 0);
        assertEquals("−2 stops from the metered tone", SubjectTone.ofStops(-2).toString());
    }
}
