// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * Coverage on films of the family with other films, steps and errors than those of {@link FitCoverage}: toe, straight line and
 * shoulder with the errors judged by the residuals, with the errors stated, and {@link StripFit}. Three readings of base plus fog.
 */
final class DesignSimulation {

    private DesignSimulation() {}

    /** What is unusual about the film, its steps or its errors. */
    private enum Design {
        HIGH_CONTRAST,
        LOW_CONTRAST,
        HIGH_BASE,
        LONG_TOE,
        SHORT_RANGE,
        STEPS_OF_010,
        STEPS_OF_030,
        UNEQUAL_STEPS,
        ERRORS_OF_003,
        HEAVY_TAILS,
        ROUNDED,
        RISING_ERRORS
    }

    private static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }

    private record Case(CharacteristicCurve truth, Strip strip, DoubleUnaryOperator deviation) {

        static Case draw(Design design, Random random) {
            double base = design == Design.HIGH_BASE ? between(0.3, 1.2, random) : between(0.05, 0.35, random);
            double gradient = design == Design.HIGH_CONTRAST
                    ? between(2, 3, random)
                    : design == Design.LOW_CONTRAST ? between(0.3, 0.45, random) : between(0.4, 1.2, random);
            double toe = between(-2.1, -1.5, random);
            double shoulder =
                    design == Design.HIGH_CONTRAST ? toe + between(0.7, 1.2, random) : between(-0.8, 0.2, random);
            ParametricForm form = CurveFamily.TOE_SHOULDER.form(
                    base,
                    gradient,
                    toe,
                    design == Design.LONG_TOE ? between(0.4, 0.8, random) : between(0.05, 0.5, random),
                    shoulder,
                    between(0.05, 0.5, random));
            double[] x = exposures(design, toe, shoulder, random);
            double scale = design == Design.ERRORS_OF_003 ? 0.03 : between(0.005, 0.02, random);
            DoubleUnaryOperator deviation =
                    design == Design.RISING_ERRORS ? density -> 0.005 + 0.01 * Math.abs(density) : density -> scale;
            double[] d = TestStrips.densities(form, x);
            double[] unexposed = {base, base, base};
            disturb(d, design, deviation, random);
            disturb(unexposed, design, deviation, random);
            return new Case(
                    FitCoverage.Truth.curve(form, base, x[0], x[x.length - 1]),
                    TestStrips.strip("simulated", x, d, unexposed),
                    deviation);
        }

        private static double[] exposures(Design design, double toe, double shoulder, Random random) {
            return switch (design) {
                case HIGH_CONTRAST -> TestStrips.grid(toe - 0.9, shoulder + 0.9, 21);
                case STEPS_OF_010 -> {
                    double first = between(-3, -2.4, random);
                    yield TestStrips.grid(first, first + 2, 21);
                }
                case STEPS_OF_030 -> TestStrips.grid(-3.3, -0.3, 11);
                case SHORT_RANGE -> {
                    double first = between(-2.6, -2, random);
                    yield TestStrips.grid(first, first + between(1.5, 2, random), 15);
                }
                case UNEQUAL_STEPS -> {
                    double[] x = TestStrips.grid(-3, 0, 15);
                    for (int i = 1; i < x.length - 1; i++) {
                        x[i] = between(-3, 0, random);
                    }
                    Arrays.sort(x);
                    for (int i = 1; i < x.length; i++) {
                        x[i] = Math.max(x[i], x[i - 1] + 0.01);
                    }
                    yield x;
                }
                default -> TestStrips.grid(-3, 0, 21);
            };
        }

        private static void disturb(double[] d, Design design, DoubleUnaryOperator deviation, Random random) {
            for (int i = 0; i < d.length; i++) {
                double error = random.nextGaussian();
                if (design == Design.HEAVY_TAILS) {
                    // Student's t with 4 degrees of freedom, whose variance is 2, scaled to 1
                    double square = 0;
                    for (int k = 0; k < 4; k++) {
                        double z = random.nextGaussian();
                        square += z * z;
                    }
                    error *= Math.sqrt(2 / square);
                }
                d[i] += deviation.applyAsDouble(d[i]) * error;
                if (design == Design.ROUNDED) {
                    d[i] = Math.rint(100 * d[i]) / 100;
                }
            }
        }
    }

    /**
     * Prints the tables.
     *
     * @param args the strips of each row, 1,000 if not given
     */
    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    public static void main(String[] args) {
        int strips = args.length > 0 ? Integer.parseInt(args[0]) : 1_000;
        for (Design design : Design.values()) {
            for (String way : new String[] {"residuals", "stated", "StripFit"}) {
                int[] told = new int[FitCoverage.Figure.values().length];
                int[] contained = new int[told.length];
                Random random = new Random(design.name().hashCode());
                for (int i = 0; i < strips; i++) {
                    Case drawn = Case.draw(design, random);
                    try {
                        count(drawn.truth(), fit(way, drawn), told, contained);
                    } catch (CurveFitException e) {
                        // refused
                    }
                }
                System.out.printf("%-14s %-10s", design, way);
                for (FitCoverage.Figure figure : FitCoverage.Figure.values()) {
                    int k = figure.ordinal();
                    System.out.printf("  %s %.1f of %d", figure, 100.0 * contained[k] / told[k], told[k]);
                }
                System.out.println();
            }
        }
    }

    private static FitCoverage.Fitted fit(String way, Case drawn) {
        return switch (way) {
            case "residuals" -> CurveFits.toeShoulder(drawn.strip())::estimate;
            case "stated" ->
                CurveFit.of(CurveFamily.TOE_SHOULDER)
                        .with(Repeatability.of(drawn.deviation()))
                        .fit(drawn.strip())::estimate;
            default -> StripFit.of(drawn.strip())::estimate;
        };
    }

    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    private static void count(CharacteristicCurve truth, FitCoverage.Fitted fitted, int[] told, int[] contained) {
        for (FitCoverage.Figure figure : FitCoverage.Figure.values()) {
            ToDoubleFunction<CharacteristicCurve> reading = figure::of;
            try {
                double value = reading.applyAsDouble(truth);
                Estimate estimate = fitted.estimate(reading);
                told[figure.ordinal()]++;
                contained[figure.ordinal()] += estimate.interval(0.95).contains(value) ? 1 : 0;
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // the true or the fitted curve has no such figure
            }
        }
        FitCoverage.Figure.forget();
    }
}
