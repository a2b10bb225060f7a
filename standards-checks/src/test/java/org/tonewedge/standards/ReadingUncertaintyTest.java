// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastDetermination;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Speed;
import org.tonewedge.standards.film.SpeedMean;

class ReadingUncertaintyTest {

    private static final double REPEATABILITY = 0.01;
    private static final Iso6 ISO_6 = Iso6.withDefaults();

    /** A straight strip of gradient 0.6 with a step right at the speed point, log H −2, and 2 readings of the base. */
    private static Strip straight() {
        Strip.Builder builder = Strip.builder("straight").basePlusFog(0.20, 0.20);
        for (int i = -1; i < 10; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * i), Density.of(0.30 + 0.6 * 0.15 * i));
        }
        return builder.build();
    }

    @Test
    void theErrorsOfTheStepAndOfBasePlusFogMoveTheSpeedPoint() {
        // To first order u(log H) = √(s² + s²/2) / 0.6; in degrees ten times that. Draws scatter by 1/√(2 · 2000), 1.6
        // %.
        double repeatability = 0.002;
        Iso6Speed speed = ReadingUncertainty.of(Repeatability.of(repeatability))
                .withDraws(2000)
                .determine(straight(), ISO_6::determine);
        double expected = 10 * repeatability * Math.sqrt(1.5) / 0.6;
        assertEquals(expected, speed.estimate().orElseThrow().standardUncertainty(), 0.05 * expected);
        assertEquals(
                ISO_6.determine(CharacteristicCurve.through(straight())).exactDegrees(),
                speed.estimate().orElseThrow().value());
    }

    @Test
    void theCommonExposureMovesSpeedButNotContrast() {
        ReadingUncertainty lamp = ReadingUncertainty.of(Repeatability.of(0))
                .withDraws(2000)
                .withExposureUncertainty(ExposureInterval.ofLogUnits(0.02));
        Iso6Speed speed = lamp.determine(straight(), ISO_6::determine);
        assertEquals(0.2, speed.estimate().orElseThrow().standardUncertainty(), 0.01);
        ContrastDetermination contrast = lamp.determine(
                straight(), AverageGradient.withDefaults().withSpan(ExposureInterval.ofLogUnits(1))::determine);
        assertEquals(0, contrast.estimate().orElseThrow().standardUncertainty(), 1e-9);
        assertTrue(contrast.toString().contains("±"), contrast.toString());
    }

    @Test
    void repeatabilityIsPooledOverAllRepeats() {
        // Deviations: step ±0.01 (1 degree of freedom), base 0.02 apart (1): s² = (0.0002 + 0.0002) / 2.
        Strip.Builder builder = Strip.builder("repeats").basePlusFog(0.19, 0.21);
        for (int i = -1; i < 10; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * i), Density.of(0.30 + 0.6 * 0.15 * i));
        }
        builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * 9), Density.of(0.30 + 0.6 * 0.15 * 9 + 0.02));
        double pooled = Math.sqrt(0.0004 / 2);
        Estimate fromRepeats = ReadingUncertainty.of(Repeatability.fromRepeats())
                .estimate(builder.build(), curve -> ISO_6.determine(curve).figure());
        Estimate stated = ReadingUncertainty.of(Repeatability.of(pooled))
                .estimate(builder.build(), curve -> ISO_6.determine(curve).figure());
        assertEquals(stated.standardUncertainty(), fromRepeats.standardUncertainty(), 1e-9);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 5, 10})
    @Tag("slow")
    void intervalsFromFewRepeatsContainTheTruthAsOftenAsStated(int basePlusFogReadings) {
        int strips = 300;
        RepeatCoverage.Coverage coverage = RepeatCoverage.of(basePlusFogReadings, strips, 100, 11);
        // Three standard deviations of a count of 95 %.
        double tolerance = 3 * Math.sqrt(0.95 * 0.05 / strips);
        assertEquals(0.95, coverage.withT(), tolerance);
    }

    @Test
    @Tag("slow")
    void degreesOfFreedomAreThoseOfTheRepeats() {
        Strip.Builder builder = Strip.builder("repeats").basePlusFog(0.19, 0.21, 0.20);
        for (int i = -1; i < 10; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * i), Density.of(0.30 + 0.6 * 0.15 * i));
        }
        builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * 9), Density.of(0.30 + 0.6 * 0.15 * 9 + 0.02));
        Strip strip = builder.build();
        // 2 of base plus fog and 1 of the step read twice.
        assertEquals(
                3,
                ReadingUncertainty.of(Repeatability.fromRepeats())
                        .determine(strip, ISO_6::determine)
                        .estimate()
                        .orElseThrow()
                        .degreesOfFreedom());
        // Two strips read together: 6.
        assertEquals(
                6,
                ReadingUncertainty.of(Repeatability.fromRepeats())
                        .determine(
                                List.of(strip, strip),
                                curves -> SpeedMean.of(
                                        curves.stream().map(ISO_6::determine).toList()))
                        .estimate()
                        .orElseThrow()
                        .degreesOfFreedom());
        assertEquals(
                Double.POSITIVE_INFINITY,
                ReadingUncertainty.of(Repeatability.of(REPEATABILITY))
                        .determine(strip, ISO_6::determine)
                        .estimate()
                        .orElseThrow()
                        .degreesOfFreedom());
    }

    @Test
    void anExactlyKnownExposureUncertaintyRaisesTheDegreesOfFreedom() {
        Strip.Builder builder = Strip.builder("repeats").basePlusFog(0.198, 0.200, 0.202);
        for (int i = -1; i < 10; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-2 + 0.15 * i), Density.of(0.30 + 0.6 * 0.15 * i));
        }
        Estimate readings = ReadingUncertainty.of(Repeatability.fromRepeats())
                .withDraws(2000)
                .estimate(builder.build(), curve -> ISO_6.determine(curve).figure());
        Estimate both = ReadingUncertainty.of(Repeatability.fromRepeats())
                .withDraws(2000)
                .withExposureUncertainty(ExposureInterval.ofLogUnits(0.005))
                .estimate(builder.build(), curve -> ISO_6.determine(curve).figure());
        // As FigureTest simulates: ν = 2 (u/u_readings)².
        double ratio = both.standardUncertainty() / readings.standardUncertainty();
        assertEquals(2 * Math.pow(ratio, 2), both.degreesOfFreedom(), 0.1 * both.degreesOfFreedom());
        assertTrue(ratio > 1.3, "" + ratio);
    }

    /** What neither the readings nor the exposure change is exactly known, beside an uncertain exposure too. */
    @Test
    void aFigureThatNothingChangesIsExact() {
        Strip.Builder builder = Strip.builder("A").basePlusFog(0.2);
        for (int i = 0; i <= 10; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(0.2 + 0.15 * i));
        }
        Estimate none = ReadingUncertainty.of(Repeatability.of(0))
                .withExposureUncertainty(ExposureInterval.ofLogUnits(0.05))
                .estimate(builder.build(), curve -> 0);
        assertEquals(Estimate.of(0, 0), none);
    }

    @Test
    void equalRepeatsTellNothing() {
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class,
                () -> ReadingUncertainty.of(Repeatability.fromRepeats()).estimate(straight(), curve -> 1));
        assertTrue(e.getMessage().contains("all repeat readings are equal"), e.getMessage());
    }

    @Test
    void withoutRepeatsTheRepeatabilityMustBeStated() {
        Strip.Builder builder = Strip.builder("single").basePlusFog(0.20);
        for (int i = 0; i < 6; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(0.2 + 0.2 * i));
        }
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class,
                () -> ReadingUncertainty.of(Repeatability.fromRepeats()).estimate(builder.build(), curve -> 1));
        assertTrue(e.getMessage().contains("'single': no repeat readings"), e.getMessage());
    }

    @Test
    void equalSettingsGiveEqualResults() {
        ReadingUncertainty readings =
                ReadingUncertainty.of(Repeatability.of(REPEATABILITY)).withDraws(200);
        Iso6Speed first = readings.determine(straight(), ISO_6::determine);
        assertEquals(
                first.estimate(),
                readings.determine(straight(), ISO_6::determine).estimate());
        assertTrue(!first.estimate()
                .equals(readings.withSeed(2)
                        .determine(straight(), ISO_6::determine)
                        .estimate()));
    }

    @Test
    void severalStripsAreDrawnTogether() {
        Estimate one = ReadingUncertainty.of(Repeatability.of(REPEATABILITY))
                .withDraws(2000)
                .determine(straight(), ISO_6::determine)
                .estimate()
                .orElseThrow();
        // The mean of two strips of the same kind varies less by √2.
        double mean = ReadingUncertainty.of(Repeatability.of(REPEATABILITY))
                .withDraws(2000)
                .determine(
                        List.of(straight(), straight()),
                        curves -> SpeedMean.of(
                                curves.stream().map(ISO_6::determine).toList()))
                .estimate()
                .orElseThrow()
                .standardUncertainty();
        assertEquals(one.standardUncertainty() / Math.sqrt(2), mean, 0.05 * mean);
    }

    @Test
    void aFigureThatManyDrawsDoNotGiveIsRefused() {
        // The speed point lies 0.001 below the densest step: about every other draw does not reach it.
        Strip.Builder builder = Strip.builder("thin").basePlusFog(0.20);
        for (int i = 0; i < 6; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(0.2 + 0.101 * i / 5));
        }
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> ReadingUncertainty.of(Repeatability.of(REPEATABILITY))
                        .determine(builder.build(), ISO_6::contrast));
        assertTrue(e.getMessage().contains("of 1000 strips drawn"), e.getMessage());
    }

    @Test
    void aFigureThatIsNoNumberIsRefused() {
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> ReadingUncertainty.of(Repeatability.of(REPEATABILITY))
                        .estimate(straight(), curve -> Math.log(-1)));
        assertTrue(e.getMessage().contains("the figure is NaN, not a finite number"), e.getMessage());
    }

    @Test
    void aDrawBelowEveryDensityIsLeftOut() {
        // Base plus fog 0.19 above the least density there is: with s 0.1, one draw in 35 falls below that.
        Strip.Builder builder = Strip.builder("zeroed on the base").basePlusFog(-0.01);
        for (int i = 0; i < 6; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(2 + 0.4 * i));
        }
        Estimate found =
                ReadingUncertainty.of(Repeatability.of(0.1)).estimate(builder.build(), curve -> curve.density(-2.4));
        assertEquals(0.1, found.standardUncertainty(), 0.01);
    }

    @Test
    void aMethodThatRefusesSomeDrawsByItsOwnExceptionIsCounted() {
        ReadingUncertainty readings = ReadingUncertainty.of(Repeatability.of(REPEATABILITY));
        // The step read 0.30 is drawn above 0.32 once in 44.
        assertEquals(
                0.01,
                readings.estimate(straight(), curve -> notAbove(0.32, curve)).standardUncertainty(),
                0.001);
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class, () -> readings.estimate(straight(), curve -> notAbove(0.301, curve)));
        assertTrue(e.getMessage().contains("of 1000 strips drawn"), e.getMessage());
    }

    private static double notAbove(double limit, CharacteristicCurve curve) {
        double density = curve.density(-2);
        if (density > limit) {
            throw new IllegalArgumentException("density above " + limit);
        }
        return density;
    }

    @Test
    @Tag("slow")
    void intervalsCoverTheTrueSpeedAboutAsOftenAsStated() {
        CharacteristicCurve truth = ClosedFormCurve.SOFTPLUS_TOE_SHOULDER.curve();
        double trueDegrees = ISO_6.determine(truth).exactDegrees();
        ReadingUncertainty readings =
                ReadingUncertainty.of(Repeatability.of(REPEATABILITY)).withDraws(100);
        Random random = new Random(7);
        int strips = 200;
        int covered = 0;
        for (int i = 0; i < strips; i++) {
            Strip strip = SampledStrips.noisy(truth, REPEATABILITY, random);
            Estimate degrees = readings.withSeed(i)
                    .estimate(
                            strip,
                            curve -> ISO_6.contrast(curve)
                                            .speedPoint()
                                            .logExposure()
                                            .value()
                                    * -10);
            double error = Math.abs(degrees.value() + 10 * Math.log10(0.8) + 1 - trueDegrees);
            if (error <= 1.96 * degrees.standardUncertainty()) {
                covered++;
            }
        }
        // 95 % of 200 is 190, with a standard deviation of 3.
        assertTrue(covered >= 180 && covered <= 199, covered + " of " + strips);
    }

    @Test
    void settingsOutOfRangeAreRefused() {
        ReadingUncertainty readings = ReadingUncertainty.of(Repeatability.of(0.01));
        assertThrows(IllegalArgumentException.class, () -> ReadingUncertainty.of(Repeatability.of(-0.01)));
        assertThrows(IllegalArgumentException.class, () -> readings.withDraws(99));
        assertThrows(
                IllegalArgumentException.class,
                () -> readings.withExposureUncertainty(ExposureInterval.ofLogUnits(-0.01)));
        readings.withExposureUncertainty(ExposureInterval.ofLogUnits(1));
        assertThrows(
                IllegalArgumentException.class,
                () -> readings.withExposureUncertainty(ExposureInterval.ofLogUnits(1.01)));
    }
}
