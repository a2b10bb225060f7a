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
     * Fits toe, straight line and shoulder with the default options of {@link CurveFit}.
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
     * uncertainties of its figures include that of the {@linkplain ModelComparison#best() choice}.
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
