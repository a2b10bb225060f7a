// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Supplier;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.fitting.parametric.CurveFamily;

/**
 * Simulated edges of known modulation transfer, sampled at points, and how well {@link SlantedEdge} reads them. Run it by
 * hand for the table in the package documentation: the argument is the number of edges for each row.
 */
public final class EdgeSimulation {

    /** A shape with a closed-form edge spread function and modulation transfer; lengths in pixels. */
    enum Shape {
        GAUSSIAN {
            @Override
            double edge(double x, double size) {
                return 0.5 * (1 + erf(x / size / Math.sqrt(2)));
            }

            @Override
            double modulation(double f, double size) {
                return Math.exp(-2 * Math.pow(Math.PI * f * size, 2));
            }
        },
        EXPONENTIAL {
            @Override
            double edge(double x, double size) {
                return x < 0 ? 0.5 * Math.exp(x / size) : 1 - 0.5 * Math.exp(-x / size);
            }

            @Override
            double modulation(double f, double size) {
                return 1 / (1 + Math.pow(2 * Math.PI * f * size, 2));
            }
        },
        SLIT {
            @Override
            double edge(double x, double size) {
                return Math.max(0, Math.min(1, x / size + 0.5));
            }

            @Override
            double modulation(double f, double size) {
                double part = Math.PI * f * size;
                return part == 0 ? 1 : Math.abs(Math.sin(part) / part);
            }
        },
        /** A Gaussian core with a wide faint tail, as by halation: a tenth of the light spreads exponentially, fivefold. */
        HALATION {
            @Override
            double edge(double x, double size) {
                return 0.9 * GAUSSIAN.edge(x, size) + 0.1 * EXPONENTIAL.edge(x, 5 * size);
            }

            @Override
            double modulation(double f, double size) {
                return 0.9 * GAUSSIAN.modulation(f, size) + 0.1 * EXPONENTIAL.modulation(f, 5 * size);
            }
        },
        /** A Gaussian core in a negative lobe, as by adjacency effects of development: the modulation rises to 1.09. */
        ADJACENCY {
            @Override
            double edge(double x, double size) {
                return 1.2 * GAUSSIAN.edge(x, size) - 0.2 * GAUSSIAN.edge(x, 5 * size);
            }

            @Override
            double modulation(double f, double size) {
                return 1.2 * GAUSSIAN.modulation(f, size) - 0.2 * GAUSSIAN.modulation(f, 5 * size);
            }
        };

        abstract double edge(double x, double size);

        abstract double modulation(double f, double size);

        /** The lowest frequency of a modulation, in cycles per pixel, by bisection. */
        double frequency(double modulation, double size) {
            double low = 0;
            double high = 0;
            while (modulation(high, size) > modulation) {
                low = high;
                high += 0.001;
            }
            for (int i = 0; i < 60; i++) {
                double middle = 0.5 * (low + high);
                if (modulation(middle, size) > modulation) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return low;
        }
    }

    private EdgeSimulation() {}

    /** An edge between two values, tilted by an angle, with independent noise from pixel to pixel. */
    static double[] edge(
            Shape shape,
            double size,
            double degrees,
            int width,
            int height,
            double from,
            double to,
            double noise,
            Random random) {
        double sine = Math.sin(Math.toRadians(degrees));
        double cosine = Math.cos(Math.toRadians(degrees));
        double start = random.nextDouble();
        double[] values = new double[width * height];
        for (int i = 0; i < values.length; i++) {
            double x = (i % width - width / 2 + start) * cosine + (i / width - height / 2) * sine;
            values[i] = from + (to - from) * shape.edge(x, size) + noise * random.nextGaussian();
        }
        return values;
    }

    /** Grain that spans pixels: white noise averaged with Gaussian weights, of standard deviation 1. */
    static double[] grain(int width, int height, double size, Random random) {
        double[] white = random.doubles((long) width * height, -1, 1).toArray();
        return smoothed(smoothed(white, width, 1, size), width, width, size);
    }

