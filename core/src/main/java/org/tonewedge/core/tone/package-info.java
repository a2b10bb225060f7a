// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * What a printer does with curves: how one material prints beside another.
 *
 * <p>Start from your question:
 *
 * <ul>
 *   <li>which frame of a bracket matches the reference: {@link org.tonewedge.core.tone.ShadowMatch};
 *   <li>how to change the printing exposure: {@link org.tonewedge.core.tone.PrintExposure}, and in seconds
 *       {@link org.tonewedge.core.tone.PrintTime};
 *   <li>which colours come out lighter or darker: {@link org.tonewedge.core.tone.PatchRendering};
 *   <li>how the tones of the subject come out in the print: {@link org.tonewedge.core.tone.ToneReproduction};
 *   <li>which paper fits the negative: {@link org.tonewedge.core.tone.PaperChoice};
 *   <li>how much range and latitude the film has: {@link org.tonewedge.core.tone.UsefulRange};
 *   <li>how grainy it is: {@link org.tonewedge.core.tone.GranularityMethod} and
 *       {@link org.tonewedge.core.tone.NoisePower}.
 * </ul>
 *
 * <p>All types are immutable and thread safe.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.core.tone;
