// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.exposure.PersonalExposureIndex.ShadowFrame;

class PersonalExposureIndexTest {

    /** By hand: 0.10 lies a third of the way from 0.14 at EI 100 to 0.02 at 200: 100 · 2^(1/3) = 126. */
    @Test
    void liesBetweenTheFramesOnALogarithmicScale() {
        PersonalExposureIndex found = PersonalExposureIndex.withDefaults()
                .determine(List.of(ShadowFrame.of(200, 0.02), ShadowFrame.of(100, 0.14), ShadowFrame.of(50, 0.30)));
        assertEquals(100 * Math.cbrt(2), found.exposureIndex().value(), 1e-9);
        assertEquals(-5.0 / 3, found.comparedWith(400).stops(), 1e-9);
        assertEquals(
                50 * Math.pow(2, 0.25),
                PersonalExposureIndex.withDefaults()
                        .withDensity(DensityDifference.of(0.26))
                        .determine(List.of(ShadowFrame.of(100, 0.14), ShadowFrame.of(50, 0.30)))
                        .exposureIndex()
                        .value(),
                1e-9);
    }

    @Test
    @Tag("slow")
    void intervalsIncludeTheTruth() {
        Random random = new Random(4);
        int held = 0;
        int cases = 4000;
        for (int i = 0; i < cases; i++) {
            // Density 0.10 at EI 160, falling by 0.10 each stop: straight, as the method takes it.
            Estimate slow = Estimate.of(
                    0.10 + 0.10 * Math.log(160 / 100.0) / Math.log(2) + 0.005 * random.nextGaussian(), 0.005);
            Estimate fast = Estimate.of(
                    0.10 + 0.10 * Math.log(160 / 200.0) / Math.log(2) + 0.005 * random.nextGaussian(), 0.005);
            PersonalExposureIndex found = PersonalExposureIndex.withDefaults()
                    .determine(List.of(new ShadowFrame(100, slow), new ShadowFrame(200, fast)));
            held += found.exposureIndex().interval(0.95).contains(160) ? 1 : 0;
        }
        assertTrue(held >= 0.93 * cases && held <= 0.97 * cases, held + " of " + cases);
    }

    @Test
    void framesThatDoNotTellAreRefused() {
        PersonalExposureIndex.Method method = PersonalExposureIndex.withDefaults();
        assertThrows(
                NotDeterminableException.class,
                () -> method.determine(List.of(ShadowFrame.of(100, 0.14), ShadowFrame.of(50, 0.30))));
        assertThrows(
                NotDeterminableException.class,
                () -> method.determine(List.of(ShadowFrame.of(100, 0.02), ShadowFrame.of(200, 0.14))));
        assertThrows(
                NotDeterminableException.class,
                () -> method.determine(
                        List.of(ShadowFrame.of(50, 0.2), ShadowFrame.of(100, 0.02), ShadowFrame.of(200, 0.14))));
        assertThrows(
                IllegalArgumentException.class,
                () -> method.determine(List.of(ShadowFrame.of(100, 0.02), ShadowFrame.of(100, 0.14))));
    }

    @Test
    void theRecordsTellTheIndexWithItsUncertainty() {
        PersonalExposureIndex index = PersonalExposureIndex.withDefaults()
                .determine(List.of(
                        new ShadowFrame(100, Estimate.of(0.14, 0.005, 4)),
                        new ShadowFrame(200, Estimate.of(0.08, 0.005, 4))));

        assertTrue(index.records().contains(ResultRecord.ofEstimate("exposure_index", index.exposureIndex(), "")));
        assertTrue(index.records().contains(ResultRecord.ofNumber("density", 0.10, "density")));
        assertEquals(4, index.exposureIndex().degreesOfFreedom());
    }

    /** The frame at EI 100 has the density 0.10 itself, whatever lies on either side of it. */
    @Test
    void aFrameMayHaveTheDensityItself() {
        for (List<ShadowFrame> frames : List.of(
                List.of(ShadowFrame.of(50, 0.16), ShadowFrame.of(100, 0.10), ShadowFrame.of(200, 0.04)),
                List.of(ShadowFrame.of(100, 0.10), ShadowFrame.of(200, 0.04)))) {
            assertEquals(
                    100,
                    PersonalExposureIndex.withDefaults()
                            .determine(frames)
                            .exposureIndex()
                            .value(),
                    1e-9);
        }
    }

    /**
     * By hand: 0.10 lies two thirds of the way from 0.14 ± 0.006 to 0.08 ± 0.003. The third and the two thirds of the errors are 0.002
     * each, 0.002 √2 together; a stop, 0.30103, over 0.06 turns them into 0.01419 in the logarithm. 100 · 2^(2/3) = 158.74, times ln
     * 10 · 0.01419 is 5.187.
     */
    @Test
    void theUncertaintyByHand() {
        Estimate index = PersonalExposureIndex.withDefaults()
                .determine(List.of(
                        new ShadowFrame(100, Estimate.of(0.14, 0.006, 9)),
                        new ShadowFrame(200, Estimate.of(0.08, 0.003, 4))))
                .exposureIndex();
        assertEquals(158.74, index.value(), 0.005);
        assertEquals(5.187, index.standardUncertainty(), 0.001);
        assertEquals(4, index.degreesOfFreedom());
    }

    @Test
    void aRefusalShowsTheFrames() {
        String refused = assertThrows(
                        NotDeterminableException.class,
                        () -> PersonalExposureIndex.withDefaults()
                                .determine(List.of(ShadowFrame.of(100, 0.14), ShadowFrame.of(50, 0.30))))
                .getMessage();
        assertTrue(refused.contains("[EI 50.00 D 0.30, EI 100.00 D 0.14]"), refused);
    }
}
