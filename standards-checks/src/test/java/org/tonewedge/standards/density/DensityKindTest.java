// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ReflectionGeometry;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;

class DensityKindTest {

    private static final DensityKind<TransmissionGeometry> DIFFUSE_VISUAL =
            new DensityKind<>(TransmissionGeometry.DIFFUSE, SpectralResponse.VISUAL);

    @Test
    void unlikeDensitiesDoNotMix() {
        MeasuredDensity<TransmissionGeometry> visual = new MeasuredDensity<>(Density.of(0.42), DIFFUSE_VISUAL);
        MeasuredDensity<TransmissionGeometry> base = new MeasuredDensity<>(Density.of(0.20), DIFFUSE_VISUAL);
        assertEquals(DensityDifference.of(0.42 - 0.20), visual.minus(base));
        MeasuredDensity<TransmissionGeometry> blue = new MeasuredDensity<>(
                Density.of(0.20), new DensityKind<>(TransmissionGeometry.DIFFUSE, SpectralResponse.STATUS_M_BLUE));
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, () -> visual.minus(blue));
        assertTrue(e.getMessage().contains("D_T(diffuse; status M blue)"), e.getMessage());
        MeasuredDensity<TransmissionGeometry> projected = new MeasuredDensity<>(
                Density.of(0.20), new DensityKind<>(TransmissionGeometry.PROJECTION_F4_5, SpectralResponse.VISUAL));
        assertThrows(IllegalArgumentException.class, () -> visual.minus(projected));
        assertEquals("D 0.42 D_T(diffuse; visual)", visual.toString());
        assertEquals(
                "D_R(annular 45°/0°, polarised; status A red)",
                new DensityKind<>(ReflectionGeometry.ANNULAR_POLARISED, SpectralResponse.STATUS_A_RED).toString());
    }

    @ParameterizedTest
    @EnumSource
    void aNeutralFilterHasOneDensityUnderEveryResponse(SpectralResponse response) {
        assertEquals(2.5, response.density(nanometres -> Math.pow(10, -2.5)).value(), 1e-12);
        assertEquals(0, response.weight(response.shortestWavelength() - 10));
        assertEquals(0, response.weight(response.longestWavelength() + 10));
    }

    @Test
    void badSpectraAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> SpectralResponse.VISUAL.weight(555));
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class,
                () -> SpectralResponse.VISUAL.density(nanometres -> nanometres == 550 ? -0.1 : 0.5));
        assertTrue(e.getMessage().contains("transmittance at 550 nm"), e.getMessage());
        assertThrows(IllegalArgumentException.class, () -> SpectralResponse.VISUAL.density(nanometres -> 0));
    }

    /** ISO 5-3 spectral products at 10 nm, as a general-purpose colour library carries them: first and last entry. */
    @ParameterizedTest
    @CsvSource({
        "VISUAL, 400, 0.01, 770, 0.01",
        "STATUS_A_BLUE, 420, 4, 490, 0.04",
        "STATUS_A_GREEN, 500, 0.04, 590, 0.04",
        "STATUS_A_RED, 600, 0.37, 740, 0.01",
        "STATUS_M_BLUE, 410, 0.13, 510, 0.07",
        "STATUS_T_BLUE, 350, 0.01, 540, 0.04",
        "TYPE_1, 360, 0.01, 440, 0.01",
        "TYPE_2, 340, 0.01, 540, 0.01"
    })
    void columnsBeginAndEndAsPrinted(SpectralResponse response, int first, double atFirst, int last, double atLast) {
        assertEquals(first, response.shortestWavelength());
        assertEquals(atFirst, response.weight(first));
        assertEquals(last, response.longestWavelength());
        assertEquals(atLast, response.weight(last));
    }

    @Test
    void namesAreReadBack() {
        for (SpectralResponse response : SpectralResponse.values()) {
            assertEquals(response, SpectralResponse.of(response.description()));
            assertEquals(response, SpectralResponse.of(" " + response.name().replace('_', '-')));
        }
        for (DensityGeometry geometry : TransmissionGeometry.values()) {
            assertEquals(geometry, DensityGeometry.of(geometry.description().toUpperCase(Locale.ROOT)));
        }
        assertEquals(ReflectionGeometry.ANNULAR, DensityGeometry.of("annular 45/0"));
        assertThrows(IllegalArgumentException.class, () -> SpectralResponse.of("status M"));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> DensityGeometry.of("glossy"))
                .getMessage()
                .contains("diffuse; projection f/4.5"));
    }
}
