// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The comparison of film strips with a reference: the program, its report and its invented demo data.
 *
 * <p>To see what fitting costs a run, time the command {@code java
 * org.tonewedge.examples.comparison.FilmComparisonProgram examples/demo/strips.csv --reference S01 --no-plots --out DIR
 * --curve} {@code fit}, {@code spline} or {@code through}, in turns.
 */
package org.tonewedge.examples.comparison;
