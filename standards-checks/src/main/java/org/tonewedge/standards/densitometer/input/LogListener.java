package org.tonewedge.standards.densitometer.input;

/** Takes the lines of a log in their order, as they come. */
@FunctionalInterface
public interface LogListener {

    /**
     * Takes a whole reading.
     *
     * @param reading the reading
     */
    void accept(LogReading reading);

    /**
     * Takes a reading whose printed density is outside −0.2…10; left aside unless overridden.
     *
     * @param reading the reading
     */
    default void acceptImplausible(LogReading reading) {
        // counted in the tally
    }

    /**
     * Takes a line that is not a reading; counted only, unless overridden.
     *
     * @param line the number of the line, from 1
     * @param kind what it is
     * @param step the number of its step, 0 where it could not be read
     */
    default void refuse(long line, LineKind kind, int step) {
        // counted in the tally
    }

    /**
     * Tells whether to go on reading; asked before each line.
     *
     * @return true unless overridden
     */
    default boolean wantsMore() {
        return true;
    }
}
