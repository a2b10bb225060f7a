// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingFailedException;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * How often the 95 % interval of a figure contains the true one, and how far the figure is off on average, for each way of
 * fitting a strip: on simulated strips of 9, 13, 21 and 31 steps over 3 log units whose errors have a standard deviation
 * of 0.005 to 0.02 that nobody is told, with and without three readings of base plus fog. Run the main method for the
 * tables of the page on fit quality; its argument is the number of strips for each row.
 */
@SuppressWarnings("EnumOrdinal") // tallies are arrays by figure
final class FitCoverage {

    static final int[] STEPS = {9, 13, 21, 31};
    private static final double LOWEST = -3;
    private static final double HIGHEST = 0;

    private FitCoverage() {}

    /** What true curves look like. */
    enum Truth {
        /** Toe, straight line and shoulder: the family that is fitted. */
        IN_FAMILY {
            @Override
            CharacteristicCurve draw(Random random) {
                ParametricForm form = CurveFamily.TOE_SHOULDER.form(
                        between(0.05, 0.35, random),
                        between(0.4, 1.2, random),
                        between(-2.1, -1.5, random),
                        between(0.05, 0.5, random),
                        between(-0.8, 0.2, random),
                        between(0.05, 0.5, random));
                return curve(form, form.parameter(CurveParameter.BASE_PLUS_FOG));
            }
        },
        /** A fast layer of small range under a slow one. */
        TWO_LAYERS {
            @Override
            CharacteristicCurve draw(Random random) {
                double base = between(0.1, 0.3, random);
                double start = between(-2.2, -1.8, random);
                double middle = start + between(0.8, 1.1, random);
                ParametricForm fast = CurveFamily.TOE_SHOULDER.form(
                        base,
                        between(0.4, 0.7, random),
                        start,
                        between(0.08, 0.2, random),
                        middle,
                        between(0.08, 0.2, random));
                ParametricForm slow = CurveFamily.TOE_SHOULDER.form(
                        0,
                        between(0.6, 1.0, random),
                        middle + between(-0.1, 0.2, random),
                        between(0.08, 0.2, random),
                        between(-0.3, 0.1, random),
                        between(0.08, 0.2, random));
                return curve(x -> fast.density(x) + slow.density(x), x -> fast.gradient(x) + slow.gradient(x), base);
            }
        },
        /** No straight line: the gradient rises up to the end of the strip. */
        UPSWEPT {
            @Override
            CharacteristicCurve draw(Random random) {
                double base = between(0.1, 0.3, random);
                double gradient = between(0.25, 0.45, random);
                double sweep = between(0.12, 0.25, random);
                ParametricForm toe = CurveFamily.TOE_STRAIGHT_LINE.form(
                        0, 1, between(-2.1, -1.5, random), between(0.08, 0.3, random));
                return curve(
                        x -> base + (gradient + sweep * toe.density(x)) * toe.density(x),
                        x -> (gradient + 2 * sweep * toe.density(x)) * toe.gradient(x),
                        base);
            }
        };

        abstract CharacteristicCurve draw(Random random);

        static CharacteristicCurve curve(DoubleUnaryOperator density, DoubleUnaryOperator gradient, double base) {
            return curve(CurveForm.of(density, gradient), base);
        }

        static CharacteristicCurve curve(CurveForm form, double base) {
            return curve(form, base, LOWEST, HIGHEST);
        }

        static CharacteristicCurve curve(CurveForm form, double base, double lowest, double highest) {
            return CharacteristicCurve.of(
                    "truth",
                    form,
                    LogExposure.ofLogLuxSeconds(lowest),
                    LogExposure.ofLogLuxSeconds(highest),
                    Density.of(base));
        }
    }

