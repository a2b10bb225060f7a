// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** The form of a correction. */
public enum CorrectionKind {

    /** D = (D<sub>m</sub> − a) / b. */
    OFFSET_AND_SLOPE,

    /** D = −log<sub>10</sub> (10<sup>−(D<sub>m</sub> − a) / b</sup> − l). */
    OFFSET_SLOPE_AND_LEAK,

    /** Straight lines from step to step, after averaging steps that are out of order. */
    MONOTONE
}
