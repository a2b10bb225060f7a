// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.fitting.development.ContrastFit;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentSeries;

/** How long to develop a film for a contrast. */
public final class PlanDevelopment {

    private PlanDevelopment() {}

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
        List<Strip> strips = ReadingsTable.read(demo.resolve("development.csv")).strips();
        DevelopmentSeries series = DevelopmentSeries.of(strips);
        ContrastFit fit = series.contrast(ContrastMeasure.RISE_OVER_130).best();
        System.out.println(fit.timeFor(ContrastTarget.isoContrastCondition(), Temperature.ofCelsius(20)));
        System.out.println(series.changeFor(strips.get(1), ContrastTarget.isoContrastCondition()));
    }
}
