// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.Map;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Temperature;

/**
 * How the rate of development changes with temperature, for example 1.9 times faster for 10 K more.
 *
 * <p>A stated law has no tested temperatures and answers for all; {@link ContrastFit} guards its own range. Equivalent
 * times compose: converting from A to B and on to C is the same as from A to C, and converting back gives the original
 * time, to the nanosecond of a {@link Duration}.
 *
 * <p>Immutable and thread safe; treat as a value.
 */
public final class TemperatureLaw {

    private static final double SEVEN_KELVIN = 7;

    private final TemperatureRule rule;
    /** E in kJ/mol, or ln Q₁₀. */
    private final double parameter;

    private TemperatureLaw(TemperatureRule rule, double parameter) {
        this.rule = rule;
        this.parameter = parameter;
    }

    static TemperatureLaw of(TemperatureRule rule, double parameter) {
        return new TemperatureLaw(rule, parameter);
    }

    /**
     * Returns Arrhenius's law.
     *
     * @param kilojoulesPerMole the activation energy, finite
     * @return the law
     * @throws IllegalArgumentException if the energy is not finite
     * @units kJ/mol
     */
    public static TemperatureLaw ofActivationEnergy(double kilojoulesPerMole) {
        return new TemperatureLaw(
                TemperatureRule.ARRHENIUS, Checks.finite("activation energy in kJ/mol", kilojoulesPerMole));
    }

    /**
     * Returns the law of a temperature coefficient.
     *
     * @param factor the factor by which the rate grows, above 0
     * @param kelvins the number of degrees, above 0; 10 for the usual Q<sub>10</sub>
     * @return the law
     * @throws IllegalArgumentException if a number is not finite and above 0
     */
    public static TemperatureLaw ofCoefficient(double factor, double kelvins) {
        return new TemperatureLaw(
                TemperatureRule.COEFFICIENT,
                Math.log(Checks.positive("temperature coefficient", factor))
                        * 10
                        / Checks.positive("degrees of a temperature coefficient", kelvins));
    }

    /**
     * Returns the law of a temperature coefficient as defined in 1920: the factor of time for seven degrees Celsius, so
     * that Q<sub>10</sub> = c<sup>10/7</sup>.
     *
     * @param factor the factor for seven degrees, above 0
     * @return the law
     * @throws IllegalArgumentException if the factor is not a finite number above 0
     * @source H. E. Ives, Airplane Photography (1920), chapter on development
     */
    public static TemperatureLaw ofSevenDegreeCoefficient(double factor) {
        return ofCoefficient(factor, SEVEN_KELVIN);
    }

    /**
     * Returns the law given by two times that produce the same contrast.
     *
     * @param rule the kind of law
     * @param time the time at one temperature, above 0
     * @param at that temperature
     * @param sameTime the time at the other, above 0
     * @param sameAt the other temperature
     * @return the law
     * @throws IllegalArgumentException if a time is not above 0 or the temperatures are equal
     */
    public static TemperatureLaw ofEquivalentTimes(
            TemperatureRule rule, Duration time, Temperature at, Duration sameTime, Temperature sameAt) {
        Objects.requireNonNull(rule, "rule");
        Objects.requireNonNull(sameTime, "sameTime");
        Objects.requireNonNull(sameAt, "sameAt");
        double rate = 1 / Checks.positive("time in minutes", DevelopmentTimes.minutes(time));
        double sameRate = 1 / Checks.positive("time in minutes", DevelopmentTimes.minutes(sameTime));
        if (at.equals(sameAt)) {
            throw new IllegalArgumentException(
                    "a temperature law needs two different temperatures, both were " + DevelopmentTimes.inWords(at));
        }
        return new TemperatureLaw(rule, Math.log(sameRate / rate) / rule.between(at, sameAt));
    }

