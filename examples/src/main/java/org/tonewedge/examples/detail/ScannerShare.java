// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.standards.detail.EdgeResponse;
import org.tonewedge.standards.detail.ModulationTransfer;
import org.tonewedge.standards.detail.NoiseSpectrum;

/**
 * What the scanner itself does to sharpness and grain, measured on a scan made at the same setting, so that it can be taken
 * out.
 */
record ScannerShare(Optional<ModulationTransfer> transfer, Optional<DensityImage> noise, double pitch, double floor) {

    private static final int SMALLEST_BLOCK = 8;
    private static final int LARGEST_BLOCK = 1024;
    /** The side of a block of the spectrum, in apertures. */
    private static final double APERTURES = 4;

    private static final ModulationTransfer PERFECT = ModulationTransfer.of(new double[] {0, 1e6}, new double[] {1, 1});

    /** The film alone. */
    ModulationTransfer without(EdgeResponse edge, double itsPitch) {
        requireSamePitch(itsPitch);
        try {
            return edge.modulationTransferWithout(transfer.orElseThrow(), floor);
        } catch (IllegalArgumentException e) {
            throw new NotDeterminableException(e.getMessage());
        }
    }

    /** The frequency up to which the scanner transmits enough to be divided by. */
    String limit() {
        ModulationTransfer own = transfer.orElseThrow();
        double end = own.lowestFrequency();
        for (double frequency : own.frequencies()) {
            if (own.at(frequency).value() < floor) {
                break;
            }
            end = frequency;
        }
        return String.format(
                Locale.ROOT,
                "without the scanner, divided out up to %.3g cycles/mm, where it transmits %.2g or more",
                end,
                floor);
    }

    /** The granularity of the film alone, 1000 times the standard deviation. */
    Estimate without(DensityImage image, double aperture) {
        requireSamePitch(image.pitch());
        DensityImage empty = noise.orElseThrow();
        int room = Math.min(Math.min(image.width(), image.height()), Math.min(empty.width(), empty.height()));
        int side = SMALLEST_BLOCK;
        while (side * pitch < APERTURES * aperture && 2 * side <= Math.min(room, LARGEST_BLOCK)) {
            side *= 2;
        }
        try {
            Estimate found = NoiseSpectrum.of(image, side)
                    .corrected(NoiseSpectrum.of(empty, side), transfer.orElse(PERFECT))
                    .deviationThrough(aperture);
            if (!(found.value() > 0)) {
                throw new NotDeterminableException(
                        "the grain does not stand out of the noise of the scanner; average several scans");
            }
            return Estimate.of(1000 * found.value(), 1000 * found.standardUncertainty(), found.degreesOfFreedom());
        } catch (IllegalArgumentException e) {
            throw new NotDeterminableException(e.getMessage());
        }
    }

    private void requireSamePitch(double other) {
        if (Math.abs(other - pitch) > 1e-6 * pitch) {
            throw new NotDeterminableException(String.format(
                    Locale.ROOT,
                    "the scanner was measured at %.4g micrometres for each pixel, this scan has %.4g; scan both at one setting",
                    pitch,
                    other));
        }
    }
}
