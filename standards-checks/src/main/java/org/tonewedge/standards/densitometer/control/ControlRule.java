// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.control;

/**
 * A rule by which a point of a control chart gives a signal.
 *
 * @source the first four: Western Electric, Statistical Quality Control Handbook, 1956, as given by the NIST/SEMATECH
 *     e-Handbook of Statistical Methods, section 6.3.2, from memory; {@link #TREND}: ISO 7870-2, test for a trend, from
 *     memory; {@link #MOVING_AVERAGE}: e-Handbook, section 6.3.2.4
 */
public enum ControlRule {

    /** The value is beyond the control limits. */
    BEYOND_LIMITS("beyond the control limits", true),

    /** The exponentially weighted moving average is beyond its control limits: a small shift that stays, or a drift. */
    MOVING_AVERAGE("the moving average is beyond its limits", true),

    /** Two of three values in a row are beyond two standard deviations on one side. */
    TWO_OF_THREE("two of three beyond two standard deviations on one side", false),

    /** Four of five values in a row are beyond one standard deviation on one side. */
    FOUR_OF_FIVE("four of five beyond one standard deviation on one side", false),

    /** Eight values in a row are on one side of the centre line. */
    EIGHT_ON_ONE_SIDE("eight in a row on one side of the centre", false),

    /** Six values in a row each rise, or each fall. */
    TREND("six in a row that rise, or that fall", false);

    private final String words;
    private final boolean alarm;

    ControlRule(String words, boolean alarm) {
        this.words = words;
        this.alarm = alarm;
    }

    /**
     * Tells whether the signal means out of control.
     *
     * @return true for an alarm, false for a warning
     */
    public boolean isAlarm() {
        return alarm;
    }

    /**
     * Returns the rule in words.
     *
     * @return for example {@code beyond the control limits}
     */
    public String description() {
        return words;
    }
}
