// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

/** The exposure scale of a table; each constant has the name of its column, or of the row above the steps. */
enum ExposureScale {
    LOG_EXPOSURE("log_exposure", false),
    RELATIVE("relative_log_exposure", false),
    STEP("step", true),
    STOPS("stops", true);

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
}
