// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.PiecewiseLinearCurve;

/** Radiographic methods on straight segments; published figures are rows of the verification table. */
class RadiographyTest {

    /** Base plus fog 0.2; gradient 2 up to D 2.2 at log K −2, then gradient 5 up to 4.7 at −1.5. */
    private static final CharacteristicCurve FILM = PiecewiseLinearCurve.through(
            "film", new double[] {-3, -2, -1.5}, new double[] {0.2, 2.2, 4.7}, 0.2, AirKerma.AXIS);

    /**
     * By hand: 1.0 above base plus fog is D 1.2 at log K −2.5, 2.0 above is D 2.2 at −2. Constants: 10 mGy of a dental page,
     * after ISO 3665; 1 Gy of ISO 7004 from memory.
     */
    @Test
    void speeds() {
        assertEquals(
                -2.5,
                RadiographicSpeed.DENTAL
                        .determine(FILM)
                        .points()
                        .get(0)
                        .logExposure()
                        .value(),
                1e-9);
        assertEquals(
                0.01 / Math.pow(10, -2.5),
                RadiographicSpeed.DENTAL.determine(FILM).exact(),
                1e-9);
        assertEquals(100, RadiographicSpeed.INDUSTRIAL.determine(FILM).exact(), 1e-9);
        assertEquals(2, RadiographicSpeed.INDUSTRIAL.determine(FILM).figure(), 1e-9);
        assertEquals(
                0.05,
                RadiographicSpeed.INDUSTRIAL
                        .determine(FILM)
                        .withUncertainty(0.05)
                        .estimate()
                        .orElseThrow()
                        .standardUncertainty());
    }

    @Test
    void gradients() {
        // 0.25 to 2.00 above base plus fog lies on gradient 2; 1.50 to 3.50 runs 0.25 on it and 0.30 on gradient 5.
        assertEquals(2, RadiographicGradient.medical().determine(FILM).figure(), 1e-9);
        assertEquals(
                2 / (0.25 + 0.30),
                RadiographicGradient.industrial().determine(FILM).figure(),
                1e-9);
        assertEquals(5, RadiographicGradient.at(FILM, DensityDifference.of(4.0)).value(), 1e-9);
        assertEquals(
                "average gradient from 1.50 above base plus fog to 3.50 above base plus fog",
                RadiographicGradient.industrial().determine(FILM).criterion().name());
    }

    @Test
    void aGradientUpToADensityThatIsNotReachedIsRefused() {
        CharacteristicCurve thin = PiecewiseLinearCurve.through(
                "thin film", new double[] {-3, -2}, new double[] {0.2, 2.2}, 0.2, AirKerma.AXIS);
        assertThrows(
                OutsideMeasuredRangeException.class,
                () -> RadiographicGradient.industrial().determine(thin));
    }

    @Test
    void aFilmSystemThatMissesItsClassSaysWhere() {
        assertEquals(
                Optional.of(IndustrialFilmClass.II), IndustrialFilmClass.of(Gradient.of(4.2), Gradient.of(6.5), 0.028));
        assertEquals(Optional.empty(), IndustrialFilmClass.of(Gradient.of(3.4), Gradient.of(6.5), 0.028));
        List<Condition> conditions = IndustrialFilmClass.I.conditions(Gradient.of(4.2), Gradient.of(6.5), 0.028);
        assertFalse(conditions.get(1).isMet());
        assertTrue(conditions.get(1).toString().contains("gradient at 4.0 at least 6.80: found 6.50"));
        assertTrue(IndustrialFilmClass.W_C.conditions(Gradient.of(3.2), Gradient.of(4.5), 0.039).stream()
                .allMatch(Condition::isMet));
        assertThrows(
                IllegalArgumentException.class, () -> IndustrialFilmClass.of(Gradient.of(4.2), Gradient.of(6.5), 0));
    }

    /** The limits 7, 14 and 112: a dental page, after ISO 3665 (secondary). */
    @Test
    void dentalGroupsMeetAtTheirLimits() {
        assertEquals(Optional.of(DentalSpeedGroup.D), DentalSpeedGroup.of(14));
        assertEquals(Optional.of(DentalSpeedGroup.C), DentalSpeedGroup.of(Math.nextDown(14.0)));
        assertEquals(Optional.empty(), DentalSpeedGroup.of(6.99));
        assertEquals(Optional.empty(), DentalSpeedGroup.of(112));
    }
}
