package org.tonewedge.fitting.internal;

/** The softened ramp ln(1 + e<sup>z</sup>) and its slope, the logistic function. */
final class Softplus {

    private static final double LINEAR = 36;

    private Softplus() {}

    static double value(double z) {
        return Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z)));
    }

    static double logistic(double z) {
        double e = Math.exp(-Math.abs(z));
        return (z >= 0 ? 1 : e) / (1 + e);
    }

    /** z with ln(1 + e<sup>z</sup>) = value; NaN unless the value is above 0. */
    static double inverse(double value) {
        if (value > LINEAR) {
            return value; // e^-value is below rounding
        }
        return value > 0 ? value + Math.log(-Math.expm1(-value)) : Double.NaN;
    }
}
