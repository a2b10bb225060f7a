package org.tonewedge.fitting.parametric;

import java.util.Locale;

/**
 * The verdict on whether a fitted curve follows its readings, at the level of 5 %: of strips that the family describes
 * exactly, one in twenty is refused.
 *
 * <p>Against a stated repeatability, the weighted residuals are tested by χ²; against repeat readings, the residuals of
 * the step means by F. Without either nobody knows how large the residuals may be; then the test is whether neighbouring
 * residuals are too much alike, as those of a curve that bends in the wrong places are, by the Durbin–Watson ratio
 * Σ(r<sub>i+1</sub> − r<sub>i</sub>)² / Σr<sub>i</sub>². Its distribution for the family and steps at hand is found by 199
 * simulated sets of errors. It is the weaker test: it sees nothing of a misfit shorter than two steps, and little in fewer
 * than about 15 readings.
 *
 * <p>Immutable and thread safe.
 *
 * @source lack of fit by F: N. R. Draper and H. Smith, Applied Regression Analysis, 3rd ed. (1998), 2.1; J. Durbin and G.
 *     S. Watson, Testing for serial correlation in least squares regression, Biometrika 37 (1950), 409–428; simulated
 *     significance: G. A. Barnard, Journal of the Royal Statistical Society B 25 (1963), 294 (all from memory)
 */
public final class LackOfFit {

    /** A verdict refuses a curve whose misfit chance explains less often than this. */
    public static final double SIGNIFICANCE = 0.05;

    /** What the residuals were judged against. */
    public enum Test {
        /** A stated repeatability. */
        CHI_SQUARE("χ² against the stated repeatability"),
        /** The scatter of repeat readings. */
        FISHER("F against the repeat readings"),
        /** Each other. */
        NEIGHBOURS("likeness of neighbouring residuals, the weaker test as no repeatability is known"),
        /** Nothing: there are too few readings. */
        NONE("no test: too few readings for the parameters");

        private final String words;

        Test(String words) {
            this.words = words;
        }

        /**
         * Returns the test in words.
         *
         * @return for example {@code F against the repeat readings}
         */
        @Override
        public String toString() {
            return words;
        }
    }

    private final Test test;
    private final double statistic;
    private final double probability;

    LackOfFit(Test test, double statistic, double probability) {
        this.test = test;
        this.statistic = statistic;
        this.probability = probability;
    }

    /**
     * Returns what the residuals were judged against.
     *
     * @return the test
     */
    public Test test() {
        return test;
    }

    /**
     * Returns the statistic of the test.
     *
     * @return χ², F or the Durbin–Watson ratio; 0 without a test
     */
    public double statistic() {
        return statistic;
    }

    /**
     * Returns how often chance alone makes the statistic as bad as this.
     *
     * @return the probability, from 0 to 1; 1 without a test
     */
    public double probability() {
        return probability;
    }

    /**
     * Tells whether the curve is refused.
     *
     * @return true if the probability is below {@link #SIGNIFICANCE}
     */
    public boolean isRefused() {
        return probability < SIGNIFICANCE;
    }

    /**
     * Returns the verdict in words.
     *
     * @return for example {@code follows the readings (F against the repeat readings, p = 0.41)}
     */
    @Override
    public String toString() {
        String verdict = isRefused() ? "does not follow the readings" : "follows the readings";
        return test == Test.NONE
                ? "not judged (" + test + ")"
                : String.format(Locale.ROOT, "%s (%s, p = %.3f)", verdict, test, probability);
    }
}