    /** Averages along the rows or columns of a field that repeats itself, and brings it back to a standard deviation of 1. */
    private static double[] smoothed(double[] field, int width, int step, double size) {
        int reach = (int) Math.ceil(4 * size);
        double[] means = new double[field.length];
        for (int i = 0; i < field.length; i++) {
            for (int j = -reach; j <= reach; j++) {
                int at = step == 1
                        ? i / width * width + Math.floorMod(i % width + j, width)
                        : Math.floorMod(i + j * step, field.length);
                means[i] += field[at] * (size > 0 ? Math.exp(-0.5 * j * j / (size * size)) : 1);
            }
        }
        double deviation =
                Math.sqrt(Arrays.stream(means).map(m -> m * m).average().orElseThrow());
        return Arrays.stream(means).map(m -> m / deviation).toArray();
    }

    static DensityImage image(double[] values, int width, double pitch) {
        return DensityImage.of(values, width, pitch);
    }

    /** Complementary error function by series and continued fraction, to 1e-13; of the test's own. */
    static double erf(double x) {
        if (Math.abs(x) > 6) {
            return Math.signum(x);
        }
        double term = x;
        double sum = x;
        for (int n = 1; n < 200; n++) {
            term *= -x * x / n;
            sum += term / (2 * n + 1);
        }
        return Math.abs(x) > 4
                ? Math.signum(x) * (1 - Math.exp(-x * x) / (Math.abs(x) * Math.sqrt(Math.PI)))
                : sum * 2 / Math.sqrt(Math.PI);
    }

    /** MTF50 of edges 1 pixel wide at 5° in grain of 0.05, without noise of single pixels. */
    static Tally inGrain(double size, int rows, int edges, int seed) {
        Random random = new Random(seed);
        Tally fifty = new Tally(Shape.GAUSSIAN.frequency(0.5, 1));
        for (int i = 0; i < edges; i++) {
            double[] values = edge(Shape.GAUSSIAN, 1, 5, 70, rows, 0.5, 1.5, 0, random);
            double[] grain = grain(70, rows, size, random);
            Arrays.setAll(grain, k -> values[k] + 0.05 * grain[k]);
            fifty.addOrRefuse(() -> SlantedEdge.withDefaults()
                    .determineInDensity(image(grain, 70, 1000))
                    .modulationTransfer()
                    .mtf50());
        }
        return fifty;
    }

    /**
     * MTF50 in exposure of edges 1 pixel wide at 5°, 120 rows, between two log exposures on the straight line of a film of
     * gamma 0.65, in grain of a standard deviation in density.
     */
    static Tally faint(double contrast, double deviation, double size, int edges, int seed) {
        CharacteristicCurve film = CharacteristicCurve.of(
                "line",
                CurveFamily.TOE_SHOULDER.form(0.2, 0.65, -2.5, 0.1, 1.5, 0.1),
                LogExposure.ofLogLuxSeconds(-3),
                LogExposure.ofLogLuxSeconds(2),
                Density.of(0.2));
        Random random = new Random(seed);
        Tally fifty = new Tally(Shape.GAUSSIAN.frequency(0.5, 1));
        for (int i = 0; i < edges; i++) {
            double[] values = edge(Shape.GAUSSIAN, 1, 5, 70, 120, 1, Math.pow(10, contrast), 0, random);
            double[] grain = grain(70, 120, size, random);
            Arrays.setAll(grain, k -> film.density(Math.log10(values[k]) - 0.5) + deviation * grain[k]);
            fifty.addOrRefuse(() -> SlantedEdge.withDefaults()
                    .determineInExposure(image(grain, 70, 1000), film)
                    .modulationTransfer()
                    .mtf50());
        }
        return fifty;
    }

    private static void printFaint(int edges) {
        for (double size : new double[] {0, 2}) {
            for (double deviation : new double[] {0.005, 0.015}) {
                for (double contrast : new double[] {0.05, 0.1, 0.2}) {
                    System.out.printf(
                            Locale.ROOT,
                            "grain of %.0f pixels, %.3f in density, contrast %.2f | %s%n",
                            size,
                            deviation,
                            contrast,
                            faint(contrast, deviation, size, edges, 21));
                }
            }
        }
    }

