// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/**
 * Curves with a closed form, whose metrics are known to 16 digits: base plus fog 0.20, log H −4 to 4.
 *
 * <p>Source of the metrics: {@code method_results.py} of the test resources, with mpmath 1.3.0 at 40 digits; not published
 * results.
 */
@SuppressWarnings("ImmutableEnumChecker") // the functions are pure
public enum ClosedFormCurve {
    /** D = 0.20 + 1.40 / (1 + exp(−2.20 x)). */
    LOGISTIC(x -> 0.20 + 1.40 / (1 + Math.exp(-2.20 * x)), x -> {
        double p = 1 / (1 + Math.exp(-2.20 * x));
        return 1.40 * 2.20 * p * (1 - p);
    }),
    /** D = 0.20 + 0.60 ln(1 + exp(5 (x + 2))) / 5. */
    SOFTPLUS_TOE(x -> 0.20 + 0.60 * softplus(5 * (x + 2)) / 5, x -> 0.60 * sigmoid(5 * (x + 2))),
    /** D = 0.20 + 0.65 (ln(1 + exp(5 (x + 2))) / 5 − ln(1 + exp(3 (x − 1))) / 3). */
    SOFTPLUS_TOE_SHOULDER(
            x -> 0.20 + 0.65 * (softplus(5 * (x + 2)) / 5 - softplus(3 * (x - 1)) / 3),
            x -> 0.65 * (sigmoid(5 * (x + 2)) - sigmoid(3 * (x - 1)))),
    /** D = 0.20 + 0.70 log10(O − (O − 1) exp(−X / O)), O = 1000, X = 10^(x + 2). */
    HD1890(x -> 0.20 + 0.70 * Math.log10(1000 - 999 * Math.exp(-Math.pow(10, x + 2) / 1000)), x -> {
        double u = Math.pow(10, x + 2) / 1000;
        return 0.70 * u * 999 * Math.exp(-u) / (1000 - 999 * Math.exp(-u));
    });

    private final DoubleUnaryOperator density;
    private final DoubleUnaryOperator gradient;

    ClosedFormCurve(DoubleUnaryOperator density, DoubleUnaryOperator gradient) {
        this.density = density;
        this.gradient = gradient;
    }

    private static double softplus(double z) {
        return Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z)));
    }

    private static double sigmoid(double z) {
        return 1 / (1 + Math.exp(-z));
    }

    /** The curve on the absolute axis. */
    public CharacteristicCurve curve() {
        return of(name(), density, gradient, 0.20);
    }

    /** A straight line that leaves base plus fog at a log exposure. */
    public static CharacteristicCurve line(String name, double basePlusFog, double gradient, double start) {
        return of(
                name, x -> basePlusFog + gradient * Math.max(0, x - start), x -> x > start ? gradient : 0, basePlusFog);
    }

    /** Any rising curve of a closed form, log H −4 to 4. */
    public static CharacteristicCurve of(
            String name, DoubleUnaryOperator density, DoubleUnaryOperator gradient, double basePlusFog) {
        return CharacteristicCurve.of(
                name,
                CurveForm.of(density, gradient),
                LogExposure.ofLogLuxSeconds(-4),
                LogExposure.ofLogLuxSeconds(4),
                Density.of(basePlusFog));
    }
}
