// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Objects;
import java.util.OptionalLong;
import org.tonewedge.core.strip.UnusableInputException;

/**
 * A log, a layout or a certificate cannot be used. The message gives the place and the remedy, such as
 * {@code tablet.csv, line 4: the density of step 3 must be above that of step 2; …}.
 */
public final class DensitometerInputException extends UnusableInputException {

    private static final long serialVersionUID = 1L;

    /** The line at fault; 0 for the whole input. */
    private final long line;

    /** What to do about it. */
    private final String remedy;

    /**
     * Makes an exception with its place and its remedy.
     *
     * @param fault the kind of fault
     * @param source the name of what cannot be used, such as a file
     * @param line the line at fault; 0 for the whole input
     * @param words what is wrong
     * @param remedy what to do about it
     */
    public DensitometerInputException(Fault fault, String source, long line, String words, String remedy) {
        super(
                fault,
                Objects.requireNonNull(source, "source")
                        + (line > 0 ? ", line " + line : "")
                        + ": "
                        + Objects.requireNonNull(words, "words")
                        + "; "
                        + Objects.requireNonNull(remedy, "remedy"));
        this.line = line;
        this.remedy = remedy;
    }

    /**
     * Returns the line at fault.
     *
     * @return the line number from 1; empty if the whole input is at fault
     */
    public OptionalLong line() {
        return line > 0 ? OptionalLong.of(line) : OptionalLong.empty();
    }

    /**
     * Returns what to do about it.
     *
     * @return the remedy in words
     */
    public String remedy() {
        return remedy;
    }
}
