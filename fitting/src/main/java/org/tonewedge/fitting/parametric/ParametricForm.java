// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.StraightLine;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.fitting.internal.Shape;
import org.tonewedge.fitting.internal.ShapeKind;

/**
 * A curve of a {@link CurveFamily} with given parameters, such as a toe–straight-line–shoulder curve of gradient 0.65.
 * Density, gradient, inverse and the derivatives with respect to the parameters are analytic.
 *
 * <p>Immutable and thread safe.
 */
public final class ParametricForm implements CurveForm {

    private static final double[] NO_TURNING_POINTS = {};

    private final CurveFamily family;
    private final double[] values;
    private final Shape shape;
    private final double offset;
    private final double scale;
    private final double[] search;
    private final DoubleUnaryOperator shapeAt;
    private final DoubleUnaryOperator slopeAt;

    private ParametricForm(CurveFamily family, double[] values, double offset, double scale, double[] search) {
        this.family = family;
        this.values = values;
        this.offset = offset;
        this.scale = scale;
        this.search = search;
        shape = family.kind().shape();
        shapeAt = shape.at(search);
        slopeAt = shape.slopeAt(search);
    }

    static ParametricForm of(CurveFamily family, double[] values) {
        if (values.length != family.parameters().size()) {
            throw new IllegalArgumentException(
                    family + " has " + family.parameters().size() + " parameters, " + family.parameters() + ", but "
                            + values.length + " values were given");
        }
        for (int i = 0; i < values.length; i++) {
            check(family, i, values);
        }
        ShapeKind kind = family.kind();
        double[] natural = Arrays.copyOfRange(values, 2, 2 + kind.shape().size());
        return new ParametricForm(family, values.clone(), values[0], values[1], kind.search(natural));
    }

    private static void check(CurveFamily family, int i, double[] values) {
        CurveParameter parameter = family.parameters().get(i);
        String name = parameter + " of a curve (" + family + ")";
        Checks.finite(name, values[i]);
        switch (parameter) {
            case GRADIENT, DENSITY_RANGE, TOE_SOFTNESS, SHOULDER_SOFTNESS, WIDTH -> Checks.positive(name, values[i]);
            case OPACITY -> require(values[i] > 1, name, "above 1", values[i]);
            case ASYMMETRY ->
                require(
                        values[i] > 0 || (family == CurveFamily.RICHARDS && values[i] == 0),
                        name,
                        "above 0",
                        values[i]);
            case SHOULDER_POSITION -> {
                if (family == CurveFamily.TOE_SHOULDER) {
                    require(values[i] > values[2], name, "above the toe position " + values[2], values[i]);
                }
            }
            default -> {
                // any finite value
            }
        }
    }

    private static void require(boolean holds, String name, String rule, double value) {
        if (!holds) {
            throw new IllegalArgumentException(name + " must be " + rule + ", was " + value);
        }
    }

    /** The form of a fit, from the search parameters; base plus fog is used only if the shape has none. */
    static ParametricForm ofSearch(CurveFamily family, double offset, double scale, double[] search, double base) {
        double[] natural = family.kind().natural(search);
        double[] values = new double[family.parameters().size()];
        values[0] = offset;
        values[1] = scale;
        System.arraycopy(natural, 0, values, 2, natural.length);
        if (!family.kind().shape().reachesBase()) {
            values[values.length - 1] = base;
        }
        return new ParametricForm(family, values, offset, scale, search.clone());
    }

    /**
     * Returns the family.
     *
     * @return the family
     */
    public CurveFamily family() {
        return family;
    }

    /**
     * Returns a parameter.
     *
     * @param parameter a parameter of the family
     * @return its value
     * @throws IllegalArgumentException if the family does not have the parameter
     */
    public double parameter(CurveParameter parameter) {
        Objects.requireNonNull(parameter, "parameter");
        int index = family.parameters().indexOf(parameter);
        if (index < 0) {
            throw new IllegalArgumentException(
                    family + " has no " + parameter + "; its parameters are " + family.parameters());
        }
        return values[index];
    }

    /**
     * Returns all parameters.
     *
     * @return a copy of the values, in the order of {@link CurveFamily#parameters()}
     */
    public double[] parameters() {
        return values.clone();
    }

    @Override
    public double density(double logExposure) {
        return offset + scale * shapeAt.applyAsDouble(logExposure);
    }

    @Override
    public double gradient(double logExposure) {
        return scale * slopeAt.applyAsDouble(logExposure);
    }

    @Override
    public void densities(double[] logExposures, double[] densities) {
        Objects.requireNonNull(logExposures, "logExposures");
        Objects.requireNonNull(densities, "densities");
        shape.values(logExposures, search, densities);
        for (int i = 0; i < logExposures.length; i++) {
            densities[i] = offset + scale * densities[i];
        }
    }

