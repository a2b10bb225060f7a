// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import org.tonewedge.core.quantity.Temperature;

/**
 * How times at other temperatures are converted to times at the reference temperature: not at all, by a stated law, or
 * by a law whose parameter is fitted as the last parameter.
 */
final class RateWarp {

    /** Where the search for the parameter of a law starts: a factor of about 2 for 10 K. */
    private static final double USUAL_LOG_COEFFICIENT = 0.7;

    private final Temperature reference;
    private final TemperatureRule fitted;
    private final TemperatureLaw stated;
    /** The stated law if its parameter is greater by its standard uncertainty. */
    private final TemperatureLaw off;

    private RateWarp(Temperature reference, TemperatureRule fitted, TemperatureLaw stated, TemperatureLaw off) {
        this.reference = reference;
        this.fitted = fitted;
        this.stated = stated;
        this.off = off;
    }

    static RateWarp none(Temperature reference) {
        return new RateWarp(reference, null, null, null);
    }

    static RateWarp stated(Temperature reference, TemperatureLaw law) {
        return stated(reference, law, law);
    }

    static RateWarp stated(Temperature reference, TemperatureLaw law, TemperatureLaw off) {
        return new RateWarp(reference, null, law, off);
    }

    static RateWarp fitted(Temperature reference, TemperatureRule rule) {
        return new RateWarp(reference, rule, null, null);
    }

    /** Null if the temperature of the strips is not known. */
    Temperature reference() {
        return reference;
    }

    int size() {
        return fitted == null ? 0 : 1;
    }

    /** The law with the parameters of a fit; null if temperature plays no part. */
    TemperatureLaw law(double[] p) {
        return fitted == null ? stated : TemperatureLaw.of(fitted, p[p.length - 1]);
    }

    double start() {
        // Any two temperatures 10 K apart will do for a start.
        return USUAL_LOG_COEFFICIENT / fitted.between(Temperature.ofCelsius(20), Temperature.ofCelsius(30));
    }

    /** How much faster development is than at the reference temperature. */
    double factor(double[] p, Temperature at) {
        TemperatureLaw law = law(p);
        return law == null ? 1 : law.rateRatio(reference, at);
    }

    /** The standard uncertainty of the logarithm of that factor for a stated law; its sign is that of the law's change. */
    double uncertaintyOfLogFactor(Temperature at) {
        return stated == null || at == null
                ? 0
                : Math.log(off.rateRatio(reference, at) / stated.rateRatio(reference, at));
    }
}
