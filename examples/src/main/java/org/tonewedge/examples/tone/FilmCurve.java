// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.comparison.StripFigures;

/**
 * The curve of a film and how well it is known.
 *
 * @param curve a characteristic curve of the film, developed as its frames were
 * @param estimator gives what is read off the curve its uncertainty; a curve without one is exact
 */
public record FilmCurve(CharacteristicCurve curve, FigureEstimator estimator) {

    /**
     * Returns a curve that is taken as exact.
     *
     * @param curve the curve
     * @return the curve, without uncertainty
     */
    public static FilmCurve exact(CharacteristicCurve curve) {
        return new FilmCurve(curve, figure -> Estimate.of(figure.applyAsDouble(curve), 0));
    }

    /**
     * Returns the curve of a strip as it was drawn.
     *
     * @param strip the figures of the strip
     * @return the curve; empty if it could not be drawn
     */
    public static Optional<FilmCurve> of(StripFigures strip) {
        return strip.curve()
                .map(curve -> strip.estimator()
                        .map(estimator -> new FilmCurve(curve, estimator))
                        .orElseGet(() -> exact(curve)));
    }
}
