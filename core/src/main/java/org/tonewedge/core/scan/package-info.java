/**
 * Regions of scanned film. The caller reads the image file and passes the pixels as an array.
 */
package org.tonewedge.core.scan;
