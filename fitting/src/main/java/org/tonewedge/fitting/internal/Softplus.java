// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * The softened ramp ln(1 + e<sup>z</sup>) and its slope, the logistic function, by a polynomial about the nearest place of a
 * table: both right to 10<sup>−14</sup>, the ramp to 10<sup>−15</sup> of the greater of 1 and |z|, without the exponential
 * and the logarithm, which would take longer.
 */
final class Softplus {

    /** Beyond this, e<sup>−|z|</sup> is below rounding: the ramp is z or 0. The table ends there on both sides. */
    private static final double LINEAR = 40;

    /** Places of the table for each unit of z, a power of two. */
    private static final int PLACES = 64;

    private static final int TERMS = 6;
    /** Where the terms of z = 0 begin. */
    private static final int MIDDLE = (int) (LINEAR * PLACES * TERMS);
    /** Added to a number, it leaves the nearest whole number in the last bits of the sum: far faster than a cast. */
    private static final double ROUNDING = 0x1.8p52;

    private static final double[] TABLE = table();

    private Softplus() {}

    /** z, as far as the table goes. */
    private static double inTable(double z) {
        return z > LINEAR ? LINEAR : z < -LINEAR ? -LINEAR : z;
    }

    /** The distance of a number in the table from the place nearest to it, which is rounded in the last bits of a sum. */
    private static double fromPlace(double a, double rounded) {
        return a - (rounded - ROUNDING) * (1.0 / PLACES);
    }

    /** Where the terms of that place begin in the table. */
    private static int place(double rounded) {
        return MIDDLE + TERMS * (int) Double.doubleToRawLongBits(rounded);
    }

    static double value(double z) {
        double[] c = TABLE;
        double a = inTable(z);
        double rounded = a * PLACES + ROUNDING;
        double t = fromPlace(a, rounded);
        int at = place(rounded);
        double value = c[at + 5];
        value = value * t + c[at + 4];
        value = value * t + c[at + 3];
        value = value * t + c[at + 2];
        value = value * t + c[at + 1];
        value = value * t + c[at];
        return z > LINEAR ? z : value;
    }

    static double logistic(double z) {
        double[] c = TABLE;
        double a = inTable(z);
        double rounded = a * PLACES + ROUNDING;
        double t = fromPlace(a, rounded);
        int at = place(rounded);
        double slope = 5 * c[at + 5];
        slope = slope * t + 4 * c[at + 4];
        slope = slope * t + 3 * c[at + 3];
        slope = slope * t + 2 * c[at + 2];
        return slope * t + c[at + 1];
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
            double a = inTable(z);
            double rounded = a * PLACES + ROUNDING;
            double t = fromPlace(a, rounded);
            int at = place(rounded);
            double slope = c[at + 5];
            double value = slope * t + c[at + 4];
            slope = slope * t + value;
            value = value * t + c[at + 3];
            slope = slope * t + value;
            value = value * t + c[at + 2];
            slope = slope * t + value;
            value = value * t + c[at + 1];
            slopes[i] = slope * t + value;
            value = value * t + c[at];
            ramps[i] = s * (z > LINEAR ? z : value);
        }
    }

    /**
     * Writes the difference of two ramps, toe less shoulder, and its derivatives by the position of the toe, by the logarithm
     * of its softness, by the run from toe to shoulder and by the logarithm of the softness of the shoulder. Both series in
     * one loop: the processor works on one while it waits for the other.
     */
    static void fillDifference(
            double[] x,
            int count,
            double position,
            double toe,
            double run,
            double shoulder,
            double[] values,
            double[][] partials) {
        double[] c = TABLE;
        double[] byPosition = partials[0];
        double[] byToe = partials[1];
        double[] byRun = partials[2];
        double[] byShoulder = partials[3];
        double perToe = 1 / toe;
        double perShoulder = 1 / shoulder;
        for (int i = 0; i < count; i++) {
            double fromToe = x[i] - position;
            double fromShoulder = fromToe - run;
            double z = fromToe * perToe;
            double a = inTable(z);
            double rounded = a * PLACES + ROUNDING;
            double t = fromPlace(a, rounded);
            int at = place(rounded);
            double y = fromShoulder * perShoulder;
            double b = inTable(y);
            rounded = b * PLACES + ROUNDING;
            double u = fromPlace(b, rounded);
            int beside = place(rounded);
            double slope = c[at + 5];
            double value = slope * t + c[at + 4];
            slope = slope * t + value;
            value = value * t + c[at + 3];
            slope = slope * t + value;
            value = value * t + c[at + 2];
            slope = slope * t + value;
            value = value * t + c[at + 1];
            slope = slope * t + value;
            value = value * t + c[at];
            double other = c[beside + 5];
            double level = other * u + c[beside + 4];
            other = other * u + level;
            level = level * u + c[beside + 3];
            other = other * u + level;
            level = level * u + c[beside + 2];
            other = other * u + level;
            level = level * u + c[beside + 1];
            other = other * u + level;
            level = level * u + c[beside];
            double toeRamp = toe * (z > LINEAR ? z : value);
            double shoulderRamp = shoulder * (y > LINEAR ? y : level);
            values[i] = toeRamp - shoulderRamp;
            byPosition[i] = other - slope;
            byToe[i] = toeRamp - fromToe * slope;
            byRun[i] = other;
            byShoulder[i] = fromShoulder * other - shoulderRamp;
        }
    }

    /**
     * The coefficients about z = −40, −40 + 1/64 … 40: those of Taylor's series, whose sixth-power term is spread over the
     * second and fourth so that the slope errs least (the fifth power less Chebyshev's polynomial T₅).
     */
    private static double[] table() {
        double[] table = new double[2 * MIDDLE + TERMS];
        double squared = 0.25 / (PLACES * PLACES); // of half the distance between places
        for (int place = 0; place <= LINEAR * PLACES; place++) {
            double z = place / (double) PLACES;
            double e = Math.exp(-z);
            double u = 1 / (1 + e);
            double w = e * u * u; // the derivative of u, u (1 − u)
            double odd = w * (1 - 2 * u);
            double sixth = w * (1 - 30 * w + 120 * w * w) / 720;
            double second = w / 2 - 15 * squared * squared / 16 * sixth;
            double third = odd / 6;
            double fourth = w * (1 - 6 * w) / 24 + 15 * squared / 8 * sixth;
            double fifth = odd * (1 - 12 * w) / 120;
            double below = Math.log1p(e);
            set(table, place, z + below, u, second, third, fourth, fifth);
            set(table, -place, below, e * u, second, -third, fourth, -fifth);
        }
        return table;
    }

    private static void set(double[] table, int place, double... terms) {
        System.arraycopy(terms, 0, table, MIDDLE + TERMS * place, TERMS);
    }
}
