// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.ClosedFormCurve;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;

class Iso6Properties {

    @Property(tries = 200, seed = "1")
    void aSpeedMovesByExactlyTheShiftOfTheExposureAxis(
            @ForAll ClosedFormCurve closedForm, @ForAll @DoubleRange(min = -1.0, max = 1.0) @Scale(6) double shift) {
        CharacteristicCurve curve = closedForm.curve();
        CharacteristicCurve moved = curve.shiftedBy(ExposureInterval.ofLogUnits(shift));
        Iso6 method = Iso6.withDefaults();
        assertEquals(
                Math.log10(method.determine(curve).exact()) - shift,
                Math.log10(method.determine(moved).exact()),
                1e-9);
        assertEquals(
                AverageGradient.withDefaults().determine(curve).gradient().value(),
                AverageGradient.withDefaults().determine(moved).gradient().value(),
                1e-9);
        assertEquals(
                ContrastIndex.withDefaults().determine(curve).gradient().value(),
                ContrastIndex.withDefaults().determine(moved).gradient().value(),
                1e-9);
    }

    @Property(tries = 1000, seed = "1")
    void everyExactSpeedHasTheDegreeNearestToIt(
            @ForAll @DoubleRange(min = -0.49, max = 42.49) @Scale(4) double degrees) {
        int rounded = IsoSpeed.nearest(Math.pow(10, (degrees - 1) / 10)).degrees();
        assertEquals(degrees, rounded, 0.5 + 1e-9);
    }
}
