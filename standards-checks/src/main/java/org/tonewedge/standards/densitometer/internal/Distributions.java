package org.tonewedge.standards.densitometer.internal;

/** Student's t and Fisher's F by the regularised incomplete beta function. */
public final class Distributions {

    private static final int MOST_TERMS = 500;
    private static final double TINY = 1e-300;
    private static final double PRECISION = 1e-16;
    /** Lanczos's coefficients for g = 7, n = 9. */
    private static final double[] LANCZOS = {
        0.9999999999998099,
        676.5203681218851,
        -1259.1392167224028,
        771.3234287776531,
        -176.6150291621406,
        12.507343278686905,
        -0.13857109526572012,
        9.984369578019572e-6,
        1.5056327351493116e-7
    };

    private Distributions() {}

    /** The t that is exceeded in absolute value with the probability 1 − coverage; dof above 0. */
    public static double coverageFactor(double coverage, double degreesOfFreedom) {
        double low = 0;
        double high = 1;
        while (insideT(high, degreesOfFreedom) < coverage) {
            high *= 2;
        }
        for (int i = 0; i < 200 && high - low > 1e-14 * high; i++) {
            double middle = (low + high) / 2;
            if (insideT(middle, degreesOfFreedom) < coverage) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    private static double insideT(double t, double degreesOfFreedom) {
        return 1 - incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);
    }

    /** The probability that Fisher's F exceeds a value. */
    public static double exceedsF(double ratio, double numerator, double denominator) {
        return incompleteBeta(denominator / (denominator + numerator * ratio), denominator / 2, numerator / 2);
    }

    /** I<sub>x</sub>(a, b) by its continued fraction (Abramowitz and Stegun 26.5.8), evaluated by Lentz's method. */
    public static double incompleteBeta(double x, double a, double b) {
        if (x <= 0 || x >= 1) {
            return x <= 0 ? 0 : 1;
        }
        if (x > (a + 1) / (a + b + 2)) {
            return 1 - incompleteBeta(1 - x, b, a);
        }
        double front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
        double c = 1;
        double d = 1 / nonZero(1 - (a + b) * x / (a + 1));
        double fraction = d;
        for (int m = 1; m <= MOST_TERMS; m++) {
            double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
            d = 1 / nonZero(1 + even * d);
            c = nonZero(1 + even / c);
            fraction *= d * c;
            double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
            d = 1 / nonZero(1 + odd * d);
            c = nonZero(1 + odd / c);
            fraction *= d * c;
            if (Math.abs(d * c - 1) < PRECISION) {
                break;
            }
        }
        return front * fraction;
    }

    private static double nonZero(double value) {
        return Math.abs(value) < TINY ? TINY : value;
    }

    public static double logGamma(double x) {
        if (x < 0.5) {
            return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
        }
        double sum = LANCZOS[0];
        for (int i = 1; i < LANCZOS.length; i++) {
            sum += LANCZOS[i] / (x - 1 + i);
        }
        double t = x + 6.5;
        return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
    }
}
