// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.function.DoubleSupplier;
import java.util.function.Predicate;
import java.util.function.Supplier;

/**
 * One published check: what a method was given, what the source says comes out, and what comes out here.
 *
 * @param method the class and the figure
 * @param source where the published result was read, with clause or page
 * @param status what the published result rests on
 * @param input the published input
 * @param published the published result, as printed
 * @param tolerance how far ours may lie beside it; 0 for texts
 * @param ours works out our result: a number, or a text
 * @param group what kind of check it is
 */
record VerificationRow(
        String method,
        String source,
        Status status,
        String input,
        String published,
        double tolerance,
        Supplier<Object> ours,
        Group group) {

    /** How the source of a row begins whose expected result was worked out by this project, not published. */
    static final String OWN_ARITHMETIC = "arithmetic of this project";

    private static final int MOST_DECIMALS = 10;

    /** What a published result rests on, as the table prints it. */
    enum Status {
        VERIFIED("read in the source"),
        DERIVED("arithmetic from what was read"),
        COMPUTED("computed with other software"),
        MEMORY("rests on memory");

        final String words;

        Status(String words) {
            this.words = words;
        }
    }

    /** What a row can show to be wrong. */
    enum Group {
        /** A method reads curves as its definition says: errors of the method show. */
        METHOD("Results of methods"),
        /** A number was copied as printed: slips of the pen show. */
        CONSTANT("Transcribed constants and tables"),
        /** A formula is evaluated, a unit converted: a wrong constant, unit or sign shows. */
        ARITHMETIC("Formulas and units");

        final String words;

        Group(String words) {
            this.words = words;
        }
    }

    /** The same rows in a group. */
    static List<VerificationRow> in(Group group, List<VerificationRow> rows) {
        return rows.stream()
                .map(row -> new VerificationRow(
                        row.method, row.source, row.status, row.input, row.published, row.tolerance, row.ours, group))
                .toList();
    }

    /** The rows that a maker adds, in a group. */
    static List<VerificationRow> in(Group group, Consumer<List<VerificationRow>> maker) {
        List<VerificationRow> rows = new ArrayList<>();
        maker.accept(rows);
        return in(group, rows);
    }

    static VerificationRow number(
            String method,
            String source,
            Status status,
            String input,
            String published,
            double tolerance,
            DoubleSupplier ours) {
        return new VerificationRow(
                method, source, status, input, published, tolerance, ours::getAsDouble, Group.METHOD);
    }

    static VerificationRow text(
            String method, String source, Status status, String input, String published, Supplier<Object> ours) {
        return new VerificationRow(
                method, source, status, input, published, 0, () -> ours.get().toString(), Group.METHOD);
    }

    /** A row for a whole table, each of whose entries must be right. */
    static VerificationRow table(
            String method,
            String source,
            Status status,
            String input,
            List<String> entries,
            Predicate<String> isRight) {
        String all = entries.size() == 1 ? entries.get(0) : "all " + entries.size();
        return text(method, source, status, input, all, () -> {
            List<String> wrong =
                    entries.stream().filter(entry -> !isRight.test(entry)).toList();
            return wrong.isEmpty() ? all : "not " + String.join(", ", wrong);
        });
    }

    /** Whether the published result is a number. */
    boolean isNumber() {
        return tolerance > 0;
    }

    /** Whether the expected result itself was read outside the project. */
    boolean isPublished() {
        return status == Status.VERIFIED;
    }

    double publishedNumber() {
        return Double.parseDouble(published);
    }

    /** The row as HTML; numbers with one decimal more than published, so that it is the same on every machine. */
    String html() {
        Object result = ours.get();
        String ourText = result.toString();
        String difference = "none";
        if (isNumber()) {
            double number = (Double) result;
            int decimals = Math.min(MOST_DECIMALS, Math.max(0, new BigDecimal(published).scale()) + 1);
            ourText = decimal(number, decimals);
            difference = decimal(number - publishedNumber(), decimals);
        }
        return "<tr><td>" + method + "</td><td>" + source + "</td><td>" + status.words + "</td><td>" + input
                + "</td><td>" + published + "</td><td>" + ourText + "</td><td>" + difference + "</td></tr>\n";
    }

    private static String decimal(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.matches("-0\\.?0*") ? text.substring(1) : text;
    }
}
