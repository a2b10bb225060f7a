// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Charts as publishable files, for the programs of this module: laid out once, then written as SVG and painted as PNG.
 *
 * <p>A chart needs no font of the machine and knows no locale, so it is the same everywhere.
 */
package org.tonewedge.examples.chart;
