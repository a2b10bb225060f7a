package org.tonewedge.fitting.parametric;

import org.tonewedge.fitting.internal.Loss;

/** How far a fit trusts readings that lie off the curve. */
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
