package org.tonewedge.core.strip;

import java.util.Locale;

/** The colour a patch belongs to, for reporting patches of a kind together. */
public enum PatchGroup {
    /** White, grey or black: the scale the others are judged by. */
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
     * Returns the group as it is written in a table.
     *
     * @return the name in lower case, such as {@code red}
     */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
