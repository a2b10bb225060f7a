// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
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

    /** Every row of the table that the check writes comes back as it stands there. */
    @Test
    void theTableOfTheCheckIsReadBack() throws IOException {
        Path written = ProjectFiles.root()
                .resolve("examples/src/test/resources/org/tonewedge/examples/densitometer/golden/"
                        + "stray-light.csv.correction.csv");
        CorrectionTable correction = CorrectionTable.read(written);
        assertEquals("stray-light.csv.correction.csv", correction.name());
        List<String> rows = Files.readAllLines(written).stream().skip(1).toList();
        for (String row : rows) {
            String[] cells = row.split(",", -1);
            Density density = correction.correct(Density.of(Double.parseDouble(cells[0])));
            assertEquals(Double.parseDouble(cells[1]), density.value(), 1e-9);
            assertEquals(Double.parseDouble(cells[2]), correction.standardUncertainty(density), 1e-9);
            List<DoubleUnaryOperator> errors =
                    List.copyOf(correction.commonErrors().values());
            assertEquals(cells.length - 3, errors.size());
            for (int i = 0; i < errors.size(); i++) {
                assertEquals(Double.parseDouble(cells[3 + i]), errors.get(i).applyAsDouble(density.value()), 1e-9);
            }
        }
        assertTrue(rows.size() > 2, rows::toString);
    }

    /** By hand, with invented rows: a quarter and half of the way between two of them. */
    @Test
    void rowsAreJoinedByStraightLines() throws IOException {
        Path file = Files.writeString(
                scratch.resolve("c.csv"),
                "reading,density,standard_uncertainty\n0,0.1,0.002\n1,1.3,0.004\n2,2.1,0.01\n");
        CorrectionTable correction = CorrectionTable.read(file);
        assertEquals(0.4, correction.correct(Density.of(0.25)).value(), 1e-12);
        assertEquals(1.7, correction.correct(Density.of(1.5)).value(), 1e-12);
        assertEquals(0.0025, correction.standardUncertainty(Density.of(0.4)), 1e-12);
        assertEquals(0.007, correction.standardUncertainty(Density.of(1.7)), 1e-12);
        // beyond the rows there is no correction, and of a density there the uncertainty of the last row
        assertEquals(0.01, correction.standardUncertainty(Density.of(4)), 1e-12);
        assertEquals(0.002, correction.standardUncertainty(Density.of(0)), 1e-12);
        String beyond = assertThrows(IllegalArgumentException.class, () -> correction.correct(Density.of(3)))
                .getMessage();
        assertTrue(beyond.contains("goes from D 0.000 to D 2.000, the reading was D 3.000"), beyond);
        // a table without common errors has one, of the same sign everywhere
        assertEquals(
                List.of(0.0025),
                correction.commonErrors().values().stream()
                        .map(error -> error.applyAsDouble(0.4))
                        .toList());
    }

    /** Errors of a tablet keep their names, by which other corrections and films exposed through it share them. */
    @Test
    void errorsOfATabletKeepTheirNames() throws IOException {
        Path file = Files.writeString(scratch.resolve("c.csv"), """
                reading,density,standard_uncertainty,Common_error_step 2 of tablet T 7,common_error_1
                0,0,0.01,0.002,0.001
                1,2,0.01,0.004,0.001
                """);
        Map<String, DoubleUnaryOperator> errors = CorrectionTable.read(file).commonErrors();
        assertEquals(List.of("step 2 of tablet T 7", "correction c.csv, error 1"), List.copyOf(errors.keySet()));
        assertEquals(0.003, errors.get("step 2 of tablet T 7").applyAsDouble(1), 1e-12);
        assertTrue(errors.values().stream().allMatch(Serializable.class::isInstance));
    }

    /** By hand: halfway between rows with errors of −0.002 and 0.004, and at the ends. */
    @Test
    void commonErrorsKeepTheirSign() throws IOException {
        Path file = Files.writeString(
                scratch.resolve("c.csv"),
                "reading,density,standard_uncertainty,common_error_1,common_error_2\n0,0,0.01,0.001,-0.002\n1,2,0.01,0.001,0.004\n");
        List<DoubleUnaryOperator> errors =
                List.copyOf(CorrectionTable.read(file).commonErrors().values());
        assertEquals(0.001, errors.get(0).applyAsDouble(1.5), 1e-12);
        assertEquals(0.001, errors.get(1).applyAsDouble(1), 1e-12);
        assertEquals(-0.002, errors.get(1).applyAsDouble(-0.1), 1e-12);
        assertEquals(0.004, errors.get(1).applyAsDouble(3), 1e-12);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "reading,density | line 1: a correction has the columns reading, density, standard_uncertainty",
                "reading,density,standard_uncertainty;0,0,0 | a correction needs at least two rows",
                "reading,density,standard_uncertainty;0,0,0;1,x,0 | line 3: the row lacks a number in the column density",
                "reading,density,standard_uncertainty;0,0,0;1,1,0;1,2,0 | line 4: readings and densities must rise",
                "reading,density,standard_uncertainty;0,0,0;1,1,2 | line 3: the standard uncertainty must be from 0 to 1",
                "reading,density,standard_uncertainty,common_error_1;0,0,0,NaN | line 2: the row lacks a number in the column"
                        + " common_error_1",
                "reading,density,standard_uncertainty,common_error_1;0,0,0 | line 2: the row lacks a number in the column"
                        + " common_error_1"
            })
    void otherTablesAreRefused(String text, String message) throws IOException {
        Path file = Files.writeString(scratch.resolve("c.csv"), text.replace(';', '\n') + "\n");
        String said = assertThrows(ReadingsException.class, () -> CorrectionTable.read(file))
                .getMessage();
        assertTrue(said.startsWith("c.csv") && said.contains(message), said);
    }
}
