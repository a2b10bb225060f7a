// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.tonewedge.fitting.parametric.CurveParameter.ASYMMETRY;
import static org.tonewedge.fitting.parametric.CurveParameter.BASE_PLUS_FOG;
import static org.tonewedge.fitting.parametric.CurveParameter.DENSITY_AT_ZERO;
import static org.tonewedge.fitting.parametric.CurveParameter.DENSITY_RANGE;
import static org.tonewedge.fitting.parametric.CurveParameter.GRADIENT;
import static org.tonewedge.fitting.parametric.CurveParameter.INERTIA;
import static org.tonewedge.fitting.parametric.CurveParameter.MAXIMUM_DENSITY;
import static org.tonewedge.fitting.parametric.CurveParameter.OPACITY;
import static org.tonewedge.fitting.parametric.CurveParameter.POSITION;
import static org.tonewedge.fitting.parametric.CurveParameter.SHOULDER_POSITION;
import static org.tonewedge.fitting.parametric.CurveParameter.SHOULDER_SOFTNESS;
import static org.tonewedge.fitting.parametric.CurveParameter.TOE_POSITION;
import static org.tonewedge.fitting.parametric.CurveParameter.TOE_SOFTNESS;
import static org.tonewedge.fitting.parametric.CurveParameter.WIDTH;

import java.util.List;
import org.tonewedge.fitting.internal.ShapeKind;

/**
 * A family of characteristic curves with few parameters, such as {@link #TOE_SHOULDER}. All rise with exposure, apart
 * from the turning point described there.
 *
 * <p>In the formulas x is log<sub>10</sub> H, D the gross density and B base plus fog. The ramp softplus(z) = ln(1 +
 * e<sup>z</sup>) is 0 far below 0, z far above it, and rounded between. In the sigmoids z = (x − position)/width and R
 * is the density range.
 */
