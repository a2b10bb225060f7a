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
}
