// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.StepTablet;

/** A tablet photographed with a known veil of light. */
class CameraFlareTest {

    private static final StepTablet TABLET = StepTablet.nominal(14, Density.of(0.05), 0.15);
    private static final double OPEN = 0.4;

    private static List<Estimate> exposures(double flare, double noise, boolean stated, Random random) {
        List<Estimate> exposures = new ArrayList<>();
        for (StepTablet.Step step : TABLET.steps()) {
            double log = OPEN + Math.log10(Math.pow(10, -step.density().value()) + flare);
            exposures.add(Estimate.of(log + noise * random.nextGaussian(), stated ? noise : 0));
        }
        return exposures;
    }

    @Test
    void exactExposuresGiveTheFlareBack() {
        CameraFlare found = CameraFlare.of(TABLET, exposures(0.013, 0, false, new Random(1)));
        assertEquals(0.013, found.flare().value(), 1e-9);
        assertEquals(OPEN, found.logExposureOfSource().value(), 1e-9);
        // By hand: behind D 2 the light is 0.010 + 0.013, 2.3 times what the tablet passes.
        assertEquals(2.3, found.addedBehind(2).ratio(), 1e-6);
        assertEquals(OPEN + Math.log10(0.023), found.exposureOf(2).value(), 1e-9);
    }

    private static List<Estimate> measured(boolean stated) {
        double[] logs = {0.37, -0.09, -0.60, -1.01, -1.49, -1.63};
        double[] uncertainties = {0.01, 0.015, 0.02, 0.02, 0.03, 0.04};
        List<Estimate> exposures = new ArrayList<>();
        for (int i = 0; i < logs.length; i++) {
            exposures.add(Estimate.of(logs[i], stated ? uncertainties[i] : 0));
        }
        return exposures;
    }

    private static void assertEstimate(double value, double uncertainty, double degrees, Estimate found) {
        assertEquals(value, found.value(), 1e-7);
        assertEquals(uncertainty, found.standardUncertainty(), 1e-4 * uncertainty, "its derivatives are differences");
        assertEquals(degrees, found.degreesOfFreedom());
    }

    /** SciPy's least squares: {@code exposure_fits.py} in the test resources. */
    @Test
    void uncertaintiesAreThoseOfAnotherProgram() {
        StepTablet tablet = StepTablet.calibrated("six steps", 0.003, new double[] {0.05, 0.5, 1, 1.5, 2, 2.5});
        CameraFlare stated = CameraFlare.of(tablet, measured(true));
        double none = Double.POSITIVE_INFINITY;
        assertEstimate(0.004831890980013401, 0.0006257634804096814, none, stated.flare());
        assertEstimate(0.4087390100746888, 0.007698146330494191, none, stated.logExposureOfSource());
        assertEstimate(-0.5707675701615911, 0.0069271342054141065, none, stated.exposureOf(1));
        assertEstimate(-1.4200644653412193, 0.016364432385650975, none, stated.exposureOf(2));
        CameraFlare byScatter = CameraFlare.of(tablet, measured(false));
        assertEstimate(0.005510698766305804, 0.0010582822563084628, 4, byScatter.flare());
        assertEstimate(0.39465972817492245, 0.025366473916528166, 4, byScatter.logExposureOfSource());
        assertEstimate(-0.5820437725744089, 0.022701250076192028, 4, byScatter.exposureOf(1));
        assertEstimate(-1.4147089083432014, 0.022824148454846767, 4, byScatter.exposureOf(2));
    }

    /** Four steps are enough. Negative by noise, −0.00003 of the source leaves no light behind 1/0.00003, D 4.52. */
    @Test
    void aSlightlyNegativeFlareLeavesNoLightFarBehind() {
        StepTablet four = StepTablet.calibrated("four steps", 0.003, new double[] {0.05, 1, 2, 3});
        List<Estimate> exposures = new ArrayList<>();
        for (StepTablet.Step step : four.steps()) {
            exposures.add(Estimate.of(Math.log10(Math.pow(10, -step.density().value()) - 0.00003), 0.01));
        }
        CameraFlare found = CameraFlare.of(four, exposures);
        assertEquals(-0.00003, found.flare().value(), 1e-9);
        assertEquals(0.7, found.addedBehind(4).ratio(), 1e-6);
        assertTrue(found.exposureOf(4).standardUncertainty() > 0);
        assertThrows(NotDeterminableException.class, () -> found.addedBehind(4.53));
    }

    /** 95 % intervals over simulated tablets. */
    @ParameterizedTest
    @CsvSource({"0.01, true", "0.01, false", "0.05, true", "0.002, true", "0, true"})
    @Tag("slow")
    void intervalsIncludeTheTruth(double flare, boolean stated) {
        Random random = new Random(17);
        int cases = 400;
        int held = 0;
        int heldBehind = 0;
        double bias = 0;
        for (int i = 0; i < cases; i++) {
            CameraFlare found = CameraFlare.of(TABLET, exposures(flare, 0.02, stated, random));
            held += found.flare().interval(0.95).contains(flare) ? 1 : 0;
            double truth = OPEN + Math.log10(0.1 + flare);
            heldBehind += found.exposureOf(1).interval(0.95).contains(truth) ? 1 : 0;
            bias += (found.flare().value() - flare) / cases;
        }
        assertTrue(held >= 0.92 * cases && held <= 0.98 * cases, held + " of " + cases);
        assertTrue(heldBehind >= 0.92 * cases && heldBehind <= 0.98 * cases, heldBehind + " of " + cases);
        assertEquals(0, bias, 0.0004);
    }

    @Test
    void whatIsNoTabletIsRefused() {
        List<Estimate> exact = exposures(0.01, 0, false, new Random(1));
        assertThrows(IllegalArgumentException.class, () -> CameraFlare.of(TABLET, exact.subList(0, 13)));
        List<Estimate> swapped = new ArrayList<>(exact);
        Collections.reverse(swapped);
        assertThrows(NotDeterminableException.class, () -> CameraFlare.of(TABLET, swapped));
        StepTablet few = StepTablet.nominal(3, Density.of(0.05), 0.15);
        assertThrows(NotDeterminableException.class, () -> CameraFlare.of(few, exact.subList(0, 3)));
        List<Estimate> mixed = new ArrayList<>(exact);
        mixed.set(3, Estimate.of(0, 0.1));
        assertThrows(IllegalArgumentException.class, () -> CameraFlare.of(TABLET, mixed));
    }

    @Test
    void theRecordsTellTheFlare() {
        CameraFlare found = CameraFlare.of(TABLET, exposures(0.013, 0.01, true, new Random(1)));

        assertTrue(found.records().contains(ResultRecord.ofEstimate("flare", found.flare(), "")));
    }

    /** Flare that would take 0.95 of the light behind the densest step is none; 0.85 of it may be noise. */
    @ParameterizedTest
    @CsvSource({"-0.00085, true", "-0.00095, false"})
    void flareIsNegativeByNoiseOnly(double flare, boolean possible) {
        StepTablet four = StepTablet.calibrated("four steps", 0.003, new double[] {0.05, 1, 2, 3});
        List<Estimate> exposures = four.steps().stream()
                .map(step -> Estimate.of(Math.log10(Math.pow(10, -step.density().value()) + flare), 0.01))
                .toList();
        if (possible) {
            assertEquals(flare, CameraFlare.of(four, exposures).flare().value(), 1e-9);
        } else {
            assertThrows(NotDeterminableException.class, () -> CameraFlare.of(four, exposures));
        }
    }
}