    /**
     * Returns the log exposure at which the curve has a density: the inverse of {@link #density(double)}.
     *
     * @param density the gross density
     * @return log<sub>10</sub> H
     * @throws IllegalArgumentException if no exposure gives the density
     */
    public double logExposure(double density) {
        double x = shape.inverse((density - offset) / scale, search);
        if (!Double.isFinite(x)) {
            throw new IllegalArgumentException(
                    "density " + Figures.plain(density) + " is not between the limits of " + this);
        }
        return x;
    }

    /**
     * Returns the derivatives of the density with respect to the parameters at one exposure: a row of the Jacobian.
     *
     * @param logExposure log<sub>10</sub> H
     * @return one derivative for each of {@link CurveFamily#parameters()}
     */
    public double[] densityByParameters(double logExposure) {
        double[] bySearch = densityBySearch(logExposure);
        int n = search.length;
        double[] derivatives = new double[values.length];
        derivatives[0] = bySearch[0];
        derivatives[1] = bySearch[1];
        // The chain rule backwards: solve (dnatural/dsearch)ᵀ d = dD/dsearch, whose matrix has only a first column and
        // a diagonal.
        double[][] naturalBySearch = family.kind().naturalBySearch(search);
        for (int k = n - 1; k >= 0; k--) {
            double rest = bySearch[k + 2];
            for (int l = k + 1; l < n; l++) {
                rest -= naturalBySearch[l][k] * derivatives[l + 2];
            }
            derivatives[k + 2] = rest / naturalBySearch[k][k];
        }
        return derivatives;
    }

    /** The derivatives with respect to offset, scale and the search parameters. */
    double[] densityBySearch(double logExposure) {
        int n = search.length;
        double[] value = new double[1];
        double[][] partials = new double[n][1];
        shape.fill(new double[] {logExposure}, 1, search, value, partials);
        double[] derivatives = new double[n + 2];
        derivatives[0] = 1;
        derivatives[1] = value[0];
        for (int k = 0; k < n; k++) {
            derivatives[k + 2] = scale * partials[k][0];
        }
        return derivatives;
    }

    /**
     * Returns the turning point of a curve whose toe and shoulder differ in softness: the softer bend extends past the
     * sharper one. Other families have none.
     *
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the turning point if it lies inside the range
     */
    @Override
    public double[] turningPoints(double from, double to) {
        if (family == CurveFamily.TOE_SHOULDER) {
            double turn = values[2] + (values[2] - values[4]) * values[3] / (values[5] - values[3]);
            if (turn > from && turn < to) {
                return new double[] {turn};
            }
        }
        return NO_TURNING_POINTS;
    }

    /**
     * Tells that the gradient of every family, wherever it is above 0, rises to one greatest value and falls from there. That
     * of a toe or a shoulder is a logistic function, which only rises or falls; the logarithm of that of a sigmoid bends
     * downwards. With toe and shoulder of softness s and t at p and q, its derivative is 0 where √t cosh((x − q)/2t) =
     * √s cosh((x − p)/2s), which is at one place if s = t, and else at two with the turning point between them. That of the
     * equation of 1890, with v = H/(O i), is proportional to v/(O eᵛ − O + 1), whose derivative is 0 where (1 − v) eᵛ =
     * 1 − 1/O; the left side falls from 1 to below 0.
     *
     * @return true
     */
    @Override
    public boolean hasOneSteepestPlace() {
        return true;
    }

    /**
     * Returns the straight line of a family that has one: the line of the toe and shoulder models, and the line D = B +
     * γ (x − i) that the equation of 1890 tends to. Sigmoids have none.
     *
     * @return the line
     */
    @Override
    public Optional<StraightLine> straightLine() {
        return switch (family) {
            case TOE_SHOULDER, TOE_STRAIGHT_LINE, STRAIGHT_LINE_SHOULDER, HURTER_DRIFFIELD ->
                // The offset is the density of the line at the position that follows the gradient.
                Optional.of(new StraightLine(values[2], values[0], values[1]));
            case STRAIGHT_LINE -> Optional.of(new StraightLine(0, values[0], values[1]));
            default -> Optional.empty();
        };
    }

    /**
     * Returns the curve in words.
     *
     * @return the family and its parameters
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(family.toString());
        for (int i = 0; i < values.length; i++) {
            text.append(i == 0 ? ": " : ", ")
                    .append(family.parameters().get(i))
                    .append(' ')
                    .append(Figures.plain(values[i]));
        }
        return text.toString();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ParametricForm that
                && Objects.equals(family, that.family)
                && Arrays.equals(values, that.values);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(family, Arrays.hashCode(values));
    }
}
