// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * How often a fitted curve is wrongly said not to reach its straight line, and how often a gamma is given of a curve that
 * does not, for several thresholds of "the gradient still rises". {@link CurveAnatomy} gives the results. Strips of 21 steps
 * over 3 log units with three readings of base plus fog; run {@link #main}.
 */
final class StraightLineSimulation {

    /** What the gradient may rise by from one span to the next; the second is that of {@link CurveAnatomy}. */
    static final double[] THRESHOLDS = {0.005, 0.01, 0.02, 0.03};

    /** Refuses only what is shown to rise by more than 1 %, one-sided at 95 %. */
    static final int SIGNIFICANCE = THRESHOLDS.length;

    /** Of the curves that rise by more than 1 %, those of which a spline of the same readings gives gamma. */
    private static final int BY_SPLINE = SIGNIFICANCE + 1;

    private static final double LIMIT = 0.01;
    private static final double ONE_SIDED_95 = 0.90;
    private static final int STEPS = 21;
    /** The part of the straight line over which gamma is sustained: that of {@link CurveAnatomy}. */
    private static final double SUSTAINED = 0.3;

    private int straight;
    private int upswept;
    private final int[] wronglyRefused = new int[BY_SPLINE + 1];
    private final int[] wronglyGiven = new int[BY_SPLINE + 1];

    private StraightLineSimulation() {}

    /**
     * Half of the strips are of films with a long toe, of softness 0.25 to 0.55, whose last reading lies 2 to 8 softnesses
     * above it; only those that are straight within 1 % count. The other half are of upswept films.
     */
    static StraightLineSimulation of(int strips, double deviation, boolean checked, long seed) {
        StraightLineSimulation simulation = new StraightLineSimulation();
        Random random = new Random(seed);
        while (simulation.straight < strips) {
            CharacteristicCurve film = longToe(random);
            if (rise(film) <= LIMIT) {
                simulation.straight++;
                count(simulation.wronglyRefused, true, film, deviation, checked, random);
            }
        }
        while (simulation.upswept < strips) {
            simulation.upswept++;
            count(simulation.wronglyGiven, false, FitCoverage.Truth.UPSWEPT.draw(random), deviation, checked, random);
        }
        return simulation;
    }

    private static CharacteristicCurve longToe(Random random) {
        double softness = 0.25 + 0.30 * random.nextDouble();
        CurveForm form = CurveFamily.TOE_STRAIGHT_LINE.form(
                0.05 + 0.30 * random.nextDouble(),
                0.4 + 0.8 * random.nextDouble(),
                -(2 + 6 * random.nextDouble()) * softness,
                softness);
        return FitCoverage.Truth.curve(form, form.density(-20));
    }

    private static void count(
            int[] tally,
            boolean countsRefused,
            CharacteristicCurve film,
            double deviation,
            boolean checked,
            Random random) {
        Strip strip = FitCoverage.strip(film, STEPS, 3, deviation, random);
        CharacteristicCurve curve;
        FitCoverage.Fitted fit;
        if (checked) {
            StripFit fitted = StripFit.of(strip);
            curve = fitted.curve();
            fit = fitted::estimate;
        } else {
            FittedCurve fitted = CurveFits.toeShoulder(strip);
            curve = fitted.curve();
            fit = fitted::estimate;
        }
        double rise = rise(curve);
        for (int i = 0; i < THRESHOLDS.length; i++) {
            tally[i] += rise > THRESHOLDS[i] == countsRefused ? 1 : 0;
        }
        boolean isShown = rise > LIMIT;
        tally[BY_SPLINE] += isShown && isGivenBySpline(strip, deviation) ? 1 : 0;
        try {
            isShown &= fit.estimate(StraightLineSimulation::rise)
                            .interval(ONE_SIDED_95)
                            .lower()
                    > LIMIT;
        } catch (NotDeterminableException | IllegalArgumentException e) {
            // without an uncertainty the value decides
        }
        tally[SIGNIFICANCE] += isShown == countsRefused ? 1 : 0;
    }

    private static boolean isGivenBySpline(Strip strip, double deviation) {
        try {
            return CurveAnatomy.of(SmoothingSpline.withDefaults()
                            .with(SplineShape.MONOTONE)
                            .with(Repeatability.of(density -> deviation))
                            .fit(strip)
                            .curve())
                    .reachesStraightLine();
        } catch (NotDeterminableException e) {
            return false;
        }
    }

    /** By how much, as a fraction, the gradient rises over the last two sustained spans; −1 if a shoulder begins. */
    private static double rise(CharacteristicCurve curve) {
        CurveAnatomy parts = CurveAnatomy.of(curve);
        if (parts.shoulder().isPresent()) {
            return -1;
        }
        double to = parts.straightLine().denseEnd().logExposure().value();
        double span = SUSTAINED * parts.straightLine().length().logUnits();
        double last = curve.density(to) - curve.density(to - span);
        double before = curve.density(to - span) - curve.density(to - 2 * span);
        return last / before - 1;
    }

    /** The part of the straight strips that are refused. */
    double wronglyRefused(int threshold) {
        return wronglyRefused[threshold] / (double) straight;
    }

    /** The part of the upswept strips of which gamma is given. */
    double wronglyGiven(int threshold) {
        return wronglyGiven[threshold] / (double) upswept;
    }

    /**
     * Prints the table.
     *
     * @param args the strips of each kind, the standard deviation of a reading, and perhaps "checked" for {@link StripFit}
     */
    public static void main(String[] args) {
        StraightLineSimulation simulation =
                of(Integer.parseInt(args[0]), Double.parseDouble(args[1]), args.length > 2, 31);
        for (int i = 0; i <= SIGNIFICANCE; i++) {
            System.out.printf(
                    Locale.ROOT,
                    "%s %-45s straight refused %5.2f %%, upswept given %5.2f %%%n",
                    Arrays.toString(args),
                    i < SIGNIFICANCE
                            ? "rises by more than " + 100 * THRESHOLDS[i] + " %"
                            : "shown to rise by more than 1 %",
                    100 * simulation.wronglyRefused(i),
                    100 * simulation.wronglyGiven(i));
        }
        System.out.printf(
                Locale.ROOT,
                "of those refused for more than 1 %%, a spline gives gamma of %.1f %% of the straight, %.1f %% of the upswept%n",
                100 * simulation.wronglyRefused[BY_SPLINE] / (simulation.straight * simulation.wronglyRefused(1)),
                100 * simulation.wronglyGiven[BY_SPLINE] / (simulation.upswept * (1 - simulation.wronglyGiven(1))));
    }
}
