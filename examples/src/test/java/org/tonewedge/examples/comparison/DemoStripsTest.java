// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringWriter;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.ProjectFiles;

class DemoStripsTest {

    @Test
    void theFileIsWhatTheProgramMakes() throws Exception {
        StringWriter made = new StringWriter();
        ReadingsTable.write(DemoStrips.strips(), made);
        assertEquals(made.toString(), Files.readString(ProjectFiles.demoStrips()));
    }

    @Test
    void thereAre38StocksAndAReference() {
        List<Strip> strips = DemoStrips.strips();
        assertEquals(39, strips.size());
        assertEquals(39, strips.stream().map(Strip::film).distinct().count());
        assertTrue(strips.stream().allMatch(strip -> strip.basePlusFogReadings().size() == 3));
    }

    /**
     * Six true curves have no gamma. Five still rise too steeply at the last exposure, and the comparison refuses the gamma of
     * just these strips; the sixth, S17, shows no more than a toe and has no fitted curve.
     */
    @Test
    void theGammasThatAreRefusedAreThoseThatDoNotExist() throws Exception {
        List<String> none = DemoStrips.strips().stream()
                .map(Strip::id)
                .filter(id -> RefusedGammaSimulation.gamma(DemoStrips.truth(id)).isEmpty())
                .toList();
        assertEquals(List.of("S04", "S06", "S15", "S17", "S30", "S38"), none);
        List<String> refused = Files.readAllLines(
                        ProjectFiles.root().resolve("examples/src/test/resources/golden/comparison/comparison.csv"))
                .stream()
                .filter(row -> row.contains("the gradient still rises at the last reading"))
                .map(row -> row.substring(0, row.indexOf(',')))
                .toList();
        assertEquals(List.of("S04", "S06", "S15", "S30", "S38"), refused);
    }

    @Test
    void theTrueGradientIsTheSlopeOfTheTrueDensity() {
        for (Strip strip : DemoStrips.strips()) {
            CharacteristicCurve truth = DemoStrips.truth(strip.id());
            for (double x = truth.lowestExposure().value() + 0.1;
                    x < truth.highestExposure().value();
                    x += 0.2) {
                double slope = (truth.density(x + 1e-5) - truth.density(x - 1e-5)) / 2e-5;
                assertEquals(slope, truth.gradient(x), 1e-6, strip.id());
            }
        }
    }
}
