// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.detail.SlantedEdge;
import org.tonewedge.standards.exposure.PersonalExposureIndex;
import org.tonewedge.standards.exposure.PersonalExposureIndex.ShadowFrame;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso6;

/** What keeps a figure from being had, as a program is told. */
class ReasonsTest {

    private static final double[] NEGATIVE = {0.21, 0.25, 0.36, 0.55, 0.76, 0.97, 1.16};

    private static Strip.Builder strip(double... densities) {
        double[] exposures = IntStream.range(0, densities.length)
                .mapToDouble(i -> -3 + 0.3 * i)
                .toArray();
        return Strip.builder("S").readings(ExposureSeries.ofLogLuxSeconds(exposures), densities);
    }

    private static CharacteristicCurve curve(double... densities) {
        return CharacteristicCurve.through(strip(densities).basePlusFog(0.2).build());
    }

    private static void assertReason(Reason expected, Executable use) {
        NotDeterminableException thrown = assertThrows(NotDeterminableException.class, use);
        assertEquals(expected, thrown.reason(), thrown.getMessage());
    }

    @Test
    void aProgramIsToldWhatToDo() {
        assertReason(
                Reason.NO_BASE_PLUS_FOG,
                () -> CharacteristicCurve.through(strip(NEGATIVE).build()));
        assertReason(Reason.TOO_FEW_READINGS, () -> curve(0.3));
        assertReason(Reason.OUTSIDE_MEASURED_RANGE, () -> Iso6.withDefaults().determine(curve(0.4, 0.6, 0.8, 1.0)));
        assertReason(
                Reason.OUTSIDE_MEASURED_RANGE,
                () -> AverageGradient.withDefaults().withArc(2.5).determine(curve(NEGATIVE)));
        assertReason(Reason.AMBIGUOUS_DENSITY, () -> curve(0.3, 0.8, 0.6, 0.4).logExposureAt(Density.of(0.5)));
        assertReason(Reason.UNSUITABLE_CURVE, () -> CurveAnatomy.of(curve(0.21, 0.22, 0.23, 0.24, 0.25, 0.26)));
        assertReason(Reason.METHOD_NOT_APPLICABLE, () -> Iso2240.withDefaults().determine(curve(NEGATIVE)));
        assertReason(Reason.NO_FIT, () -> CurveFits.toeShoulder(strip(0.3, 0.5).build()));
        assertReason(
                Reason.CONTRADICTORY_READINGS,
                () -> PersonalExposureIndex.withDefaults()
                        .determine(List.of(ShadowFrame.of(100, 0.05), ShadowFrame.of(200, 0.20))));
        assertReason(
                Reason.UNSUITABLE_IMAGE,
                () -> SlantedEdge.withDefaults().determineInDensity(DensityImage.of(new double[64 * 64], 64, 5)));
        assertReason(
                Reason.UNCERTAINTY_UNKNOWN,
                () -> ReadingUncertainty.of(Repeatability.of(0.2))
                        .withDraws(200)
                        .determine(
                                strip(NEGATIVE).basePlusFog(0.2).build(),
                                curve -> AverageGradient.withDefaults()
                                        .withSpan(ExposureInterval.ofLogUnits(1.33))
                                        .determine(curve)));
    }
}
