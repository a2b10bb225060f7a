package org.tonewedge.standards.densitometer.input;

/** What one line gave: a whole reading, or the kind it is counted under. */
sealed interface ParsedLine {

    /** A whole reading. */
    record Accepted(LogReading reading) implements ParsedLine {}

    /** A whole reading whose printed density is outside the limits of a density. */
    record Implausible(LogReading reading) implements ParsedLine {}

    /** A line whose values are not used; the step is 0 where it could not be read. */
    record Refused(LineKind kind, int step) implements ParsedLine {}

    static ParsedLine refused(LineKind kind) {
        return new Refused(kind, 0);
    }
}
