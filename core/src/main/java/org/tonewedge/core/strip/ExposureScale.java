// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.List;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;

/** The exposure scale of a table; each constant has the name of its column, or of the row above the steps. */
enum ExposureScale {
    LOG_EXPOSURE("log_exposure", false),
    RELATIVE("relative_log_exposure", false),
    STEP("step", true),
    STOPS("stops", true);

    private static final int MOST_NAMED = 10;

    private final String word;
    private final boolean indirect;

    ExposureScale(String word, boolean indirect) {
        this.word = word;
        this.indirect = indirect;
    }

    String word() {
        return word;
    }

    /** Whether exposures follow from a tablet or a bracket, and one exposure of the strip. */
    boolean isIndirect() {
        return indirect;
    }

    /** Which strips of a table seem to have logarithms in place of stops; nothing if none has. */
    Optional<String> doubt(String table, List<Strip> strips) {
        if (this != STOPS) {
            return Optional.empty();
        }
        List<String> ids = strips.stream()
                .filter(StripCheck::stopsMayBeLogarithms)
                .map(strip -> Checks.shortened(strip.id()))
                .toList();
        return ids.isEmpty()
                ? Optional.empty()
                : Optional.of(table + ": the stops of "
                        + String.join(", ", ids.subList(0, Math.min(MOST_NAMED, ids.size())))
                        + (ids.size() > MOST_NAMED ? ", …" : "")
                        + " are as far apart as the steps of a tablet in log units, and density rises faster than 0.36"
                        + " per stop, as on very steep film alone: are these logarithms? Divide them by 0.301, or enter"
                        + " them as " + RELATIVE.word);
    }
}
