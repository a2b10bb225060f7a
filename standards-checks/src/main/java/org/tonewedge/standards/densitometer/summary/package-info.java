/**
 * The readings of a tablet summed up step by step, in memory that does not grow with the log: means, scatter within runs
 * and between them, drift, resolution, and whether printed densities follow from the counts beside them.
 *
 * <p>Density is computed anew from raw counts, so that a fault of the firmware's arithmetic is told apart from a fault of
 * the light path. Enter at {@link org.tonewedge.standards.densitometer.summary.ReadingsSummary}.
 */
package org.tonewedge.standards.densitometer.summary;
