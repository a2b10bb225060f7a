// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A slice of {@link PublishedFiguresSimulation}: whole jobs of the comparison program. */
class PublishedFiguresSimulationTest {

    /**
     * The limits are 95 % less three standard deviations of a binomial of 20 means, 14.6 %, and of 40 strips, 10.3 %. Means of
     * readings rounded to 0.01 often agree by chance.
     */
    @Test
    void intervalsHoldTheTruth(@TempDir Path folder) {
        PublishedFiguresSimulation simulation =
                new PublishedFiguresSimulation(PublishedFiguresSimulation.Design.TWO_STRIPS, 5).run(4, folder);

        for (String figure : List.of("base_plus_fog", "print_stops_vs_reference", "average_gradient")) {
            double coverage = simulation.coverage(figure);
            assertTrue(coverage > 0.847, () -> figure + " " + coverage);
            double ofMeans = simulation.coverage("mean: " + figure);
            assertTrue(ofMeans > 0.804, () -> "mean of " + figure + " " + ofMeans);
        }
    }
}
