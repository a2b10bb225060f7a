// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

/** What one line gave: a complete reading, or the kind under which it is counted. */
sealed interface ParsedLine {

    /** A complete reading. */
    record Accepted(LogReading reading) implements ParsedLine {}

    /** A complete reading whose printed density is outside the limits of a density. */
    record Implausible(LogReading reading) implements ParsedLine {}

    /** A line whose values are not used; the step is 0 if it could not be read. */
    record Refused(LineKind kind, int step) implements ParsedLine {}

    static ParsedLine refused(LineKind kind) {
        return new Refused(kind, 0);
    }
}
