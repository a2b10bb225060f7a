/** The development plan: test strips in, times for stated contrasts out, as a table, plots and a page. */
package org.tonewedge.examples.development;
