// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.regex.Pattern;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * Finds the decimal mark of a table from its numbers. Numbers of both kinds in one table are refused, and so are those
 * that may be thousands if no number says more.
 */
final class DecimalMarks {

    private static final Pattern WITH_COMMA = Pattern.compile("[+-]?\\d*,\\d+([eE][+-]?\\d+)?");
    private static final Pattern PERHAPS_THOUSANDS = Pattern.compile("[+-]?[1-9]\\d{0,2},\\d{3}");
    private static final Pattern WITH_POINT = Pattern.compile("[+-]?\\d*\\.\\d+([eE][+-]?\\d+)?");

    /** Longer text is no number of a table. */
    private static final int LONGEST = 40;

    private final Faults faults;
    private Sighting comma;
    private Sighting point;
    private Sighting perhaps;

    DecimalMarks(Faults faults) {
        this.faults = faults;
    }

    /** Makes the exception for a fault in a line. */
    @FunctionalInterface
    interface Faults {
        ReadingsException of(Fault kind, long line, String fault, String remedy);
    }

    private record Sighting(String text, long line) {}

    /** Looks at the numbers of the next row. */
    void look(long line, RepeatedFields.Line fields) {
        // Once numbers have shown a mark, only the other one says anything.
        char one = comma == null ? ',' : '.';
        char another = point == null ? '.' : ',';
        for (int i = fields.nextWith(one, another, 0); i >= 0; i = fields.nextWith(one, another, i + 1)) {
            look(line, fields, i);
        }
    }

    private void look(long line, RepeatedFields.Line fields, int index) {
        String text = fields.get(index).strip();
        if (text.length() > LONGEST) {
            return;
        }
        if (PERHAPS_THOUSANDS.matcher(text).matches()) {
            perhaps = perhaps == null ? new Sighting(text, line) : perhaps;
        } else if (WITH_COMMA.matcher(text).matches()) {
            comma = comma == null ? new Sighting(text, line) : comma;
        } else if (WITH_POINT.matcher(text).matches()) {
            point = point == null ? new Sighting(text, line) : point;
        } else {
            return;
        }
        refuseBoth();
    }

    private void refuseBoth() {
        Sighting withComma = comma == null ? perhaps : comma;
        if (withComma != null && point != null) {
            throw faults.of(
                    Fault.CONTRADICTION,
                    Math.max(withComma.line, point.line),
                    "the table has decimals with a comma, \"" + withComma.text + "\" in line " + withComma.line
                            + ", and with a point, \"" + point.text + "\" in line " + point.line,
                    "use one decimal mark throughout and no thousands separator, or state the decimal mark");
        }
    }

    /** Whether a number has shown the mark beyond doubt. */
    boolean isKnown() {
        return comma != null || point != null;
    }

    /** The mark, a point if no number has one. */
    char mark() {
        if (comma == null && perhaps != null) {
            throw faults.of(
                    Fault.AMBIGUOUS,
                    perhaps.line,
                    '"' + perhaps.text + "\" may be a number with decimals or with thousands",
                    "write decimals with a point and thousands without a separator, or state the decimal mark where there is an"
                            + " option for it");
        }
        return comma == null ? '.' : ',';
    }
}
