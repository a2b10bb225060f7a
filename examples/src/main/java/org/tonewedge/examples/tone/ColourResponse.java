// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.PatchGroup;

/**
 * How much more than a neutral of the same luminance a colour exposes a film, as its coloured patches tell: a pure hue as
 * the mean of the patches of its group, a hue between two groups in proportion, a pale colour by its saturation.
 */
final class ColourResponse {

    private static final int CORNERS = 6;
    /** The groups at hue 0, 1, … of {@link Scene}. */
    private static final List<PatchGroup> ROUND = List.of(
            PatchGroup.RED, PatchGroup.YELLOW, PatchGroup.GREEN, PatchGroup.CYAN, PatchGroup.BLUE, PatchGroup.MAGENTA);

    /** The log exposure by hue; at 6 that at 0 again. */
    private final TreeMap<Double, Double> byHue = new TreeMap<>();

    /** A response of no colour in particular: each exposes as its luminance does. */
    static final ColourResponse NEUTRAL = new ColourResponse(Map.of());

    ColourResponse(Map<PatchGroup, Estimate> stops) {
        for (int i = 0; i < CORNERS; i++) {
            Estimate found = stops.get(ROUND.get(i));
            if (found != null) {
                double shift = ExposureInterval.ofStops(found.value()).logUnits();
                byHue.put((double) i, shift);
                byHue.put((double) i + CORNERS, shift);
                byHue.put((double) i - CORNERS, shift);
            }
        }
    }

    /** Whether a patch of some colour was read. */
    boolean isKnown() {
        return !byHue.isEmpty();
    }

    /** The shift of log exposure at a hue from 0 to 6 and a saturation from 0 to 1. */
    double at(double hue, double saturation) {
        if (byHue.isEmpty() || saturation == 0) {
            return 0;
        }
        Map.Entry<Double, Double> below = byHue.floorEntry(hue);
        Map.Entry<Double, Double> above = byHue.ceilingEntry(hue);
        double span = above.getKey() - below.getKey();
        double part = span == 0 ? 0 : (hue - below.getKey()) / span;
        return saturation * (below.getValue() + part * (above.getValue() - below.getValue()));
    }
}
