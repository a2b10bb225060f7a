// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

/** Whether density rises or falls with exposure, over the whole curve. */
public enum CurveDirection {

    /** Density rises with exposure: a negative film, a paper. */
    RISING,

    /** Density falls with exposure: a reversal material. */
    FALLING
}
