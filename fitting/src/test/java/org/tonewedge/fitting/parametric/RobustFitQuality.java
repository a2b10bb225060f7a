// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

/**
 * What {@link RobustFitTest} tests a slice of, with many more cases: how often a bad reading bends a robust curve, how often
 * intervals contain the truth, and how many iterations a robust fit takes beside a plain one.
 *
 * <p>Run {@link #main} on the class path of the tests; an argument gives the cases of each row, 10,000 by default.
 */
final class RobustFitQuality {

    private static final double NOISE = 0.004;
    private static final double[] ERRORS = {-0.3, -0.1, 0.1, 0.3, 1, 1.5};
    private static final int[] STEPS = {13, 21, 31};
    private static final double[] FIRSTS = {-3, -2, -1.6};

    private static int refused;

    private RobustFitQuality() {}

    /**
     * Prints a table.
     *
     * @param arguments the cases of each row; a second one leaves all out but the speed points of strips with one bad reading
     */
    public static void main(String[] arguments) {
        int cases = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 10_000;
        for (int steps : new int[] {9, 11, 13, 21}) {
            System.out.println(steps + " steps, one bad, without base plus fog: " + oneBadSpeedPoint(steps, cases));
        }
        if (arguments.length > 1) {
            return;
        }
        print("curves bent by one bad reading, with base plus fog", oneBad(cases), cases);
        print("curves bent by two steps that changed places", swapped(cases), cases);
        print("logistic curves bent by one bad reading of 9", oneOfNine(cases), cases);
        for (int steps : new int[] {9, 11, 13}) {
            System.out.println(
                    steps + " steps without base plus fog: " + unread(CurveFamily.TOE_SHOULDER, steps, cases));
            System.out.println(steps + " steps, logistic: " + unread(CurveFamily.LOGISTIC, steps, cases));
        }
        for (RobustLoss loss : RobustLoss.values()) {
            print("95 % bands that contain the truth, " + loss, covered(loss, cases), cases);
        }
        System.out.printf(
                Locale.ROOT, "iterations of a robust fit for one of a plain fit: %.1f%n", iterations(cases / 10));
    }

    private static void print(String what, int count, int cases) {
        System.out.printf(Locale.ROOT, "%-60s %6d of %d, %d refused%n", what, count, cases, refused);
        refused = 0;
    }

    private static CurveFit settings(RobustLoss loss) {
        return CurveFit.of(CurveFamily.TOE_SHOULDER).with(loss);
    }

    /** 1 for a curve that lies farther off the truth than it may anywhere but at the bad readings; a refused strip is not bent. */
    private static int isBent(
            CurveFamily family,
            ParametricForm truth,
            double[] x,
            double[] d,
            int firstBad,
            int lastBad,
            double most,
            double... unexposed) {
        FittedCurve fit;
        try {
            fit = CurveFit.of(family).with(RobustLoss.TUKEY).fit("strip", ExposureAxis.LUX_SECONDS, x, d, unexposed);
        } catch (CurveFitException e) {
            refused++;
            return 0;
        }
        for (int i = 0; i < x.length; i++) {
            if ((i < firstBad || i > lastBad) && Math.abs(fit.form().density(x[i]) - truth.density(x[i])) > most) {
                return 1;
            }
        }
        return 0;
    }

