// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.tonewedge.core.tone.Brackets.AXIS;
import static org.tonewedge.core.tone.Brackets.logistic;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

class ToneStageProperties {

    private static final CharacteristicCurve FILM = logistic(0.20, 1.6, 2.0, 0, -8, 8);
    private static final CharacteristicCurve PAPER = logistic(0.05, 2.0, 5.0, 0.4, -8, 8);

    private static CameraExposure camera(double flare) {
        return CameraExposure.metered(new LogExposure(0, AXIS)).withFlare(flare);
    }

    @Property(tries = 300, seed = "1")
    void joiningIsAssociative(
            @ForAll @DoubleRange(min = 0, max = 0.2) @Scale(4) double flare,
            @ForAll @DoubleRange(min = -3, max = 3) @Scale(4) double logLuminance) {
        ToneStage<SubjectTone, LogExposure> first = camera(flare).stage();
        ToneStage<LogExposure, Density> second = ToneStage.of(FILM);
        ToneStage<Density, LogExposure> third = new Printing(new LogExposure(1.4, AXIS)).stage();
        ToneStage<LogExposure, Density> fourth = ToneStage.of(PAPER);
        SubjectTone tone = new SubjectTone(logLuminance);

        ToneStage<SubjectTone, Density> left = first.then(second).then(third).then(fourth);
        ToneStage<SubjectTone, Density> right = first.then(second.then(third.then(fourth)));

        assertEquals(left.at(tone), right.at(tone));
        assertEquals(left.gradientAt(tone).value(), right.gradientAt(tone).value(), 1e-12);
        assertEquals(left.name(), right.name());
    }

    @Property(tries = 300, seed = "1")
    void gradientIsTheSlopeOfTheWholeRoad(
            @ForAll @DoubleRange(min = 0, max = 0.2) @Scale(4) double flare,
            @ForAll @DoubleRange(min = -3, max = 3) @Scale(4) double logLuminance) {
        ToneReproduction road =
                ToneReproduction.of(camera(flare), FILM, new Printing(new LogExposure(1.4, AXIS)), PAPER);
        double step = 1e-5;

        double slope = (road.stage().at(new SubjectTone(logLuminance + step)).value()
                        - road.stage().at(new SubjectTone(logLuminance - step)).value())
                / (2 * step);

        assertEquals(
                slope, road.stage().gradientAt(new SubjectTone(logLuminance)).value(), 1e-6);
        assertEquals(-slope, road.tone(new SubjectTone(logLuminance)).gradient().value(), 1e-6);
    }

    @Property(tries = 100, seed = "1")
    void flareNeverAddsContrast(
            @ForAll @DoubleRange(min = 0, max = 5) @Scale(4) double flare,
            @ForAll @DoubleRange(min = -4, max = 4) @Scale(4) double darker,
            @ForAll @DoubleRange(min = 0.01, max = 4) @Scale(4) double range) {
        double factor = camera(flare).flareFactor(new SubjectTone(darker), new SubjectTone(darker + range));

        assertEquals(true, factor >= 1 - 1e-9);
        assertEquals(true, factor <= Math.pow(10, range) * (1 + 1e-9));
    }
}
