// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import org.tonewedge.core.strip.Strip;

/**
 * Shortcuts to a fitted curve.
 *
 * <pre>{@code
 * FittedCurve fit = CurveFits.best(strip);
 * }</pre>
 */
public final class CurveFits {

    private CurveFits() {}

    /**
     * Fits toe, straight line and shoulder with the default options of {@link CurveFit}. On simulated films of this family, 95
     * % intervals of speed point, contrast, gamma and length of the toe contain the truth for 94 to 96 of a hundred strips;
     * films of other kinds need {@link StripFit}: of films of two layers, those of gamma do for 78 of a hundred strips of 9 steps
     * and for 35 of 31. {@link FittedCurve#notes()} says that the curve does not follow its readings on 8 of a hundred such strips
     * of 9 steps and on 58 of 31; with a {@linkplain CurveFit#with(org.tonewedge.core.strip.Repeatability) stated repeatability} on
     * 46 and 60. The page on fit quality has the tables.
     *
     * @param strip the strip
     * @return the fitted curve: the part of the family that the strip shows
     * @throws CurveFitException if the strip cannot be fitted
     */
    public static FittedCurve toeShoulder(Strip strip) {
        return CurveFit.of(CurveFamily.TOE_SHOULDER).fit(strip);
    }

    /**
     * Fits all families that {@link ModelComparison} compares, and returns the one with the least AICc. The
     * uncertainties of its figures include that of the {@linkplain ModelComparison#best() choice}. With fewer than about 20
     * steps AICc prefers families of few parameters, so that gamma and the length of the toe are biased, by up to 0.02 and 0.09 on
     * simulated strips of 9 steps. 95 % intervals allow for it: they contain gamma of 95 to 97 of a hundred strips of 9 to 31
     * steps, the length of the toe of 94 to 97, and the speed point of 96 to 98, as the page on fit quality tells.
     *
     * @param strip the strip
     * @return the best curve
     * @throws CurveFitException if no family can be fitted; the failure is that of toe, straight line and shoulder
     */
    public static FittedCurve best(Strip strip) {
        return compare(strip).best();
    }

    /**
     * Fits all families with the default options and compares them.
     *
     * @param strip the strip
     * @return the comparison
     * @throws CurveFitException if no family can be fitted; the failure is that of toe, straight line and shoulder
     */
    public static ModelComparison compare(Strip strip) {
        return ModelComparison.of(strip, CurveFit.of(CurveFamily.TOE_SHOULDER));
    }
}
