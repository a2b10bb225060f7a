// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Readings, and where they come from.
 *
 * <p>Start at {@link org.tonewedge.core.strip.ReadingsTable} to read a file of readings, or at
 * {@link org.tonewedge.core.strip.Strip#builder(String)} to build a strip in code. A strip is exposed through a
 * {@link org.tonewedge.core.strip.StepTablet} or as camera frames; either way its exposures are an
 * {@link org.tonewedge.core.strip.ExposureSeries}.
 *
 * <p>A {@link org.tonewedge.core.strip.Bracket} contains the densities of several patches of a subject on bracketed
 * frames; {@link org.tonewedge.core.strip.BracketTable} reads it from a file.
 *
 * <p>Rules for a valid strip:
 *
 * <ol>
 *   <li>It has an identifier that is not blank.
 *   <li>All its exposures are on one axis.
 *   <li>Every density is a gross density. A reading on an unexposed part is a base-plus-fog reading, not a reading at a
 *       very low exposure.
 *   <li>Several readings at one exposure are repeat readings: all are kept, and averaged when one figure is needed.
 * </ol>
 *
 * <p>All types are immutable and thread safe. {@link org.tonewedge.core.strip.Strip},
 * {@link org.tonewedge.core.strip.ExposedStep}, {@link org.tonewedge.core.strip.ExposureSeries},
 * {@link org.tonewedge.core.strip.StepTablet}, {@link org.tonewedge.core.strip.Processing} and
 * {@link org.tonewedge.core.strip.TestConditions} are {@link java.io.Serializable}, as a data-processing engine needs that
 * ships strips to its workers: reading one back makes the same checks as building it, and refuses a forged stream by a
 * {@link java.io.InvalidObjectException}. The serial form may change between versions; keep readings as tables.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 *
 * @serial exclude
 */
package org.tonewedge.core.strip;
