// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The quantities of sensitometry as types, so that the usual mix-ups either do not compile or fail with a clear
 * message.
 *
 * <ul>
 *   <li>A point on a scale and a displacement along it are different types: {@link LogExposure} and
 *       {@link ExposureInterval}; {@link Density} and {@link DensityDifference}. Point − point = displacement, point +
 *       displacement = point.
 *   <li>An exposure belongs to an {@link ExposureAxis}: lux seconds, or relative to a named reference. Exposures on
 *       different axes cannot be subtracted or compared.
 *   <li>An {@link ExposureInterval} converts between stops, log units and ratios; each factory names its unit.
 *   <li>A density may state what it was read by: a {@link SpectralResponse} and a {@link DensityGeometry}.
 *   <li>NaN and infinities are refused everywhere.
 * </ul>
 *
 * <p>All types are immutable and thread safe. {@code equals} compares exact values; {@code isWithin} compares with a
 * tolerance. Quantities, estimates and {@link ResultRecord}s are {@link java.io.Serializable}; their serial form may change
 * between versions. Results of methods are not: ship their {@linkplain Recorded#records() records}.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 *
 * @serial exclude
 */
package org.tonewedge.core.quantity;
