/**
 * Scans of film: which part of one is meant. Reading image files is left to the caller; what is read becomes an array.
 */
package org.tonewedge.core.scan;
