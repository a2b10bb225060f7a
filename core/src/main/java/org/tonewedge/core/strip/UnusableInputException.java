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
        /** The text does not have the form that was expected, or was recognised as none. */
        WRONG_FORMAT,
        /** Something that is needed is not there: a reading, a column, a field, a step. */
        MISSING,
        /** A name is not one of those that are known: of a sheet, a channel, a step, a word. */
        UNKNOWN_NAME,
        /** A text stands where a number is needed. */
        BAD_NUMBER,
        /** A number or a label is none that there can be. */
        OUT_OF_RANGE,
        /** Something that must be stated once is stated twice. */
        DUPLICATE,
        /** Two statements of the input exclude each other. */
        CONTRADICTION,
        /** The input can be understood in several ways: state which is meant. */
        AMBIGUOUS,
        /** The input is larger than any real one, or than can be taken. */
        TOO_LARGE,
        /** The readings are understood, but their faults forbid what was asked. */
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
