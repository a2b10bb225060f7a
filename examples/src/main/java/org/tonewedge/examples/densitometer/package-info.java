// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The densitometer check in the terminal: {@link org.tonewedge.examples.densitometer.DensitometerCheckProgram} judges a log,
 * {@link org.tonewedge.examples.densitometer.GoldenVectorsProgram} writes vectors to test a firmware with, and
 * {@link org.tonewedge.examples.densitometer.DemoLogs} makes the invented demo logs.
 */
package org.tonewedge.examples.densitometer;
