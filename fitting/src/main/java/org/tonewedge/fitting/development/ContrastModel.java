// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

/** How contrast grows with time t, in minutes. */
enum ContrastModel {
    /** The exponential approach to a ceiling: C = C<sub>∞</sub> (1 − exp(−k t)). Two strips determine it. */
    EXPONENTIAL("exponential approach to a ceiling"),
    /**
     * The exponential approach after an induction time: C = C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>))), t<sub>0</sub>
     * ≥ 0. Three strips determine it.
     */
    EXPONENTIAL_WITH_INDUCTION("exponential approach after an induction time"),
    /** Growth with the logarithm of time, without a ceiling: C = a + b ln t. Two strips determine it. */
    LOGARITHMIC("growth with the logarithm of time"),
    /**
     * A monotone cubic through the contrasts over ln t, with slopes by Fritsch and Butland; repeat strips are averaged.
     * It assumes no law, shows no error, and does not extrapolate.
     */
    MONOTONE_INTERPOLATION("monotone interpolation");

    private final String label;

    ContrastModel(String label) {
        this.label = label;
    }

    TimeResponse response(double[] minutes) {
        return switch (this) {
            case EXPONENTIAL -> TimeResponse.exponential();
            case EXPONENTIAL_WITH_INDUCTION -> TimeResponse.exponentialWithInduction();
            case LOGARITHMIC -> TimeResponse.logarithmic();
            case MONOTONE_INTERPOLATION -> TimeResponse.interpolation(minutes);
        };
    }

    /**
     * Returns the model in words.
     *
     * @return for example {@code exponential approach to a ceiling}
     */
    @Override
    public String toString() {
        return label;
    }
}
