/**
 * What a printer does with curves: one material is printed beside another.
 *
 * <p>Enter at {@link org.tonewedge.core.tone.PrintExposure}.
 */
package org.tonewedge.core.tone;
