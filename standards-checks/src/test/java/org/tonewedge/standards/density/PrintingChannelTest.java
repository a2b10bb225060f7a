// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;

class PrintingChannelTest {

    private static Bracket bracket(SpectralResponse frames, double visual, SpectralResponse also, double density) {
        return Bracket.of(
                        "film",
                        List.of(Density.of(visual)),
                        List.of(new Frame(
                                "f1",
                                ExposureInterval.ZERO,
                                List.of(PatchReading.of(Patch.of("grey", PatchGroup.NEUTRAL, 0.18), 0.9)))))
                .with(frames)
                .withBasePlusFog(also, List.of(Density.of(density)));
    }

    /** A stained base: the exposure goes by blue where both were read in it, else by what they have in common. */
    @Test
    void basePlusFogIsComparedByTheResponseClosestToPaper() {
        Bracket stained = bracket(SpectralResponse.VISUAL, 0.30, SpectralResponse.STATUS_M_BLUE, 0.60);
        Bracket clear = bracket(SpectralResponse.VISUAL, 0.30, SpectralResponse.STATUS_M_BLUE, 0.28);
        Bracket inRed = bracket(SpectralResponse.VISUAL, 0.25, SpectralResponse.STATUS_M_RED, 0.30);
        assertEquals(0.32, PrintingChannel.forBasePlusFog(stained, clear).logUnits(), 1e-12);
        assertEquals(0.05, PrintingChannel.forBasePlusFog(stained, inRed).logUnits(), 1e-12);
        assertEquals(
                SpectralResponse.VISUAL,
                PrintingChannel.commonTo(stained, inRed).orElseThrow().response());
        Bracket other = bracket(SpectralResponse.STATUS_M_GREEN, 0.3, SpectralResponse.VISUAL, 0.3);
        NotDeterminableException unlike =
                assertThrows(NotDeterminableException.class, () -> PrintingChannel.forBasePlusFog(stained, other));
        assertEquals(NotDeterminableException.Reason.METHOD_NOT_APPLICABLE, unlike.reason());
        assertTrue(
                unlike.getMessage()
                        .startsWith(
                                "its frames were read by visual, those of the reference by status M green; read both"),
                unlike.getMessage());
        String geometry = assertThrows(
                        NotDeterminableException.class,
                        () -> PrintingChannel.forBasePlusFog(
                                stained.with(TransmissionGeometry.DIFFUSE), clear.with(TransmissionGeometry.SPECULAR)))
                .getMessage();
        assertTrue(geometry.contains("read by visual, diffuse, those of the reference by visual, specular;"), geometry);
    }

    @Test
    void blueIsCloserToPaperThanTheEye() {
        assertEquals(1, PrintingChannel.closeness(SpectralResponse.TYPE_2), 1e-9);
        assertTrue(PrintingChannel.closeness(SpectralResponse.STATUS_M_BLUE)
                > 3 * PrintingChannel.closeness(SpectralResponse.VISUAL));
        assertTrue(PrintingChannel.closeness(SpectralResponse.VISUAL)
                > PrintingChannel.closeness(SpectralResponse.STATUS_M_RED));
    }

    @Test
    void aTintedBaseIsNamedAndPrintedByBlue() {
        PrintingChannel film = PrintingChannel.closest(
                Map.of(SpectralResponse.VISUAL, Density.of(0.28), SpectralResponse.STATUS_M_BLUE, Density.of(0.43)));
        PrintingChannel reference = PrintingChannel.closest(
                Map.of(SpectralResponse.VISUAL, Density.of(0.26), SpectralResponse.STATUS_M_BLUE, Density.of(0.28)));
        assertEquals(SpectralResponse.STATUS_M_BLUE, film.response());
        // By hand: 0.15 is half a stop.
        assertTrue(film.finding().orElseThrow().contains("0.15 denser in status M blue than to the eye"));
        assertTrue(film.finding().orElseThrow().contains("0.5 stop short"));
        assertEquals(Optional.empty(), reference.finding());
        assertEquals(0.5, film.printExposure(reference).stops(), 0.005);
    }

    @Test
    void visualAloneIsWarnedOf() {
        PrintingChannel film = PrintingChannel.closest(Map.of(SpectralResponse.VISUAL, Density.of(0.28)));
        assertTrue(film.finding().orElseThrow().contains("read it in blue too"));
        PrintingChannel besideRed = PrintingChannel.closest(
                Map.of(SpectralResponse.VISUAL, Density.of(0.28), SpectralResponse.STATUS_M_RED, Density.of(0.25)));
        assertTrue(besideRed.finding().orElseThrow().contains("read it in blue too"));
        PrintingChannel blue = PrintingChannel.closest(Map.of(SpectralResponse.STATUS_M_BLUE, Density.of(0.43)));
        assertEquals(Optional.empty(), blue.finding());
        assertThrows(IllegalArgumentException.class, () -> film.printExposure(blue));
        assertThrows(IllegalArgumentException.class, () -> PrintingChannel.closest(Map.of()));
    }

    /** Σ min(a / Σ a, b / Σ b) of two columns of ISO 5-3 spectral products, a being type 2, summed with Python 3. */
    @Test
    void closenessIsTheOverlapWithPaper() {
        assertEquals(0.267399, PrintingChannel.closeness(SpectralResponse.TYPE_1), 1e-6);
        assertEquals(0.528273, PrintingChannel.closeness(SpectralResponse.STATUS_M_BLUE), 1e-6);
    }

    /** By hand: 0.15 is half a stop; here paper sees the base lighter than the eye does. */
    @Test
    void aBaseLighterInBluePrintsLong() {
        PrintingChannel film = PrintingChannel.closest(
                Map.of(SpectralResponse.VISUAL, Density.of(0.43), SpectralResponse.STATUS_M_BLUE, Density.of(0.28)));
        String finding = film.finding().orElseThrow();
        assertTrue(finding.contains("0.15 lighter in status M blue") && finding.contains("0.5 stop long"), finding);
    }

    /** By hand: 0.16 lighter in blue is half a stop too long from visual densities; 0.33 more is more than a stop. */
    @Test
    void aLighterBaseIsNamedToo() {
        String lighter = PrintingChannel.closest(Map.of(
                        SpectralResponse.VISUAL, Density.of(0.43), SpectralResponse.STATUS_M_BLUE, Density.of(0.27)))
                .finding()
                .orElseThrow();
        assertTrue(lighter.contains("0.16 lighter in status M blue"), lighter);
        assertTrue(lighter.contains("is 0.5 stop long"), lighter);
        String denser = PrintingChannel.closest(Map.of(
                        SpectralResponse.VISUAL, Density.of(0.27), SpectralResponse.STATUS_M_BLUE, Density.of(0.60)))
                .finding()
                .orElseThrow();
        assertTrue(denser.contains("is 1.1 stops short"), denser);
    }
}
