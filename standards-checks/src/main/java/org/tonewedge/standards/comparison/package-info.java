// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * All figures of a strip, and its comparison with a reference.
 *
 * <p>Start at {@link org.tonewedge.standards.comparison.FilmComparison}.
 *
 * <p>How often 95 % intervals held the truth, and how far the figure was off on average, in 80 simulated jobs of five films
 * each, of the family, of two layers and upswept, read to two decimals with errors of 0.01 and drawn by the comparison program
 * of the examples; two standard errors are 2 points ({@code PublishedFiguresSimulation 80} in its tests, with {@code USUAL},
 * {@code ONE_BASE}, {@code COARSE} and {@code THROUGH}). Curves through the readings are too sure, because the gradient beside
 * which a reading counts is itself noisy: draw a fit.
 *
 * <table>
 * <caption>Coverage and bias of published figures</caption>
 * <tr><th>figure</th><th>21 steps, 2 of base</th><th>21 steps, 1 of base</th><th>13 steps, 3 of base</th>
 * <th>through the readings, 21 steps</th></tr>
 * <tr><td>base plus fog</td><td>96.0 %</td><td>95.2 %</td><td>97.0 %</td><td>94.5 %</td></tr>
 * <tr><td>greatest density</td><td>95.8 %</td><td>96.0 %</td><td>97.8 %</td><td>94.5 %</td></tr>
 * <tr><td>log H of the speed point</td><td>97.3 %, −0.008</td><td>96.7 %, −0.004</td><td>98.3 %, −0.016</td><td>91.8 %, −0.001</td></tr>
 * <tr><td>stops from the reference</td><td>97.8 %, +0.015</td><td>98.7 %, +0.025</td><td>97.5 %, +0.046</td><td>95.0 %, −0.010</td></tr>
 * <tr><td>stops between other films</td><td>96.7 %</td><td>97.3 %</td><td>98.3 %</td><td>91.9 %</td></tr>
 * <tr><td>ΔD over 1.30</td><td>97.0 %, −0.006</td><td>95.2 %, −0.003</td><td>96.5 %, −0.012</td><td>91.0 %, 0.000</td></tr>
 * <tr><td>average gradient</td><td>97.2 %, −0.005</td><td>95.7 %, −0.003</td><td>97.0 %, −0.009</td><td>92.1 %, 0.000</td></tr>
 * <tr><td>contrast index</td><td>99.0 %, −0.004</td><td>95.7 %, −0.003</td><td>97.3 %, −0.007</td><td>93.6 %, −0.001</td></tr>
 * <tr><td>gamma, given for 93 % or more</td><td>97.0 %, −0.004</td><td>97.9 %, −0.004</td><td>97.8 %, −0.013</td><td>refused</td></tr>
 * <tr><td>toe length, for 71 to 79 %</td><td>94.1 %, −0.035</td><td>95.9 %, −0.023</td><td>97.6 %, −0.052</td><td>refused</td></tr>
 * <tr><td>print exposure, stops</td><td>96.9 %</td><td>96.9 %</td><td>98.4 %</td><td>94.7 %</td></tr>
 * </table>
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.comparison;
