// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

/**
 * Quantiles of Student's t distribution. With t = √ν tan θ its density is proportional to cos<sup>ν−1</sup> θ, which is
 * integrated by Gauss's rule of five points in each of many panels; the normal distribution is the limit of many degrees of
 * freedom. Core keeps no numeric library, so the distribution stands here; the other modules use it too.
 *
 * @source M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964), 25.4.30 (from memory)
 */
public final class StudentT {

    /** So many degrees of freedom differ from infinitely many by less than rounding. */
    private static final double MANY = 1e18;

    /** Below so many degrees of freedom the integrand grows without bound towards the tail. */
    private static final double FEWEST = 1;

    private static final int PANELS = 32;
    private static final double[] POINTS = {0.5384693101056831, 0.9061798459386640};
    private static final double[] WEIGHTS = {0.4786286704993665, 0.2369268850561891};
    private static final double WEIGHT_OF_MIDDLE = 0.5688888888888889;

    private static final int MOST_STEPS = 100;

    private StudentT() {}

    /**
     * Returns how many standard uncertainties a two-sided interval reaches to either side.
     *
     * @param confidence above 0 and below 1
     * @param degreesOfFreedom 1 or more; infinite for the normal distribution
     * @return the quantile at (1 + confidence)/2
     * @throws IllegalArgumentException if a number is out of range
     */
    public static double coverageFactor(double confidence, double degreesOfFreedom) {
        Checks.confidence(confidence);
        if (!(degreesOfFreedom >= FEWEST)) {
            throw new IllegalArgumentException("an interval needs 1 or more degrees of freedom, had " + degreesOfFreedom
                    + ": take more repeat readings, or state the repeatability");
        }
        double freedom = Math.min(degreesOfFreedom, MANY);
        double height = 2 * gammaRatio(0.5 * freedom) / Math.sqrt(Math.PI);
        double theta = 0;
        double area = 0;
        // The probability is a concave function of θ, so Newton's steps come up to the quantile from below.
        for (int i = 0; i < MOST_STEPS; i++) {
            double step = (confidence - height * area) / (height * power(theta, freedom));
            if (!(step > 1e-14 * theta)) {
                break;
            }
            area += integral(theta, theta + step, freedom);
            theta += step;
        }
        return Math.sqrt(freedom) * Math.tan(theta);
    }

    /**
     * Returns the effective degrees of freedom of a variance of which one part was estimated and the rest is stated. With the
     * formula of Welch and Satterthwaite, ν / share², intervals get too narrow when few degrees of freedom happen to estimate too
     * small a part: for shares of 0.5 to 0.94, 95 % intervals contain 87 to 93 % for ν = 1 and 92 to 94 % for ν = 2. With ν /
     * √share for ν = 1 and ν / share from ν = 2 they contain 94 to 98 and 94 to 96 % ({@code FigureTest} in the tests of {@code
     * standards-checks}). The exponent is the project's own.
     *
     * @param degreesOfFreedom of the estimated part
     * @param share the estimated part of the variance, from 0 to 1
     * @return the degrees of freedom; infinite if nothing was estimated
     */
    public static double besideStated(double degreesOfFreedom, double share) {
        return degreesOfFreedom / Math.pow(share, Math.min(1, 0.5 * degreesOfFreedom));
    }

    /** cos<sup>ν−1</sup> θ, exact near θ = 0 where ν is great. */
    private static double power(double theta, double freedom) {
        double tangent = Math.tan(theta);
        return Math.exp(-0.5 * (freedom - 1) * Math.log1p(tangent * tangent));
    }

    /** The area between two angles, in panels no wider than a 32nd of the greater. */
    private static double integral(double from, double to, double freedom) {
        int panels = (int) Math.ceil(PANELS * (to - from) / to);
        double half = 0.5 * (to - from) / panels;
        double sum = 0;
        for (int i = 0; i < panels; i++) {
            double middle = from + (2 * i + 1) * half;
            sum += WEIGHT_OF_MIDDLE * power(middle, freedom);
            for (int k = 0; k < POINTS.length; k++) {
                double away = POINTS[k] * half;
                sum += WEIGHTS[k] * (power(middle - away, freedom) + power(middle + away, freedom));
            }
        }
        return sum * half;
    }

    /**
     * Γ(a + ½)/Γ(a), by its asymptotic series once a is above 100.
     *
     * @source F. G. Tricomi and A. Erdélyi, The asymptotic expansion of a ratio of gamma functions, Pacific Journal of
     *     Mathematics 1 (1951), 133–142 (from memory)
     */
    private static double gammaRatio(double a) {
        double factor = 1;
        double x = a;
        while (x < 100) {
            factor *= x / (x + 0.5);
            x++;
        }
        double r = 1 / x;
        double series =
                1 + r * (-1.0 / 8 + r * (1.0 / 128 + r * (5.0 / 1024 + r * (-21.0 / 32768 + r * (-399.0 / 262144)))));
        return factor * Math.sqrt(x) * series;
    }
}
