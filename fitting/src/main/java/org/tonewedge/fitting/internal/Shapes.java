// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Roots;
import org.tonewedge.fitting.numeric.Distributions;

/** The shapes of the families of curves. */
public final class Shapes {

    /** A straight line: φ = x. */
    public static final Shape STRAIGHT_LINE = new StraightLine();

    /** A soft toe and a straight line: φ = s ln(1 + e<sup>z</sup>), z = (x − q₀)/s, s = exp q₁. */
    public static final Shape TOE = new Toe();

    /** A straight line and a soft shoulder: φ = −s ln(1 + e<sup>−z</sup>), z = (x − q₀)/s, s = exp q₁. */
    public static final Shape SHOULDER = new Shoulder();

    /** The difference of two soft ramps: toe at q₀ of softness exp q₁, shoulder at q₀ + q₂ of softness exp q₃. */
    public static final Shape TOE_SHOULDER = new ToeShoulder();

    /** The logistic function: φ = 1/(1 + e<sup>−z</sup>), z = (x − q₀)/exp q₁. */
    public static final Shape LOGISTIC = new Logistic();

    /** A power of the logistic function: φ = (1 + e<sup>−z</sup>)<sup>−k</sup>, k = exp q₂. */
    public static final Shape LOGISTIC_POWER = new LogisticPower();

    /** Richards's curve: φ = (1 + ν e<sup>−z</sup>)<sup>−1/ν</sup>, ν = q₂, which is Gompertz's at ν = 0. */
    public static final Shape RICHARDS = new Richards();

    /** Gompertz's curve: φ = exp(−e<sup>−z</sup>). */
    public static final Shape GOMPERTZ = new Gompertz();

    /** The cumulative normal distribution: φ = Φ(z). */
    public static final Shape CUMULATIVE_NORMAL = new CumulativeNormal();

    /** Hurter and Driffield's: φ = log₁₀(O − (O − 1) e<sup>−v</sup>), v = 10<sup>x − q₀</sup>/O, O = exp q₁. */
    public static final Shape HURTER_DRIFFIELD = new HurterDriffield();

    private Shapes() {}

    /** The root of a rising function, from a bracket that is widened as needed; NaN if there is none. */
    static double root(DoubleUnaryOperator rising, DoubleUnaryOperator slope, double low, double high) {
        double a = low;
        double b = high;
        for (double reach = high - low; rising.applyAsDouble(a) > 0 && reach < 1e6; reach *= 2) {
            a -= reach;
        }
        for (double reach = high - low; rising.applyAsDouble(b) < 0 && reach < 1e6; reach *= 2) {
            b += reach;
        }
        boolean bracketed = rising.applyAsDouble(a) <= 0 && rising.applyAsDouble(b) >= 0;
        return bracketed ? Roots.ofRising(rising, slope, a, b, 0.5 * (a + b)) : Double.NaN;
    }

    /** The second derivatives of s ln(1 + e<sup>z</sup>), z = (x − position)/s, by position and ln |s|. */
    private static void sumOfRamp(
            double[] x, int count, double position, double s, double[][] partials, double[] factors, double[][] sums) {
        double ramps = 0;
        double bends = 0;
        double first = 0;
        double second = 0;
        for (int i = 0; i < count; i++) {
            double logistic = -partials[0][i];
            double z = (x[i] - position) / s;
            double bend = factors[i] * logistic * (1 - logistic);
            ramps += factors[i] * partials[1][i];
            bends += bend;
            first += bend * z;
            second += bend * z * z;
        }
        sums[0][0] = bends / s;
        sums[0][1] = first;
        sums[1][1] = ramps + s * second;
    }

    private static final class StraightLine implements Shape {

        @Override
        public int size() {
            return 0;
        }

        @Override
        public double value(double x, double[] q) {
            return x;
        }

        @Override
        public double slope(double x, double[] q) {
            return 1;
        }

        @Override
        public double inverse(double value, double[] q) {
            return value;
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            System.arraycopy(x, 0, values, 0, count);
        }

        @Override
        public boolean reachesBase() {
            return false;
        }
    }

    private static final class Toe implements Shape {

        @Override
        public int size() {
            return 2;
        }

        @Override
        public double value(double x, double[] q) {
            double s = Math.exp(q[1]);
            return s * Softplus.value((x - q[0]) / s);
        }

        @Override
        public DoubleUnaryOperator at(double[] q) {
            double position = q[0];
            double s = Math.exp(q[1]);
            return x -> s * Softplus.value((x - position) / s);
        }