    /**
     * Returns the law of rate constants at several temperatures: the least-squares line of ln k against 1/T or T.
     *
     * @param rule the kind of law
     * @param rates the rate constant at each temperature, at least two, each above 0, all in the same unit
     * @return the law; through two rates it is exact
     * @throws IllegalArgumentException if there are fewer than two rates or one is not a finite number above 0
     */
    public static TemperatureLaw ofRates(TemperatureRule rule, Map<Temperature, Double> rates) {
        Objects.requireNonNull(rule, "rule");
        if (rates.size() < 2) {
            throw new IllegalArgumentException(
                    "a temperature law needs rates at two temperatures or more, had " + rates.size());
        }
        Temperature origin = rates.keySet().iterator().next();
        double n = rates.size();
        double sumX = 0;
        double sumY = 0;
        double sumXx = 0;
        double sumXy = 0;
        for (Map.Entry<Temperature, Double> entry : rates.entrySet()) {
            double x = rule.between(origin, entry.getKey());
            double y = Math.log(
                    Checks.positive("rate constant at " + DevelopmentTimes.inWords(entry.getKey()), entry.getValue()));
            sumX += x;
            sumY += y;
            sumXx += x * x;
            sumXy += x * y;
        }
        return new TemperatureLaw(rule, (sumXy - sumX * sumY / n) / (sumXx - sumX * sumX / n));
    }

    /**
     * Returns the kind of law.
     *
     * @return the rule
     */
    public TemperatureRule rule() {
        return rule;
    }

    /**
     * Returns how much faster development is at another temperature.
     *
     * @param from one temperature
     * @param to the other
     * @return k(to) / k(from)
     */
    public double rateRatio(Temperature from, Temperature to) {
        return Math.exp(parameter * rule.between(from, to));
    }

    /**
     * Returns the time at another temperature that gives the same contrast: t<sub>2</sub> = t<sub>1</sub>
     * k(T<sub>1</sub>)/k(T<sub>2</sub>).
     *
     * @param time the time
     * @param from its temperature
     * @param to the other temperature
     * @return the equivalent time; see {@link Caution} before using it
     */
    public Duration equivalentTime(Duration time, Temperature from, Temperature to) {
        Objects.requireNonNull(from, "from");
        Objects.requireNonNull(to, "to");
        return DevelopmentTimes.ofMinutes(DevelopmentTimes.minutes(time) * rateRatio(to, from));
    }

    /**
     * Returns the temperature coefficient between two temperatures that lie symmetrically about a third.
     *
     * @param kelvins the distance of the two, above 0; 10 for Q<sub>10</sub>
     * @param about the temperature halfway between them; it matters only for Arrhenius's law
     * @return the factor by which the rate grows
     * @throws IllegalArgumentException if the distance is not above 0 or an end is not a possible bath temperature
     */
    public double coefficient(double kelvins, Temperature about) {
        double half = Checks.positive("degrees of a temperature coefficient", kelvins) / 2;
        return rateRatio(Temperature.ofCelsius(about.celsius() - half), Temperature.ofCelsius(about.celsius() + half));
    }

    /**
     * Returns the activation energy.
     *
     * @param about the temperature at which a temperature coefficient is converted; it does not matter for Arrhenius's
     *     law
     * @return E = R T² d ln k/dT
     * @units kJ/mol
     */
    public double activationEnergy(Temperature about) {
        Objects.requireNonNull(about, "about");
        return rule == TemperatureRule.ARRHENIUS
                ? parameter
                : parameter / 10 * TemperatureRule.MOLAR_GAS_CONSTANT * about.kelvin() * about.kelvin();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TemperatureLaw that && rule == that.rule && parameter == that.parameter;
    }

    @Override
    public int hashCode() {
        return Objects.hash(rule, parameter);
    }

    /**
     * Returns the law in words.
     *
     * @return for example {@code rate × 1.90 for 10 K} or {@code activation energy 52.0 kJ/mol}
     */
    @Override
    public String toString() {
        return rule == TemperatureRule.ARRHENIUS
                ? "activation energy " + Math.rint(parameter * 10) / 10 + " kJ/mol"
                : "rate × " + Figures.plain(Math.rint(Math.exp(parameter) * 100) / 100) + " for 10 K";
    }
}
