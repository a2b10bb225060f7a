/** Detail of films from their scans: edges, bars, grain and patches. */
package org.tonewedge.examples.detail;
