// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The input of a densitometer check: the certificate of the tablet and the lines that the firmware prints.
 *
 * <p>{@link org.tonewedge.standards.densitometer.input.DensitometerLogReader} reads a log by a stated
 * {@link org.tonewedge.standards.densitometer.input.LogLayout}, which may be
 * {@linkplain org.tonewedge.standards.densitometer.input.LayoutGuess guessed}. A line is either a complete reading or
 * counted under the {@link org.tonewedge.standards.densitometer.input.LineKind kind} of its fault; no value is
 * repaired. Memory use does not grow with the log.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.input;
