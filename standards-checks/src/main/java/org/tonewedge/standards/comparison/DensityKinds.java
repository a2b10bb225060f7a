// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Optional;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.Strip;

/** Whether two strips state densities of different kinds. */
final class DensityKinds {

    private DensityKinds() {}

    /** How the kinds differ, in words; nothing if they do not, or one of the two does not state its own. */
    static Optional<String> difference(Strip strip, Strip reference) {
        if (differ(strip.densityResponse(), reference.densityResponse())) {
            return said(
                    strip.densityResponse().map(SpectralResponse::description),
                    reference.densityResponse().map(SpectralResponse::description));
        }
        if (differ(strip.densityGeometry(), reference.densityGeometry())) {
            return said(
                    strip.densityGeometry().map(DensityGeometry::description),
                    reference.densityGeometry().map(DensityGeometry::description));
        }
        return Optional.empty();
    }

    private static boolean differ(Optional<?> one, Optional<?> other) {
        return one.isPresent() && other.isPresent() && !one.equals(other);
    }

    private static Optional<String> said(Optional<String> own, Optional<String> reference) {
        return Optional.of(
                "its densities are " + own.orElseThrow() + ", those of the reference " + reference.orElseThrow());
    }

    /** Whether the difference of a figure between two strips means something where their densities are of different kinds. */
    static boolean holdsAcross(FilmFigure figure) {
        return figure == FilmFigure.STOPS_FROM_REFERENCE;
    }

    /** Why a difference of densities is not given. */
    static Figure refused(String difference) {
        return Figure.missing(difference + "; read both strips by one response and in one geometry");
    }
}
