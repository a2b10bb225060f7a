// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Objects;

/**
 * An input that cannot be used: a table, a log, a certificate or a file. The message names the place, the fault and the
 * remedy; {@link #fault()} is for programs, and subclasses give the parts.
 *
 * <p>The other family of exceptions is {@link org.tonewedge.core.curve.NotDeterminableException}: the input is sound, but
 * the figure cannot be had from it. An {@link IllegalArgumentException} is a fault of the program that calls.
 */
public abstract class UnusableInputException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** What is wrong with an input; a minor version may add constants. */
    public enum Fault {
        /** The bytes are damaged, or of another kind or encoding: save or record the input again. */
        UNREADABLE,
        /** The text is not in the form expected, or in none that is known: correct its form, or state it. */
        WRONG_FORMAT,
        /** Something needed is not there, such as a reading, a column, a field or a step: add it. */
        MISSING,
        /** A name is not known, such as that of a sheet, a channel, a step or a spectral response: correct it. */
        UNKNOWN_NAME,
        /** A text stands where a number is needed: correct it. */
        BAD_NUMBER,
        /** A number lies outside its range, or a label has characters that a label may not have: correct it. */
        OUT_OF_RANGE,
        /** Something that must be stated once is stated twice: keep one of the two. */
        DUPLICATE,
        /** Two statements of the input exclude each other: make them agree. */
        CONTRADICTION,
        /** The input can be understood in several ways: state which is meant. */
        AMBIGUOUS,
        /** The input is larger than any real one, or than can be read: divide it, or look for a wrong file. */
        TOO_LARGE,
        /** The readings are understood, but their faults forbid what was asked: read again. */
        UNSUITABLE
    }

    /** What is wrong. */
    private final Fault fault;

    /**
     * Creates the exception.
     *
     * @param fault what is wrong
     * @param message the place, the fault and the remedy
     */
    protected UnusableInputException(Fault fault, String message) {
        super(Objects.requireNonNull(message, "message"));
        this.fault = Objects.requireNonNull(fault, "fault");
    }

    /**
     * Returns what is wrong.
     *
     * @return the kind of fault
     */
    public Fault fault() {
        return fault;
    }
}
