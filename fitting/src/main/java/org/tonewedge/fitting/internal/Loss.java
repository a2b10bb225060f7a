// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** How a standardised residual counts. The constants give 95 % efficiency for normal errors (from memory). */
public enum Loss {
    /** Its square: every reading is trusted alike. */
    SQUARES {
        @Override
        public double weight(double residual) {
            return 1;
        }

        @Override
        double slope(double residual) {
            return 1;
        }

        @Override
        public double deviance(double residual) {
            return square(residual);
        }
    },
    /** Huber's: its square up to 1.345, then its size. */
    HUBER {
        @Override
        public double weight(double residual) {
            return Math.abs(residual) <= HUBER_CONSTANT ? 1 : HUBER_CONSTANT / Math.abs(residual);
        }

        @Override
        double slope(double residual) {
            return Math.abs(residual) <= HUBER_CONSTANT ? 1 : 0;
        }

        @Override
        public double deviance(double residual) {
            double size = Math.abs(residual);
            return size <= HUBER_CONSTANT ? square(size) : HUBER_CONSTANT * (2 * size - HUBER_CONSTANT);
        }
    },
    /** Tukey's biweight: nothing beyond 4.685. */
    TUKEY {
        @Override
        public double weight(double residual) {
            double inside = 1 - square(residual / TUKEY_CONSTANT);
            return inside > 0 ? inside * inside : 0;
        }

        @Override
        double slope(double residual) {
            double ratio = square(residual / TUKEY_CONSTANT);
            return ratio < 1 ? (1 - ratio) * (1 - 5 * ratio) : 0;
        }

        @Override
        public double deviance(double residual) {
            double inside = Math.max(0, 1 - square(residual / TUKEY_CONSTANT));
            return square(TUKEY_CONSTANT) / 3 * (1 - inside * inside * inside);
        }
    };

    /** The variance of a mean over that of an estimate with one of these losses, for normal errors. */
    static final double EFFICIENCY = 0.95;

    private static final double HUBER_CONSTANT = 1.345;
    private static final double TUKEY_CONSTANT = 4.685;

    /**
     * Returns how much a residual counts beside a small one, ψ(u)/u.
     *
     * @param residual in standard deviations
     * @return from 1 to 0
     */
    public abstract double weight(double residual);

    /**
     * Returns what a residual adds to the sum that a fit makes small, 2ρ(u): its square where that is small.
     *
     * @param residual in standard deviations
     * @return 0 or more
     */
    public abstract double deviance(double residual);

    /** dψ/du. */
    abstract double slope(double residual);

    private static double square(double value) {
        return value * value;
    }
}
