// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.InventedStrips;
import org.tonewedge.examples.chart.ChartFiles;

/**
 * Time and size of the chart of all curves for ever more curves, each through 21 invented readings: laid out, written as
 * SVG, painted and written as PNG. The curves are drawn through the readings beforehand and not timed. Run it at the top
 * of the project after {@code mvn package}:
 *
 * <pre>{@code
 * java -cp examples/target/test-classes:examples/target/tonewedge-examples-all.jar \
 *     org.tonewedge.examples.comparison.OverlayBenchmark 300 300 1000 3000 10000
 * }</pre>
 *
 * <p>Time and SVG grow no faster than the number of curves; the PNG does not grow. The first 300 curves only warm up. Processor
 * time of all threads, the compiler's included, the best of three passes (JDK 17, AMD EPYC, 2026-11-26, other work on the machine):
 *
 * <pre>
 *   300 curves:   0.27 s, 0.90 ms a curve, 214 kB of SVG, 368 kB of PNG
 *  1000 curves:   0.55 s, 0.55 ms a curve, 686 kB of SVG, 382 kB of PNG
 *  3000 curves:   1.18 s, 0.39 ms a curve, 2037 kB of SVG, 372 kB of PNG
 * 10000 curves:   2.38 s, 0.24 ms a curve, 6752 kB of SVG, 374 kB of PNG
 * </pre>
 */
final class OverlayBenchmark {

    private static final DensityDifference ABOVE_BASE = DensityDifference.of(0.10);

    private OverlayBenchmark() {}

    /** Prints a line for each number of curves; the first, which warms up, counts for nothing. */
    public static void main(String[] counts) throws IOException {
        System.setProperty("java.awt.headless", "true");
        Path folder = Files.createTempDirectory("overlay");
        ChartFiles files = new ChartFiles(folder, EnumSet.allOf(ChartFiles.Format.class));
        for (String count : counts) {
            List<CurveChart.StripCurve> curves = curves(Integer.parseInt(count));
            double seconds = Double.POSITIVE_INFINITY;
            double processor = Double.POSITIVE_INFINITY;
            for (int pass = 0; pass < 3; pass++) {
                long start = System.nanoTime();
                double before = busy();
                files.write(CurveChart.ofAll(curves, 0, "lux seconds", false), "all");
                seconds = Math.min(seconds, 1e-9 * (System.nanoTime() - start));
                processor = Math.min(processor, busy() - before);
            }
            System.out.printf(
                    Locale.ROOT,
                    "%6s curves: %6.2f s, %6.2f s of processor time, %.3f ms of it a curve, %.0f kB of SVG, %.0f kB of PNG%n",
                    count,
                    seconds,
                    processor,
                    1e3 * processor / curves.size(),
                    Files.size(folder.resolve("all.svg")) / 1e3,
                    Files.size(folder.resolve("all.png")) / 1e3);
        }
    }

    /** The processor time of this process, all threads, in seconds. */
    private static double busy() {
        return 1e-9
                * ProcessHandle.current()
                        .info()
                        .totalCpuDuration()
                        .orElseThrow()
                        .toNanos();
    }

    private static List<CurveChart.StripCurve> curves(int count) {
        List<CurveChart.StripCurve> curves = new ArrayList<>();
        for (Strip strip : InventedStrips.of(count)) {
            CharacteristicCurve curve = CharacteristicCurve.through(strip);
            double speedPoint = curve.pointAbove(ABOVE_BASE).logExposure().value();
            curves.add(new CurveChart.StripCurve(strip, Optional.of(curve), OptionalDouble.of(speedPoint)));
        }
        return curves;
    }
}
