// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Calibrating a densitometer at an open gate and a few film steps, and how accurate that can be:
 * {@link org.tonewedge.standards.densitometer.calibration.DensitometerCalibration}.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.calibration;