    /**
     * Prints the table.
     *
     * @param args {@code faint} and the edges for each row; {@code grain}, the edges for each row and the rows of an edge; or the edges for each row; then, to run a part, angles and noises as lists with commas, and the first seed
     */
    public static void main(String[] args) {
        if (args.length > 0 && args[0].equals("faint")) {
            printFaint(Integer.parseInt(args[1]));
            return;
        }
        if (args.length > 0 && args[0].equals("grain")) {
            for (double size : new double[] {0, 1, 2, 3, 6}) {
                System.out.printf(
                        Locale.ROOT,
                        "grain of %.0f pixels, %s rows | %s%n",
                        size,
                        args[2],
                        inGrain(size, Integer.parseInt(args[2]), Integer.parseInt(args[1]), 11));
            }
            return;
        }
        int edges = args.length > 0 ? Integer.parseInt(args[0]) : 133;
        double[] angles = numbers(args.length > 1 ? args[1] : "3,5,10,20,40");
        double[] noises = numbers(args.length > 2 ? args[2] : "0,0.005,0.02,0.05,0.1");
        int seed = args.length > 3 ? Integer.parseInt(args[3]) : 5;
        System.out.println("shape size angle noise | mtf50 bias % sd % u % coverage % n refused | mtf10 the same");
        for (Shape shape : List.of(Shape.GAUSSIAN, Shape.EXPONENTIAL, Shape.SLIT)) {
            double size = shape == Shape.SLIT ? 3 : 1;
            for (double degrees : angles) {
                for (double noise : noises) {
                    row(shape, size, degrees, noise, edges, seed++);
                }
            }
        }
    }

    static double[] numbers(String list) {
        return Arrays.stream(list.split(",", -1))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }

    private static void row(Shape shape, double size, double degrees, double noise, int edges, int seed) {
        Random random = new Random(seed);
        Tally fifty = new Tally(shape.frequency(0.5, size));
        Tally ten = new Tally(shape.frequency(0.1, size));
        for (int i = 0; i < edges; i++) {
            int width = 60 + (int) (120 * Math.tan(Math.toRadians(degrees)));
            double[] values = edge(shape, size, degrees, width, 120, 0.5, 1.5, noise, random);
            ModulationTransfer mtf = SlantedEdge.withDefaults()
                    .determineInDensity(image(values, width, 1000))
                    .modulationTransfer();
            fifty.addOrRefuse(mtf::mtf50);
            ten.addOrRefuse(mtf::mtf10);
        }
        System.out.printf(Locale.ROOT, "%s %.1f %.0f %.3f | %s | %s%n", shape, size, degrees, noise, fifty, ten);
    }

    /** Bias, mean uncertainty and coverage of 95 % intervals, relative to a true value. */
    static final class Tally {
        private final double truth;
        private double bias;
        private double uncertainty;
        private double squares;
        private double standardised;
        private double standardisedSquares;
        private int held;
        private int count;
        private int refused;

        Tally(double truth) {
            this.truth = truth;
        }

        void add(Estimate found) {
            count++;
            bias += found.value() / truth - 1;
            uncertainty += found.standardUncertainty() / truth;
            squares += Math.pow(found.value() / truth - 1, 2);
            double z = (found.value() - truth) / found.standardUncertainty();
            standardised += z;
            standardisedSquares += z * z;
            CoverageInterval interval = found.interval(0.95);
            held += interval.lower() <= truth && truth <= interval.upper() ? 1 : 0;
        }

        void addOrRefuse(Supplier<Estimate> figure) {
            try {
                add(figure.get());
            } catch (NotDeterminableException e) {
                refused++;
            }
        }

        double bias() {
            return bias / count;
        }

        double coverage() {
            return held / (double) count;
        }

        /** The mean uncertainty over the scatter there is. */
        double overstatement() {
            return uncertainty / count / Math.sqrt(squares / count - bias() * bias());
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%6.2f %5.2f %5.2f %5.1f  z %5.2f %4.2f  %d refused %d",
                    100 * bias(),
                    100 * Math.sqrt(squares / count - bias() * bias()),
                    100 * uncertainty / count,
                    100 * coverage(),
                    standardised / count,
                    Math.sqrt(standardisedSquares / count - Math.pow(standardised / count, 2)),
                    count,
                    refused);
        }
    }
}
