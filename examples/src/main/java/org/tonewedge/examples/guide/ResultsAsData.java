// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.StripComparison;

/** The results of a comparison as named values with unit and uncertainty, for tables, files and other programs. */
public final class ResultsAsData {

    private ResultsAsData() {}

    /**
     * Runs the program on a terminal, where signs that it lacks are spelt.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void main(String[] args) throws IOException {
        Terminal.spellOut();
        run(args);
    }

    /**
     * Prints the figures of one strip that have an uncertainty, rounded to it.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        ReadingsTable table = ReadingsTable.read(demo.resolve("strips.csv"));
        FilmComparison comparison = FilmComparison.of(table.strips().subList(0, 4), "R00");
        StripComparison row = comparison.rows().get(1);
        EstimateFormat format = EstimateFormat.withDefaults();
        for (ResultRecord each : row.records()) {
            each.estimate()
                    .ifPresent(
                            value -> System.out.println(each.name() + " " + format.format(value) + " " + each.unit()));
        }
    }
}
