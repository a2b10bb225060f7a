// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.PatchReading;

class ShadowMatchProperties {

    /** A toe: rising, ever steeper. */
    private static Bracket toe(String film, double fog, double speed) {
        return Brackets.shadows(film, fog, 13, 1 / 3.0, stops -> 0.4 * Math.pow(2, 0.5 * (stops + speed)));
    }

    @Property(tries = 200, seed = "1")
    void aFilmMatchesItself(
            @ForAll @DoubleRange(min = 0.05, max = 0.6) double fog,
            @ForAll @DoubleRange(min = -2, max = 2) double speed,
            @ForAll @IntRange(min = 0, max = 12) int frame) {
        Bracket film = toe("A", fog, speed);

        ShadowMatch match = ShadowMatch.of(film, "shadow", film, "f" + frame);

        assertEquals("f" + frame, match.frame().label());
        assertEquals(0, match.residual().value(), 1e-12);
        assertEquals(0, match.interval().stops(), 1e-9);
    }

    @Property(tries = 200, seed = "1")
    void matchingTheOtherWayRoundTurnsTheIntervalAround(
            @ForAll @DoubleRange(min = 0.05, max = 0.6) double fog,
            @ForAll @DoubleRange(min = -1, max = 1) @Scale(4) double speed) {
        Bracket reference = toe("reference", 0.2, 0);
        Bracket film = toe("film", fog, speed);
        ShadowMatch there = ShadowMatch.of(film, "shadow", reference, "f6");

        // The film is given a frame at the very exposure that matches, and the reference is matched to that frame.
        List<Frame> frames = new ArrayList<>(film.frames());
        frames.removeIf(frame -> frame.exposure().isWithin(there.exactExposure(), 1e-6));
        frames.add(new Frame(
                "match",
                there.exactExposure(),
                List.of(PatchReading.of(Brackets.SHADOW, fog + there.target().value()))));
        Bracket matched = Bracket.of("film", film.basePlusFogReadings(), frames);
        ShadowMatch back = ShadowMatch.of(reference, "shadow", matched, "match");

        assertEquals(-there.interval().stops(), back.interval().stops(), 1e-6);
    }

    @Property(tries = 200, seed = "1")
    void aShiftOfAllFramesShiftsTheIntervalAsMuch(@ForAll @DoubleRange(min = -1, max = 1) @Scale(4) double shift) {
        Bracket reference = toe("reference", 0.2, 0);
        Bracket film = toe("film", 0.3, 0.5);
        Bracket shifted = Bracket.of(
                "film",
                film.basePlusFogReadings(),
                film.frames().stream()
                        .map(frame -> new Frame(
                                frame.label(),
                                frame.exposure().plus(ExposureInterval.ofStops(shift)),
                                frame.readings()))
                        .toList());

        assertEquals(
                ShadowMatch.of(film, "shadow", reference, "f6").interval().stops() + shift,
                ShadowMatch.of(shifted, "shadow", reference, "f6").interval().stops(),
                1e-9);
    }
}