        @Override
        public double slope(double x, double[] q) {
            return Softplus.logistic((x - q[0]) / Math.exp(q[1]));
        }

        @Override
        public double inverse(double value, double[] q) {
            double s = Math.exp(q[1]);
            return q[0] + s * Softplus.inverse(value / s);
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            Softplus.fill(x, count, q[0], Math.exp(q[1]), values, partials[0]);
            for (int i = 0; i < count; i++) {
                double logistic = partials[0][i];
                partials[1][i] = values[i] - (x[i] - q[0]) * logistic;
                partials[0][i] = -logistic;
            }
        }

        @Override
        public boolean sumSecondPartials(
                double[] x, int count, double[] q, double[][] partials, double[] factors, double[][] sums) {
            sumOfRamp(x, count, q[0], Math.exp(q[1]), partials, factors, sums);
            return true;
        }
    }

    private static final class Shoulder implements Shape {

        @Override
        public int size() {
            return 2;
        }

        @Override
        public double value(double x, double[] q) {
            double s = Math.exp(q[1]);
            return -s * Softplus.value((q[0] - x) / s);
        }

        @Override
        public double slope(double x, double[] q) {
            return Softplus.logistic((q[0] - x) / Math.exp(q[1]));
        }

        @Override
        public double inverse(double value, double[] q) {
            double s = Math.exp(q[1]);
            return q[0] - s * Softplus.inverse(-value / s);
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            Softplus.fill(x, count, q[0], -Math.exp(q[1]), values, partials[0]);
            for (int i = 0; i < count; i++) {
                double logistic = partials[0][i];
                partials[1][i] = values[i] + (q[0] - x[i]) * logistic;
                partials[0][i] = -logistic;
            }
        }

        @Override
        public boolean sumSecondPartials(
                double[] x, int count, double[] q, double[][] partials, double[] factors, double[][] sums) {
            sumOfRamp(x, count, q[0], -Math.exp(q[1]), partials, factors, sums);
            return true;
        }

        @Override
        public boolean reachesBase() {
            return false;
        }
    }

    private static final class ToeShoulder implements Shape {

        @Override
        public int size() {
            return 4;
        }

        @Override
        public double value(double x, double[] q) {
            return at(q).applyAsDouble(x);
        }

        @Override
        public DoubleUnaryOperator at(double[] q) {
            double toe = Math.exp(q[1]);
            double shoulder = Math.exp(q[3]);
            double perToe = 1 / toe;
            double perShoulder = 1 / shoulder;
            double toePosition = q[0];
            double run = q[2];
            return x -> {
                double fromToe = x - toePosition;
                return toe * Softplus.value(fromToe * perToe)
                        - shoulder * Softplus.value((fromToe - run) * perShoulder);
            };
        }

        @Override
        public void values(double[] x, double[] q, double[] values) {
            double toe = Math.exp(q[1]);
            double shoulder = Math.exp(q[3]);
            double perToe = 1 / toe;
            double perShoulder = 1 / shoulder;
            double toePosition = q[0];
            double run = q[2];
            for (int i = 0; i < x.length; i++) {
                double fromToe = x[i] - toePosition;
                values[i] = toe * Softplus.value(fromToe * perToe)
                        - shoulder * Softplus.value((fromToe - run) * perShoulder);
            }
        }

        @Override
        public double slope(double x, double[] q) {
            return slopeAt(q).applyAsDouble(x);
        }

        @Override
        public DoubleUnaryOperator slopeAt(double[] q) {
            double perToe = 1 / Math.exp(q[1]);
            double perShoulder = 1 / Math.exp(q[3]);
            double toePosition = q[0];
            double run = q[2];
            return x -> {
                double fromToe = x - toePosition;
                return Softplus.logistic(fromToe * perToe) - Softplus.logistic((fromToe - run) * perShoulder);
            };
        }

        @Override
        public double inverse(double value, double[] q) {
            if (!(value > 0 && value < q[2])) {
                return Double.NaN;
            }
            DoubleUnaryOperator at = at(q);
            return root(x -> at.applyAsDouble(x) - value, slopeAt(q), q[0], q[0] + q[2]);
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            Softplus.fillDifference(x, count, q[0], Math.exp(q[1]), q[2], Math.exp(q[3]), values, partials);
        }