public enum CurveFamily {
    /**
     * A toe, a straight line and a shoulder; toe and shoulder each have their own softness: D = B + g (s<sub>t</sub>
     * softplus((x − x<sub>t</sub>)/s<sub>t</sub>) − s<sub>s</sub> softplus((x − x<sub>s</sub>)/s<sub>s</sub>)).
     *
     * <p>The softer of the two bends extends past the sharper one. If the shoulder is softer, the curve falls a little
     * below base plus fog before the toe; if the toe is softer, it rises a little above the maximum after the shoulder.
     * There is one turning point, at x<sub>t</sub> − (x<sub>s</sub> − x<sub>t</sub>) s<sub>t</sub>/(s<sub>s</sub> −
     * s<sub>t</sub>).
     */
    TOE_SHOULDER(
            "toe, straight line and shoulder",
            ShapeKind.TOE_SHOULDER,
            BASE_PLUS_FOG,
            GRADIENT,
            TOE_POSITION,
            TOE_SOFTNESS,
            SHOULDER_POSITION,
            SHOULDER_SOFTNESS),
    /** A toe and a straight line, for a strip that does not reach its shoulder: the first ramp of {@link #TOE_SHOULDER}. */
    TOE_STRAIGHT_LINE("toe and straight line", ShapeKind.TOE, BASE_PLUS_FOG, GRADIENT, TOE_POSITION, TOE_SOFTNESS),
    /**
     * A straight line and a shoulder, for a strip that begins above its toe: D = D<sub>max</sub> − g s<sub>s</sub>
     * softplus((x<sub>s</sub> − x)/s<sub>s</sub>). Base plus fog is not part of the form; it is the mean of the
     * unexposed readings.
     */
    STRAIGHT_LINE_SHOULDER(
            "straight line and shoulder",
            ShapeKind.SHOULDER,
            MAXIMUM_DENSITY,
            GRADIENT,
            SHOULDER_POSITION,
            SHOULDER_SOFTNESS,
            BASE_PLUS_FOG),
    /**
     * A straight line, for a strip that shows neither toe nor shoulder. Base plus fog is the mean of the unexposed
     * readings.
     */
    STRAIGHT_LINE("straight line", ShapeKind.STRAIGHT_LINE, DENSITY_AT_ZERO, GRADIENT, BASE_PLUS_FOG),
    /** The logistic curve with four parameters: D = B + R / (1 + e<sup>−z</sup>). Toe and shoulder are symmetrical. */
    LOGISTIC("logistic", ShapeKind.LOGISTIC, BASE_PLUS_FOG, DENSITY_RANGE, POSITION, WIDTH),
    /**
     * The logistic curve with five parameters: D = B + R / (1 + e<sup>−z</sup>)<sup>k</sup>, where k is the asymmetry.
     * Below 1 the toe is the longer part, above 1 the shoulder.
     */
    FIVE_PARAMETER_LOGISTIC(
            "five-parameter logistic",
            ShapeKind.LOGISTIC_POWER,
            BASE_PLUS_FOG,
            DENSITY_RANGE,
            POSITION,
            WIDTH,
            ASYMMETRY),
    /**
     * Richards's generalised logistic curve: D = B + R (1 + ν e<sup>−z</sup>)<sup>−1/ν</sup>, where ν ≥ 0 is the
     * asymmetry. The position is the steepest point; ν = 1 gives the logistic curve and ν = 0 Gompertz's. For ν above 0
     * it is the same curve as {@link #FIVE_PARAMETER_LOGISTIC} with k = 1/ν, but its parameters are less correlated.
     *
     * @source F. J. Richards, Journal of Experimental Botany 10 (1959), 290–301 (from memory)
     */
    RICHARDS(
            "generalised logistic (Richards)",
            ShapeKind.RICHARDS,
            BASE_PLUS_FOG,
            DENSITY_RANGE,
            POSITION,
            WIDTH,
            ASYMMETRY),
    /** Gompertz's curve: D = B + R exp(−e<sup>−z</sup>), with a short toe and a long shoulder. */
    GOMPERTZ("Gompertz", ShapeKind.GOMPERTZ, BASE_PLUS_FOG, DENSITY_RANGE, POSITION, WIDTH),
    /** The cumulative normal distribution: D = B + R Φ(z). */
    CUMULATIVE_NORMAL("cumulative normal", ShapeKind.CUMULATIVE_NORMAL, BASE_PLUS_FOG, DENSITY_RANGE, POSITION, WIDTH),
    /**
     * The equation of 1890: D = B + γ log<sub>10</sub>(O − (O − 1) e<sup>−u/O</sup>), u = 10<sup>x − i</sup>, with γ
     * the gradient, i the inertia and O the opacity. It serves history and checking: its toe is fixed.
     *
     * @source F. Hurter and V. C. Driffield, Journal of the Society of Chemical Industry 9 (1890), 31 May, in the form of
     *     a later reprint; the constant in the exponent is from memory, and forced by the definition of inertia
     */
    HURTER_DRIFFIELD(
            "Hurter and Driffield 1890", ShapeKind.HURTER_DRIFFIELD, BASE_PLUS_FOG, GRADIENT, INERTIA, OPACITY);

    private final String label;

    @SuppressWarnings("ImmutableEnumChecker") // an immutable shape
    private final ShapeKind kind;

    @SuppressWarnings("ImmutableEnumChecker") // an immutable list of enum constants
    private final List<CurveParameter> parameters;

    CurveFamily(String label, ShapeKind kind, CurveParameter... parameters) {
        this.label = label;
        this.kind = kind;
        this.parameters = List.of(parameters);
    }

    /**
     * Returns the parameters in order.
     *
     * @return the parameters
     */
    public List<CurveParameter> parameters() {
        return parameters;
    }

    /**
     * Returns the curve of this family with given parameters.
     *
     * @param values the values in the order of {@link #parameters()}
     * @return the form
     * @throws IllegalArgumentException if there are more or fewer values than parameters, one is not finite, a gradient,
     *     density range, softness or width is not above 0, the shoulder does not lie above the toe, or the opacity is not
     *     above 1
     */
    public ParametricForm form(double... values) {
        return ParametricForm.of(this, values);
    }

    ShapeKind kind() {
        return kind;
    }

    /**
     * Returns the family in words.
     *
     * @return for example {@code toe, straight line and shoulder}
     */
    @Override
    public String toString() {
        return label;
    }
}
