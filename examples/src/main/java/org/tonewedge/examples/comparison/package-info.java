/** The comparison of film strips with a reference: the program, its report and its invented demo data. */
package org.tonewedge.examples.comparison;
