// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.standards.densitometer.summary.AveragedReadings.Quantity;

/** Means planted in readings of a tablet of seven steps, three readings a step: each must be found by name. */
class AveragedReadingsTest {

    private static final int STEPS = 7;
    private static final int READINGS = 3;
    private static final int RUNS = 4;
    /** The first readings are not judged: no mean of eight is known before the eighth. */
    private static final int UNJUDGED = 7;

    private static double truth(int reading) {
        int step = reading / READINGS % STEPS;
        return 0.05 + 0.3 * step + 0.02 * (reading % READINGS);
    }

    private static double transmittance(double density) {
        return Math.pow(10, -density);
    }

    /** What a counter finds in readings that print some function of the true densities so far, the newest last. */
    private static AveragedReadings found(ToDoubleFunction<List<Double>> printed, boolean byCounts, int readings) {
        AveragedReadings.Counter counter = new AveragedReadings.Counter();
        List<Double> past = new ArrayList<>();
        for (int i = 0; i < readings; i++) {
            past.add(truth(i));
            counter.add(i / READINGS % STEPS, printed.applyAsDouble(past), truth(i), byCounts);
        }
        return counter.found();
    }

    private static double meanOfLast(List<Double> past, int count, boolean transmittances) {
        List<Double> last = past.subList(Math.max(0, past.size() - count), past.size());
        return transmittances
                ? -Math.log10(last.stream()
                        .mapToDouble(AveragedReadingsTest::transmittance)
                        .average()
                        .orElseThrow())
                : last.stream().mapToDouble(density -> density).average().orElseThrow();
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 5, 6, 7, 8})
    void meansOfTheLastReadings(int count) {
        AveragedReadings light = found(past -> meanOfLast(past, count, true), false, RUNS * STEPS * READINGS);
        assertEquals("the mean transmittance of the last " + count + " readings", light.toString());
        assertEquals(OptionalInt.of(count), light.readingsToWait());
        assertEquals(Quantity.TRANSMITTANCES, light.quantity());
        AveragedReadings dark = found(past -> meanOfLast(past, count, false), true, RUNS * STEPS * READINGS);
        assertEquals("the mean density of the last " + count + " readings", dark.toString());
    }

    /** After three times n readings the step before still counts for (1 − 1/n)^(3n), about e⁻³ or 5 %. */
    @ParameterizedTest
    @CsvSource({"2", "3", "4", "5", "10", "20"})
    void smoothedReadings(int n) {
        AveragedReadings found = found(past -> smoothed(past, 1.0 / n), false, RUNS * STEPS * READINGS);
        assertEquals(
                "the mean density smoothed so that about 1/" + n + " of each new reading is taken", found.toString());
        assertEquals(OptionalInt.of(3 * n), found.readingsToWait());
    }

    private static double smoothed(List<Double> past, double fraction) {
        double value = past.get(0);
        for (double density : past) {
            value = (1 - fraction) * value + fraction * density;
        }
        return value;
    }

    /**
     * Within a step the readings rise by 0.02, so that a mean since the change of step shows by counts only. In a
     * scatter of 0.002, means of densities and of transmittances are alike: (ln 10 / 2) · 0.016² is 0.0003.
     */
    @Test
    void meansSinceTheChangeOfStep() {
        ToDoubleFunction<List<Double>> sinceStep = past -> meanOfLast(past, (past.size() - 1) % READINGS + 1, false);
        AveragedReadings found = found(sinceStep, true, RUNS * STEPS * READINGS);
        assertEquals("the mean density of all readings since the change of step", found.toString());
        Random random = new Random(5);
        ToDoubleFunction<List<Double>> scattered =
                past -> sinceStep.applyAsDouble(past) + 0.002 * random.nextGaussian();
        assertEquals(
                Quantity.EITHER, found(scattered, true, RUNS * STEPS * READINGS).quantity());
        assertEquals(OptionalInt.empty(), found.readingsToWait());
        assertNull(found(sinceStep, false, RUNS * STEPS * READINGS));
    }

    /** The effect is the standard deviation of what the mean adds. */
    @Test
    void theEffectIsWhatTheMeanAdds() {
        int readings = RUNS * STEPS * READINGS;
        List<Double> past = new ArrayList<>();
        List<Double> added = new ArrayList<>();
        for (int i = 0; i < readings; i++) {
            past.add(truth(i));
            if (i >= UNJUDGED) {
                added.add(meanOfLast(past, 4, true) - truth(i));
            }
        }
        double mean = added.stream().mapToDouble(x -> x).average().orElseThrow();
        double squares =
                added.stream().mapToDouble(x -> (x - mean) * (x - mean)).sum();
        AveragedReadings found = found(all -> meanOfLast(all, 4, true), false, readings);
        assertEquals(Math.sqrt(squares / added.size()), found.effect(), 1e-9);
    }

    @Test
    void soundOrFewReadingsAreNotAccused() {
        Random random = new Random(4);
        assertNull(found(
                past -> past.get(past.size() - 1) + 0.003 * random.nextGaussian(), true, RUNS * STEPS * READINGS));
        assertNull(found(past -> past.get(past.size() - 1), true, RUNS * STEPS * READINGS));
        // Eight judged readings are the fewest.
        assertNull(found(past -> meanOfLast(past, 4, false), false, UNJUDGED + 7));
        assertEquals(
                "the mean density of the last 4 readings",
                String.valueOf(found(past -> meanOfLast(past, 4, false), false, UNJUDGED + 8)));
    }
}
