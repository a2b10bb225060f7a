// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.io.InvalidObjectException;
import java.util.function.Supplier;

/**
 * What the serial forms of values share. A value is written as a record of its parts, and made from them by its factory,
 * which checks them as it checks what a program gives; so a forged or damaged stream cannot make a wrong value.
 */
public final class SerialForms {

    private SerialForms() {}

    /**
     * Makes a value from the parts that were read.
     *
     * @param factory makes it, and checks the parts
     * @param <T> its type
     * @return the value
     * @throws InvalidObjectException if the factory refuses the parts
     */
    public static <T> T made(Supplier<T> factory) throws InvalidObjectException {
        try {
            return factory.get();
        } catch (RuntimeException e) {
            InvalidObjectException refused = new InvalidObjectException(e.getMessage());
            refused.initCause(e);
            throw refused;
        }
    }

    /**
     * Returns the refusal of a stream that contains a value itself and not its serial form.
     *
     * @return the exception to throw
     */
    public static InvalidObjectException forged() {
        return new InvalidObjectException("the stream does not contain the serial form of the value");
    }
}
