/**
 * Whether a densitometer may be trusted: its log is read, set against the certificate of a step tablet, judged, and
 * corrected where it can be.
 *
 * <p>Enter at {@link org.tonewedge.standards.densitometer.DensitometerLogReader}, which turns the lines a firmware prints
 * into a {@link org.tonewedge.standards.densitometer.ReadingsSummary} by a stated
 * {@link org.tonewedge.standards.densitometer.LogLayout} (or a
 * {@linkplain org.tonewedge.standards.densitometer.LayoutGuess guessed} one);
 * {@link org.tonewedge.standards.densitometer.DensitometerCheck} judges the summary, and the
 * {@link org.tonewedge.standards.densitometer.DensitometerVerdict} offers a
 * {@link org.tonewedge.standards.densitometer.DensityCorrection}.
 *
 * <p>Rules kept throughout:
 *
 * <ol>
 *   <li>A line is either a reading, whole, or it is counted under the {@link org.tonewedge.standards.densitometer.LineKind
 *       kind} of its fault. No value is repaired.
 *   <li>Memory does not grow with the log.
 *   <li>Density from raw counts is computed anew, so that a fault of the firmware's arithmetic is told apart from a
 *       fault of the light path.
 *   <li>Nothing is said beyond the densities of the certificate.
 * </ol>
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.standards.densitometer;
