// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.io.IOException;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.strip.StepTablet;

/**
 * A simulated scanner with flare, a wrong dark code, a gamma and noise, on whose scans a tablet of 21 steps lies somewhere in
 * a rough box above seven patches of known density; and how well {@link ScanCalibration} reads the patches. Run it by hand
 * for bias and coverage; the argument is the number of scans of each kind.
 */
final class ScanSimulation {

    static final int STEPS = 21;
    static final ScanEncoding NOMINAL = ScanEncoding.ofTransmittanceSteps(0, 65_535, 65_535);
    static final ScanRegion BOX = new ScanRegion(10, 10, 700, 60);
    static final ScanRegion PATCHES = new ScanRegion(50, 110, 560, 60);
    static final double[] PATCH_DENSITIES = {0.2, 0.35, 0.6, 0.95, 1.4, 1.9, 2.2};

    private static final int WIDTH = 720;
    private static final int HEIGHT = 200;
    private static final double CERTIFIED = 0.005;

    /** What is wrong with a scanner. */
    enum Scanner {
        HONEST(0, 1),
        FLARING(0.0015, 1),
        GAMMA_ENCODED(0, 2.2);

        private final double flare;
        private final double gamma;

        Scanner(double flare, double gamma) {
            this.flare = flare;
            this.gamma = gamma;
        }
    }

    final StepTablet tablet;
    final ScanRows scan;
    /** The left edge of the first step, and the width of each. */
    final double start;

    final double stepWidth;

    ScanSimulation(Scanner scanner, boolean fromDenseEnd, Random random) {
        double[] certified = new double[STEPS];
        double[] densities = new double[STEPS];
        for (int k = 0; k < STEPS; k++) {
            certified[k] = 0.05 + 0.12 * k;
            densities[k] = certified[k] + CERTIFIED * random.nextGaussian();
        }
        tablet = StepTablet.calibrated("simulated", CERTIFIED, certified);
        stepWidth = 27 + 5 * random.nextDouble();
        start = BOX.x() + random.nextDouble() * (BOX.width() - STEPS * stepWidth);
        short[] codes = new short[WIDTH * HEIGHT];
        for (int i = 0; i < codes.length; i++) {
            int x = i % WIDTH;
            int y = i / WIDTH;
            double density = 0;
            if (y < 90) {
                double step = Math.floor((x - start) / stepWidth);
                int k = (int) (fromDenseEnd ? STEPS - 1 - step : step);
                density = step >= 0 && step < STEPS ? densities[k] : 0;
            } else if (y >= PATCHES.y() && x >= PATCHES.x() && x < PATCHES.x() + PATCHES.width()) {
                density = PATCH_DENSITIES[(x - PATCHES.x()) * PATCH_DENSITIES.length / PATCHES.width()];
            }
            double light = (Math.pow(10, -density) + scanner.flare) / (1 + scanner.flare) * 0.97;
            light += Math.sqrt(light * 2e-6 + 1e-8) * random.nextGaussian();
            codes[i] = (short) Math.round(65_535 * Math.pow(Math.max(0, Math.min(1, light)), 1 / scanner.gamma));
        }
        for (int speck = 0; speck < 40; speck++) {
            int at = random.nextInt(codes.length - 4 * WIDTH);
            for (int i = 0; i < 9; i++) {
                codes[at + i / 3 * WIDTH + i % 3] = 600;
            }
        }
        scan = ScanRows.of(codes, WIDTH, 65_535);
    }

    /** The patches, by a calibration on the tablet of the same scan. */
    Estimate[] readings() throws IOException {
        ScanCodeTable codes = ScanCodeTable.densities(NOMINAL);
        ScanCalibration calibration = ScanCalibration.of(
                tablet, PatchGrid.readEach(scan, StepFinder.of(STEPS).find(scan, BOX, codes), codes));
        return PatchGrid.of(1, PATCH_DENSITIES.length).read(scan, PATCHES, codes).stream()
                .map(patch -> calibration.corrected(patch).estimate())
                .toArray(Estimate[]::new);
    }

    public static void main(String[] args) throws IOException {
        int scans = args.length > 0 ? Integer.parseInt(args[0]) : 480;
        for (Scanner scanner : Scanner.values()) {
            EdgeSimulation.Tally[] tallies = new EdgeSimulation.Tally[PATCH_DENSITIES.length];
            for (int p = 0; p < tallies.length; p++) {
                tallies[p] = new EdgeSimulation.Tally(PATCH_DENSITIES[p]);
            }
            Random random = new Random(3);
            int refused = 0;
            for (int i = 0; i < scans; i++) {
                try {
                    Estimate[] readings = new ScanSimulation(scanner, i % 2 == 1, random).readings();
                    for (int p = 0; p < tallies.length; p++) {
                        tallies[p].add(readings[p]);
                    }
                } catch (NotDeterminableException e) {
                    refused++;
                }
            }
            System.out.printf(Locale.ROOT, "%s: %d of %d scans refused%n", scanner, refused, scans);
            for (int p = 0; p < tallies.length; p++) {
                System.out.printf(Locale.ROOT, "%s D %.2f | %s%n", scanner, PATCH_DENSITIES[p], tallies[p]);
            }
        }
    }
}
