// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.ClosedFormCurve;
import org.tonewedge.standards.exposure.SensitivityCurve.WedgeReading;

/** Filter factors and wedge spectrograms, by hand. */
class FilterTest {

    private static CharacteristicCurve line(double gradient, double start) {
        return ClosedFormCurve.line("line", 0.2, gradient, start);
    }

    @Test
    void theFactorIsTheRatioOfExposures() {
        FilterFactor found = FilterFactor.at(DensityDifference.of(0.6), line(0.6, -2), line(0.6, -1.699), 0.02);
        assertEquals(2, found.factor().value(), 0.001);
        assertEquals(1, found.stops().value(), 0.001);
        assertEquals(0.02 * Math.sqrt(2) / Math.log10(2), found.stops().standardUncertainty(), 1e-9);
        FilterFactor higher = FilterFactor.at(DensityDifference.of(1.0), line(0.6, -2), line(0.6, -1.699), 0.02);
        assertFalse(found.changesWithDensity(higher));
        FilterFactor softer = FilterFactor.at(DensityDifference.of(1.0), line(0.6, -2), line(0.52, -1.8), 0.02);
        assertTrue(FilterFactor.at(DensityDifference.of(0.3), line(0.6, -2), line(0.52, -1.8), 0.02)
                .changesWithDensity(softer));
        // u of 10^x is ln 10 · 10^x · u(x): 2 · 2.302585 · 0.028284 (JCGM 100:2008, 5.1.2).
        assertEquals(0.13025, found.factor().standardUncertainty(), 2e-5);
        assertEquals(
                4,
                FilterFactor.of(Estimate.of(-1, 0.01), Estimate.of(-1 + Math.log10(4), 0.01))
                        .factor()
                        .value(),
                1e-9);
    }

    @Test
    void aSpectrogramGivesSensitivityLessTheSource() {
        SensitivityCurve curve = SensitivityCurve.of(List.of(
                new WedgeReading(400, Estimate.of(1.0, 0.02), 0.5),
                new WedgeReading(500, Estimate.of(1.2, 0.02), 1.0),
                new WedgeReading(600, Estimate.of(1.1, 0.02), 2.0),
                new WedgeReading(650, Estimate.of(0.2, 0.02), 2.0)));
        // By hand: 1.0 + 0.301 = 1.301, 1.2, 1.1 − 0.301 = 0.799 and −0.101; the first is the greatest.
        assertEquals(400, curve.peakWavelength());
        assertEquals(0, curve.logSensitivity(400).value(), 1e-12);
        assertEquals(0, curve.logSensitivity(400).standardUncertainty(), 1e-12);
        assertEquals(-0.10103, curve.logSensitivity(500).value(), 1e-5);
        assertEquals(0.02 * Math.sqrt(2), curve.logSensitivity(500).standardUncertainty(), 1e-12);
        assertEquals(-0.30154, curve.logSensitivity(550).value(), 1e-4);
        // One log unit below the peak, 0.301, lies between 600 (0.799) and 650 (−0.101): 600 + 50 · 0.498/0.9.
        assertEquals(627.67, curve.cutOff(1), 0.05);
        assertThrows(NotDeterminableException.class, () -> curve.cutOff(2));
        assertThrows(IllegalArgumentException.class, () -> curve.logSensitivity(700));
        assertThrows(IllegalArgumentException.class, () -> SensitivityCurve.of(List.of()));
    }

    @Test
    void theRecordsTellTheFactorAndItsStops() {
        FilterFactor found = FilterFactor.of(Estimate.of(-1, 0.01, 5), Estimate.of(-0.7, 0.01, 5));

        assertTrue(found.records().contains(ResultRecord.ofEstimate("factor", found.factor(), "")));
        assertTrue(found.records().contains(ResultRecord.ofEstimate("stops", found.stops(), "stops")));
    }

    /** By hand, of three wavelengths: the sensitivities are 1, 1 and 0, the first of two equal ones is the greatest. */
    @Test
    void threeWavelengthsMakeACurve() {
        SensitivityCurve curve = SensitivityCurve.of(List.of(
                new WedgeReading(400, Estimate.of(1, 0.01, 5), 1),
                new WedgeReading(500, Estimate.of(1, 0.02, 20), 1),
                new WedgeReading(600, Estimate.of(0, 0.04, 30), 1)));
        assertEquals(400, curve.peakWavelength());
        // Halfway from 500 to 600 nm, less the peak: √(0.01² + 0.02² + 0.005²), half of 0.04 and of 0.02.
        Estimate between = curve.logSensitivity(550);
        assertEquals(-0.5, between.value(), 1e-12);
        assertEquals(Math.sqrt(0.01 * 0.01 + 0.02 * 0.02 + 0.01 * 0.01), between.standardUncertainty(), 1e-12);
        assertEquals(5, between.degreesOfFreedom());
        // The peak itself counts, the wavelength that has no part in it does not.
        assertEquals(5, curve.logSensitivity(500).degreesOfFreedom());
        assertEquals(550, curve.cutOff(0.5), 1e-9);
        // It reaches 1.0 below its greatest, but falls no farther.
        assertThrows(NotDeterminableException.class, () -> curve.cutOff(1.0));
        assertThrows(
                IllegalArgumentException.class,
                () -> SensitivityCurve.of(List.of(
                        new WedgeReading(400, Estimate.of(1, 0.01), 1),
                        new WedgeReading(500, Estimate.of(1, 0.01), 1))));
        assertThrows(
                IllegalArgumentException.class,
                () -> SensitivityCurve.of(List.of(
                        new WedgeReading(400, Estimate.of(1, 0.01), 1),
                        new WedgeReading(400, Estimate.of(1, 0.01), 1),
                        new WedgeReading(500, Estimate.of(1, 0.01), 1))));
    }

    /** A reading with few degrees of freedom that has no part in the difference does not lower those of the result. */
    @Test
    void onlyReadingsThatCountLowerTheDegreesOfFreedom() {
        SensitivityCurve curve = SensitivityCurve.of(List.of(
                new WedgeReading(400, Estimate.of(0.2, 0.01, 2), 1),
                new WedgeReading(500, Estimate.of(1, 0.02, 20), 1),
                new WedgeReading(600, Estimate.of(0, 0.04, 30), 1)));
        assertEquals(20, curve.logSensitivity(550).degreesOfFreedom());
        assertEquals(2, curve.logSensitivity(450).degreesOfFreedom());
    }
}
