// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Densitometers in the terminal: {@link org.tonewedge.examples.densitometer.DensitometerCheckProgram} judges a log,
 * {@link org.tonewedge.examples.densitometer.CalibrationProgram} finds the constants for a firmware,
 * {@link org.tonewedge.examples.densitometer.ControlChartProgram} watches a check piece over weeks,
 * {@link org.tonewedge.examples.densitometer.InstrumentComparisonProgram} sets two instruments side by side,
 * {@link org.tonewedge.examples.densitometer.GoldenVectorsProgram} writes vectors to test a firmware with, and
 * {@link org.tonewedge.examples.densitometer.DemoLogs} makes the invented demo logs.
 */
package org.tonewedge.examples.densitometer;
