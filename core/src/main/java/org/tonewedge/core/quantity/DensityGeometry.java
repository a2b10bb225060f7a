// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;

/** How light falls on a sample and is collected from it: through the sample, or reflected by it. */
public sealed interface DensityGeometry permits TransmissionGeometry, ReflectionGeometry {

    /**
     * Returns the symbol of densities with this geometry.
     *
     * @return {@code D_T} for transmission, {@code D_R} for reflection
     * @source ISO 5-1, functional notation, from memory
     */
    String symbol();

    /**
     * Returns the geometry in words.
     *
     * @return for example {@code diffuse}
     */
    String description();

    /**
     * Finds a geometry by its name.
     *
     * @param name the {@link #description()}, in capitals or not; the degree signs may be left out
     * @return the geometry
     * @throws IllegalArgumentException if no geometry has the name; the message lists the names
     */
    static DensityGeometry of(String name) {
        Objects.requireNonNull(name, "name");
        String wanted = plain(name);
        return all().filter(geometry -> plain(geometry.description()).equals(wanted))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        "\"" + Checks.shortened(name) + "\" is not a geometry of densities; write one of "
                                + all().map(DensityGeometry::description).collect(Collectors.joining("; "))));
    }

    private static Stream<DensityGeometry> all() {
        return Stream.concat(Stream.of(TransmissionGeometry.values()), Stream.of(ReflectionGeometry.values()));
    }

    private static String plain(String name) {
        return name.strip().toLowerCase(Locale.ROOT).replace("°", "").replaceAll("[\\s_-]+", " ");
    }
}
