// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

/** Whether a bracketed series encloses the wanted density. */
public enum BracketCoverage {
    /** The density lies between the densities of the frames. */
    ENCLOSED,
    /** Every frame is thinner than wanted: expose frames with more exposure. */
    MORE_EXPOSURE_NEEDED,
    /** Every frame is denser than wanted: expose frames with less exposure. */
    LESS_EXPOSURE_NEEDED
}
