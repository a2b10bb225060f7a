// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Locale;
import java.util.Objects;

/**
 * The verdict on whether a fitted curve follows its readings, at the 5 % level: of strips that the family describes
 * exactly, one in twenty is refused.
 *
 * <p>With a stated repeatability, a χ² test judges the weighted residuals. With repeat readings, of this strip or
 * pooled over several, an F test judges the residuals of the step means. Without either, the size that the residuals
 * should have is unknown. The test then asks whether neighbouring residuals are too similar, as they are if the curve
 * bends in the wrong places. It uses the Durbin–Watson ratio Σ(r<sub>i+1</sub> − r<sub>i</sub>)² / Σr<sub>i</sub>²,
 * whose distribution under normal errors is computed for the given family and steps. This test is weaker: it does not
 * detect a misfit shorter than two steps, and detects little with fewer than about 15 readings.
 * Without a stated repeatability, residuals that are all below 10<sup>−6</sup>, as of computed densities, are no misfit.
 *
 * <p>Immutable and thread safe.
 *
 * @source lack of fit by F: N. R. Draper and H. Smith, Applied Regression Analysis, 3rd ed. (1998), 2.1; J. Durbin and
 *     G. S. Watson, Testing for serial correlation in least squares regression, Biometrika 37 (1950), 409–428; its
 *     distribution: J. P. Imhof, Computing the distribution of quadratic forms in normal variables, Biometrika 48
 *     (1961), 419–426 (all from memory)
 */
public final class LackOfFit {

    /** A verdict refuses a curve if chance explains its misfit less often than this. */
    public static final double SIGNIFICANCE = 0.05;

    /** What the residuals were judged by. */
    public enum Test {
        /** A stated repeatability. */
        CHI_SQUARE("χ² against the stated repeatability"),
        /** The scatter of repeat readings. */
        F("F against the repeat readings"),
        /** The other residuals. */
        DURBIN_WATSON("similarity of neighbouring residuals, a weaker test because no repeatability is known"),
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
     * Returns what the residuals were judged by.
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
     * Returns the probability that chance alone makes the statistic this bad.
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
    public boolean isRejected() {
        return probability < SIGNIFICANCE;
    }

    /**
     * Returns the verdict in words.
     *
     * @return for example {@code follows the readings (F against the repeat readings, p = 0.41)}
     */
    @Override
    public String toString() {
        String verdict = isRejected() ? "does not follow the readings" : "follows the readings";
        return test == Test.NONE
                ? "not judged (" + test + ")"
                : String.format(Locale.ROOT, "%s (%s, p = %.3f)", verdict, test, probability);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof LackOfFit that
                && Objects.equals(test, that.test)
                && Double.compare(statistic, that.statistic) == 0
                && Double.compare(probability, that.probability) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(test, statistic, probability);
    }
}
