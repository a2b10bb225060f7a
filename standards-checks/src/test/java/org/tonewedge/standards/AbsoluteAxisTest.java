// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.DeltaX;
import org.tonewedge.standards.film.FractionalGradient;
import org.tonewedge.standards.film.Inertia;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.paper.Iso6846;
import org.tonewedge.standards.radiography.AirKerma;
import org.tonewedge.standards.radiography.RadiographicSpeed;

/** Methods that need lux seconds refuse every other axis; methods that do not, do not. */
class AbsoluteAxisTest {

    private static CharacteristicCurve relative(ExposureAxis axis) {
        return ClosedFormCurve.SOFTPLUS_TOE_SHOULDER
                .curve()
                .anchored(LogExposure.ofLogLuxSeconds(-4), new LogExposure(-4, axis));
    }

    static Stream<Named<Consumer<CharacteristicCurve>>> absoluteMethods() {
        return Stream.of(
                Named.of("ISO 6", curve -> Iso6.withDefaults().determine(curve)),
                Named.of("ISO 5800", curve -> Iso5800.withDefaults().determine(new ColourCurves(curve, curve, curve))),
                Named.of("ISO 2240", Iso2240.withDefaults()::determine),
                Named.of("ISO 6846", curve -> Iso6846.withDefaults().speed(curve)),
                Named.of(
                        "fractional gradient",
                        curve -> FractionalGradient.withDefaults().determine(curve)),
                Named.of("delta X", DeltaX.withDefaults()::determine),
                Named.of("inertia", curve -> Inertia.withDefaults().determine(curve)));
    }

    @ParameterizedTest
    @MethodSource("absoluteMethods")
    void relativeAndRadiographicExposuresAreRefused(Consumer<CharacteristicCurve> method) {
        IllegalArgumentException frames = assertThrows(
                IllegalArgumentException.class, () -> method.accept(relative(ExposureAxis.relativeTo("frame 1"))));
        assertTrue(frames.getMessage().contains("lux seconds"), frames.getMessage());
        assertThrows(IllegalArgumentException.class, () -> method.accept(relative(AirKerma.AXIS)));
    }

    static Stream<Named<Consumer<CharacteristicCurve>>> relativeMethods() {
        return Stream.of(
                Named.of("ISO 6 contrast", curve -> Iso6.withDefaults().contrast(curve)),
                Named.of("ISO range", curve -> Iso6846.withDefaults().range(curve)),
                Named.of(
                        "fractional gradient point",
                        curve -> FractionalGradient.withDefaults().speedPoint(curve)),
                Named.of(
                        "average gradient",
                        curve -> AverageGradient.withDefaults().determine(curve)),
                Named.of("contrast index", curve -> ContrastIndex.withDefaults().determine(curve)),
                Named.of("gamma", curve -> CurveAnatomy.of(curve).gamma()));
    }

    @ParameterizedTest
    @MethodSource("relativeMethods")
    void otherMethodsWorkOnAnyAxis(Consumer<CharacteristicCurve> method) {
        method.accept(relative(ExposureAxis.relativeTo("frame 1")));
    }

    /** On a curve with a long straight line, which inertia needs. */
    @Test
    void inertiaWorksOnAnyAxis() {
        CharacteristicCurve absolute = ClosedFormCurve.SOFTPLUS_TOE.curve();
        CharacteristicCurve relative = absolute.anchored(
                LogExposure.ofLogLuxSeconds(-4), new LogExposure(-3, ExposureAxis.relativeTo("frame 1")));
        assertEquals(
                Inertia.withDefaults().inertia(absolute).value() + 1,
                Inertia.withDefaults().inertia(relative).value(),
                1e-9);
    }

    @ParameterizedTest
    @MethodSource("radiographicMethods")
    void radiographicSpeedsRefuseLight(RadiographicSpeed method) {
        assertThrows(
                IllegalArgumentException.class, () -> method.determine(ClosedFormCurve.SOFTPLUS_TOE_SHOULDER.curve()));
    }

    static Stream<RadiographicSpeed> radiographicMethods() {
        return Stream.of(RadiographicSpeed.values());
    }
}
