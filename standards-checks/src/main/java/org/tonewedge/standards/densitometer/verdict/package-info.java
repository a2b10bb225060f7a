// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Whether a densitometer may be trusted: its readings of a step tablet are set against the certificate, judged, and
 * corrected where they can be.
 *
 * <p>Three rooms, each of which knows only those before it:
 *
 * <ol>
 *   <li>{@link org.tonewedge.standards.densitometer.input} reads the certificate and the lines a firmware prints;
 *   <li>{@link org.tonewedge.standards.densitometer.summary} sums the readings up, step by step;
 *   <li>this one judges: {@link org.tonewedge.standards.densitometer.verdict.DensitometerCheck} makes a {@link
 *       org.tonewedge.standards.densitometer.verdict.DensitometerVerdict}, which offers a {@link
 *       org.tonewedge.standards.densitometer.verdict.DensityCorrection}.
 * </ol>
 *
 * <pre>{@code
 * StepTablet tablet = CertificateTable.read("tablet.csv", certificate);
 * ReadingsSummary summary = ReadingsSummary.read(log, LogLayout.parse("keys step=S density=D"), tablet);
 * DensitometerVerdict verdict = DensitometerCheck.withDefaults().judge(summary);
 * }</pre>
 *
 * <p>Nothing is said beyond the densities of the certificate. All types are immutable and thread safe.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.verdict;
