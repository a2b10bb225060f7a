// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A paper, or one grade of it, with its useful log exposure range, such as 1.05.
 *
 * @param label the paper in the printer's words
 * @param logExposureRange the range between the exposures for the lightest and the darkest useful tone, above 0
 */
public record PaperRange(String label, ExposureInterval logExposureRange) {

    private static final double RATING_FACTOR = 100;

    /** No paper has a log exposure range beyond these; common practice, no source. */
    private static final double LEAST = 0.2;

    private static final double GREATEST = 4;

    /**
     * Checks the parts.
     *
     * @param label the paper in the printer's words
     * @param logExposureRange the log exposure range
     * @throws IllegalArgumentException if the label is blank or the range is not from 0.2 to 4 log units, which no paper
     *     is
     */
    public PaperRange {
        label = Checks.notBlank("label of a paper", label);
        checked(label, logExposureRange.logUnits());
    }

    /**
     * Returns a paper with a range given in log units.
     *
     * @param label the paper in the printer's words
     * @param logUnits the range, from 0.2 to 4, such as 1.05
     * @return the paper
     * @throws IllegalArgumentException as the constructor does
     */
    public static PaperRange ofLogUnits(String label, double logUnits) {
        return new PaperRange(label, ExposureInterval.ofLogUnits(checked(label, logUnits)));
    }

    private static double checked(String label, double logUnits) {
        return Checks.within(
                "log exposure range of paper '" + Checks.notBlank("label of a paper", label) + "'",
                logUnits,
                LEAST,
                GREATEST,
                "the ISO range on the box, such as 110, is 100 times the log exposure range");
    }

    /**
     * Returns a paper with the ISO range printed on its box.
     *
     * @param label the paper in the printer's words
     * @param range the number after the R, from 20 to 400, such as 110
     * @return the paper, with a log exposure range of a hundredth of that number
     * @throws IllegalArgumentException as the constructor does
     * @source ISO 6846:1992, R = 100 (log<sub>10</sub> H<sub>S</sub> − log<sub>10</sub> H<sub>T</sub>): the factor from
     *     memory
     */
    public static PaperRange ofIsoRange(String label, double range) {
        return ofLogUnits(label, range / RATING_FACTOR);
    }
}
