// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.time.Duration;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.quantity.TransmissionGeometry;

/** Values that differ in one part are different. */
class ValuesTest {

    private static void assertAllDiffer(List<?> values) {
        for (int i = 0; i < values.size(); i++) {
            for (int j = 0; j < values.size(); j++) {
                if (i != j) {
                    assertNotEquals(values.get(i), values.get(j), i + " and " + j);
                }
            }
        }
        assertEquals(values.size(), Set.copyOf(values).size());
    }

    private static Strip.Builder strip() {
        return Strip.builder("A").basePlusFog(0.2).reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5));
    }

    @Test
    void strips() {
        assertAllDiffer(List.of(
                strip().build(),
                Strip.builder("B")
                        .basePlusFog(0.2)
                        .reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                        .build(),
                strip().film("film").build(),
                strip().boxSpeed(100).build(),
                strip().basePlusFog(0.2).build(),
                strip().reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5))
                        .build(),
                strip().reading(LogExposure.ofLogLuxSeconds(0), Density.of(0.5)).build(),
                strip().densityResponse(SpectralResponse.VISUAL).build(),
                strip().densityGeometry(TransmissionGeometry.DIFFUSE).build(),
                strip().processing(Processing.unknown().withMinutes(8)).build()));
        assertEquals(strip().build(), strip().build());
        assertEquals(strip().build().hashCode(), strip().build().hashCode());
    }

    @Test
    void processings() {
        Processing unknown = Processing.unknown();
        assertAllDiffer(List.of(
                unknown,
                unknown.withDeveloper("one"),
                unknown.withDeveloper("two"),
                unknown.withMinutes(8),
                unknown.withTime(Duration.ofMinutes(9)),
                unknown.withTemperature(Temperature.ofCelsius(20)),
                unknown.withAgitation("every minute")));
        assertEquals(unknown.withMinutes(8), unknown.withTime(Duration.ofMinutes(8)));
        assertEquals(
                unknown.withMinutes(8).hashCode(),
                unknown.withTime(Duration.ofMinutes(8)).hashCode());
    }

    @Test
    void tablets() {
        assertAllDiffer(List.of(
                StepTablet.calibrated("T", 0.05, 0.20),
                StepTablet.calibrated("U", 0.05, 0.20),
                StepTablet.calibrated("T", 0.05, 0.21),
                StepTablet.calibrated("T", 0.003, new double[] {0.05, 0.20}),
                StepTablet.nominal(2, Density.of(0.05), 0.15)));
    }

    @Test
    void records() {
        assertAllDiffer(List.of(
                ResultRecord.ofNumber("a", 1, "s"),
                ResultRecord.ofNumber("b", 1, "s"),
                ResultRecord.ofNumber("a", 2, "s"),
                ResultRecord.ofNumber("a", 1, "m"),
                ResultRecord.ofEstimate("a", Estimate.of(1, 0.1), "s"),
                ResultRecord.ofEstimate("a", Estimate.of(1, 0.1, 5), "s"),
                ResultRecord.ofText("a", "1"),
                ResultRecord.ofMissing("a", "s", "not read")));
    }
}
