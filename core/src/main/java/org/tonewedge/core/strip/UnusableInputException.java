// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Objects;

/**
 * An input that cannot be used: a table, a log, a certificate or a file. The message names the place, the fault and the
 * remedy; subclasses give the parts.
 *
 * <p>The other family of exceptions is {@link org.tonewedge.core.curve.NotDeterminableException}: the input is sound, but
 * the figure cannot be had from it. An {@link IllegalArgumentException} is a fault of the program that calls.
 */
public abstract class UnusableInputException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /**
     * Creates the exception.
     *
     * @param message the place, the fault and the remedy
     */
    protected UnusableInputException(String message) {
        super(Objects.requireNonNull(message, "message"));
    }
}
