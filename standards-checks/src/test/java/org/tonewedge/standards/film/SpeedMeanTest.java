// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.ClosedFormCurve;

class SpeedMeanTest {

    private static final CharacteristicCurve CURVE = ClosedFormCurve.SOFTPLUS_TOE_SHOULDER.curve();

    private static List<Iso6Speed> samples(double... shifts) {
        return DoubleStream.of(shifts)
                .mapToObj(shift -> Iso6.withDefaults().determine(CURVE.shiftedBy(ExposureInterval.ofLogUnits(shift))))
                .toList();
    }

    @Test
    void theMeanIsOneOfLogarithms() {
        // Shifts −0.06, 0, 0.03: degrees +0.6, 0, −0.3; mean +0.1, standard deviation 0.458258, over √3 0.264575.
        SpeedReading mean = SpeedMean.of(samples(-0.06, 0, 0.03));
        double single = Iso6.withDefaults().determine(CURVE).exactDegrees();
        assertEquals(single + 0.1, mean.exactDegrees(), 1e-9);
        assertEquals(0.264575, mean.estimate().orElseThrow().standardUncertainty(), 0.5e-6);
        assertEquals(
                mean.exact() * 0.264575 * Math.log(10) / 10,
                mean.exactEstimate().orElseThrow().standardUncertainty(),
                1e-4);
        assertEquals(2, mean.estimate().orElseThrow().degreesOfFreedom());
        assertEquals(6, mean.points().size());
        assertTrue(mean.conditionsMet());
        assertTrue(mean.criterion().name().contains("mean of 3 samples"), mean.toString());
    }

    @Test
    void oneSampleThatMissesTheContrastShows() {
        List<Iso6Speed> samples =
                List.of(samples(0).get(0), Iso6.withDefaults().determine(ClosedFormCurve.HD1890.curve()));
        SpeedReading mean = SpeedMean.of(samples);
        assertFalse(mean.conditionsMet());
        assertTrue(mean.toString().contains("develop longer"), mean.toString());
        // Two conditions, of which only the missed one is told.
        assertEquals(2, mean.conditions().size());
        assertEquals(1, mean.toString().split("above the speed point", -1).length - 1, mean.toString());
    }

    @Test
    void badSamplesAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> SpeedMean.of(samples(0)));
        assertThrows(
                IllegalArgumentException.class,
                () -> SpeedMean.of(
                        List.of(samples(0).get(0), DeltaX.withDefaults().determine(CURVE))));
    }
}
