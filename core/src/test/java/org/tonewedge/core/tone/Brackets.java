// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;

/** Series and curves of known form for the tests of this room. */
final class Brackets {

    static final Patch SHADOW = Patch.of("shadow", PatchGroup.OTHER);
    static final ExposureAxis AXIS = ExposureAxis.relativeTo("the test exposure");

    private Brackets() {}

    /** Frames a number of stops apart, centred on the metered one, whose shadow density above fog is a function of stops. */
    static Bracket shadows(String film, double basePlusFog, int frames, double spacing, DoubleUnaryOperator density) {
        List<Frame> all = new ArrayList<>();
        for (int i = 0; i < frames; i++) {
            double stops = (i - frames / 2) * spacing;
            all.add(new Frame(
                    "f" + i,
                    ExposureInterval.ofStops(stops),
                    List.of(PatchReading.of(SHADOW, basePlusFog + density.applyAsDouble(stops)))));
        }
        return Bracket.of(film, List.of(Density.of(basePlusFog)), all);
    }

    /** The same series with every density read several times, all readings alike. */
    static Bracket readTimes(Bracket bracket, int times) {
        return Bracket.of(
                bracket.film(),
                Collections.nCopies(times, bracket.basePlusFog()),
                bracket.frames().stream()
                        .map(frame -> new Frame(
                                frame.label(),
                                frame.exposure(),
                                frame.readings().stream()
                                        .map(reading -> PatchReading.of(
                                                reading.patch(),
                                                DoubleStream.generate(reading.density()::value)
                                                        .limit(times)
                                                        .toArray()))
                                        .toList()))
                        .toList());
    }

    /** A curve D = base + gradient (log H − foot). */
    static CharacteristicCurve line(double basePlusFog, double gradient, double foot, double from, double to) {
        return curve(x -> basePlusFog + gradient * (x - foot), x -> gradient, basePlusFog, from, to);
    }

    static CharacteristicCurve curve(
            DoubleUnaryOperator density, DoubleUnaryOperator gradient, double basePlusFog, double from, double to) {
        return CharacteristicCurve.of(
                "test curve",
                CurveForm.of(density, gradient),
                new LogExposure(from, AXIS),
                new LogExposure(to, AXIS),
                Density.of(basePlusFog));
    }

    /** D = base + rise / (1 + exp(−steepness (x − middle))). */
    static CharacteristicCurve logistic(
            double basePlusFog, double rise, double steepness, double middle, double from, double to) {
        DoubleUnaryOperator share = x -> 1 / (1 + Math.exp(-steepness * (x - middle)));
        return curve(
                x -> basePlusFog + rise * share.applyAsDouble(x),
                x -> rise * steepness * share.applyAsDouble(x) * (1 - share.applyAsDouble(x)),
                basePlusFog,
                from,
                to);
    }

    /** One metered frame of neutrals and colours, each at a density that is a function of its effective log reflectance. */
    static Bracket chart(
            double basePlusFog, DoubleUnaryOperator density, double[] neutrals, List<Patch> colours, double... stops) {
        List<PatchReading> readings = new ArrayList<>();
        for (double reflectance : neutrals) {
            readings.add(PatchReading.of(
                    Patch.of("grey " + reflectance, PatchGroup.NEUTRAL, reflectance),
                    density.applyAsDouble(Math.log10(reflectance))));
        }
        IntStream.range(0, colours.size()).forEach(i -> {
            double effective = Math.log10(colours.get(i).reflectance().orElseThrow())
                    + ExposureInterval.ofStops(stops[i]).logUnits();
            readings.add(PatchReading.of(colours.get(i), density.applyAsDouble(effective)));
        });
        return Bracket.of(
                "chart film",
                List.of(Density.of(basePlusFog)),
                List.of(new Frame("metered", ExposureInterval.ZERO, readings)));
    }
}
