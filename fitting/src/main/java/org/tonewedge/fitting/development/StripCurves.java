// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.FittedReading;
import org.tonewedge.fitting.parametric.LackOfFit;
import org.tonewedge.fitting.spline.SmoothingFailedException;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * The strips of a series with the curves off which their figures are read: those fitted, if they follow the readings,
 * otherwise monotone splines, smoothed a tenth as much as cross-validation asks, so that they bend less than they scatter. A
 * misfit that all strips share is seen in all of them together before it is seen in each. The probabilities of their lack of
 * fit are combined: −2 Σ ln p is χ² with two degrees of freedom for each (R. A. Fisher, Statistical Methods for Research
 * Workers, 4th ed. (1932), 21.1, from memory).
 */
final class StripCurves {

    /**
     * The fits are refused if chance explains their misfit less often than this. It is stricter than for one strip: splines give
     * wider intervals, and several strips show more (own limit).
     */
    private static final double SIGNIFICANCE = 0.01;

    private static final double LEAST_TOLD = 0.001;

    private final List<Strip> strips;
    private final List<FittedCurve> fits;
    /** Empty if the fits follow the strips, or if splines cannot be drawn. */
    private final List<SplineFit> splines;

    /** What to know before figures are used. */
    private final List<String> notes;

    private StripCurves(List<Strip> strips, List<FittedCurve> fits, List<SplineFit> splines, List<String> notes) {
        this.strips = List.copyOf(strips);
        this.fits = List.copyOf(fits);
        this.splines = List.copyOf(splines);
        this.notes = List.copyOf(notes);
    }

    static StripCurves of(List<Strip> strips, CurveFit options) {
        List<FittedCurve> fits = strips.stream().map(options::fit).toList();
        double probability = probability(fits);
        if (probability >= SIGNIFICANCE) {
            return new StripCurves(strips, fits, List.of(), List.of());
        }
        String misfit = "A fitted curve of the kind " + fits.get(0).family()
                + " does not follow the strips, judged together (p "
                + (probability < LEAST_TOLD ? "< " + LEAST_TOLD : "= " + Figures.plain(probability)) + ")";
        List<SplineFit> splines = new ArrayList<>();
        try {
            for (int i = 0; i < strips.size(); i++) {
                splines.add(spline(trusted(strips.get(i), fits.get(i)), options.repeatability()));
            }
        } catch (SmoothingFailedException e) {
            return new StripCurves(
                    strips,
                    fits,
                    List.of(),
                    List.of(misfit + ", and no splines can be drawn instead: " + e.getMessage()
                            + ". Figures may be off by more than their uncertainties say."));
        }
        if (splines.stream().anyMatch(StripCurves::hasNoFreedom)) {
            return new StripCurves(
                    strips,
                    fits,
                    List.of(),
                    List.of(misfit
                            + ", and splines through so few readings have no known uncertainty: figures may be off"
                            + " by more than their uncertainties say. Read more steps, or state the repeatability."));
        }
        return new StripCurves(
                strips,
                fits,
                splines,
                List.of(misfit
                        + ": figures of strips are read off lightly smoothed monotone splines, and the uncertainties of"
                        + " the family of curves, N−2 to N+2 included, contain its distance from them."));
    }

    private static SplineFit spline(Strip strip, Optional<Repeatability> repeatability) {
        SmoothingSpline spline = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE);
        return repeatability
                .filter(given -> isKnownFor(given, strip))
                .map(spline::with)
                .orElse(spline)
                .fit(strip)
                .lessSmoothed();
    }

    /** Whether a repeatability is stated, or enough repeat readings are trusted. */
    private static boolean isKnownFor(Repeatability repeatability, Strip strip) {
        try {
            repeatability.over(List.of(strip));
            return true;
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    /** Whether too few readings are left over to tell their scatter. */
    private static boolean hasNoFreedom(SplineFit spline) {
        return spline.densityAt(spline.curve().lowestExposure()).degreesOfFreedom() < 1;
    }

    private static double probability(List<FittedCurve> fits) {
        double sum = 0;
        int judged = 0;
        for (FittedCurve fit : fits) {
            LackOfFit lack = fit.lackOfFit();
            if (lack.test() != LackOfFit.Test.NONE) {
                sum -= 2 * Math.log(Math.max(lack.probability(), Double.MIN_NORMAL));
                judged++;
            }
        }
        return judged == 0 ? 1 : Distributions.chiSquaredExceeds(sum, 2.0 * judged);
    }

    /**
     * The strip without the readings that its fit distrusts, to which a spline would bend. A strip without an unexposed
     * reading gets base plus fog from its fit.
     */
    private static Strip trusted(Strip strip, FittedCurve fit) {
        List<FittedReading> distrusted = fit.outliers();
        Strip.Builder copy = Strip.builder(strip.id());
        boolean unexposed = false;
        for (FittedReading reading : fit.readings()) {
            if (distrusted.contains(reading)) {
                continue;
            }
            if (reading.exposure().isPresent()) {
                copy.reading(reading.exposure().get(), reading.density());
            } else {
                copy.basePlusFog(reading.density().value());
                unexposed = true;
            }
        }
        return (unexposed ? copy : copy.basePlusFog(fit.curve().basePlusFog().value())).build();
    }

    StripCurves without(int index) {
        return new StripCurves(rest(strips, index), rest(fits, index), rest(splines, index), notes);
    }

    private static <T> List<T> rest(List<T> all, int index) {
        List<T> others = new ArrayList<>(all);
        if (!others.isEmpty()) {
            others.remove(index);
        }
        return others;
    }

    List<Strip> strips() {
        return strips;
    }

    List<FittedCurve> fits() {
        return fits;
    }

    /** The splines through the strips; empty if the fits follow the strips, or if splines cannot be drawn. */
    List<SplineFit> splines() {
        return splines;
    }

    /** A figure of a strip. */
    Estimate estimate(int index, ToDoubleFunction<CharacteristicCurve> figure) {
        return splines.isEmpty()
                ? fits.get(index).estimate(figure)
                : splines.get(index).estimate(figure);
    }

    CharacteristicCurve curve(int index) {
        return splines.isEmpty() ? fits.get(index).curve() : splines.get(index).curve();
    }

    List<String> notes() {
        return notes;
    }
}
