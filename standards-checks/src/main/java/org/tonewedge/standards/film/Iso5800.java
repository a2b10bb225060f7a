// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.internal.Absolute;
import org.tonewedge.standards.internal.Rising;

/**
 * The speed of a colour negative film by ISO 5800.
 *
 * <pre>{@code
 * Iso5800Speed speed = Iso5800.withDefaults().determine(new ColourCurves(
 *         CharacteristicCurve.through(red), CharacteristicCurve.through(green), CharacteristicCurve.through(blue)));
 * // with its uncertainty: the three strips, in the order in which the function takes their curves
 * Iso5800Speed unsure = ReadingUncertainty.of(Repeatability.of(0.01)).determine(
 *         List.of(red, green, blue),
 *         curves -> Iso5800.withDefaults().determine(new ColourCurves(curves.get(0), curves.get(1), curves.get(2))));
 * unsure.exactEstimate(); // the arithmetic speed ± its standard uncertainty
 * }</pre>
 *
 * <p>The readings through each filter are a {@link org.tonewedge.core.strip.Strip} of their own, at the same exposures.
 *
 * <p>On each of the red, green and blue curves (status M) a point is found where the density is 0.15 above the
 * unexposed, processed film. H<sub>G</sub> is the exposure there for green, and H<sub>slow</sub> the greatest of the
 * three. In lux seconds,
 *
 * <p>H<sub>m</sub> = √(H<sub>G</sub> H<sub>slow</sub>), &nbsp; S = √2 / H<sub>m</sub>.
 *
 * <p>The film is processed as its maker recommends; the method sets no contrast.
 *
 * <p>Interpretation: the least density is that of the unexposed, processed film on each curve, as it was read, not the
 * lowest point of the curve. If green is the slowest layer, H<sub>m</sub> is H<sub>G</sub>.
 *
 * @source ISO 5800:1987 with Corrigendum 1:2001. That the layers' speeds are averaged and that processing is the
 * maker's is verified in secondary sources. The density 0.15, the mean of green and the slowest layer, and the constant
 * are from memory. The clauses themselves were not read.
 */
public final class Iso5800 {

    /** The density of the speed points above that of the unexposed film. */
    public static final DensityDifference SPEED_POINT_DENSITY = DensityDifference.of(0.15);

    /** The constant of the speed, in lux seconds: S = √2 / H<sub>m</sub>. */
    public static final double SPEED_CONSTANT = Math.sqrt(2);

    private static final Criterion CRITERION = new Criterion(
            "ISO 5800 colour negative speed: 0.15 above minimum, green and the slowest layer averaged",
            "ISO 5800:1987, from memory");

    /** The layers in the order of the points. */
    static final List<Channel> LAYERS = List.of(Channel.RED, Channel.GREEN, Channel.BLUE);

    private static final Iso5800 DEFAULTS = new Iso5800();

    private Iso5800() {}

    /**
     * Returns the method; it has no options.
     *
     * @return the method
     */
    public static Iso5800 withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns the speed of a film.
     *
     * @param curves its three curves on the absolute exposure axis
     * @return the speed, with the slowest layer
     * @throws IllegalArgumentException if the exposures are relative
     * @throws NotDeterminableException if a curve falls, does not reach its speed point, or reaches it several times
     */
    public Iso5800Speed determine(ColourCurves curves) {
        Map<Channel, CurvePoint> points = new EnumMap<>(Channel.class);
        Channel slowest = Channel.GREEN;
        for (Channel layer : LAYERS) {
            points.put(
                    layer,
                    Rising.pointAbove(
                            Absolute.luxSeconds(curves.curve(layer), "an ISO speed"),
                            SPEED_POINT_DENSITY,
                            "an ISO 5800 speed"));
        }
        for (Channel layer : LAYERS) {
            if (points.get(slowest).logExposure().isBelow(points.get(layer).logExposure())) {
                slowest = layer;
            }
        }
        double logExposure = 0.5
                * (points.get(Channel.GREEN).logExposure().value()
                        + points.get(slowest).logExposure().value());
        return new Iso5800Speed(
                SPEED_CONSTANT / Math.pow(10, logExposure),
                slowest,
                Evidence.of(CRITERION, LAYERS.stream().map(points::get).toList(), List.of()));
    }

    /**
     * Returns the method in words.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return "ISO 5800 colour negative speed";
    }
}
