// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.numeric.Distributions;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.FittedReading;
import org.tonewedge.fitting.parametric.LackOfFit;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

/**
 * The strips of a series with the curves off which their figures are read: those fitted, if they follow the readings,
 * otherwise monotone splines, smoothed a tenth as much as cross-validation asks, so that they bend less than they scatter. A misfit that all strips share is seen in all of them together before it is seen
 * in each. The probabilities of their lack of fit are combined: −2 Σ ln p is χ² with two degrees of freedom for each (R. A.
 * Fisher, Statistical Methods for Research Workers, 4th ed. (1932), 21.1, from memory).
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
    /** Empty if the fits follow the strips. */
    private final List<SplineFit> splines;

    private final double probability;

    private StripCurves(List<Strip> strips, List<FittedCurve> fits, List<SplineFit> splines, double probability) {
        this.strips = List.copyOf(strips);
        this.fits = List.copyOf(fits);
        this.splines = List.copyOf(splines);
        this.probability = probability;
    }

    static StripCurves of(List<Strip> strips, CurveFit options) {
        List<FittedCurve> fits = strips.stream().map(options::fit).toList();
        double probability = probability(fits);
        List<SplineFit> splines = new ArrayList<>();
        if (probability < SIGNIFICANCE) {
            for (int i = 0; i < strips.size(); i++) {
                splines.add(SmoothingSpline.withDefaults()
                        .with(SplineShape.MONOTONE)
                        .fit(trusted(strips.get(i), fits.get(i)))
                        .lessSmoothed());
            }
        }
        return new StripCurves(strips, fits, splines, probability);
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

    /** The strip without the readings that its fit distrusts, to which a spline would bend. */
    private static Strip trusted(Strip strip, FittedCurve fit) {
        List<FittedReading> distrusted = fit.outliers();
        if (distrusted.isEmpty()) {
            return strip;
        }
        Strip.Builder copy = Strip.builder(strip.id());
        for (FittedReading reading : fit.readings()) {
            if (!distrusted.contains(reading)) {
                reading.exposure()
                        .ifPresentOrElse(
                                exposure -> copy.reading(exposure, reading.density()),
                                () -> copy.basePlusFog(reading.density().value()));
            }
        }
        return copy.build();
    }

    StripCurves without(int index) {
        return new StripCurves(rest(strips, index), rest(fits, index), rest(splines, index), probability);
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

    /** The splines through the strips; empty if the fits follow the strips. */
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

    /** What to know before figures are used. */
    List<String> notes() {
        return splines.isEmpty()
                ? List.of()
                : List.of("A fitted curve of the kind " + fits.get(0).family()
                        + " does not follow the strips, judged together (p "
                        + (probability < LEAST_TOLD ? "< " + LEAST_TOLD : "= " + Figures.plain(probability))
                        + "): figures of strips are read off lightly smoothed monotone splines, and the uncertainties of"
                        + " the family of curves, N−2 to N+2 included, contain its distance from them.");
    }
}
