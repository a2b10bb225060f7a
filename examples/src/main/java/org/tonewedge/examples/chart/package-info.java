/** Charts as publishable files, for the programs of this module. */
package org.tonewedge.examples.chart;