        @Override
        public boolean sumSecondPartials(
                double[] x, int count, double[] q, double[][] partials, double[] factors, double[][] sums) {
            double toePosition = q[0];
            double shoulderPosition = q[0] + q[2];
            double toe = Math.exp(q[1]);
            double shoulder = Math.exp(q[3]);
            double perToe = 1 / toe;
            double perShoulder = 1 / shoulder;
            double[] byPosition = partials[0];
            double[] byToe = partials[1];
            double[] byRun = partials[2];
            double[] byShoulder = partials[3];
            double toeRamps = 0;
            double toeBend = 0;
            double toeFirst = 0;
            double toeSecond = 0;
            double shoulderRamps = 0;
            double shoulderBend = 0;
            double shoulderFirst = 0;
            double shoulderSecond = 0;
            for (int i = 0; i < count; i++) {
                double factor = factors[i];
                double shoulderSlope = byRun[i];
                double toeSlope = shoulderSlope - byPosition[i];
                double z = (x[i] - toePosition) * perToe;
                double bend = factor * toeSlope * (1 - toeSlope);
                toeRamps += factor * byToe[i];
                toeBend += bend;
                toeFirst += bend * z;
                toeSecond += bend * z * z;
                z = (x[i] - shoulderPosition) * perShoulder;
                bend = factor * shoulderSlope * (1 - shoulderSlope);
                shoulderRamps += factor * byShoulder[i];
                shoulderBend += bend;
                shoulderFirst += bend * z;
                shoulderSecond += bend * z * z;
            }
            double byShoulderPosition = -shoulderBend * perShoulder;
            sums[0][0] = toeBend * perToe + byShoulderPosition;
            sums[0][1] = toeFirst;
            sums[0][2] = byShoulderPosition;
            sums[0][3] = -shoulderFirst;
            sums[1][1] = toeRamps + toe * toeSecond;
            sums[1][2] = 0;
            sums[1][3] = 0;
            sums[2][2] = byShoulderPosition;
            sums[2][3] = -shoulderFirst;
            sums[3][3] = shoulderRamps - shoulder * shoulderSecond;
            return true;
        }
    }

    /** A shape that is a function of z = (x − q₀)/exp q₁, and of at most one further parameter. */
    private abstract static class Located implements Shape {

        private final int size;

        Located(int size) {
            this.size = size;
        }

        abstract double at(double z, double[] q);

        abstract double slopeAt(double z, double[] q);

        /** z at a value between 0 and 1. */
        abstract double inverseAt(double value, double[] q);

        double thirdPartial(double z, double[] q) {
            throw new UnsupportedOperationException("this shape has two parameters");
        }

        @Override
        public int size() {
            return size;
        }

        @Override
        public double value(double x, double[] q) {
            return at((x - q[0]) / Math.exp(q[1]), q);
        }

        @Override
        public DoubleUnaryOperator at(double[] q) {
            double position = q[0];
            double s = Math.exp(q[1]);
            return x -> at((x - position) / s, q);
        }

        @Override
        public double slope(double x, double[] q) {
            double s = Math.exp(q[1]);
            return slopeAt((x - q[0]) / s, q) / s;
        }

        @Override
        public double inverse(double value, double[] q) {
            return value > 0 && value < 1 ? q[0] + Math.exp(q[1]) * inverseAt(value, q) : Double.NaN;
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            double s = Math.exp(q[1]);
            for (int i = 0; i < count; i++) {
                double z = (x[i] - q[0]) / s;
                double slope = slopeAt(z, q);
                values[i] = at(z, q);
                partials[0][i] = -slope / s;
                partials[1][i] = -slope * z;
                if (size == 3) {
                    partials[2][i] = thirdPartial(z, q);
                }
            }
        }
    }

    private static final class Logistic extends Located {

        Logistic() {
            super(2);
        }

        @Override
        double at(double z, double[] q) {
            return Softplus.logistic(z);
        }

        @Override
        double slopeAt(double z, double[] q) {
            double logistic = Softplus.logistic(z);
            return logistic * (1 - logistic);
        }

        @Override
        double inverseAt(double value, double[] q) {
            return Math.log(value) - Math.log1p(-value);
        }
    }

    private static final class LogisticPower extends Located {

        LogisticPower() {
            super(3);
        }

        @Override
        double at(double z, double[] q) {
            return Math.exp(-Math.exp(q[2]) * Softplus.value(-z));
        }

        @Override
        double slopeAt(double z, double[] q) {
            return Math.exp(q[2]) * at(z, q) * Softplus.logistic(-z);
        }

        @Override
        double inverseAt(double value, double[] q) {
            return -Softplus.inverse(-Math.log(value) / Math.exp(q[2]));
        }

        @Override
        double thirdPartial(double z, double[] q) {
            return -at(z, q) * Math.exp(q[2]) * Softplus.value(-z);
        }
    }

