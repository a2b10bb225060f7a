// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.ClosedFormCurve;

class Iso6Test {

    /** A straight line of a gradient whose speed point lies at a log exposure. */
    private static CharacteristicCurve line(double gradient, double speedPoint) {
        return ClosedFormCurve.line("line", 0.20, gradient, speedPoint - 0.10 / gradient);
    }

    /** By hand: Hm = 0.8 / S, and 1 + 10 log S degrees (ISO 6, from memory). */
    @ParameterizedTest
    @CsvSource(textBlock = """
            25,   14.9794, 15, 0.03200000
            64,   19.0618, 19, 0.01250000
            100,  21.0000, 21, 0.00800000
            125,  21.9691, 22, 0.00640000
            400,  27.0206, 27, 0.00200000
            3200, 36.0515, 36, 0.00025000
            """)
    void speedFromTheExposureOfTheSpeedPoint(double arithmetic, double exactDegrees, int degrees, double luxSeconds) {
        Iso6Speed speed = Iso6.withDefaults().determine(line(0.80 / 1.30, Math.log10(luxSeconds)));
        assertEquals(arithmetic, speed.exact(), 1e-9 * arithmetic);
        assertEquals(exactDegrees, speed.exactDegrees(), 0.5e-4);
        assertEquals(new IsoSpeed(arithmetic, degrees), speed.rounded());
        assertTrue(speed.conditionsMet());
    }

    /** 0.80 ± 0.05 over 1.30 log units: see the sources of {@link Iso6}. */
    @ParameterizedTest
    @CsvSource(textBlock = """
            0.7499, LOW
            0.7501, MET
            0.8499, MET
            0.8501, HIGH
            """)
    void contrastConditionAtTheEdgesOfItsTolerance(double contrast, Iso6Contrast.Verdict verdict) {
        Iso6Speed speed = Iso6.withDefaults().determine(line(contrast / 1.30, -2));
        assertEquals(verdict, speed.contrast().verdict());
        assertEquals(verdict == Iso6Contrast.Verdict.MET, speed.conditionsMet());
    }

    /** The limits themselves are within the tolerance, wherever the sums are rounded. */
    @ParameterizedTest
    @ValueSource(doubles = {0.75, 0.85})
    void theEndsOfTheToleranceAreWithinIt(double contrast) {
        for (int step = 0; step < 50; step++) {
            Iso6Speed speed = Iso6.withDefaults().determine(line(contrast / 1.30, -2.5 + 0.01 * step));
            assertEquals(Iso6Contrast.Verdict.MET, speed.contrast().verdict());
        }
    }

    @Test
    void theFigureOfASpeedIsItsDegrees() {
        Iso6Speed speed = Iso6.withDefaults().determine(line(0.80 / 1.30, Math.log10(0.008)));
        assertEquals(21, speed.figure(), 1e-9);
        assertEquals(0.8 / 1.3, speed.contrast().averageGradient().orElseThrow().value(), 1e-9);
    }

    /** The name of the standard stands only before a speed that meets its conditions, never before a bare number. */
    @Test
    void theNameOfTheStandardStandsOnlyWhereItsConditionsAreMet() {
        Iso6Speed low = Iso6.withDefaults().determine(line(0.4, -2));
        assertFalse(low.rounded().toString().contains("ISO"), low.rounded().toString());
        assertFalse(low.toString().startsWith("ISO"), low.toString());
        assertTrue(
                Iso6.withDefaults().determine(line(0.80 / 1.30, -2)).toString().startsWith("ISO "));
    }

    @Test
    void conditionsThatACurveCannotShowAreRecordedOrListed() {
        CharacteristicCurve curve = line(0.80 / 1.30, Math.log10(0.008));
        Iso6Speed bare = Iso6.withDefaults().determine(curve);
        assertEquals("ISO 100/21° (not stated: illuminant, exposure time, hold, storage)", bare.toString());
        TestConditions some =
                TestConditions.notStated().withIlluminant("daylight, 5500 K").withExposureTime(Duration.ofMillis(10));
        Iso6Speed told = Iso6.withDefaults().with(some).determine(curve);
        assertEquals(
                "ISO 100/21° (illuminant daylight, 5500 K, exposure time 1/100 s; not stated: hold, storage)",
                told.toString());
        assertEquals(List.of("hold", "storage"), told.testConditions().missing());
        TestConditions all = some.withHold(Duration.ofHours(3)).withStorage("8 months, 20 °C");
        assertTrue(all.missing().isEmpty());
        assertEquals(
                all,
                Iso6.withDefaults()
                        .with(all)
                        .withContrastTolerance(0.02)
                        .determine(curve)
                        .withUncertainty(1)
                        .testConditions());
        assertThrows(IllegalArgumentException.class, () -> some.withStorage(" "));
        assertThrows(IllegalArgumentException.class, () -> some.withExposureTime(Duration.ZERO));
        assertThrows(IllegalArgumentException.class, () -> some.withHold(Duration.ofMinutes(-1)));
    }

