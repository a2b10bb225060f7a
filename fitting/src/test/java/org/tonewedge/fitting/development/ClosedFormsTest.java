// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Temperature;

class ClosedFormsTest {

    private static final Temperature TWENTY = Temperature.ofCelsius(20);
    private static final Temperature TWENTY_SEVEN = Temperature.ofCelsius(27);

    private static DevelopmentFailure failure(Runnable question) {
        return assertThrows(DevelopmentException.class, question::run).failure();
    }

    /** Closed form: 1.80 (1 − exp(−0.10 t)) after 5 and 10 minutes. */
    @Test
    void timeAndTwiceTheTime() {
        ExponentialApproach approach =
                ExponentialApproach.throughDoubledTime(Duration.ofMinutes(5), 0.7082448125172599, 1.1378170058914039);
        assertEquals(1.80, approach.ceiling(), 1e-12);
        assertEquals(0.10, approach.ratePerMinute(), 1e-13);
        assertEquals(0.7082448125172599, approach.contrastAfter(Duration.ofMinutes(5)), 1e-14);
        assertEquals(10, DevelopmentTimes.minutes(approach.timeFor(1.1378170058914039)), 1e-10);
    }

    /** Algebra: the closed form holds for g1 < g2 < 2 g1 alone; both borders belong to the refusals. */
    @Test
    void refusalsOfTheClosedForm() {
        Duration five = Duration.ofMinutes(5);
        assertEquals(
                DevelopmentFailure.CONTRAST_FALLS,
                failure(() -> ExponentialApproach.throughDoubledTime(five, 0.6, 0.6)));
        assertEquals(
                DevelopmentFailure.CONTRAST_FALLS,
                failure(() -> ExponentialApproach.throughDoubledTime(five, 0.6, 0.5)));
        assertEquals(
                DevelopmentFailure.NO_CEILING, failure(() -> ExponentialApproach.throughDoubledTime(five, 0.6, 1.2)));
        assertEquals(
                DevelopmentFailure.NO_CEILING, failure(() -> ExponentialApproach.throughDoubledTime(five, 0.6, 1.3)));
        assertThrows(
                IllegalArgumentException.class, () -> ExponentialApproach.throughDoubledTime(Duration.ZERO, 0.6, 0.7));
        assertThrows(
                IllegalArgumentException.class, () -> ExponentialApproach.throughDoubledTime(five, Double.NaN, 0.7));
        assertThrows(
                IllegalArgumentException.class, () -> ExponentialApproach.throughDoubledTime(five, 0.6, Double.NaN));
        assertThrows(
                IllegalArgumentException.class,
                () -> ExponentialApproach.through(five, 0.6, Duration.ofMinutes(4), 0.7));
        assertEquals(
                DevelopmentFailure.ABOVE_CEILING, failure(() -> new ExponentialApproach(0.9, 0.1, 0).timeFor(0.9)));
        assertThrows(
                IllegalArgumentException.class,
                () -> new ExponentialApproach(0.9, 0.1, 2).contrastAfter(Duration.ofMinutes(1)));
    }

    @ParameterizedTest
    @CsvSource({"0.1, 1.3", "0.1, 2", "0.1, 3.7", "0.5, 1.1", "0.003, 2.5", "1.2, 4"})
    void anyTwoTimes(double rate, double ratio) {
        ExponentialApproach truth = new ExponentialApproach(1.4, rate, 0);
        Duration first = Duration.ofMinutes(4);
        Duration second = Duration.ofMillis(Math.round(240_000 * ratio));
        ExponentialApproach found =
                ExponentialApproach.through(first, truth.contrastAfter(first), second, truth.contrastAfter(second));
        assertEquals(rate, found.ratePerMinute(), 1e-7 * rate);
        assertEquals(1.4, found.ceiling(), 1e-6);
    }

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
            assertEquals(truth.parameter(), TemperatureLaw.ofRates(rule, rates).parameter(), 1e-9);
            Duration ten = Duration.ofMinutes(10);
            TemperatureLaw found = TemperatureLaw.ofEquivalentTimes(
                    rule, ten, TWENTY, truth.equivalentTime(ten, TWENTY, TWENTY_SEVEN), TWENTY_SEVEN);
            assertEquals(truth.parameter(), found.parameter(), 1e-7);
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
