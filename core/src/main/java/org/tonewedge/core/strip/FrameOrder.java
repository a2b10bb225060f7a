// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.ReadingNoise;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * Whether the patches of a bracket become denser from frame to frame as fast as film lets them, and none is thinner than
 * base plus fog.
 */
final class FrameOrder {

    /** Density rises by more than this per stop only on film of a gradient above 1.2; over fewer stops, noise adds to it. */
    private static final double STEEPEST_PER_STOP = 0.36;

    private static final double FEWEST_STOPS = 0.5;

    private FrameOrder() {}

    /** A patch that is thinner on a frame than on the one before. */
    private record Fall(String patch, Frame before, Frame frame) {}

    static List<String> doubts(Bracket bracket) {
        List<String> doubts = new ArrayList<>();
        List<ExposureInterval> exposures =
                bracket.frames().stream().map(Frame::exposure).toList();
        List<Fall> falls = falls(bracket.frames(), exposures);
        if (!falls.isEmpty()) {
            doubts.add(bracket + ": " + fallen(falls) + swapped(bracket.frames(), exposures));
        }
        thinnest(bracket).ifPresent(doubts::add);
        steepest(bracket).ifPresent(doubts::add);
        return List.copyOf(doubts);
    }

    /** Where density falls if frames had these exposures, which rise: each frame beside those of the exposure before. */
    private static List<Fall> falls(List<Frame> frames, List<ExposureInterval> exposures) {
        List<Fall> falls = new ArrayList<>();
        int beginning = 0;
        int end = 0;
        for (int i = 1; i < frames.size(); i++) {
            if (!exposures.get(i).equals(exposures.get(i - 1))) {
                beginning = end;
                end = i;
            }
            for (Frame before : frames.subList(beginning, end)) {
                addFalls(before, frames.get(i), falls);
            }
        }
        return falls;
    }

    private static void addFalls(Frame before, Frame frame, List<Fall> falls) {
        for (PatchReading reading : frame.readings()) {
            String patch = reading.patch().label();
            if (density(before, patch)
                    .filter(density -> ReadingNoise.isThinner(reading.density().value(), density.value()))
                    .isPresent()) {
                falls.add(new Fall(patch, before, frame));
            }
        }
    }

    private static Optional<Density> density(Frame frame, String patch) {
        return frame.readings().stream()
                .filter(reading -> reading.patch().label().equals(patch))
                .map(PatchReading::density)
                .findFirst();
    }

    private static String fallen(List<Fall> falls) {
        Fall first = falls.get(0);
        long more = falls.stream().map(Fall::patch).distinct().count() - 1;
        return "patch '" + first.patch() + "'"
                + (more == 0 ? "" : more == 1 ? " and 1 more" : " and " + more + " more")
                + (more == 0 ? " is" : " are") + " thinner on frame '"
                + first.frame().label() + "' than on frame '"
                + first.before().label() + "', which had less exposure";
    }

    /** The one exchange of two frames after which no density falls. */
    private static String swapped(List<Frame> frames, List<ExposureInterval> exposures) {
        List<String> pairs = new ArrayList<>();
        for (int i = 0; i < frames.size(); i++) {
            for (int j = i + 1; j < frames.size(); j++) {
                List<Frame> exchanged = new ArrayList<>(frames);
                Collections.swap(exchanged, i, j);
                if (falls(exchanged, exposures).isEmpty()) {
                    pairs.add("'" + frames.get(i).label() + "' and '"
                            + frames.get(j).label() + "'");
                }
            }
        }
        return pairs.size() == 1
                ? "; with frames " + pairs.get(0) + " exchanged, no density falls: are they swapped?"
                : "; look for swapped frames, dust or a finger mark";
    }

    private static Optional<String> thinnest(Bracket bracket) {
        Density base = bracket.basePlusFog();
        List<String> frames = new ArrayList<>();
        Density thinnest = base;
        for (Frame frame : bracket.frames()) {
            for (PatchReading reading : frame.readings()) {
                if (ReadingNoise.isThinner(reading.density().value(), base.value())) {
                    frames.add(frame.label());
                    thinnest = reading.density().compareTo(thinnest) < 0 ? reading.density() : thinnest;
                }
            }
        }
        return frames.isEmpty()
                ? Optional.empty()
                : Optional.of(bracket + ": base plus fog, " + base + ", is denser than "
                        + Figures.counted(frames.size(), "reading") + " on "
                        + Figures.counted(frames.stream().distinct().count(), "frame")
                        + ", frame '" + frames.get(0) + "' the first, down to " + thinnest
                        + "; was it read on another film? Read an unexposed part of this one");
    }

    /** The patch that rises fastest from the first frame to the last, if film hardly does so. */
    private static Optional<String> steepest(Bracket bracket) {
        List<Frame> frames = bracket.frames();
        Frame first = frames.get(0);
        Frame last = frames.get(frames.size() - 1);
        double stops = last.exposure().stops() - first.exposure().stops();
        if (stops < FEWEST_STOPS) {
            return Optional.empty();
        }
        double steepest = STEEPEST_PER_STOP;
        String patch = null;
        for (PatchReading reading : last.readings()) {
            String label = reading.patch().label();
            Optional<Density> before = density(first, label);
            if (before.isPresent()) {
                double rise = reading.density().minus(before.get()).value() / stops;
                patch = rise > steepest ? label : patch;
                steepest = Math.max(steepest, rise);
            }
        }
        return patch == null
                ? Optional.empty()
                : Optional.of(bracket + ": patch '" + patch + "' rises by "
                        + Figures.plain(Math.round(100 * steepest) / 100.0) + " per stop from frame '" + first.label()
                        + "' to frame '" + last.label()
                        + "', as on very steep film alone; are the stops logarithms? Divide"
                        + " them by 0.301");
    }
}
