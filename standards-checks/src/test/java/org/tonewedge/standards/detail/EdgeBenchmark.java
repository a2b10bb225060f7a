// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.tone.DensityImage;

/**
 * How long an edge of a megapixel takes to read, and the codes of 24 megapixels to become densities, each beside a copy of as
 * many numbers in the same run. Run it by hand, on a machine that does nothing else.
 */
final class EdgeBenchmark {

    private static final int SIDE = 1000;
    private static final int CODES = 24_000_000;
    private static final int ROUNDS = 15;

    private static double sink;

    private EdgeBenchmark() {}

    public static void main(String[] args) {
        double[] values =
                EdgeSimulation.edge(EdgeSimulation.Shape.GAUSSIAN, 1.5, 5, SIDE, SIDE, 0.5, 1.5, 0.02, new Random(1));
        DensityImage image = DensityImage.of(values, SIDE, 5);
        double[] edges = new double[ROUNDS];
        double[] sums = new double[ROUNDS];
        double[] edgeRatios = new double[ROUNDS];
        for (int round = -5; round < ROUNDS; round++) {
            long from = System.nanoTime();
            sink += SlantedEdge.withDefaults()
                    .determineInDensity(image)
                    .modulationTransfer()
                    .mtf50()
                    .value();
            long done = System.nanoTime();
            double sum = 0;
            for (double value : values) {
                sum += value;
            }
            sink += sum * 1e-9;
            sums[Math.max(0, round)] = (System.nanoTime() - done) / 1e6;
            edges[Math.max(0, round)] = (done - from) / 1e6;
            edgeRatios[Math.max(0, round)] = edges[Math.max(0, round)] / sums[Math.max(0, round)];
        }
        short[] codes = new short[CODES];
        Random random = new Random(2);
        for (int i = 0; i < CODES; i++) {
            codes[i] = (short) (100 + random.nextInt(65_000));
        }
        double[] source = new double[CODES];
        double[] densities = new double[CODES];
        ScanCodeTable table = ScanCodeTable.densities(ScanSimulation.NOMINAL);
        double[] ratios = new double[ROUNDS];
        double[] copies = new double[ROUNDS];
        for (int round = -3; round < ROUNDS; round++) {
            long start = System.nanoTime();
            System.arraycopy(source, 0, densities, 0, CODES);
            long copied = System.nanoTime();
            sink += densities[round + 3];
            long begin = System.nanoTime();
            table.convert(codes, densities);
            long converted = System.nanoTime();
            sink += densities[round + 3];
            copies[Math.max(0, round)] = (copied - start) / 1e6;
            ratios[Math.max(0, round)] = (converted - begin) / (double) (copied - start);
        }
        System.out.printf(
                Locale.ROOT,
                "edge of 1 megapixel: median %.0f ms, least %.0f ms, %.0f plain sums over the pixels (%.2f ms); 24 megapixels of codes to densities: %.2f copies of as many doubles"
                        + " (a copy takes %.1f ms) %s%n",
                median(edges),
                edges[0],
                median(edgeRatios),
                median(sums),
                median(ratios),
                median(copies),
                sink > 0 ? "" : "?");
    }

    private static double median(double[] of) {
        Arrays.sort(of);
        return of[of.length / 2];
    }
}
