/**
 * The trade's quantities as types, so that its usual mix-ups do not compile or fail loudly.
 *
 * <ul>
 *   <li>A point on a scale and a displacement along it are different types: {@link LogExposure} and
 *       {@link ExposureInterval}; {@link Density} and {@link DensityDifference}. Point − point = displacement, point +
 *       displacement = point.
 *   <li>An exposure belongs to an {@link ExposureAxis}: lux seconds, or relative to something named. Exposures of
 *       different axes refuse to be subtracted or compared.
 *   <li>An {@link ExposureInterval} speaks stops, log units and ratio; the factory names the unit.
 *   <li>NaN and infinities are refused everywhere.
 * </ul>
 *
 * <p>All types are immutable, safe for use by several threads, and compared by exact value; nearness is a method with a
 * tolerance.
 */
package org.tonewedge.core.quantity;
