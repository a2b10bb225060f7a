// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Labels stay labels in a spreadsheet. */
class CellTest {

    @Test
    void formulasInLabelsAreDisarmedForProgramsAlone() {
        for (String formula : new String[] {"=1+2", "+cmd|'x'!A0", "-2+3", "@SUM(A1)", "\t=1"}) {
            Cell cell = Cell.text(formula);
            assertEquals("'" + formula, cell.full(1).get(0));
            assertEquals(formula, cell.shown());
        }
    }

    @Test
    void numbersAndOrdinaryLabelsStay() {
        for (String text : new String[] {"-1.5", "+3", "100", "Ambergrove 100", "\u22121", "", "1e-5", "-2.5E3"}) {
            assertEquals(text, Cell.text(text).full(1).get(0));
        }
    }
}
