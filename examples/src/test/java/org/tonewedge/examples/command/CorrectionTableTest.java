// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.examples.ProjectFiles;

/** The correction that the densitometer check writes, read back. */
class CorrectionTableTest {

    @TempDir
    Path scratch;

    @Test
    void theTableOfTheCheckIsReadBack() throws IOException {
        CorrectionTable correction = CorrectionTable.read(ProjectFiles.root()
                .resolve("examples/src/test/resources/org/tonewedge/examples/densitometer/golden/"
                        + "stray-light.csv.correction.csv"));
        assertEquals("stray-light.csv.correction.csv", correction.name());
        // Its first, second and last row, and halfway between the first two.
        assertEquals(0.033862, correction.correct(Density.of(0.033333)).value(), 1e-9);
        assertEquals(0.123823, correction.correct(Density.of(0.123267)).value(), 1e-9);
        assertEquals(3.081764, correction.correct(Density.of(2.911222)).value(), 1e-9);
        assertEquals(
                0.5 * (0.033862 + 0.123823),
                correction.correct(Density.of(0.5 * (0.033333 + 0.123267))).value(),
                1e-9);
        assertEquals(0.003765, correction.standardUncertainty(Density.of(0.123823)), 1e-9);
        assertEquals(0.004650, correction.standardUncertainty(Density.of(4)), 1e-9);
        String beyond = assertThrows(IllegalArgumentException.class, () -> correction.correct(Density.of(3)))
                .getMessage();
        assertTrue(beyond.contains("goes from D 0.033 to D 2.911, the reading was D 3.000"), beyond);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "reading,density | line 1: a correction has the columns reading, density, standard_uncertainty",
                "reading,density,standard_uncertainty;0,0,0 | a correction needs at least two rows",
                "reading,density,standard_uncertainty;0,0,0;1,x,0 | line 3: the row lacks a number in the column density",
                "reading,density,standard_uncertainty;0,0,0;1,1,0;1,2,0 | line 4: readings and densities must rise"
            })
    void otherTablesAreRefused(String text, String message) throws IOException {
        Path file = Files.writeString(scratch.resolve("c.csv"), text.replace(';', '\n') + "\n");
        String said = assertThrows(ReadingsException.class, () -> CorrectionTable.read(file))
                .getMessage();
        assertTrue(said.startsWith("c.csv") && said.contains(message), said);
    }
}
