// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The numeric floor of the project: distributions, decompositions, linear least squares, error propagation and Akaike's
 * criterion, each once. The only room that knows Commons Math and EJML; none of their types leaves it. Only the project's
 * own modules may read it.
 */
package org.tonewedge.fitting.numeric;
