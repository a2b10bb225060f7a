package org.tonewedge.examples.tone;

import java.util.List;

/** Prints of one scene beside each other, as greys of the screen. */
final class ScenePicture {

    private static final int GAP = 12;
    private static final int PAPER = 65_535;

    private final int width;
    private final int height;
    private final char[] codes;
    private int unmeasured;

    /** The prints from left to right. */
    ScenePicture(List<PrintTone> prints) {
        width = prints.size() * SyntheticScene.WIDTH + (prints.size() - 1) * GAP;
        height = SyntheticScene.HEIGHT;
        codes = new char[width * height];
        java.util.Arrays.fill(codes, (char) PAPER);
        for (int i = 0; i < prints.size(); i++) {
            draw(prints.get(i), i * (SyntheticScene.WIDTH + GAP));
        }
    }

    private void draw(PrintTone print, int left) {
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < SyntheticScene.WIDTH; x++) {
                double luminance = SyntheticScene.logLuminance(x, y);
                if (!print.isMeasured(luminance)) {
                    unmeasured++;
                }
                codes[y * width + left + x] = (char) PrintTone.code(print.density(luminance));
            }
        }
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    /** The greys, row by row, 16 bits each. */
    char[] codes() {
        return codes.clone();
    }

    /** The part of the prints whose tones lie beyond the readings and were drawn as the nearest measured ones. */
    double unmeasuredPart() {
        return (double) unmeasured / (height * (width - (width / (SyntheticScene.WIDTH + GAP)) * GAP));
    }
}
