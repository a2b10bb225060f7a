// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Records readings as they are taken: between the densitometer and the table.
 *
 * <p>A {@link org.tonewedge.examples.recorder.RecorderProgram} takes lines from a device, a pipe or the keyboard; each
 * accepted reading is on disk before the next is asked for.
 */
package org.tonewedge.examples.recorder;
