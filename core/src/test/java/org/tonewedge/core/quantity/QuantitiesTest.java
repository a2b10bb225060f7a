// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantitiesTest {

    private static final ExposureAxis RELATIVE = ExposureAxis.relativeTo("frame 1");

    /** Radiography in Modern Industry, page 65: transmittance and density, densities printed to one decimal. */
    @ParameterizedTest
    @CsvSource({"1.0, 0", "0.50, 0.3", "0.25, 0.6", "0.10, 1.0", "0.01, 2.0", "0.001, 3.0", "0.0001, 4.0"})
    void densityOfATransmittance(double transmittance, double printed) {
        Density density = Density.ofTransmittance(transmittance);
        assertEquals(printed, density.value(), 0.05);
        assertEquals(transmittance, density.transmittance(), 1e-12);
        assertEquals(1 / transmittance, density.opacity(), 1e-9 / transmittance);
    }

    /** The same book, page 70: exposures 1 and 5, 2 and 10, 30 and 150 all differ by log 0.70. */
    @ParameterizedTest
    @CsvSource({"1, 5", "2, 10", "30, 150"})
    void equalRatiosAreEqualIntervals(double less, double more) {
        ExposureInterval interval = LogExposure.ofLuxSeconds(more).minus(LogExposure.ofLuxSeconds(less));
        assertEquals(0.70, interval.logUnits(), 0.005);
        assertEquals(5, interval.ratio(), 1e-12);
    }

    @Test
    void anIntervalSpeaksStopsLogUnitsAndRatio() {
        assertEquals(Math.log10(2), ExposureInterval.ofStops(1).logUnits(), 1e-16);
        assertEquals(3, ExposureInterval.ofRatio(8).stops(), 1e-12);
        assertEquals(2, ExposureInterval.ofStops(1).ratio(), 1e-12);
        assertEquals(
                ExposureInterval.ofLogUnits(0.75),
                ExposureInterval.ofLogUnits(0.5).plus(ExposureInterval.ofLogUnits(0.25)));
        assertEquals(
                ExposureInterval.ofLogUnits(-0.75),
                ExposureInterval.ofLogUnits(0.25).times(3).negated());
    }

    @Test
    void pointsAndIntervalsAddUp() {
        LogExposure a = LogExposure.ofLogLuxSeconds(-2.25);
        LogExposure b = LogExposure.ofLogLuxSeconds(-1.75);
        assertEquals(0.5, b.minus(a).logUnits());
        assertEquals(b, a.plus(b.minus(a)));
        assertEquals(a, b.minus(b.minus(a)));
        assertTrue(a.isBelow(b));
        assertTrue(a.isWithin(b, 0.5));
        assertFalse(a.isWithin(b, 0.49));
    }

    @Test
    void axesDoNotMix() {
        LogExposure absolute = LogExposure.ofLogLuxSeconds(-2);
        LogExposure relative = new LogExposure(-2, RELATIVE);
        assertNotEquals(absolute, relative);
        String message = assertThrows(IllegalArgumentException.class, () -> absolute.minus(relative))
                .getMessage();
        assertTrue(message.contains("lx·s") && message.contains("relative to frame 1"), message);
        assertThrows(IllegalArgumentException.class, () -> absolute.isBelow(relative));
        assertThrows(IllegalArgumentException.class, () -> absolute.isWithin(relative, 1));
        assertEquals(RELATIVE, ExposureAxis.relativeTo(" frame 1 "));
        assertNotEquals(ExposureAxis.LUX_SECONDS, ExposureAxis.relativeTo("lux seconds"));
    }

    @Test
    void densityAboveBasePlusFogReadsLikeThat() {
        Density speedPoint = DensityDifference.of(0.25).above(Density.of(0.25));
        assertEquals(Density.of(0.5), speedPoint);
        assertEquals(DensityDifference.of(0.25), speedPoint.minus(Density.of(0.25)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void notANumberNeverEnters(double bad) {
        assertThrows(IllegalArgumentException.class, () -> Density.of(bad));
        assertThrows(IllegalArgumentException.class, () -> DensityDifference.of(bad));
        assertThrows(IllegalArgumentException.class, () -> Density.ofTransmittance(bad));
        assertThrows(IllegalArgumentException.class, () -> LogExposure.ofLogLuxSeconds(bad));
        assertThrows(IllegalArgumentException.class, () -> LogExposure.ofLuxSeconds(bad));
        assertThrows(IllegalArgumentException.class, () -> ExposureInterval.ofStops(bad));
        assertThrows(IllegalArgumentException.class, () -> ExposureInterval.ofLogUnits(bad));
        assertThrows(IllegalArgumentException.class, () -> ExposureInterval.ofRatio(bad));
        assertThrows(IllegalArgumentException.class, () -> ExposureInterval.ZERO.times(bad));
        assertThrows(IllegalArgumentException.class, () -> Gradient.of(bad));
        assertThrows(IllegalArgumentException.class, () -> Estimate.of(bad, 0.1));
        assertThrows(IllegalArgumentException.class, () -> Estimate.of(0.1, bad));
        assertThrows(IllegalArgumentException.class, () -> Temperature.ofCelsius(bad));
    }

    @Test
    void wrongUnitsAreLoud() {
        assertTrue(message(() -> Density.of(42)).contains("percentage"));
        assertTrue(message(() -> Density.of(-0.3)).contains("open gate"));
        assertTrue(message(() -> LogExposure.ofLogLuxSeconds(128)).contains("decimal logarithm"));
        assertTrue(message(() -> Temperature.ofCelsius(68)).contains("Fahrenheit"));
        assertTrue(message(() -> LogExposure.ofLuxSeconds(0)).contains("above 0"));
        assertTrue(message(() -> Estimate.of(1, -0.1)).contains("-0.1"));
        assertEquals(-0.02, Density.of(-0.02).value());
    }

    private static String message(org.junit.jupiter.api.function.Executable bad) {
        return assertThrows(IllegalArgumentException.class, bad).getMessage();
    }

    @Test
    void negativeZeroIsZero() {
        assertEquals(Density.of(0.0), Density.of(-0.0));
        assertEquals(ExposureInterval.ZERO, ExposureInterval.ofLogUnits(-0.0));
        assertEquals(LogExposure.ofLogLuxSeconds(0.0), LogExposure.ofLogLuxSeconds(-0.0));
        assertEquals(Gradient.of(0.0), Gradient.of(-0.0));
        assertEquals(Estimate.of(0.0, 0.0), Estimate.of(-0.0, -0.0));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            0.20,   +2/3 stop
            0.1003, +1/3 stop
            0.301,  +1 stop
            -0.40,  −1 1/3 stops
            0.45,   +1.49 stops
            -0.06,  −0.20 stop
            0,      0 stop
            """)
    void stopsAsThePractitionerWritesThem(double logUnits, String text) {
        assertEquals(text, ExposureInterval.ofLogUnits(logUnits).toString());
    }

    @Test
    void printedAsOnACurveSheet() {
        assertEquals("D 0.42", Density.of(0.42).toString());
        assertEquals("D 10.00", Density.of(10).toString());
        assertEquals("D 0.4237", Density.of(0.42368).toString());
        assertEquals("log H \u22122.10 lx·s", LogExposure.ofLogLuxSeconds(-2.1).toString());
        assertEquals("log H 1.35 relative to frame 1", new LogExposure(1.35, RELATIVE).toString());
        assertEquals("ΔD +0.10", DensityDifference.of(0.1).toString());
        assertEquals("ΔD 0.00", DensityDifference.of(-0.00001).toString());
        assertEquals("G 0.62", Gradient.of(0.62).toString());
        assertEquals("0.620 ± 0.010 (k = 1)", Estimate.of(0.62, 0.01).toString());
        assertEquals("20.00 °C", Temperature.ofCelsius(20).toString());
    }

    @Test
    void gradientOfAStraightLine() {
        assertEquals(Gradient.of(0.5), Gradient.between(DensityDifference.of(0.75), ExposureInterval.ofLogUnits(1.5)));
        assertThrows(
                IllegalArgumentException.class,
                () -> Gradient.between(DensityDifference.of(0.75), ExposureInterval.ZERO));
    }

    @Test
    void expandedUncertainty() {
        assertEquals(0.006, Estimate.of(1, 0.003).expandedUncertainty(2), 1e-15);
        assertThrows(IllegalArgumentException.class, () -> Estimate.of(1, 0.003).expandedUncertainty(0));
    }

    @Test
    void temperatureScales() {
        // Definitions: 68 °F = 20 °C; 0 °C = 273.15 K.
        assertEquals(20, Temperature.ofFahrenheit(68).celsius(), 1e-12);
        assertEquals(293.15, Temperature.ofCelsius(20).kelvin(), 1e-12);
    }

    /** Quantiles at 0.975 and 0.995: SciPy 1.17.1, {@code stats.t.ppf(p, nu)} and {@code stats.norm.ppf(0.975)}. */
    @ParameterizedTest
    @CsvSource({
        "1, 12.706204736174694, 63.656741162871526",
        "1.5, 6.016663104427929, 17.820310514462804",
        "2, 4.302652729749462, 9.924843200918287",
        "3, 3.1824463052837078, 5.840909309733355",
        "5, 2.5705818356363146, 4.032142983555228",
        "10, 2.228138851986274, 3.16927267261695",
        "30, 2.0422724563012378, 2.7499956535672254",
        "1000, 1.9623390808264083, 2.580754698065951",
        "Infinity, 1.959963984540054, 2.5758293035489004",
    })
    void anIntervalReachesStudentsTStandardUncertainties(double freedom, double at95, double at99) {
        Estimate estimate = Estimate.of(10, 1, freedom);
        assertEquals(10 + at95, estimate.interval(0.95).upper(), 1e-6 * at95);
        assertEquals(10 - at99, estimate.interval(0.99).lower(), 1e-6 * at99);
    }

    @Test
    void anIntervalNeedsADegreeOfFreedomAndAConfidence() {
        assertTrue(message(() -> Estimate.of(1, 0.1, 0)).contains("degrees of freedom"));
        assertTrue(message(() -> Estimate.of(1, 0.1, 0.5).interval(0.95)).contains("1 or more degrees of freedom"));
        assertTrue(message(() -> Estimate.of(1, 0.1).interval(95)).contains("0.95 for 95 %"));
        assertEquals("0.80 to 1.20 (95 %)", new CoverageInterval(0.8, 1.2, 0.95).toString());
    }

    /** Student's t of 10 degrees of freedom at 95 %: 2.228 (JCGM 100:2008, table G.2, prints 2.23; any longer table). */
    @Test
    void intervalsAreTTimesTheUncertainty() {
        CoverageInterval interval = Estimate.of(0.6, 0.02, 10).interval(0.95);
        assertEquals(0.6 - 2.228 * 0.02, interval.lower(), 1e-5);
        assertEquals(0.6 + 2.228 * 0.02, interval.upper(), 1e-5);
    }

    /**
     * Of three independent parts, u = 0.25, 0.57 and 0.82 with 9, 4 and 14 degrees of freedom, together 1.03 with 19.0: the
     * example of JCGM 100:2008, G.4.1. Two differences in turn add all three.
     */
    @Test
    void aDifferenceAddsUncertaintiesInSquares() {
        Estimate difference =
                Estimate.of(7, 0.25, 9).minus(Estimate.of(2, 0.57, 4)).minus(Estimate.of(1, 0.82, 14));
        assertEquals(4, difference.value(), 1e-15);
        assertEquals(1.03, difference.standardUncertainty(), 0.005);
        assertEquals(19.0, difference.degreesOfFreedom(), 0.05);
        assertEquals(
                Double.POSITIVE_INFINITY,
                Estimate.of(7, 0.3).minus(Estimate.of(2, 0.4)).degreesOfFreedom());
        assertEquals(Estimate.of(5, 0), Estimate.of(7, 0).minus(Estimate.of(2, 0)));
    }

    @Test
    void belowIsLess() {
        assertTrue(LogExposure.ofLogLuxSeconds(-2).isBelow(LogExposure.ofLogLuxSeconds(-1.9)));
        assertFalse(LogExposure.ofLogLuxSeconds(-2).isBelow(LogExposure.ofLogLuxSeconds(-2)));
        assertFalse(LogExposure.ofLogLuxSeconds(-1.9).isBelow(LogExposure.ofLogLuxSeconds(-2)));
    }
}
