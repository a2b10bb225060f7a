package org.tonewedge.core.internal;

/**
 * Quantiles of Student's t distribution. With t = √ν tan θ its density is proportional to cos<sup>ν−1</sup> θ, which is
 * integrated by Simpson's rule; the normal distribution is the limit of many degrees of freedom.
 */
public final class StudentT {

    /** So many degrees of freedom differ from infinitely many by less than a part in a thousand million. */
    private static final double MANY = 1e10;

    /** Below so many degrees of freedom the integrand grows without bound towards the tail. */
    private static final double FEWEST = 1;

    private static final int PANELS = 256;
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
        // The probability is a concave function of θ, so Newton's steps come up to the quantile from below.
        for (int i = 0; i < MOST_STEPS; i++) {
            double step = (confidence - height * integral(theta, freedom)) / (height * power(theta, freedom));
            theta += step;
            if (!(step > 1e-14 * theta)) {
                break;
            }
        }
        return Math.sqrt(freedom) * Math.tan(theta);
    }

    /** cos<sup>ν−1</sup> θ, exact near θ = 0 where ν is great. */
    private static double power(double theta, double freedom) {
        double tangent = Math.tan(theta);
        return Math.exp(-0.5 * (freedom - 1) * Math.log1p(tangent * tangent));
    }

    private static double integral(double theta, double freedom) {
        double width = theta / PANELS;
        double sum = power(0, freedom) + power(theta, freedom);
        for (int i = 1; i < PANELS; i++) {
            sum += (i % 2 == 1 ? 4 : 2) * power(i * width, freedom);
        }
        return sum * width / 3;
    }

    /**
     * Γ(a + ½)/Γ(a), by its asymptotic series once a is above 40.
     *
     * @source F. G. Tricomi and A. Erdélyi, The asymptotic expansion of a ratio of gamma functions, Pacific Journal of
     *     Mathematics 1 (1951), 133–142 (from memory)
     */
    private static double gammaRatio(double a) {
        double factor = 1;
        double x = a;
        while (x < 40) {
            factor *= x / (x + 0.5);
            x++;
        }
        double r = 1 / x;
        double series =
                1 + r * (-1.0 / 8 + r * (1.0 / 128 + r * (5.0 / 1024 + r * (-21.0 / 32768 + r * (-399.0 / 262144)))));
        return factor * Math.sqrt(x) * series;
    }
}
