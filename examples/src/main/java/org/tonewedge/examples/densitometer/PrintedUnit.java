// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.util.Comparator;
import java.util.Optional;
import org.tonewedge.examples.command.NumberTable;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;

/** The unit of the numbers in a table: densities, or something else that a firmware printed for them. */
final class PrintedUnit {

    /** One instrument may read a piece so far off, times 1 + D, from one session to another. */
    private static final double OF_SESSIONS = 0.02;

    private PrintedUnit() {}

    /** Refuses numbers of a column that are not densities beside those of another, with their unit if it is known. */
    static void check(NumberTable table, String column, String beside) {
        checkUnit(table, column, beside);
        checkUnit(table, beside, column);
        for (NumberTable.Row row : table.rows()) {
            table.density(row, column);
            table.density(row, beside);
        }
    }

    private static void checkUnit(NumberTable table, String column, String beside) {
        double[] printed = numbers(table, column);
        double[] densities = numbers(table, beside);
        Optional<ArithmeticFault> fault = ArithmeticFault.ofUnit(densities, printed);
        if (fault.isPresent()) {
            NumberTable.Row furthest = table.rows().stream()
                    .max(Comparator.comparingDouble(
                            row -> Math.abs(table.number(row, column) - table.number(row, beside))))
                    .orElseThrow();
            throw table.refused(
                    furthest,
                    column,
                    column + " " + table.field(furthest, column) + " beside " + beside + " "
                            + table.field(furthest, beside) + ": " + words(fault.get()));
        }
    }

    private static double[] numbers(NumberTable table, String column) {
        return table.rows().stream()
                .mapToDouble(row -> table.number(row, column))
                .toArray();
    }

    /** What is wrong with a reading of a piece of known density, and the remedy; empty if it is a density. */
    static Optional<String> ofSession(double density, double reading) {
        return ArithmeticFault.ofUnit(new double[] {density}, new double[] {reading}, OF_SESSIONS)
                .map(PrintedUnit::words);
    }

    private static String words(ArithmeticFault fault) {
        return fault.suspicion() + "; " + fault.remedy();
    }
}
