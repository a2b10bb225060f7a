// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

/** Why a development cannot be predicted. */
public enum DevelopmentFailure {
    /** The strips, their times or temperatures are incomplete or do not belong together. */
    UNUSABLE_STRIPS,
    /** There is only one time of development. */
    ONE_TIME,
    /** Several strips were developed, but all for the same time. */
    EQUAL_TIMES,
    /** A time is so far from the others that it was probably given in another unit. */
    MIXED_UNITS,
    /** A strip developed longer has less contrast, by more than its uncertainty. */
    CONTRAST_FALLS,
    /** There are fewer strips than the model has parameters. */
    TOO_FEW_STRIPS,
    /** Contrast grows in proportion to time or faster, so no ceiling is seen. */
    NO_CEILING,
    /** The strips do not determine the parameters of the model. */
    NOT_DETERMINED,
    /** The target lies above the greatest contrast that the model can reach. */
    ABOVE_CEILING,
    /** The time lies outside those tested. */
    OUTSIDE_TESTED_TIMES,
    /** The temperature lies outside those tested. */
    OUTSIDE_TESTED_TEMPERATURES,
    /**
     * The strips give no information about temperature, or several temperatures were tested and the question names
     * none.
     */
    TEMPERATURE_UNKNOWN
}
