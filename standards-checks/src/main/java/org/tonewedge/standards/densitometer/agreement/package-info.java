// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Two densitometers that read the same samples: how far they agree
 * ({@link org.tonewedge.standards.densitometer.agreement.LimitsOfAgreement}), and the line that converts the readings
 * of one into those of the other ({@link org.tonewedge.standards.densitometer.agreement.DemingRegression}).
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.densitometer.agreement;