    private static final class Richards extends Located {

        private static final double NEARLY_GOMPERTZ = 1e-5;
        private static final double GREATEST_EXPONENT = 700;

        Richards() {
            super(3);
        }

        @Override
        double at(double z, double[] q) {
            return Math.exp(-exponent(growth(z), q[2]));
        }

        /** e<sup>−z</sup>, kept finite. */
        private static double growth(double z) {
            return Math.exp(Math.min(-z, GREATEST_EXPONENT));
        }

        /** ln(1 + ν E)/ν. */
        private static double exponent(double e, double asymmetry) {
            double product = asymmetry * e;
            return product < NEARLY_GOMPERTZ
                    ? e * (1 - product / 2 + product * product / 3)
                    : Math.log1p(product) / asymmetry;
        }

        @Override
        double slopeAt(double z, double[] q) {
            double e = growth(z);
            double value = at(z, q);
            return value == 0 ? 0 : value * e / (1 + q[2] * e);
        }

        @Override
        double inverseAt(double value, double[] q) {
            double exponent = -Math.log(value);
            double product = q[2] * exponent;
            double e = product < NEARLY_GOMPERTZ
                    ? exponent * (1 + product / 2 + product * product / 6)
                    : Math.expm1(product) / q[2];
            return -Math.log(e);
        }

        @Override
        double thirdPartial(double z, double[] q) {
            double e = growth(z);
            double value = at(z, q);
            if (value == 0) {
                return 0;
            }
            double product = q[2] * e;
            if (product < NEARLY_GOMPERTZ) {
                return value * e * e * (0.5 - 2 * product / 3);
            }
            return value * (Math.log1p(product) / q[2] - e / (1 + product)) / q[2];
        }
    }

    private static final class Gompertz extends Located {

        Gompertz() {
            super(2);
        }

        @Override
        double at(double z, double[] q) {
            return Math.exp(-Math.exp(-z));
        }

        @Override
        double slopeAt(double z, double[] q) {
            return Math.exp(-z - Math.exp(-z));
        }

        @Override
        double inverseAt(double value, double[] q) {
            return -Math.log(-Math.log(value));
        }
    }

    private static final class CumulativeNormal extends Located {

        private static final double DENSITY_AT_ZERO = 1 / Math.sqrt(2 * Math.PI);

        CumulativeNormal() {
            super(2);
        }

        @Override
        double at(double z, double[] q) {
            return Distributions.normalBelow(z);
        }

        @Override
        double slopeAt(double z, double[] q) {
            return DENSITY_AT_ZERO * Math.exp(-0.5 * z * z);
        }

        @Override
        double inverseAt(double value, double[] q) {
            return root(z -> at(z, q) - value, z -> slopeAt(z, q), -8, 8);
        }
    }

    private static final class HurterDriffield implements Shape {

        private static final double LN_10 = Math.log(10);

        @Override
        public int size() {
            return 2;
        }

        @Override
        public double value(double x, double[] q) {
            double opacity = Math.exp(q[1]);
            double v = Math.pow(10, x - q[0]) / opacity;
            return Math.log1p((opacity - 1) * -Math.expm1(-v)) / LN_10;
        }

        @Override
        public double slope(double x, double[] q) {
            double opacity = Math.exp(q[1]);
            double v = Math.pow(10, x - q[0]) / opacity;
            return v == Double.POSITIVE_INFINITY
                    ? 0
                    : (opacity - 1) * Math.exp(-v) * v / (1 + (opacity - 1) * -Math.expm1(-v));
        }

        @Override
        public double inverse(double value, double[] q) {
            double opacity = Math.exp(q[1]);
            double fraction = Math.expm1(value * LN_10) / (opacity - 1);
            return fraction > 0 && fraction < 1 ? q[0] + Math.log10(-Math.log1p(-fraction) * opacity) : Double.NaN;
        }

        @Override
        public void fill(double[] x, int count, double[] q, double[] values, double[][] partials) {
            double opacity = Math.exp(q[1]);
            for (int i = 0; i < count; i++) {
                double v = Math.min(Math.pow(10, x[i] - q[0]) / opacity, Double.MAX_VALUE);
                double passed = Math.exp(-v);
                double absorbed = -Math.expm1(-v);
                double total = 1 + (opacity - 1) * absorbed;
                values[i] = Math.log(total) / LN_10;
                double byV = passed == 0 ? 0 : (opacity - 1) * passed * v / total;
                partials[0][i] = -byV;
                partials[1][i] = opacity * absorbed / (total * LN_10) - byV / LN_10;
            }
        }
    }
}
