package org.tonewedge.fitting.internal;

/** How a standardised residual counts. The constants give 95 % efficiency for normal errors (from memory). */
public enum Loss {
    /** Its square: every reading is trusted alike. */
    SQUARES {
        @Override
        double weight(double residual) {
            return 1;
        }

        @Override
        double slope(double residual) {
            return 1;
        }
    },
    /** Huber's: its square up to 1.345, then its size. */
    HUBER {
        @Override
        double weight(double residual) {
            return Math.abs(residual) <= HUBER_CONSTANT ? 1 : HUBER_CONSTANT / Math.abs(residual);
        }

        @Override
        double slope(double residual) {
            return Math.abs(residual) <= HUBER_CONSTANT ? 1 : 0;
        }
    },
    /** Tukey's biweight: nothing beyond 4.685. */
    TUKEY {
        @Override
        double weight(double residual) {
            double inside = 1 - square(residual / TUKEY_CONSTANT);
            return inside > 0 ? inside * inside : 0;
        }

        @Override
        double slope(double residual) {
            double ratio = square(residual / TUKEY_CONSTANT);
            return ratio < 1 ? (1 - ratio) * (1 - 5 * ratio) : 0;
        }
    };

    private static final double HUBER_CONSTANT = 1.345;
    private static final double TUKEY_CONSTANT = 4.685;

    /** ψ(u)/u of a residual in standard deviations. */
    abstract double weight(double residual);

    /** dψ/du. */
    abstract double slope(double residual);

    private static double square(double value) {
        return value * value;
    }
}
