// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The meaning of one value in a line of a densitometer's log. */
enum LogField {

    /** The number of the step of the tablet, 1 at the clear end. */
    STEP,

    /** The label of the run (the pass over the tablet) to which the reading belongs. */
    RUN,

    /** A time stamp: seconds from any zero, or a date and time of ISO 8601 such as {@code 2026-01-31T10:15:30Z}. */
    TIME,

    /** A time stamp in milliseconds from any zero, such as a processor's uptime. */
    MILLISECONDS,

    /** The temperature of the instrument in degrees Celsius. */
    TEMPERATURE,

    /** The density as the firmware computed it. */
    DENSITY,

    /** The detector's counts with the sample in the gate. */
    SAMPLE,

    /** The detector's counts in the dark, at the settings of the sample. */
    DARK,

    /** The detector's counts with the gate open. */
    OPEN,

    /** The gain at which the sample was counted. */
    GAIN,

    /** The integration time of the sample, in any unit that is also used for the open gate. */
    INTEGRATION,

    /** The detector's counts in the dark at the settings of the open gate; those of {@link #DARK} if not stated. */
    OPEN_DARK,

    /** The gain at which the open gate was counted. */
    OPEN_GAIN,

    /** The integration time of the open gate. */
    OPEN_INTEGRATION;

    /** The word for it in the text form of a {@link LogLayout}, such as {@code open_gain}. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it is used only to compute a density from counts. */
    boolean isOfCounts() {
        return switch (this) {
            case SAMPLE, DARK, OPEN, GAIN, INTEGRATION, OPEN_DARK, OPEN_GAIN, OPEN_INTEGRATION -> true;
            case STEP, RUN, TIME, MILLISECONDS, TEMPERATURE, DENSITY -> false;
        };
    }

    static Optional<LogField> ofWord(String word) {
        return Arrays.stream(values())
                .filter(field -> field.word().equals(word))
                .findFirst();
    }
}
