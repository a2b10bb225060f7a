// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The readings of a tablet summarised step by step, in memory that does not grow with the log: means, scatter within
 * and between runs, drift, resolution, and whether printed densities follow from the counts beside them.
 *
 * <p>Density is recomputed from raw counts, so that a fault in the firmware's arithmetic can be distinguished from a
 * fault in the light path. Start at {@link org.tonewedge.standards.densitometer.summary.ReadingsSummary}.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.summary;
