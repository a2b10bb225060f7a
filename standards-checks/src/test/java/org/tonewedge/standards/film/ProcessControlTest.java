// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.standards.film.ProcessControl.Alarm;
import org.tonewedge.standards.film.ProcessControl.Cause;
import org.tonewedge.standards.film.ProcessControl.ControlReading;
import org.tonewedge.standards.film.ProcessControl.Parameter;

class ProcessControlTest {

    private static final ControlReading REFERENCE = ControlReading.of(0.28, 0.72, 1.35);

    @Test
    void aRunBeyondALimitIsNamed() {
        List<Alarm> alarms = ProcessControl.against(REFERENCE)
                .judge(List.of(REFERENCE, ControlReading.of(0.29, 0.80, 1.45), ControlReading.of(0.32, 0.73, 1.36)));
        assertEquals(2, alarms.size());
        assertEquals(Parameter.SPEED_POINT, alarms.get(0).parameter());
        assertEquals(2, alarms.get(0).run());
        assertEquals(
                "run 2: speed point +0.080 from the reference, beyond the limit",
                alarms.get(0).toString());
        assertEquals(Parameter.BASE_PLUS_FOG, alarms.get(1).parameter());
    }

    /** Limits of 0.03, 0.06 and 0.08 (common practice, no source): a reading at its limit, of two decimals, is within it. */
    @Test
    void aReadingAtItsLimitIsWithinIt() {
        for (int i = 0; i < 100; i++) {
            double base = 0.10 + i / 100.0;
            ControlReading reference = ControlReading.of(base, base + 0.44, base + 1.07);
            ControlReading above = ControlReading.of(hundredths(base + 0.03), base + 0.44, base + 1.07);
            ControlReading denser = ControlReading.of(base, hundredths(base + 0.50), hundredths(base + 1.13));
            ControlReading steeper = ControlReading.of(base, base + 0.44, hundredths(base + 1.15));
            ProcessControl control = ProcessControl.against(reference);
            assertEquals(List.of(), control.judge(List.of(above)), reference.toString());
            assertEquals(List.of(), control.judge(List.of(denser)), reference.toString());
            assertEquals(List.of(), control.judge(List.of(steeper)), reference.toString());
            assertEquals(
                    1,
                    control.judge(List.of(ControlReading.of(hundredths(base + 0.04), base + 0.44, base + 1.07)))
                            .size());
        }
    }

    private static double hundredths(double density) {
        return Math.rint(100 * density) / 100;
    }

    /** Eight runs on one side, six in one direction: rules of control charts, from memory. */
    @Test
    void shiftsAndTrendsWithinTheLimitsAreNamed() {
        List<ControlReading> shifted = new ArrayList<>();
        List<ControlReading> drifting = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            double wobble = i % 2 == 0 ? 0.004 : 0;
            shifted.add(ControlReading.of(0.28, 0.74 + wobble, 1.37 + wobble));
        }
        for (int i = 0; i < 6; i++) {
            drifting.add(ControlReading.of(0.28, 0.71 + 0.005 * i, 1.34 + 0.005 * i));
        }
        List<Alarm> ofShift = ProcessControl.against(REFERENCE).judge(shifted);
        assertEquals(1, ofShift.size());
        assertEquals(Cause.SHIFT, ofShift.get(0).cause());
        assertEquals(8, ofShift.get(0).run());
        List<Alarm> ofTrend = ProcessControl.against(REFERENCE).judge(drifting);
        assertEquals(1, ofTrend.size());
        assertEquals(Cause.TREND, ofTrend.get(0).cause());
    }

    /** Normal scatter passes three standard deviations in 0.27 % of cases: any table of the normal distribution. */
    @Test
    @Tag("slow")
    void limitsOfOnesOwnProcessRarelyCryWolf() {
        Random random = new Random(2);
        List<ControlReading> history = runs(2000, random);
        ProcessControl control = ProcessControl.against(REFERENCE).withLimitsFrom(history);
        assertEquals(3 * 0.01, control.limit(Parameter.BASE_PLUS_FOG), 0.0015);
        long beyond = control.judge(runs(10_000, random)).stream()
                .filter(alarm -> alarm.cause() == Cause.BEYOND_LIMIT && alarm.parameter() == Parameter.BASE_PLUS_FOG)
                .count();
        assertTrue(beyond >= 10 && beyond <= 50, beyond + " of 10,000, expected 27");
    }

    /** Ten runs suffice, nine do not. */
    @Test
    void limitsNeedTenRuns() {
        List<ControlReading> ten = runs(10, new Random(3));
        assertTrue(ProcessControl.against(REFERENCE).withLimitsFrom(ten).limit(Parameter.CONTRAST) > 0);
        assertThrows(
                IllegalArgumentException.class,
                () -> ProcessControl.against(REFERENCE).withLimitsFrom(ten.subList(0, 9)));
    }

    private static List<ControlReading> runs(int count, Random random) {
        List<ControlReading> runs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            runs.add(ControlReading.of(
                    0.28 + 0.01 * random.nextGaussian(),
                    0.72 + 0.02 * random.nextGaussian(),
                    1.35 + 0.03 * random.nextGaussian()));
        }
        return runs;
    }

    @Test
    void speedFollowsFromTheGradient() {
        // By hand: net density 0.50 for 0.44 at a gradient of 0.6 is 0.1 log units, a third of a stop.
        assertEquals(
                0.1,
                ProcessControl.against(REFERENCE)
                        .speedChange(ControlReading.of(0.30, 0.80, 1.45), 0.6)
                        .logUnits(),
                1e-9);
    }

    @Test
    void impossibleReadingsAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> ControlReading.of(0.28, 1.35, 0.72));
        assertThrows(IllegalArgumentException.class, () -> ControlReading.of(0.80, 0.72, 1.35));
        assertThrows(IllegalArgumentException.class, () -> ControlReading.of(0.28, 0.72, 0.72));
        assertEquals(6, ControlReading.of(0.28, 0.72, 6).highStep());
        assertThrows(
                IllegalArgumentException.class,
                () -> ProcessControl.against(REFERENCE).withLimitsFrom(List.of(REFERENCE)));
        assertThrows(
                IllegalArgumentException.class,
                () -> ProcessControl.against(REFERENCE).withLimits(0, 0.1, 0.1));
    }
}
