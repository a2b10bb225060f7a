// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Prints of one scene beside each other, as greys of the screen. */
final class ScenePicture {

    private static final int GAP = 12;
    private static final int WHITE = 65_535;

    /**
     * A print of the scene.
     *
     * @param tone what film and paper make of luminances
     * @param colours how the film sees colours
     * @param grain the grain of the film; nothing for none
     */
    record Print(PrintTone tone, ColourResponse colours, Optional<Grain> grain) {}

    private final Scene scene;
    private final double flare;
    private final int width;
    private final char[] codes;
    private final int prints;
    private int unmeasured;

    /**
     * Draws prints from left to right.
     *
     * @param flare light that the surface of the prints reflects, as a part of the white
     */
    ScenePicture(Scene scene, double flare, List<Print> prints) {
        this.scene = scene;
        this.flare = flare;
        this.prints = prints.size();
        width = prints.size() * scene.width() + (prints.size() - 1) * GAP;
        codes = new char[width * scene.height()];
        Arrays.fill(codes, (char) WHITE);
        for (int i = 0; i < prints.size(); i++) {
            draw(prints.get(i), i * (scene.width() + GAP));
        }
    }

    private void draw(Print print, int left) {
        PrintTone tone = print.tone();
        for (int y = 0; y < scene.height(); y++) {
            for (int x = 0; x < scene.width(); x++) {
                double exposure = scene.logExposure(x, y, print.colours());
                if (!tone.isMeasured(exposure)) {
                    unmeasured++;
                }
                double density = print.grain().isEmpty()
                        ? tone.density(exposure)
                        : tone.printed(print.grain().get().next(tone.negative(exposure)));
                codes[y * width + left + x] = (char) PrintTone.code(density, flare);
            }
        }
    }

    int width() {
        return width;
    }

    int height() {
        return scene.height();
    }

    /** The greys, row by row, 16 bits each. */
    char[] codes() {
        return codes.clone();
    }

    /** The part of the prints whose tones lie beyond the readings and were drawn as the nearest measured ones. */
    double unmeasuredPart() {
        return (double) unmeasured / (prints * scene.width() * scene.height());
    }
}
