// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** What a conversion of many samples does with one that has no result. */
public enum OutsideSamples {
    /** The conversion is refused with the index of the first such sample, and nothing is written. */
    REFUSE,
    /** The result is NaN, and the sample is counted. */
    MARK_AS_NAN,
    /** The result is that of the nearest sample which has one, and the sample is counted; NaN stays NaN. */
    NEAREST_END
}
