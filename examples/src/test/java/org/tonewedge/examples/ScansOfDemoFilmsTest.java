// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;

/** Every demo film, drawn through readings that may turn back in toe and shoulder, gives a table from density to exposure. */
class ScansOfDemoFilmsTest {

    @Test
    void theSteepestBranchOfEveryDemoStripIsInverted() throws IOException {
        for (Strip strip : ReadingsTable.read(ProjectFiles.demoStrips()).strips()) {
            CharacteristicCurve curve = CharacteristicCurve.through(strip);
            InverseCurveTable table = InverseCurveTable.ofSteepestBranch(curve);
            double least = table.lowestDensity().value();
            double most = table.highestDensity().value();
            double ofStrip =
                    curve.maximumDensity().value() - curve.basePlusFog().value();
            assertTrue(
                    most - least > 0.5 * ofStrip, () -> strip.id() + ": D " + least + " to " + most + " of " + ofStrip);
            for (int i = 0; i <= 100; i++) {
                double density = least + (most - least) * i / 100;
                LogExposure exposure = LogExposure.ofLogLuxSeconds(table.logExposure(density));
                assertEquals(density, curve.densityAt(exposure).value(), 1e-4, () -> strip.id() + " at D " + density);
            }
        }
    }
}
