// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringWriter;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
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
}
