// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Objects;
import java.util.function.BooleanSupplier;

/** Receives the lines of a log in order, as they arrive. */
@FunctionalInterface
public interface LogListener {

    /**
     * Receives a complete reading.
     *
     * @param reading the reading
     */
    void accept(LogReading reading);

    /**
     * Receives a reading whose printed density is outside −0.2…10; ignored unless overridden.
     *
     * @param reading the reading
     */
    default void acceptImplausible(LogReading reading) {
        Objects.requireNonNull(reading, "reading");
        // counted in the tally
    }

    /**
     * Receives a line that is not a reading; only counted, unless overridden.
     *
     * @param line the number of the line, from 1
     * @param kind what it is
     * @param step the number of its step; 0 if it could not be read
     */
    default void refuse(long line, LineKind kind, int step) {
        Objects.requireNonNull(kind, "kind");
        // counted in the tally
    }

    /**
     * Tells whether to continue reading; called before each line.
     *
     * @return true unless overridden
     */
    default boolean wantsMore() {
        return true;
    }

    /**
     * Returns a listener that hands each line on to a second one as well; reading goes on while both want more.
     *
     * @param next the second listener
     * @return both as one
     */
    default LogListener andThen(LogListener next) {
        return new LogListeners(this, next, () -> false);
    }

    /**
     * Returns this listener, wanting no more once something is done, such as {@code running::isComplete}.
     *
     * @param done asked before each line
     * @return the listener that stops
     */
    default LogListener until(BooleanSupplier done) {
        return new LogListeners(this, reading -> {}, done);
    }
}
