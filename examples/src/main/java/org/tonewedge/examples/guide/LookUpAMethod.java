// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.standards.ReadingUncertainty;
import org.tonewedge.standards.film.DevelopedCurve;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6SeriesSpeed;
import org.tonewedge.standards.film.Iso6Speed;

/** A speed with its uncertainty and conditions, and the speed at the contrast the standard asks for. */
public final class LookUpAMethod {

    private LookUpAMethod() {}

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
     * Prints what the README shows.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        ReadingsTable table = ReadingsTable.read(demo.resolve("development.csv"));
        Iso6 iso6 = Iso6.withDefaults();
        Iso6Speed speed = ReadingUncertainty.of(Repeatability.of(0.005)).determine(table.strip("D2"), iso6::determine);
        System.out.println(speed);
        System.out.println(speed.exactEstimate().orElseThrow());
        Iso6SeriesSpeed series = iso6.determine(
                List.of(DevelopedCurve.through(table.strip("D2")), DevelopedCurve.through(table.strip("D3"))));
        System.out.println(series);
        System.out.println("after " + series.developmentTime().toSeconds() + " s");
    }
}
