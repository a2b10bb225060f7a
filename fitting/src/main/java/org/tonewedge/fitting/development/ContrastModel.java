package org.tonewedge.fitting.development;

/** How contrast grows with time. t is in minutes. */
enum ContrastModel {
    /** The exponential approach to a ceiling: C = C<sub>∞</sub> (1 − exp(−k t)). Two strips determine it. */
    EXPONENTIAL("exponential approach to a ceiling"),
    /**
     * The exponential approach after an induction time: C = C<sub>∞</sub> (1 − exp(−k (t − t<sub>0</sub>))), t<sub>0</sub>
     * ≥ 0. Three strips determine it.
     */
    EXPONENTIAL_WITH_INDUCTION("exponential approach after an induction time"),
    /** Growth with the logarithm of time: C = a + b ln t, which has no ceiling. Two strips determine it. */
    LOGARITHMIC("growth with the logarithm of time"),
    /**
     * A monotone cubic through the contrasts over ln t, the slopes by Fritsch and Butland; repeats are averaged. It claims
     * no law, reveals no error, and does not extrapolate.
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
