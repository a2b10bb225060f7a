// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Temperature;

class ClosedFormsTest {

    private static final Temperature TWENTY = Temperature.ofCelsius(20);
    private static final Temperature TWENTY_SEVEN = Temperature.ofCelsius(27);

    /** H. E. Ives, Airplane Photography (1920): the coefficient is the factor of time for 7 °C; Q10 = c^(10/7) (computed). */
    @Test
    void theCoefficientOf1920() {
        TemperatureLaw law = TemperatureLaw.ofSevenDegreeCoefficient(1.7);
        assertEquals(Math.pow(1.7, 10.0 / 7), law.coefficient(10, TWENTY), 1e-12);
        assertEquals(1.7, law.rateRatio(TWENTY, TWENTY_SEVEN), 1e-12);
        assertEquals(Duration.ofMinutes(10), law.equivalentTime(Duration.ofMinutes(17), TWENTY, TWENTY_SEVEN));
    }

    /** By hand: t2 = t1 Q10^((T1 − T2)/10), the definition of Q10. */
    @Test
    void equivalentTimeByCoefficient() {
        TemperatureLaw law = TemperatureLaw.ofCoefficient(2, 10);
        assertEquals(
                8 * Math.pow(2, -0.4),
                DevelopmentTimes.minutes(law.equivalentTime(Duration.ofMinutes(8), TWENTY, Temperature.ofCelsius(24))),
                1e-9);
    }

    /** E = R ln(k2/k1)/(1/T1 − 1/T2); for a doubling from 20 °C to 30 °C with R = 8.314462618 J/(mol K). */
    @Test
    void arrheniusByHand() {
        double energy = 8.314462618e-3 * Math.log(2) / (1 / 293.15 - 1 / 303.15);
        TemperatureLaw law = TemperatureLaw.ofActivationEnergy(energy);
        assertEquals(2, law.rateRatio(TWENTY, Temperature.ofCelsius(30)), 1e-12);
        assertEquals(2, law.coefficient(10, Temperature.ofCelsius(25)), 1e-12);
        assertEquals(energy, law.activationEnergy(TWENTY), 0);
        assertEquals(energy, 51.2, 0.05);
    }

    @Test
    void lawsFromRatesAndTimes() {
        for (TemperatureRule rule : TemperatureRule.values()) {
            TemperatureLaw truth = TemperatureLaw.of(rule, rule == TemperatureRule.ARRHENIUS ? 60 : 0.7);
            Map<Temperature, Double> rates = new LinkedHashMap<>();
            for (double celsius : new double[] {18, 20, 21.5, 24, 28}) {
                Temperature at = Temperature.ofCelsius(celsius);
                rates.put(at, 0.12 * truth.rateRatio(TWENTY, at));
            }
            assertEquals(
                    truth.coefficient(10, TWENTY),
                    TemperatureLaw.ofRates(rule, rates).coefficient(10, TWENTY),
                    1e-9);
            Duration ten = Duration.ofMinutes(10);
            TemperatureLaw found = TemperatureLaw.ofEquivalentTimes(
                    rule, ten, TWENTY, truth.equivalentTime(ten, TWENTY, TWENTY_SEVEN), TWENTY_SEVEN);
            assertEquals(truth.coefficient(10, TWENTY), found.coefficient(10, TWENTY), 1e-7);
            assertNotEquals(truth, TemperatureLaw.of(rule, 0.1));
        }
        assertThrows(
                IllegalArgumentException.class,
                () -> TemperatureLaw.ofRates(TemperatureRule.ARRHENIUS, Map.of(TWENTY, 0.1)));
        assertThrows(
                IllegalArgumentException.class,
                () -> TemperatureLaw.ofEquivalentTimes(
                        TemperatureRule.ARRHENIUS, Duration.ofMinutes(5), TWENTY, Duration.ofMinutes(4), TWENTY));
        assertThrows(IllegalArgumentException.class, () -> TemperatureLaw.ofCoefficient(-1, 10));
    }

    /** By hand: twice the rate at 30 °C as at 20 °C is the coefficient 2 for 10 K. */
    @Test
    void twoRatesGiveTheirLaw() {
        Map<Temperature, Double> rates = Map.of(TWENTY, 0.1, Temperature.ofCelsius(30), 0.2);
        TemperatureLaw law = TemperatureLaw.ofRates(TemperatureRule.COEFFICIENT, rates);
        assertEquals(2, law.coefficient(10, TWENTY), 1e-12);
    }

    /** A time is called short below 4 min (own choice, no source). */
    @Test
    void fourMinutesAreNotShort() {
        assertEquals(
                List.of(Caution.CONFIRM, Caution.SAME_CONDITIONS, Caution.CHEMICALS),
                Caution.of(Duration.ofMinutes(4), Scope.TESTED));
        assertTrue(Caution.of(Duration.ofSeconds(239), Scope.TESTED).contains(Caution.SHORT_TIME));
    }

    @ParameterizedTest
    @CsvSource({"555, 9 min 15 s", "540, 9 min", "45, 45 s", "59.6, 1 min", "4500, 75 min", "0, 0 s"})
    void timesAreWrittenAsInTheDarkroom(double seconds, String words) {
        assertEquals(words, DevelopmentTimes.inWords(Duration.ofMillis(Math.round(seconds * 1000))));
    }

    @Test
    void roundingToTheClock() {
        Duration step = Duration.ofSeconds(5);
        assertEquals(Duration.ofSeconds(555), DevelopmentTimes.rounded(Duration.ofSeconds(557), step));
        assertEquals(step, DevelopmentTimes.rounded(Duration.ofSeconds(1), step));
        assertThrows(
                IllegalArgumentException.class, () -> DevelopmentTimes.rounded(Duration.ofSeconds(1), Duration.ZERO));
        assertEquals("20.5 °C", DevelopmentTimes.inWords(Temperature.ofCelsius(20.5)));
        assertEquals("20 °C", DevelopmentTimes.inWords(TWENTY));
        assertTrue(TemperatureLaw.ofCoefficient(1.9, 10).toString().contains("1.90 for 10 K"));
    }
}
