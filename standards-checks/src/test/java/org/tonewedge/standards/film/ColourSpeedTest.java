// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.ClosedFormCurve;
import org.tonewedge.standards.PiecewiseLinearCurve;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.ColourCurves;

/** ISO 5800 and ISO 2240 on straight segments, where their points are plain arithmetic. */
class ColourSpeedTest {

    /** The readings show none of these conditions, and no strip of these tests states them. */
    private static final String NOT_STATED = " (not stated: illuminant, exposure time, hold, storage)";

    /** A line of gradient 0.6 that is 0.15 above base plus fog at a log exposure. */
    private static CharacteristicCurve layer(String name, double base, double speedPoint) {
        return ClosedFormCurve.line(name, base, 0.6, speedPoint - 0.15 / 0.6);
    }

    @Test
    void greenAndTheSlowestLayerAreAveraged() {
        Iso5800Speed speed = Iso5800.withDefaults()
                .determine(
                        new ColourCurves(layer("red", 0.3, -1.8), layer("green", 0.6, -1.9), layer("blue", 0.9, -2.0)));
        assertEquals(Channel.RED, speed.slowest());
        assertEquals(Math.sqrt(2) / Math.pow(10, -1.85), speed.exact(), 1e-9);
        assertEquals(IsoSpeed.ofDegrees(21), speed.rounded());
        assertEquals(0.1, speed.layerImbalance().logUnits(), 1e-9);
        assertEquals(-2.0, speed.speedPoint(Channel.BLUE).logExposure().value(), 1e-9);
        assertEquals("ISO 100/21°" + NOT_STATED, speed.toString());
        assertThrows(IllegalArgumentException.class, () -> speed.speedPoint(Channel.VISUAL));
    }

    @Test
    void aFilmOffTheNominalScaleIsTold() {
        Iso5800Speed speed = Iso5800.withDefaults()
                .determine(new ColourCurves(layer("red", 0.3, 0.8), layer("green", 0.6, 0.8), layer("blue", 0.9, 0.8)));
        assertEquals(
                "speed 0.2241, outside the nominal scale; if exposures are in millilux seconds, subtract 3 from each log H"
                        + NOT_STATED,
                speed.toString());
    }

    @Test
    void greenAloneCountsWhereItIsSlowest() {
        Iso5800Speed speed = Iso5800.withDefaults()
                .determine(
                        new ColourCurves(layer("red", 0.3, -2.0), layer("green", 0.6, -1.8), layer("blue", 0.9, -2.0)));
        assertEquals(Channel.GREEN, speed.slowest());
        assertEquals(Math.sqrt(2) / Math.pow(10, -1.8), speed.exact(), 1e-9);
    }

    @Test
    void anUnderexposedLayerIsNamed() {
        CharacteristicCurve thin =
                PiecewiseLinearCurve.through("blue of strip 'S1'", new double[] {-4, -3}, new double[] {0.9, 1.0}, 0.9);
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> Iso5800.withDefaults()
                        .determine(new ColourCurves(layer("red", 0.3, -2), layer("green", 0.6, -2), thin)));
        assertTrue(e.getMessage().startsWith("blue of strip 'S1'"), e.getMessage());
    }

    @Test
    void reversalSpeedFromTheDensitiesWhereNoTangentTouchesBelow() {
        // Straight from D 2.8 at −3 to 0.2 at −1: T (D 0.4) at −1.153846, S (D 2.2) at −2.538462.
        CharacteristicCurve slide =
                PiecewiseLinearCurve.through("slide", new double[] {-3, -1}, new double[] {2.8, 0.2}, 2.8);
        Iso2240Speed speed = Iso2240.withDefaults().determine(slide);
        double toe = -1 - 0.2 / 1.3;
        double shoulder = -1 - 2.0 / 1.3;
        assertEquals(toe, speed.points().get(0).logExposure().value(), 1e-9);
        assertEquals(shoulder, speed.points().get(1).logExposure().value(), 1e-9);
        assertEquals(10 / Math.pow(10, 0.5 * (toe + shoulder)), speed.exact(), 1e-6);
        // 1 + 10 (1 + 1.846154) = 29.46 degrees
        assertEquals("ISO 640/29°" + NOT_STATED, speed.toString());
        assertEquals(IsoSpeed.ofDegrees(29), speed.rounded());
    }

    @Test
    void reversalSpeedFromTheTangentPoint() {
        // Steep to the corner (−2, 1.8), shallow beyond: the line from T touches the corner, below 2.0 + 0.2.
        CharacteristicCurve slide =
                PiecewiseLinearCurve.through("slide", new double[] {-4, -2, -1}, new double[] {2.6, 1.8, 0.2}, 2.6);
        Iso2240Speed speed = Iso2240.withDefaults().determine(slide);
        assertEquals(-2, speed.points().get(1).logExposure().value(), 1e-9);
        double toe = -1 - 0.2 / 1.6;
        assertEquals(10 / Math.pow(10, 0.5 * (toe - 2)), speed.exact(), 1e-6);
    }

    @Test
    void aTangentPointCountsOnFilmThatNeverReachesTheDensity() {
        CharacteristicCurve thin = PiecewiseLinearCurve.through(
                "thin slide", new double[] {-4, -2, -1}, new double[] {1.9, 1.8, 0.2}, 1.9);
        assertEquals(
                -2,
                Iso2240.withDefaults()
                        .determine(thin)
                        .points()
                        .get(1)
                        .logExposure()
                        .value(),
                1e-9);
        CharacteristicCurve cut =
                PiecewiseLinearCurve.through("cut slide", new double[] {-2, -1}, new double[] {1.8, 0.2}, 2.6);
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class, () -> Iso2240.withDefaults().determine(cut));
        assertTrue(e.getMessage().contains("less exposure"), e.getMessage());
    }

    @Test
    void aNegativeIsNoReversalFilm() {
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> Iso2240.withDefaults().determine(ClosedFormCurve.LOGISTIC.curve()));
        assertTrue(e.getMessage().contains("ISO 6 or ISO 5800"), e.getMessage());
    }

    @Test
    void samplesOfAColourFilmHaveAMean() {
        ColourCurves film = new ColourCurves(layer("r", 0.3, -1.8), layer("g", 0.6, -1.9), layer("b", 0.9, -2.0));
        ColourCurves faster = new ColourCurves(layer("r", 0.3, -1.9), layer("g", 0.6, -2.0), layer("b", 0.9, -2.1));
        SpeedReading mean = SpeedMean.of(List.of(
                Iso5800.withDefaults().determine(film), Iso5800.withDefaults().determine(faster)));
        assertEquals(Math.sqrt(2) / Math.pow(10, -1.90), mean.exact(), 1e-9);
    }

    @Test
    void layersMustShareTheirAxis() {
        CharacteristicCurve absolute = layer("layer", 0.3, -2);
        CharacteristicCurve relative = absolute.anchored(
                LogExposure.ofLogLuxSeconds(-2), new LogExposure(0, ExposureAxis.relativeTo("frame 1")));
        assertThrows(IllegalArgumentException.class, () -> new ColourCurves(relative, absolute, absolute));
        assertThrows(IllegalArgumentException.class, () -> new ColourCurves(absolute, absolute, relative));
    }
}
