package org.tonewedge.standards.densitometer.input;

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
}
