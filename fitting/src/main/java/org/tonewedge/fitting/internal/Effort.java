// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * How far a search goes.
 *
 * @param tolerance the error left in the parameters, in standard errors
 * @param mostIterations after how many iterations it gives up
 */
record Effort(double tolerance, int mostIterations) {

    /** Most searches need fewer than ten iterations; along a corner between two steps the end may take a hundred. */
    static final Effort FULL = new Effort(1e-4, 500);

    /** For parameters whose spread alone is asked for: a hundredth adds a ten-thousandth to their variance. */
    static final Effort REFIT = new Effort(0.01, 500);

    /** For fits that are only to be compared with one another: those that leave in a bad reading need not end. */
    static final Effort TRIAL = new Effort(0.01, 20);

    /** For the one that compares best. */
    static final Effort CHOSEN = new Effort(1e-4, 100);
}
