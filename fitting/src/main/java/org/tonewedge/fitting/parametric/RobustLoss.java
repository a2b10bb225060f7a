package org.tonewedge.fitting.parametric;

import org.tonewedge.fitting.internal.Loss;

/**
 * How far a fit trusts readings that lie off the curve.
 *
 * <p>The standard deviation is that of the repeatability stated, or comes from the median of the residuals. The search
 * starts from running medians of the densities and, where it comes to distrust a reading, from the best fit to all
 * readings but one as well. One bad reading between the ends of a strip bends hardly any curve, nor do two that changed
 * places or a few that stand apart. At either end of a short strip a bad reading can look like the beginning of a toe or a
 * shoulder: look at {@link FittedCurve#distrusted()} and at the plot.
 */
public enum RobustLoss {
    /** Least squares: every reading is trusted alike. One bad reading spoils the curve. */
    NONE(Loss.SQUARES),
    /** Huber's: readings beyond 1.345 standard deviations count less, but always for something. */
    HUBER(Loss.HUBER),
    /** Tukey's biweight: readings beyond 4.685 standard deviations do not count at all. For dust and finger marks. */
    TUKEY(Loss.TUKEY);

    private final Loss loss;

    RobustLoss(Loss loss) {
        this.loss = loss;
    }

    Loss loss() {
        return loss;
    }
}
