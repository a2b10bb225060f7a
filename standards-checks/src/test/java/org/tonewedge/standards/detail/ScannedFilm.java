// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.tone.DensityImage;

/**
 * Scans of an edge on film: light spread in the film, the curve, and the transmitted light spread in the scanner. Run it by hand
 * for the figures in {@link EdgeResponse#modulationTransferWithout}: the argument is the number of edges for each row.
 */
final class ScannedFilm {

    static final double PITCH = 5;

    private static final int WIDTH = 100;
    private static final int HEIGHT = 160;
    /** Places for each pixel. */
    private static final int FINENESS = 20;

    private ScannedFilm() {}

    /** An edge between two log exposures, tilted by 5°; the spreads in pixels, the noise in density. */
    static DensityImage edge(
            EdgeSimulation.Shape film,
            double spread,
            EdgeSimulation.Shape scanner,
            double blur,
            CharacteristicCurve curve,
            double from,
            double to,
            double noise,
            long seed) {
        int half = WIDTH * FINENESS;
        double[] transmittances = new double[2 * half + 1];
        for (int k = 0; k < transmittances.length; k++) {
            double share = film.edge((k - half) / (double) FINENESS, spread);
            double exposure = Math.pow(10, from) + (Math.pow(10, to) - Math.pow(10, from)) * share;
            transmittances[k] = Math.pow(10, -curve.density(Math.log10(exposure)));
        }
        double[] densities = new double[transmittances.length];
        int reach = (int) Math.ceil(20 * blur * FINENESS);
        double[] kernel = new double[2 * reach + 1];
        for (int j = -reach; j <= reach; j++) {
            kernel[j + reach] = scanner.edge((j + 0.5) / FINENESS, blur) - scanner.edge((j - 0.5) / FINENESS, blur);
        }
        for (int k = 0; k < densities.length; k++) {
            double sum = 0;
            for (int j = -reach; j <= reach; j++) {
                sum += kernel[j + reach] * transmittances[Math.max(0, Math.min(2 * half, k + j))];
            }
            densities[k] = -Math.log10(sum);
        }
        Random random = new Random(seed);
        double sine = Math.sin(Math.toRadians(5));
        double cosine = Math.cos(Math.toRadians(5));
        double start = random.nextDouble();
        double[] values = new double[WIDTH * HEIGHT];
        for (int i = 0; i < values.length; i++) {
            double x = (i % WIDTH - WIDTH / 2 + start) * cosine + (i / WIDTH - HEIGHT / 2) * sine;
            double place = x * FINENESS + half;
            int low = (int) place;
            values[i] = densities[low]
                    + (place - low) * (densities[low + 1] - densities[low])
                    + noise * random.nextGaussian();
        }
        return DensityImage.of(values, WIDTH, PITCH);
    }

    /** The scanner's modulation transfer in closed form. */
    static ModulationTransfer scanner(EdgeSimulation.Shape shape, double blur) {
        double[] frequencies = new double[200];
        double[] modulations = new double[frequencies.length];
        for (int j = 0; j < frequencies.length; j++) {
            double cyclesPerPixel = j / (frequencies.length - 1.0);
            frequencies[j] = cyclesPerPixel * 1000 / PITCH;
            modulations[j] = shape.modulation(cyclesPerPixel, blur);
        }
        return ModulationTransfer.of(frequencies, modulations);
    }

    /** An invented curve: a logistic function from density 0.2 on, with its steepest gradient at −1.5. */
    static CharacteristicCurve curve(double range, double gradient) {
        double k = 4 * gradient / range;
        return CharacteristicCurve.of(
                "invented",
                CurveForm.of(
                        x -> 0.2 + range / (1 + Math.exp(-k * (x + 1.5))),
                        x -> range * k * Math.exp(-k * (x + 1.5)) / Math.pow(1 + Math.exp(-k * (x + 1.5)), 2)),
                LogExposure.ofLogLuxSeconds(-3.5),
                LogExposure.ofLogLuxSeconds(0.5),
                Density.of(0.2));
    }

    /** MTF50 of the film found on edges with noise, the scanner measured on an edge of its own. */
    static EdgeSimulation.Tally measured(
            EdgeSimulation.Shape film,
            double spread,
            EdgeSimulation.Shape scanner,
            double blur,
            double range,
            int edges) {
        CharacteristicCurve curve = curve(1.6, 0.64);
        EdgeSimulation.Tally tally = new EdgeSimulation.Tally(film.frequency(0.5, spread) * 1000 / PITCH);
        for (int i = 0; i < edges; i++) {
            double[] blade =
                    EdgeSimulation.edge(scanner, blur, 5, WIDTH, HEIGHT, 0.05, 0.95, 0.003, new Random(-i - 1));
            for (int k = 0; k < blade.length; k++) {
                blade[k] = -Math.log10(blade[k]);
            }
            ModulationTransfer own = SlantedEdge.withDefaults()
                    .determineInTransmittance(DensityImage.of(blade, WIDTH, PITCH))
                    .modulationTransfer();
            DensityImage scan = edge(film, spread, scanner, blur, curve, -1.4 - range / 2, -1.4 + range / 2, 0.01, i);
            tally.addOrRefuse(() -> SlantedEdge.withDefaults()
                    .determineInExposure(scan, curve)
                    .modulationTransferWithout(own, 0.1)
                    .mtf50());
        }
        return tally;
    }

    /**
     * Prints bias, scatter, uncertainty and coverage of MTF50, in per cent.
     *
     * @param args the edges for each row; then, to run a part, ranges of log H as a list with commas, and a spread
     */
    public static void main(String[] args) {
        int edges = Integer.parseInt(args[0]);
        for (double range : EdgeSimulation.numbers(args.length > 1 ? args[1] : "0.3,1.0,1.5")) {
            for (EdgeSimulation.Shape film : EdgeSimulation.Shape.values()) {
                double spread = switch (film) {
                    case GAUSSIAN, ADJACENCY -> 1.2;
                    case EXPONENTIAL -> 0.8;
                    case SLIT -> 4;
                    case HALATION -> 1.1;
                };
                if (args.length > 2 && !args[2].equals(film.name())) {
                    continue;
                }
                if (film == EdgeSimulation.Shape.ADJACENCY && range > 1.2) {
                    continue; // beside the edge the lobe would take more light than there is
                }
                System.out.printf(
                        Locale.ROOT,
                        "%s %.1f: %s%n",
                        film,
                        range,
                        measured(film, spread, EdgeSimulation.Shape.GAUSSIAN, 0.9, range, edges));
            }
        }
    }
}
