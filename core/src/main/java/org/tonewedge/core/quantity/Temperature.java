// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * The temperature of a processing bath, such as 20 °C.
 *
 * <p>Values from 0 °C to 60 °C are accepted. Outside them a bath is frozen, or the value was in degrees Fahrenheit. The
 * limits are common practice, no source.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param celsius degrees Celsius
 * @units degrees Celsius
 */
public record Temperature(double celsius) implements Comparable<Temperature>, Serializable {

    private static final double HIGHEST = 60;
    private static final double KELVIN_AT_ZERO_CELSIUS = 273.15;

    /**
     * Checks the temperature.
     *
     * @param celsius degrees Celsius, from 0 to 60
     * @throws IllegalArgumentException if it is NaN or outside 0 to 60
     */
    public Temperature {
        celsius = Checks.within(
                "temperature in degrees Celsius",
                celsius,
                0,
                HIGHEST,
                "a bath is never that warm or cold; were these degrees Fahrenheit?");
    }

    /**
     * Returns a temperature in degrees Celsius.
     *
     * @param celsius degrees Celsius, from 0 to 60
     * @return the temperature
     * @throws IllegalArgumentException as the constructor does
     */
    public static Temperature ofCelsius(double celsius) {
        return new Temperature(celsius);
    }

    /**
     * Returns a temperature given in degrees Fahrenheit.
     *
     * @param fahrenheit degrees Fahrenheit, from 32 to 140
     * @return the temperature
     * @throws IllegalArgumentException as the constructor does
     */
    public static Temperature ofFahrenheit(double fahrenheit) {
        return new Temperature((fahrenheit - 32) * 5 / 9);
    }

    /**
     * Returns the thermodynamic temperature.
     *
     * @return kelvin
     */
    public double kelvin() {
        return celsius + KELVIN_AT_ZERO_CELSIUS;
    }

    @Override
    public int compareTo(Temperature other) {
        return Double.compare(celsius, other.celsius);
    }

    /**
     * Returns the temperature as written on a processing sheet.
     *
     * @return for example {@code 20.00 °C}
     */
    @Override
    public String toString() {
        return Figures.plain(celsius) + " °C";
    }
}
