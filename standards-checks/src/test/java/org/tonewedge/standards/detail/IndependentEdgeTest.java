// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;

/**
 * The same pixels read by a program of its own in Python with NumPy: {@code e-sfr.py}, whose results with the command are in
 * {@code e-sfr.csv}. It windows by Hamming and takes centroids, as the standard is commonly described, so that on wide edges
 * both differ a little; the closed form of the shape stands between them as the judge.
 */
class IndependentEdgeTest {

    private static final int ROWS = 200;
    private static final int COLUMNS = 120;

    private static ModulationTransfer read(EdgeSimulation.Shape shape, double size, double degrees, double noise) {
        double[] pixels = new double[ROWS * COLUMNS];
        double cosine = Math.cos(Math.toRadians(degrees));
        double sine = Math.sin(Math.toRadians(degrees));
        for (int k = 0; k < pixels.length; k++) {
            double at = (k % COLUMNS - COLUMNS / 2.0 + 0.3) * cosine + (Math.floorDiv(k, COLUMNS) - ROWS / 2.0) * sine;
            double uniform = Math.sin(12.9898 * (k + 1)) * 4375.8545;
            pixels[k] = 0.4 + shape.edge(at, size) + noise * Math.sqrt(12) * (uniform - Math.floor(uniform) - 0.5);
        }
        return SlantedEdge.withDefaults()
                .determineInDensity(DensityImage.of(pixels, COLUMNS, 1000))
                .modulationTransfer();
    }

    /** The rows of the other program, those of one edge together. */
    static Stream<List<String[]>> edges() throws IOException {
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(
                IndependentEdgeTest.class.getResourceAsStream("e-sfr.csv"), StandardCharsets.UTF_8))) {
            Map<String, List<String[]>> edges = lines.lines()
                    .skip(2)
                    .map(line -> line.split(","))
                    .collect(Collectors.groupingBy(
                            row -> String.join(",", row[0], row[1], row[2], row[3]),
                            LinkedHashMap::new,
                            Collectors.toList()));
            return edges.values().stream();
        }
    }

    @ParameterizedTest
    @MethodSource("edges")
    void agreesWithTheOtherProgramAndTheClosedForm(List<String[]> rows) {
        EdgeSimulation.Shape shape = EdgeSimulation.Shape.valueOf(rows.get(0)[0].toUpperCase(Locale.ROOT));
        double[] edge = Arrays.stream(rows.get(0), 1, 4)
                .mapToDouble(Double::parseDouble)
                .toArray();
        double noise = edge[2];
        ModulationTransfer found = read(shape, edge[0], edge[1], noise);
        for (String[] row : rows) {
            double frequency = Double.parseDouble(row[4]);
            double modulation = Double.parseDouble(row[5]);
            Estimate ours = found.at(frequency);
            double tolerance = 0.004 + 2.5 * ours.standardUncertainty();
            String where = String.join(", ", row);
            // Both see the same noise through another window and another line.
            assertEquals(modulation, ours.value(), 0.004 + 4 * ours.standardUncertainty(), where);
            double truth = shape.modulation(frequency, edge[0]);
            assertEquals(truth, ours.value(), tolerance, where + ", closed form");
            assertTrue(
                    noise > 0 || Math.abs(ours.value() - truth) <= Math.abs(modulation - truth) + 0.0005,
                    where + ": the window of Hamming is the nearer one");
        }
    }
}
