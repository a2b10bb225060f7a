// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * One camera frame of a bracketed series, such as the frame a third of a stop above the metered exposure, with the
 * densities read on its patches.
 *
 * @param label the frame's name, unique in its series
 * @param exposure its exposure, counted from the metered exposure
 * @param readings the patches read on the frame, each once
 */
public record Frame(String label, ExposureInterval exposure, List<PatchReading> readings) {

    /**
     * Copies the readings.
     *
     * @param label the frame's name
     * @param exposure its exposure, counted from the metered exposure
     * @param readings the patches read on it
     * @throws IllegalArgumentException if the label is blank or contains a control character, no patch was read, or two
     *     patches have the same label
     */
    public Frame {
        Objects.requireNonNull(readings, "readings");
        label = Checks.label("label of a frame", label);
        Objects.requireNonNull(exposure, "exposure");
        readings = List.copyOf(readings);
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("frame '" + label + "' has no patch; read at least one");
        }
        Set<String> labels = new HashSet<>();
        for (PatchReading reading : readings) {
            if (!labels.add(reading.patch().label())) {
                throw new IllegalArgumentException("frame '" + label + "' has two patches with the label '"
                        + reading.patch().label()
                        + "'; give them different labels, or put repeat readings into one reading");
            }
        }
    }

    /**
     * Returns the reading of one patch.
     *
     * @param patch the label of the patch
     * @return its reading
     * @throws IllegalArgumentException if the patch was not read on this frame; the message lists the patches that were
     */
    public PatchReading reading(String patch) {
        Objects.requireNonNull(patch, "patch");
        return readings.stream()
                .filter(reading -> reading.patch().label().equals(patch))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("frame '" + label + "' has no patch '" + patch
                        + "'; it has "
                        + String.join(
                                ", ",
                                readings.stream()
                                        .map(reading -> reading.patch().label())
                                        .toList())));
    }

    /**
     * Returns the neutral patches of known reflectance.
     *
     * @return their readings, in the order read
     */
    public List<PatchReading> neutrals() {
        return readings.stream()
                .filter(reading -> reading.patch().group() == PatchGroup.NEUTRAL)
                .filter(reading -> reading.patch().reflectance().isPresent())
                .toList();
    }

    /**
     * Returns the patches that are not neutral.
     *
     * @return their readings, in the order read
     */
    public List<PatchReading> colours() {
        return readings.stream()
                .filter(reading -> reading.patch().group() != PatchGroup.NEUTRAL)
                .toList();
    }
}
