// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Watching a densitometer over weeks: the readings of one check piece on a control chart, whose limits come from the first
 * weeks. Begin with {@link org.tonewedge.standards.densitometer.control.ControlChart}.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.control;
