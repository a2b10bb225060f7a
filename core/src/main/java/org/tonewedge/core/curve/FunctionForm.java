// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;

/** A form given by two functions. */
final class FunctionForm implements CurveForm {

    private final DoubleUnaryOperator density;
    private final DoubleUnaryOperator gradient;

    FunctionForm(DoubleUnaryOperator density, DoubleUnaryOperator gradient) {
        this.density = Objects.requireNonNull(density, "density");
        this.gradient = Objects.requireNonNull(gradient, "gradient");
    }

    @Override
    public double density(double logExposure) {
        return density.applyAsDouble(logExposure);
    }

    @Override
    public double gradient(double logExposure) {
        return gradient.applyAsDouble(logExposure);
    }
}
