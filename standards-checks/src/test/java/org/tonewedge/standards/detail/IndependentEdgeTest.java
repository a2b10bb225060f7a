// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
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

    private static final Map<String, ModulationTransfer> READ = new ConcurrentHashMap<>();

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

    @ParameterizedTest
    @CsvFileSource(resources = "e-sfr.csv", numLinesToSkip = 2)
    void agreesWithTheOtherProgramAndTheClosedForm(
            String name, double size, double degrees, double noise, double frequency, double modulation) {
        EdgeSimulation.Shape shape = EdgeSimulation.Shape.valueOf(name.toUpperCase(Locale.ROOT));
        ModulationTransfer found =
                READ.computeIfAbsent(name + degrees + noise, any -> read(shape, size, degrees, noise));
        Estimate ours = found.at(frequency);
        double tolerance = 0.004 + 2.5 * ours.standardUncertainty();
        String where = name + " at " + degrees + "°, noise " + noise + ", frequency " + frequency;
        // Both see the same noise through another window and another line.
        assertEquals(modulation, ours.value(), 0.004 + 4 * ours.standardUncertainty(), where);
        double truth = shape.modulation(frequency, size);
        assertEquals(truth, ours.value(), tolerance, where + ", closed form");
        assertTrue(
                noise > 0 || Math.abs(ours.value() - truth) <= Math.abs(modulation - truth) + 0.0005,
                where + ": the window of Hamming is the nearer one");
    }
}