    @Test
    void aMissedConditionSaysWhatToChange() {
        Iso6Speed low = Iso6.withDefaults().determine(line(0.4, -2));
        assertTrue(low.toString().contains("not an ISO speed"), low.toString());
        assertTrue(low.conditions().get(0).remedy().contains("develop longer"));
        Iso6Speed high = Iso6.withDefaults().determine(line(1.0, -2));
        assertTrue(high.conditions().get(0).remedy().contains("develop less"));
    }

    @Test
    void toleranceCanBeNarrowedButNotWidened() {
        CharacteristicCurve curve = line(0.84 / 1.30, -2);
        assertTrue(Iso6.withDefaults().determine(curve).conditionsMet());
        assertFalse(
                Iso6.withDefaults().withContrastTolerance(0.03).determine(curve).conditionsMet());
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> Iso6.withDefaults().withContrastTolerance(0.1));
        assertTrue(e.getMessage().contains("not an ISO speed"), e.getMessage());
    }

    @Test
    void theUnitIsAskedForLast() {
        Iso6Speed speed = Iso6.withDefaults().determine(line(0.4, -2).shiftedBy(ExposureInterval.ofRatio(80 / 0.3)));
        assertTrue(
                speed.toString()
                        .endsWith(
                                "), outside the nominal scale; if exposures are in millilux seconds, subtract 3 from each"
                                        + " log H (not stated: illuminant, exposure time, hold, storage)"),
                speed.toString());
    }

    @ParameterizedTest
    @CsvSource({"50000", "0.3"})
    void aSpeedOffTheNominalScaleKeepsItsExactNumber(double exact) {
        Iso6Speed speed =
                Iso6.withDefaults().determine(line(0.80 / 1.30, -2).shiftedBy(ExposureInterval.ofRatio(80 / exact)));
        assertEquals(exact, speed.exact(), 1e-9 * exact);
        assertTrue(speed.conditionsMet());
        assertTrue(speed.toString().startsWith("speed ") && speed.toString().contains("outside the nominal scale"));
        assertEquals(exact < 1, speed.toString().contains("if exposures are in millilux seconds, subtract 3"));
        assertTrue(IsoSpeed.nearestOnScale(speed.exact()).isEmpty());
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, speed::rounded);
        assertTrue(e.getMessage().contains("lux seconds"), e.getMessage());
    }

    @Test
    void contrastNotMeasuredKeepsTheSpeedPoint() {
        CharacteristicCurve shorter =
                line(0.6, -2).restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-1));
        Iso6Contrast contrast = Iso6.withDefaults().contrast(shorter);
        assertEquals(-2, contrast.speedPoint().logExposure().value(), 1e-12);
        assertEquals(Iso6Contrast.Verdict.NOT_MEASURED, contrast.verdict());
        assertTrue(contrast.contrast().isEmpty());
        assertFalse(contrast.conditionsMet());
    }

    @Test
    void speedPointNotReached() {
        CharacteristicCurve thin =
                line(0.6, -2).restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-2.1));
        OutsideMeasuredRangeException e = assertThrows(
                OutsideMeasuredRangeException.class, () -> Iso6.withDefaults().determine(thin));
        assertTrue(e.getMessage().contains("0.10 above base plus fog"), e.getMessage());
        assertTrue(e.getMessage().contains("more exposure"), e.getMessage());
    }

    @Test
    void aRelativeAxisHasASpeedPointButNoSpeed() {
        LogExposure frame = new LogExposure(1, ExposureAxis.relativeTo("frame 1"));
        CharacteristicCurve relative = line(0.6, -2).anchored(LogExposure.ofLogLuxSeconds(-2), frame);
        assertEquals(
                1,
                Iso6.withDefaults()
                        .contrast(relative)
                        .speedPoint()
                        .logExposure()
                        .value(),
                1e-12);
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> Iso6.withDefaults().determine(relative));
        assertTrue(e.getMessage().contains("lux seconds"), e.getMessage());
    }

    @Test
    void comparedWithTheBox() {
        Iso6Speed speed = Iso6.withDefaults().determine(line(0.80 / 1.30, Math.log10(0.008)));
        assertEquals(-1, speed.comparedWith(200).stops(), 1e-9);
        assertEquals("\u22121 stop", speed.comparedWith(200).toString());
    }
}
