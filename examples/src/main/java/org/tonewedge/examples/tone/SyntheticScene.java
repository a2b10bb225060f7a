// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

/**
 * An invented still life, given as luminances: a smooth sphere and a block on a table before a pleated cloth, a row of
 * patches and a fine weave. It is made by formulas, so it is the same everywhere and shows no real thing.
 */
final class SyntheticScene {

    static final int WIDTH = 420;
    static final int HEIGHT = 320;

    private static final double TABLE_EDGE = 0.62;
    private static final double GREY = 0.18;
    /** Reflectances of the patches, a third of the steps from white to black; invented. */
    private static final double[] PATCHES = {0.9, 0.59, 0.36, 0.19, 0.09, 0.031};

    private SyntheticScene() {}

    /** log10 of the luminance from that of an 18 per cent grey in full light. */
    static double logLuminance(int column, int row) {
        double x = (column + 0.5) / WIDTH;
        double y = (row + 0.5) / HEIGHT;
        return Math.log10(luminance(x, y) / GREY);
    }

    private static double luminance(double x, double y) {
        double sphere = sphere(x, y);
        if (sphere > 0) {
            return sphere;
        }
        if (y > 0.86 && x > 0.06 && x < 0.94) {
            return PATCHES[(int) ((x - 0.06) / 0.88 * PATCHES.length)];
        }
        if (x > 0.62 && x < 0.86 && y > 0.3 && y < 0.74) {
            return block(x, y);
        }
        if (y > TABLE_EDGE) {
            return table(x, y);
        }
        double pleat = Math.sin(x * 34 + 1.5 * Math.sin(y * 5));
        double light = 0.35 + 0.65 * Math.pow(0.5 + 0.5 * pleat, 1.5);
        return 0.3 * light * (1.1 - 0.75 * x) + 0.004;
    }

    /** A sphere of reflectance 0.5 in one light, with a gleam; nothing beside it. */
    private static double sphere(double x, double y) {
        double dx = (x - 0.32) * WIDTH / HEIGHT;
        double dy = y - 0.52;
        double radius = 0.23;
        double rest = radius * radius - dx * dx - dy * dy;
        if (rest <= 0) {
            return 0;
        }
        double nx = dx / radius;
        double ny = dy / radius;
        double nz = Math.sqrt(rest) / radius;
        double facing = Math.max(0, -0.5 * nx - 0.6 * ny + 0.624 * nz);
        double gleam = Math.pow(Math.max(0, -0.28 * nx - 0.34 * ny + 0.898 * nz), 90);
        return 0.5 * (0.03 + 0.97 * facing) + 1.6 * gleam;
    }

    /** A woven block: fine texture in light at the left and in shade at the right. */
    private static double block(double x, double y) {
        boolean lit = x < 0.72;
        double weave = 0.5 + 0.5 * Math.sin(x * 520) * Math.sin(y * 400);
        double reflectance = 0.05 + 0.25 * weave;
        return reflectance * (lit ? 0.9 : 0.12) * (1.05 - 0.3 * y);
    }

    private static double table(double x, double y) {
        double shade = Math.exp(-Math.pow((x - 0.47) / 0.16, 2) - Math.pow((y - 0.76) / 0.05, 2));
        return 0.45 * (0.75 + 0.35 * (y - TABLE_EDGE)) * (1 - 0.93 * shade);
    }
}
