// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;

/** Grids as the documentation of {@link ReadingsGrid} and {@link ReadingsTable} describes them, typed by hand. */
class ReadingsGridTest {

    private static final Strip FULL = Strip.builder("S1")
            .film("007")
            .boxSpeed(125)
            .processing(Processing.unknown()
                    .withDeveloper("bath 1+1")
                    .withMinutes(8.5)
                    .withTemperature(Temperature.ofCelsius(20)))
            .testConditions(TestConditions.notStated()
                    .withIlluminant("tungsten")
                    .withExposureTime(Duration.ofMillis(500))
                    .withHold(Duration.ofMinutes(90))
                    .withStorage("cool"))
            .basePlusFog(0.21, 0.22)
            .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.3))
            .reading(LogExposure.ofLogLuxSeconds(-1.5), Density.of(1))
            .build();

    private static final Strip PLAIN = Strip.builder("S2")
            .film("Alder")
            .basePlusFog(0.2)
            .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.35))
            .reading(LogExposure.ofLogLuxSeconds(-2), Density.of(0.36))
            .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.9))
            .build();

    private static List<String> rows(ReadingsGrid grid) {
        List<String> rows = new ArrayList<>();
        grid.read((row, fields) -> rows.add(row + ": " + String.join("|", fields)));
        return rows;
    }

    /** A row for each reading of the strip that has most, whole numbers without a point, cells that are not read empty. */
    @Test
    void stepsOfAllStripsLieDown() throws IOException {
        ReadingsGrid grid = ReadingsGrid.of("both", List.of(FULL, PLAIN));
        assertEquals("both", grid.name());
        assertEquals(
                List.of(
                        "1: strip|S1|S2",
                        "2: film|007|Alder",
                        "3: developer|bath 1+1|",
                        "4: minutes|8.5|",
                        "5: celsius|20|",
                        "6: box_speed|125|",
                        "7: illuminant|tungsten|",
                        "8: exposure_seconds|0.5|",
                        "9: hold_minutes|90|",
                        "10: storage|cool|",
                        "11: base_plus_fog|0.21|0.2",
                        "12: base_plus_fog|0.22|",
                        "13: log_exposure||",
                        "14: -2|0.3|0.35",
                        "15: -2||0.36",
                        "16: -1.5|1|",
                        "17: -1||0.9"),
                rows(grid));
        assertEquals(List.of(FULL, PLAIN), ReadingsTable.read(grid).strips());
    }

    /** What few state has a row only where a strip states it. */
    @Test
    void rareDescriptionsAreLeftOutWhereNoneStatesThem() {
        assertEquals(
                List.of(
                        "1: strip|S2",
                        "2: film|Alder",
                        "3: developer|",
                        "4: minutes|",
                        "5: celsius|",
                        "6: box_speed|",
                        "7: base_plus_fog|0.2",
                        "8: log_exposure|",
                        "9: -2|0.35",
                        "10: -2|0.36",
                        "11: -1|0.9"),
                rows(ReadingsGrid.of("plain", List.of(PLAIN))));
    }

    @Test
    void stripsOnOtherAxesAreRefused() {
        Strip relative = Strip.builder("R")
                .reading(new LogExposure(0, ExposureAxis.relativeTo("a")), Density.of(1))
                .build();
        List<Strip> strips = List.of(PLAIN, relative);
        assertTrue(assertThrows(IllegalArgumentException.class, () -> ReadingsGrid.of("mixed", strips))
                .getMessage()
                .contains("write strips into one grid"));
        assertEquals(
                "7: relative_log_exposure|",
                rows(ReadingsGrid.of("one", List.of(relative))).get(6));
    }
}
