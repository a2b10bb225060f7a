// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import org.tonewedge.core.quantity.Temperature;

/** How the rate of development is assumed to change with temperature. Within a few degrees the two rules agree. */
public enum TemperatureRule {
    /**
     * Arrhenius: ln k is linear in 1/T, k = A exp(−E/(R T)), where T is in kelvin, E is the activation energy in kJ/mol
     * and R = 8.314462618 J/(mol K) (CODATA 2018, exact in the SI).
     */
    ARRHENIUS {
        @Override
        double between(Temperature from, Temperature to) {
            return (1 / from.kelvin() - 1 / to.kelvin()) / MOLAR_GAS_CONSTANT;
        }
    },
    /** A temperature coefficient: the rate grows by the same factor for each 10 K, k = k₀ Q<sub>10</sub><sup>(T−T₀)/10</sup>. */
    COEFFICIENT {
        @Override
        double between(Temperature from, Temperature to) {
            return (to.celsius() - from.celsius()) / 10;
        }
    };

    /** kJ/(mol K). */
    static final double MOLAR_GAS_CONSTANT = 8.314462618e-3;

    /** The factor of the law's parameter in ln(k(to)/k(from)); in the other direction only its sign changes. */
    abstract double between(Temperature from, Temperature to);
}
