/**
 * Readings and where they come from.
 *
 * <p>Enter at {@link org.tonewedge.core.strip.ReadingsTable} to read a file of readings, or at
 * {@link org.tonewedge.core.strip.Strip#builder(String)} to make a strip by hand. A strip was exposed through a
 * {@link org.tonewedge.core.strip.StepTablet} or as camera frames; both give an
 * {@link org.tonewedge.core.strip.ExposureSeries}.
 *
 * <p>Densities of several patches of a subject on bracketed frames are a {@link org.tonewedge.core.strip.Bracket}, read
 * from a file by {@link org.tonewedge.core.strip.BracketTable}.
 *
 * <p>Rules of a valid strip:
 *
 * <ol>
 *   <li>It has an identifier that is not blank.
 *   <li>All its exposures are on one axis.
 *   <li>Every density is a gross density; what was read on an unexposed part is a base-plus-fog reading, not a reading
 *       at a very low exposure.
 *   <li>Several readings at one exposure are repeats: they are kept, and averaged where one figure is needed.
 * </ol>
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.core.strip;
