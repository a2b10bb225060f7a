// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * The softened ramp ln(1 + e<sup>z</sup>) and its slope, the logistic function, by Taylor's series about the nearest place
 * of a table: right to 10<sup>−15</sup> and 10<sup>−14</sup>, in a quarter of the time that exponential and logarithm take.
 */
final class Softplus {

    private static final double LINEAR = 36;

    /** Places of the table for each unit of z, and its last place, where e<sup>−z</sup> is below rounding. */
    private static final int PLACES = 32;

    private static final double LAST = 40;
    private static final int TERMS = 7;
    /** Added to a number, it leaves the nearest whole number in the last bits of the sum: far faster than a cast. */
    private static final double ROUNDING = 0x1.8p52;

    private static final double[] TABLE = table();

    private Softplus() {}

    /** |z|, as far as the table goes. */
    private static double sizeInTable(double z) {
        double a = Math.abs(z);
        return a > LAST ? LAST : a;
    }

    /** The distance of a size from the place nearest to it, which is rounded in the last bits of a sum. */
    private static double fromPlace(double a, double rounded) {
        return a - (rounded - ROUNDING) * (1.0 / PLACES);
    }

    /** Where the terms of that place begin in the table. */
    private static int place(double rounded) {
        return TERMS * (int) Double.doubleToRawLongBits(rounded);
    }

    static double value(double z) {
        double[] c = TABLE;
        double a = sizeInTable(z);
        double rounded = a * PLACES + ROUNDING;
        double t = fromPlace(a, rounded);
        int at = place(rounded);
        double value = c[at + 6];
        value = value * t + c[at + 5];
        value = value * t + c[at + 4];
        value = value * t + c[at + 3];
        value = value * t + c[at + 2];
        value = value * t + c[at + 1];
        value = value * t + c[at];
        return z > 0 ? z + value : value;
    }

    static double logistic(double z) {
        double[] c = TABLE;
        double a = sizeInTable(z);
        double rounded = a * PLACES + ROUNDING;
        double t = fromPlace(a, rounded);
        int at = place(rounded);
        double slope = 6 * c[at + 6];
        slope = slope * t + 5 * c[at + 5];
        slope = slope * t + 4 * c[at + 4];
        slope = slope * t + 3 * c[at + 3];
        slope = slope * t + 2 * c[at + 2];
        slope = slope * t + c[at + 1];
        return z > 0 ? 1 + slope : -slope;
    }

    /** z with ln(1 + e<sup>z</sup>) = value; NaN unless the value is above 0. */
    static double inverse(double value) {
        if (value > LINEAR) {
            return value; // e^-value is below rounding
        }
        return value > 0 ? value + Math.log(-Math.expm1(-value)) : Double.NaN;
    }

    /**
     * Writes s ln(1 + e<sup>z</sup>) and its slope, the logistic function of z = (x − position)/s, for many x.
     *
     * @param s the softness; where it is negative the ramp is turned round
     */
    static void fill(double[] x, int count, double position, double s, double[] ramps, double[] slopes) {
        double[] c = TABLE;
        double perSoftness = 1 / s;
        for (int i = 0; i < count; i++) {
            double z = (x[i] - position) * perSoftness;
            double a = sizeInTable(z);
            double rounded = a * PLACES + ROUNDING;
            double t = fromPlace(a, rounded);
            int at = place(rounded);
            double slope = c[at + 6];
            double value = slope * t + c[at + 5];
            slope = slope * t + value;
            value = value * t + c[at + 4];
            slope = slope * t + value;
            value = value * t + c[at + 3];
            slope = slope * t + value;
            value = value * t + c[at + 2];
            slope = slope * t + value;
            value = value * t + c[at + 1];
            slope = slope * t + value;
            value = value * t + c[at];
            if (z > 0) {
                ramps[i] = s * (z + value);
                slopes[i] = 1 + slope;
            } else {
                ramps[i] = s * value;
                slopes[i] = -slope;
            }
        }
    }

    /** The coefficients of Taylor's series of ln(1 + e<sup>−a</sup>) about a = 0, 1/32, 2/32 … */
    private static double[] table() {
        int places = (int) (LAST * PLACES) + 1;
        double[] table = new double[places * TERMS];
        for (int place = 0; place < places; place++) {
            double e = Math.exp(-place / (double) PLACES);
            double u = e / (1 + e);
            table[place * TERMS] = Math.log1p(e);
            // The derivatives are polynomials in u: du/da = −u (1 − u).
            double[] derivative = new double[TERMS + 1];
            derivative[1] = -1;
            double factorial = 1;
            for (int order = 1; order < TERMS; order++) {
                factorial *= order;
                double sum = 0;
                for (int k = TERMS; k >= 0; k--) {
                    sum = sum * u + derivative[k];
                }
                table[place * TERMS + order] = sum / factorial;
                double[] next = new double[TERMS + 1];
                for (int k = 1; k < TERMS; k++) {
                    next[k] -= k * derivative[k];
                    next[k + 1] += k * derivative[k];
                }
                derivative = next;
            }
        }
        return table;
    }
}
