// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** ISO 2720:1974: K from 10.6 (13.4 is its upper end, 14 in common use), C from 240 to 540 (secondary). */
class MeterConstantsTest {

    @ParameterizedTest
    @ValueSource(doubles = {10.6, 14})
    void reflectedAtItsLimits(double limit) {
        ExposureMeter meter = ExposureMeter.withDefaults();
        meter.withReflectedConstant(limit);
        double beyond = limit < 12 ? Math.nextDown(limit) : Math.nextUp(limit);
        assertThrows(IllegalArgumentException.class, () -> meter.withReflectedConstant(beyond));
    }

    @ParameterizedTest
    @ValueSource(doubles = {240, 540})
    void incidentAtItsLimits(double limit) {
        ExposureMeter meter = ExposureMeter.withDefaults();
        meter.withIncidentConstant(limit);
        double beyond = limit < 300 ? Math.nextDown(limit) : Math.nextUp(limit);
        assertThrows(IllegalArgumentException.class, () -> meter.withIncidentConstant(beyond));
    }
}