    /** A fitted strip, of which figures are asked. */
    interface Fitted {
        Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure);
    }

    /** A way to fit a strip. */
    enum Way {
        DEFAULT {
            @Override
            Fitted fit(Strip strip) {
                return CurveFits.toeShoulder(strip)::estimate;
            }
        },
        HUBER {
            @Override
            Fitted fit(Strip strip) {
                return CurveFit.of(CurveFamily.TOE_SHOULDER)
                        .with(RobustLoss.HUBER)
                        .fit(strip)::estimate;
            }
        },
        TUKEY {
            @Override
            Fitted fit(Strip strip) {
                return CurveFit.of(CurveFamily.TOE_SHOULDER)
                        .with(RobustLoss.TUKEY)
                        .fit(strip)::estimate;
            }
        },
        BEST {
            @Override
            Fitted fit(Strip strip) {
                return CurveFits.best(strip)::estimate;
            }
        },
        CHECKED {
            @Override
            Fitted fit(Strip strip) {
                return StripFit.of(strip)::estimate;
            }
        },
        SPLINE {
            @Override
            Fitted fit(Strip strip) {
                return SmoothingSpline.withDefaults().with(SplineShape.MONOTONE).fit(strip)::estimate;
            }
        };

        abstract Fitted fit(Strip strip);
    }

    /** Figures that are read off a curve. */
    enum Figure {
        SPEED_POINT(Figure::speedPoint),
        RISE_OVER_130(curve ->
                curve.density(speedPoint(curve) + 1.30) - curve.basePlusFog().value() - 0.10),
        GAMMA(curve -> anatomy(curve).requireStraightLine().gamma().value()),
        TOE_LENGTH(curve -> length(anatomy(curve).requireStraightLine().toe())),
        SHOULDER_START(curve -> anatomy(curve)
                .shoulder()
                .orElseThrow(() -> new NotDeterminableException("no shoulder"))
                .thinEnd()
                .density()
                .value());

        @SuppressWarnings("ImmutableEnumChecker") // without state
        private final ToDoubleFunction<CharacteristicCurve> reading;

        Figure(ToDoubleFunction<CharacteristicCurve> reading) {
            this.reading = reading;
        }

        /** The anatomies of the curves of one strip, each divided once for all figures. */
        private static final IdentityHashMap<CharacteristicCurve, CurveAnatomy> ANATOMIES = new IdentityHashMap<>();

        private static CurveAnatomy anatomy(CharacteristicCurve curve) {
            return ANATOMIES.computeIfAbsent(curve, CurveAnatomy::of);
        }

        double of(CharacteristicCurve curve) {
            return reading.applyAsDouble(curve);
        }

        /** Forgets the curves of a strip. */
        static void forget() {
            ANATOMIES.clear();
        }

        private static double speedPoint(CharacteristicCurve curve) {
            return curve.pointAbove(DensityDifference.of(0.10)).logExposure().value();
        }

        private static double length(java.util.Optional<CurveRegion> part) {
            return part.filter(CurveRegion::isComplete)
                    .orElseThrow(() -> new NotDeterminableException("no complete part"))
                    .length()
                    .logUnits();
        }
    }

    /** What is counted of one figure. */
    static final class Tally {
        private int asked;
        private int told;
        private int contained;
        private double error;
        private double square;
        private double width;

        double told() {
            return told / (double) asked;
        }

        double coverage() {
            return contained / (double) told;
        }

        double bias() {
            return error / told;
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "told %5.1f %%, covered %5.1f %%, bias %+.4f, rms error %.4f, mean width %.3f",
                    100.0 * told / asked,
                    100.0 * contained / told,
                    bias(),
                    Math.sqrt(square / told),
                    width / told);
        }
    }

    /**
     * Fits strips by one way and counts.
     *
     * @param stepCounts taken in turn
     */
    static Tally[] measure(
            Truth shape,
            Way way,
            int basePlusFogReadings,
            int[] stepCounts,
            int strips,
            long seed,
            List<Figure> figures) {
        Random random = new Random(seed);
        Tally[] tallies = new Tally[Figure.values().length];
        Arrays.setAll(tallies, i -> new Tally());
        for (int i = 0; i < strips; i++) {
            CharacteristicCurve truth = shape.draw(random);
            Strip strip = strip(truth, stepCounts[i % stepCounts.length], basePlusFogReadings, random);
            Fitted fitted = null;
            try {
                fitted = way.fit(strip);
            } catch (CurveFitException | SmoothingFailedException e) {
                // told below as a figure that is refused
            }
            for (Figure figure : figures) {
                count(tallies[figure.ordinal()], truth, fitted, figure);
            }
            Figure.forget();
        }
        return tallies;
    }

    private static void count(Tally tally, CharacteristicCurve truth, Fitted fitted, Figure figure) {
        double value;
        try {
            value = figure.reading.applyAsDouble(truth);
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return; // the true curve has no such figure
        }
        tally.asked++;
        if (fitted == null) {
            return;
        }
        try {
            Estimate estimate = fitted.estimate(figure.reading);
            CoverageInterval interval = estimate.interval(0.95);
            tally.told++;
            tally.contained += interval.contains(value) ? 1 : 0;
            tally.error += estimate.value() - value;
            tally.square += (estimate.value() - value) * (estimate.value() - value);
            tally.width += interval.width();
        } catch (NotDeterminableException | IllegalArgumentException e) {
            // not told
        }
    }

    static Strip strip(CharacteristicCurve truth, int steps, int basePlusFogReadings, Random random) {
        return strip(truth, steps, basePlusFogReadings, between(0.005, 0.02, random), random);
    }

    static Strip strip(CharacteristicCurve truth, int steps, int basePlusFogReadings, double deviation, Random random) {
        double[] x = TestStrips.grid(LOWEST, HIGHEST, steps);
        double[] d = new double[steps];
        Arrays.setAll(d, i -> truth.density(x[i]));
        double[] base = new double[basePlusFogReadings];
        Arrays.fill(base, truth.basePlusFog().value());
        return TestStrips.strip(
                "simulated",
                x,
                TestStrips.disturbed(d, deviation, random),
                TestStrips.disturbed(base, deviation, random));
    }

    private static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }

    /**
     * Prints the tables.
     *
     * @param args the number of strips for each row; then truths, ways, base0 or base3, and numbers of steps, to leave out
     *     others
     */
    public static void main(String[] args) {
        int strips = args.length > 0 ? Integer.parseInt(args[0]) : 10_000;
        List<String> chosen = Arrays.asList(args).subList(Math.min(1, args.length), args.length);
        for (Truth truth : Truth.values()) {
            for (Way way : Way.values()) {
                for (int base : new int[] {0, 3}) {
                    for (int steps : STEPS) {
                        if (!isChosen(chosen, Arrays.stream(Truth.values()).map(Enum::name), truth.name())
                                || !isChosen(chosen, Arrays.stream(Way.values()).map(Enum::name), way.name())
                                || !isChosen(chosen, Stream.of("base0", "base3"), "base" + base)
                                || !isChosen(
                                        chosen,
                                        Arrays.stream(STEPS).mapToObj(String::valueOf),
                                        String.valueOf(steps))) {
                            continue;
                        }
                        String row = String.format("%-10s %-8s base %d steps %2d ", truth, way, base, steps);
                        List<Figure> figures = List.of(Figure.values());
                        long seed = 1000L * base + steps;
                        print(row, figures, measure(truth, way, base, new int[] {steps}, strips, seed, figures));
                    }
                }
            }
        }
    }

    /** Whether something is to be measured: where its kind is not mentioned, all of the kind are. */
    private static boolean isChosen(List<String> chosen, Stream<String> kind, String one) {
        return chosen.contains(one) || kind.noneMatch(chosen::contains);
    }

    private static void print(String row, List<Figure> figures, Tally[] tallies) {
        for (Figure figure : figures) {
            System.out.printf("%s%-15s%s%n", row, figure, tallies[figure.ordinal()]);
        }
    }
}
