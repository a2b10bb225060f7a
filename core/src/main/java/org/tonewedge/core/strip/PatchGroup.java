// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Locale;

/** The colour group of a patch, used to report similar patches together. */
public enum PatchGroup {
    /** White, grey or black: the scale by which the others are judged. */
    NEUTRAL,
    /** Reds. */
    RED,
    /** Greens. */
    GREEN,
    /** Blues. */
    BLUE,
    /** Cyans, blue-greens. */
    CYAN,
    /** Magentas, purples. */
    MAGENTA,
    /** Yellows. */
    YELLOW,
    /** Skin tones. */
    SKIN,
    /** Any other colour. */
    OTHER;

    /**
     * Returns the group as written in a table.
     *
     * @return the name in lower case, such as {@code red}
     */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
