// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** The sources of uncertainty of a density. */
public enum BudgetSource {

    /** Scatter of readings within a run; type A. */
    REPEATABILITY,

    /** Differences between runs; type A. */
    BETWEEN_RUNS,

    /** The smallest step of the instrument q, a rectangular distribution of width q: q / √12; type B. */
    RESOLUTION,

    /** The certificate of the tablet; type B. */
    CERTIFICATE,

    /** The significant drift over the time of the log, a rectangular distribution; type B. */
    DRIFT_WITH_TIME,

    /** The significant drift over the temperatures of the log, a rectangular distribution; type B. */
    DRIFT_WITH_TEMPERATURE
}
