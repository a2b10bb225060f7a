// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.Serializable;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;

/**
 * The one error of a correction that does not tell its errors by source.
 *
 * @param correction what gives the standard uncertainty
 */
record SameSignError(ReadingCorrection correction) implements DoubleUnaryOperator, Serializable {

    @Override
    public double applyAsDouble(double density) {
        return correction.standardUncertainty(Density.of(density));
    }
}
