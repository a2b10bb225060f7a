// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TestConditionsTest {

    private static final TestConditions ALL = TestConditions.notStated()
            .withIlluminant("daylight")
            .withExposureTime(Duration.ofMillis(20))
            .withHold(Duration.ofHours(3))
            .withStorage("20 °C");

    @Test
    void whatIsStatedAndWhatIsMissingIsTold() {
        assertEquals("illuminant daylight, exposure time 1/50 s, hold 3 h, storage 20 °C", ALL.toString());
        assertEquals(List.of(), ALL.missing());
        assertEquals(Optional.of("daylight"), ALL.illuminant());
        assertEquals(Optional.of(Duration.ofMillis(20)), ALL.exposureTime());
        assertEquals(Optional.of(Duration.ofHours(3)), ALL.hold());
        assertEquals(Optional.of("20 °C"), ALL.storage());
        TestConditions none = TestConditions.notStated();
        assertEquals(List.of("illuminant", "exposure time", "hold", "storage"), none.missing());
        assertEquals("not stated: illuminant, exposure time, hold, storage", none.toString());
        assertEquals(
                "hold 119 min; not stated: illuminant, exposure time, storage",
                none.withHold(Duration.ofMinutes(119)).toString());
    }

    /** Seconds as a shutter is marked, where they are 1 over a whole number from 2 on to less than a part in a thousand (own choice, no source). */
    @ParameterizedTest
    @CsvSource({
        "1000000000, 1 s",
        "30000000000, 30 s",
        "1500000000, 1.50 s",
        "1000000, 1/1000 s",
        "333333333, 1/3 s",
        "333000000, 1/3 s",
        "332900000, 0.3329 s",
        "333400000, 1/3 s",
        "400000000, 0.40 s",
        "999100000, 0.9991 s"
    })
    void exposureTimes(long nanoseconds, String words) {
        assertEquals(
                List.of("exposure time " + words),
                TestConditions.notStated()
                        .withExposureTime(Duration.ofNanos(nanoseconds))
                        .stated());
    }

    @ParameterizedTest
    @CsvSource({"PT0S, 0 min", "PT90S, 1.50 min", "PT2H, 2 h", "PT2H30M, 2.50 h", "P10D, 240 h"})
    void holds(Duration hold, String words) {
        assertEquals(
                List.of("hold " + words),
                TestConditions.notStated().withHold(hold).stated());
    }

    @Test
    void timesHaveLimits() {
        TestConditions none = TestConditions.notStated();
        assertEquals(
                1_000_000,
                none.withExposureTime(Duration.ofSeconds(1_000_000))
                        .exposureTime()
                        .orElseThrow()
                        .toSeconds());
        for (Duration refused : List.of(Duration.ofSeconds(1_000_001), Duration.ZERO, Duration.ofSeconds(-1))) {
            assertThrows(IllegalArgumentException.class, () -> none.withExposureTime(refused));
        }
        assertThrows(IllegalArgumentException.class, () -> none.withHold(Duration.ofMillis(-1)));
        assertThrows(IllegalArgumentException.class, () -> none.withHold(Duration.ofDays(36_600)));
    }
}