    private static int oneBad(int cases) {
        Random random = new Random(21);
        int bent = 0;
        for (int i = 0; i < cases; i++) {
            double[] x = TestStrips.grid(FIRSTS[random.nextInt(3)], 0.4, STEPS[random.nextInt(3)]);
            ParametricForm truth = TestStrips.anyForm(random);
            double base = truth.parameter(CurveParameter.BASE_PLUS_FOG);
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), NOISE, random);
            int bad = 1 + random.nextInt(x.length - 2);
            d[bad] = Math.max(0, d[bad] + ERRORS[random.nextInt(ERRORS.length)]);
            bent += isBent(CurveFamily.TOE_SHOULDER, truth, x, d, bad, bad, 4 * NOISE, base - NOISE, base + NOISE);
        }
        return bent;
    }

    private static int swapped(int cases) {
        Random random = new Random(22);
        int bent = 0;
        for (int i = 0; i < cases; i++) {
            double[] x = TestStrips.grid(-3, 0.4, STEPS[random.nextInt(3)]);
            ParametricForm truth = TestStrips.anyForm(random);
            double base = truth.parameter(CurveParameter.BASE_PLUS_FOG);
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), NOISE, random);
            int first = 1 + random.nextInt(x.length - 3);
            double moved = d[first];
            d[first] = d[first + 1];
            d[first + 1] = moved;
            bent += isBent(
                    CurveFamily.TOE_SHOULDER, truth, x, d, first, first + 1, 4 * NOISE, base - NOISE, base + NOISE);
        }
        return bent;
    }

    private static int oneOfNine(int cases) {
        double[] x = TestStrips.grid(-3, 0, 9);
        Random random = new Random(23);
        int bent = 0;
        for (int i = 0; i < cases; i++) {
            ParametricForm truth = CurveFamily.LOGISTIC.form(
                    0.4, 0.8 + 2 * random.nextDouble(), -2 + random.nextDouble(), 0.2 + 0.3 * random.nextDouble());
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.01, random);
            d[1 + random.nextInt(7)] += (0.1 + 0.4 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
            bent += isBent(CurveFamily.LOGISTIC, truth, x, d, -1, -1, 0.05);
        }
        return bent;
    }

    /**
     * Curves of few steps and without base plus fog.
     *
     * @param fitted those that were not refused
     * @param bent those of them that one bad reading bends by more than 0.05
     * @param unflagged the bent ones without a note that says how far a robust loss is to be trusted
     */
    record Unread(int fitted, int bent, int unflagged) {}

    static Unread unread(CurveFamily family, int steps, int cases) {
        double[] x = TestStrips.grid(-3, 0, steps);
        Random random = new Random(26);
        int fitted = 0;
        int bent = 0;
        int unflagged = 0;
        for (int i = 0; i < cases; i++) {
            ParametricForm truth = family == CurveFamily.LOGISTIC
                    ? CurveFamily.LOGISTIC.form(
                            0.4,
                            0.8 + 2 * random.nextDouble(),
                            -2 + random.nextDouble(),
                            0.2 + 0.3 * random.nextDouble())
                    : TestStrips.anyForm(random);
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.01, random);
            int bad = 1 + random.nextInt(steps - 2);
            double error = (0.1 + 0.4 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
            d[bad] = Math.max(0, d[bad] + error);
            try {
                FittedCurve fit =
                        CurveFit.of(family).with(RobustLoss.TUKEY).fit("strip", ExposureAxis.LUX_SECONDS, x, d);
                fitted++;
                boolean isBent = false;
                for (int k = 0; k < steps; k++) {
                    isBent |= k != bad && Math.abs(fit.form().density(x[k]) - truth.density(x[k])) > 0.05;
                }
                bent += isBent ? 1 : 0;
                unflagged += isBent
                                && fit.notes().stream()
                                        .noneMatch(note -> note.contains("cannot distinguish a bad reading"))
                        ? 1
                        : 0;
            } catch (CurveFitException e) {
                // refused
            }
        }
        return new Unread(fitted, bent, unflagged);
    }

    /**
     * Strips of the family with one reading off by 0.1 to 0.5 and none of base plus fog, as {@link FitCoverage} draws them; and
     * the same strips without that error.
     *
     * @param told those that have a speed point with an uncertainty
     * @param contained those of them whose 95 % interval contains the true one
     * @param unflagged the others of them without a note that says how far a robust loss is to be trusted
     * @param both those of the unflagged that miss it without the bad reading too
     * @param onlyGood strips without a note that miss it only without the bad reading
     * @param beyond how far the true one lies outside the interval of each strip that misses only with the bad reading, in
     *     standard uncertainties, in rising order
     */
    record SpeedPoints(int told, int contained, int unflagged, int both, int onlyGood, List<Double> beyond) {

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "told %d, contained %d, missed without a note %d: %d also without the bad reading, %d only with it, beyond the"
                            + " interval by u times %s; %d only without it",
                    told,
                    contained,
                    unflagged,
                    both,
                    beyond.size(),
                    beyond.isEmpty()
                            ? "-"
                            : String.format(
                                    Locale.ROOT,
                                    "%.1f (median), %.1f (nine in ten), %.1f (greatest)",
                                    beyond.get(beyond.size() / 2),
                                    beyond.get(beyond.size() * 9 / 10),
                                    beyond.get(beyond.size() - 1)),
                    onlyGood);
        }
    }

    static SpeedPoints oneBadSpeedPoint(int steps, int cases) {
        Random random = new Random(27 + steps);
        int told = 0;
        int contained = 0;
        int unflagged = 0;
        int both = 0;
        int onlyGood = 0;
        List<Double> beyond = new ArrayList<>();
        for (int i = 0; i < cases; i++) {
            CharacteristicCurve truth = FitCoverage.Truth.IN_FAMILY.draw(random);
            double[] x = TestStrips.grid(-3, 0, steps);
            double[] d = new double[steps];
            Arrays.setAll(d, k -> truth.density(x[k]));
            double[] good = TestStrips.disturbed(d, 0.005 + 0.015 * random.nextDouble(), random);
            double[] withBad = good.clone();
            int bad = 1 + random.nextInt(steps - 2);
            withBad[bad] = Math.max(0, good[bad] + (0.1 + 0.4 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1));
            double value = FitCoverage.Figure.SPEED_POINT.of(truth);
            try {
                FittedCurve fit = settings(RobustLoss.TUKEY).fit("strip", ExposureAxis.LUX_SECONDS, x, withBad);
                double excess = beyond(fit, value);
                told++;
                contained += excess > 0 ? 0 : 1;
                if (fit.notes().stream().anyMatch(note -> note.contains("cannot distinguish a bad reading"))) {
                    continue;
                }
                boolean missedAnyway = missesWithout(x, good, value);
                unflagged += excess > 0 ? 1 : 0;
                both += excess > 0 && missedAnyway ? 1 : 0;
                onlyGood += excess <= 0 && missedAnyway ? 1 : 0;
                if (excess > 0 && !missedAnyway) {
                    beyond.add(excess);
                }
            } catch (NotDeterminableException e) {
                // refused, which a failed fit is too
            }
        }
        Collections.sort(beyond);
        return new SpeedPoints(told, contained, unflagged, both, onlyGood, beyond);
    }

    private static boolean missesWithout(double[] x, double[] good, double value) {
        try {
            return beyond(settings(RobustLoss.TUKEY).fit("strip", ExposureAxis.LUX_SECONDS, x, good), value) > 0;
        } catch (NotDeterminableException e) {
            return false;
        }
    }

    /** How far a value lies outside the 95 % interval of the speed point, in standard uncertainties; 0 or less inside it. */
    private static double beyond(FittedCurve fit, double value) {
        Estimate estimate = fit.estimate(FitCoverage.Figure.SPEED_POINT::of);
        return Math.abs(estimate.value() - value) / estimate.standardUncertainty()
                - StudentT.coverageFactor(0.95, estimate.degreesOfFreedom());
    }

    private static int covered(RobustLoss loss, int cases) {
        ParametricForm truth = CurveFamily.TOE_SHOULDER.form(0.2, 0.7, -2.2, 0.2, -0.4, 0.3);
        double[] x = TestStrips.grid(-3, 0.15, 21);
        LogExposure at = LogExposure.ofLogLuxSeconds(-1.47);
        Random random = new Random(24);
        int covered = 0;
        for (int i = 0; i < cases; i++) {
            double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.01, random);
            double[] unexposed = TestStrips.disturbed(new double[] {0.2, 0.2}, 0.01, random);
            FittedCurve fit = settings(loss).fit("good", ExposureAxis.LUX_SECONDS, x, d, unexposed);
            covered += fit.confidenceBand(at, 0.95).contains(truth.density(-1.47)) ? 1 : 0;
        }
        return covered;
    }

    /** Strips of 21 steps with one bad reading; the plain fit is to the good ones. */
    static double iterations(int cases) {
        double[] x = TestStrips.grid(-3, 0.15, 21);
        Random random = new Random(25);
        long robust = 0;
        long plain = 0;
        for (int i = 0; i < cases; i++) {
            double[] d = TestStrips.disturbed(TestStrips.densities(TestStrips.anyForm(random), x), 0.01, random);
            plain += settings(RobustLoss.NONE)
                    .fit("good", ExposureAxis.LUX_SECONDS, x, d)
                    .iterations();
            d[1 + random.nextInt(x.length - 2)] += 0.3;
            robust += settings(RobustLoss.TUKEY)
                    .fit("bad", ExposureAxis.LUX_SECONDS, x, d)
                    .iterations();
        }
        return robust / (double) plain;
    }
}
