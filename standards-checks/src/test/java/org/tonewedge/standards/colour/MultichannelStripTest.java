// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

class MultichannelStripTest {

    private static Strip strip(double first, ExposureAxis axis) {
        Strip.Builder builder = Strip.builder("S1").basePlusFog(0.2);
        for (int i = 0; i < 5; i++) {
            builder.reading(new LogExposure(first + 0.3 * i, axis), Density.of(0.2 + 0.2 * i));
        }
        return builder.build();
    }

    @Test
    void curvesComeFromTheirChannels() {
        Strip strip = strip(-3, ExposureAxis.LUX_SECONDS);
        MultichannelStrip colour =
                MultichannelStrip.of("S1", Map.of(Channel.RED, strip, Channel.GREEN, strip, Channel.BLUE, strip));
        ColourCurves curves = colour.colourCurves();
        assertEquals(0.6, curves.curve(Channel.BLUE).density(-2.4), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> curves.curve(Channel.VISUAL));
    }

    @Test
    void aMissingChannelIsNamed() {
        MultichannelStrip visual =
                MultichannelStrip.of("S1", Map.of(Channel.VISUAL, strip(-3, ExposureAxis.LUX_SECONDS)));
        IllegalArgumentException e = assertThrows(IllegalArgumentException.class, visual::colourCurves);
        assertTrue(e.getMessage().contains("strip 'S1' has no channel RED"), e.getMessage());
    }

    @Test
    void channelsMustShareTheirExposures() {
        Map<Channel, Strip> unlike = Map.of(
                Channel.RED, strip(-3, ExposureAxis.LUX_SECONDS), Channel.GREEN, strip(-2, ExposureAxis.LUX_SECONDS));
        assertThrows(IllegalArgumentException.class, () -> MultichannelStrip.of("S1", unlike));
        assertThrows(IllegalArgumentException.class, () -> MultichannelStrip.of("S1", Map.of()));
        Strip relative = strip(-3, ExposureAxis.relativeTo("frame 1"));
        Strip absolute = strip(-3, ExposureAxis.LUX_SECONDS);
        assertThrows(
                IllegalArgumentException.class,
                () -> MultichannelStrip.of("S1", Map.of(Channel.RED, relative, Channel.GREEN, absolute)));
    }
}
