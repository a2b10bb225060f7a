// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.film.Iso6;

/** The first look at a strip and its comparison with a reference. */
public final class FirstLook {

    private FirstLook() {}

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
     * Prints the speed and contrast of the demo reference and the speeds of four strips against it.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        ReadingsTable table = ReadingsTable.read(demo.resolve("strips.csv"));
        CharacteristicCurve curve = CharacteristicCurve.through(table.strip("R00"));
        System.out.println(Iso6.withDefaults().determine(curve));
        System.out.println(AverageGradient.withDefaults().determine(curve));
        FilmComparison comparison = FilmComparison.of(table.strips().subList(0, 4), "R00");
        for (StripComparison row : comparison.rows()) {
            System.out.printf("%s %s%n", row.figures().strip().film(), row.get(FilmFigure.STOPS_FROM_REFERENCE));
        }
    }
}
