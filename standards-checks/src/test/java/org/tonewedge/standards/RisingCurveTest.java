// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastDetermination;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.DeltaX;
import org.tonewedge.standards.film.DevelopedCurve;
import org.tonewedge.standards.film.FractionalGradient;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.paper.Iso6846;

/** Methods for negatives and papers refuse a curve that falls, and say so. */
class RisingCurveTest {

    /** Density 3.20 at log H −4, 0.20 at 4. */
    private static CharacteristicCurve falling(double basePlusFog) {
        return ClosedFormCurve.of("slide", x -> 3.20 - 0.375 * (x + 4), x -> -0.375, basePlusFog);
    }

    static Stream<Named<Consumer<CharacteristicCurve>>> methods() {
        return Stream.of(
                Named.of("ISO 6", curve -> Iso6.withDefaults().determine(curve)),
                Named.of("ISO 6 contrast", curve -> Iso6.withDefaults().contrast(curve)),
                Named.of(
                        "ISO 6 series",
                        curve -> Iso6.withDefaults()
                                .determine(List.of(
                                        new DevelopedCurve(Duration.ofMinutes(4), curve),
                                        new DevelopedCurve(Duration.ofMinutes(8), curve)))),
                Named.of("ISO 5800", curve -> Iso5800.withDefaults().determine(new ColourCurves(curve, curve, curve))),
                Named.of("ISO 6846 range", curve -> Iso6846.withDefaults().range(curve)),
                Named.of("ISO 6846 speed", curve -> Iso6846.withDefaults().speed(curve)),
                Named.of("contrast index", curve -> ContrastIndex.withDefaults().determine(curve)),
                Named.of(
                        "average gradient",
                        curve -> AverageGradient.withDefaults().determine(curve)),
                Named.of(
                        "average gradient to an arc",
                        curve -> AverageGradient.withDefaults().withArc(1.5).determine(curve)),
                Named.of(
                        "fractional gradient",
                        curve -> FractionalGradient.withDefaults().determine(curve)),
                Named.of("delta X", DeltaX.withDefaults()::determine));
    }

    @ParameterizedTest
    @MethodSource("methods")
    void aFallingCurveIsRefused(Consumer<CharacteristicCurve> method) {
        // Base plus fog is the least density of a slide, or the greatest if its unexposed end was read.
        for (double basePlusFog : new double[] {0.20, 3.20}) {
            NotDeterminableException e =
                    assertThrows(NotDeterminableException.class, () -> method.accept(falling(basePlusFog)));
            assertTrue(e.getMessage().startsWith("slide: density falls with exposure, from D 3.20"), e.getMessage());
        }
    }

    @Test
    void noiseInTheToeOfARisingCurveIsNoFall() {
        double[] noisy = {0.203, 0.198, 0.204, 0.197, 0.26, 0.45, 0.66, 0.87, 1.08, 1.29, 1.50};
        assertEquals(1, Iso6.withDefaults().contrast(strip(noisy)).conditions().size());
    }

    @Test
    void noiseAboutBasePlusFogDoesNotReachTheSpeedPoint() {
        OutsideMeasuredRangeException e = assertThrows(
                OutsideMeasuredRangeException.class,
                () -> Iso6.withDefaults().contrast(strip(0.205, 0.198, 0.203, 0.199, 0.204, 0.196)));
        assertTrue(e.getMessage().contains("0.10 above base plus fog"), e.getMessage());
    }

    private static CharacteristicCurve strip(double... densities) {
        Strip.Builder builder = Strip.builder("noisy").basePlusFog(0.20);
        for (int i = 0; i < densities.length; i++) {
            builder.reading(LogExposure.ofLogLuxSeconds(-3 + 0.3 * i), Density.of(densities[i]));
        }
        return CharacteristicCurve.through(builder.build());
    }

    @Test
    void theGradientBetweenTwoDensitiesOfAFallingCurveNamesThePointOfLessExposureFirst() {
        ContrastDetermination found = AverageGradient.withDefaults()
                .withStart(DensityDifference.of(0.50))
                .withEnd(DensityDifference.of(1.50))
                .determine(falling(0.20));
        assertEquals(-0.375, found.figure(), 1e-12);
        assertEquals(0, found.lower().logExposure().value(), 1e-9);
        assertEquals(1.70, found.lower().density().value(), 1e-9);
        assertEquals(1 / 0.375, found.upper().logExposure().value(), 1e-9);
    }
}
