// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.examples.InventedStrips;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.standards.comparison.CurveDrawing;
import org.tonewedge.standards.comparison.FilmComparison;

/**
 * Time and size of the chart of all curves for ever more curves, each through 21 invented readings. Run by hand:
 * {@code main}, with the numbers of curves.
 */
final class OverlayBenchmark {

    private OverlayBenchmark() {}

    /** Prints a line for each number of curves; the first, which warms up, counts for nothing. */
    public static void main(String[] counts) throws IOException {
        System.setProperty("java.awt.headless", "true");
        Path folder = Files.createTempDirectory("overlay");
        ChartFiles files = new ChartFiles(folder, EnumSet.allOf(ChartFiles.Format.class));
        for (String count : counts) {
            FilmComparison comparison = FilmComparison.of(
                    InventedStrips.of(Integer.parseInt(count)),
                    "S0",
                    CurveDrawing.throughReadings(Repeatability.of(0.01)));
            double seconds = Double.POSITIVE_INFINITY;
            for (int pass = 0; pass < 3; pass++) {
                long start = System.nanoTime();
                Chart chart = CurveChart.ofAll(comparison);
                files.write(chart, "all");
                seconds = Math.min(seconds, 1e-9 * (System.nanoTime() - start));
            }
            System.out.printf(
                    Locale.ROOT,
                    "%s curves: %.2f s, %.0f kB of SVG, %.0f kB of PNG%n",
                    count,
                    seconds,
                    Files.size(folder.resolve("all.svg")) / 1e3,
                    Files.size(folder.resolve("all.png")) / 1e3);
        }
    }
}
