// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * After the curves: matching frames, printing exposure, coloured patches, tone reproduction and grain, as tables and
 * charts.
 *
 * <p>Enter at {@link org.tonewedge.examples.tone.ToneComparisonProgram} on the command line, or at
 * {@link org.tonewedge.examples.tone.ToneReport} for the tables and charts alone.
 */
package org.tonewedge.examples.tone;
