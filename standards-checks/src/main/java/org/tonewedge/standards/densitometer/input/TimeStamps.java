// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.OptionalDouble;

/** Dates and clock times as seconds; a clock that jumps back by more than half a day has passed midnight. */
final class TimeStamps {

    private static final double DAY = 86_400;
    private static final double NANOSECONDS = 1e-9;
    private static final double MILLISECONDS = 1000;

    private double lastClock = Double.NEGATIVE_INFINITY;
    private double days;

    /** Seconds of a date and time of ISO 8601, or of a clock time {@code 10:15:30}; empty for other text. */
    OptionalDouble seconds(String text) {
        if (text.length() < 8 || text.length() > 40 || text.indexOf(':') < 0) {
            return OptionalDouble.empty();
        }
        try {
            return OptionalDouble.of(text.indexOf(':') == 2 ? clock(LocalTime.parse(text)) : date(text));
        } catch (DateTimeException e) {
            return OptionalDouble.empty();
        }
    }

    private double clock(LocalTime time) {
        double seconds = time.toNanoOfDay() * NANOSECONDS;
        if (seconds < lastClock - DAY / 2) {
            days += DAY;
        }
        lastClock = seconds;
        return days + seconds;
    }

    private static double date(String text) {
        String iso = text.replace(' ', 'T');
        boolean zoned = iso.endsWith("Z") || iso.lastIndexOf('+') > 10 || iso.lastIndexOf('-') > 10;
        OffsetDateTime time =
                zoned ? OffsetDateTime.parse(iso) : LocalDateTime.parse(iso).atOffset(ZoneOffset.UTC);
        return time.toInstant().toEpochMilli() / MILLISECONDS;
    }
}
