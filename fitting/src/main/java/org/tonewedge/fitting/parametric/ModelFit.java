// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.Bounds;
import org.tonewedge.fitting.internal.LeastSquares;
import org.tonewedge.fitting.internal.LeastSquaresProblem;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.internal.Readings;

/**
 * How a {@linkplain CurveModel model of your own} is fitted: weighted nonlinear least squares over all readings, those of
 * base plus fog among them, with the same engine as the families of this library.
 *
 * <pre>{@code
 * FittedModel fit = ModelFit.of(new Hyperbolic()).fit(strip);
 * Estimate width = fit.parameter("width");
 * Iso6Speed speed = Iso6.withDefaults().determine(fit.curve());
 * double preferred = fit.weightBeside(CurveFits.toeShoulder(strip));
 * }</pre>
 *
 * <p>Default: the standard deviation of a reading is that of the residuals. Immutable and thread safe; {@code with}
 * returns a copy. Null is refused with the name of the parameter.
 */
public final class ModelFit {

    private static final double MOST_CONDITION = 1e12;

    private final CurveModel model;
    private final Optional<Repeatability> repeatability;

    private ModelFit(CurveModel model, Optional<Repeatability> repeatability) {
        this.model = Objects.requireNonNull(model, "model");
        this.repeatability = repeatability;
    }

    /**
     * Returns the fit of a model with the default options.
     *
     * @param model the model
     * @return the fit
     */
    public static ModelFit of(CurveModel model) {
        return new ModelFit(model, Optional.empty());
    }

    /**
     * Returns this fit with a stated repeatability, or one from repeat readings, in place of the residuals. It sets the
     * weights of the readings and the size of the uncertainties.
     *
     * @param repeatability the standard deviation of a reading, above 0 at the densities read
     * @return a copy
     */
    public ModelFit with(Repeatability repeatability) {
        Objects.requireNonNull(repeatability, "repeatability");
        return new ModelFit(model, Optional.of(repeatability));
    }

    /**
     * Fits a strip.
     *
     * @param strip the strip
     * @return the fitted model
     * @throws IllegalArgumentException if the model gives something that is not finite at its start, or a derivative that
     *     its density contradicts; the message names it
     * @throws CurveFitException if the strip cannot be fitted; its {@link CurveFitException#failure()} tells why
     */
    public FittedModel fit(Strip strip) {
        return fit(FitInput.of(strip, repeatability));
    }

    /**
     * Fits plain readings in any order; equal exposures are repeats.
     *
     * @param name what they are, for messages
     * @param axis the axis of the exposures
     * @param logExposures log<sub>10</sub> H of each reading
     * @param densities the gross density of each
     * @param basePlusFog readings of the unexposed, processed material, if there are any
     * @return the fitted model
     * @throws IllegalArgumentException if there are not as many densities as exposures, a number is out of range, or as
     *     {@link #fit(Strip)} does
     * @throws CurveFitException as {@link #fit(Strip)} does
     */
    public FittedModel fit(
            String name, ExposureAxis axis, double[] logExposures, double[] densities, double... basePlusFog) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(axis, "axis");
        return fit(FitInput.of(name, axis, logExposures, densities, basePlusFog, repeatability));
    }

    private FittedModel fit(FitInput input) {
        List<String> parameters = List.copyOf(model.parameters());
        Readings readings = input.readings();
        String what = input.name() + " (" + model.name() + ")";
        if (readings.size() <= parameters.size() || readings.levels() < parameters.size()) {
            throw new CurveFitException(
                    FitFailure.TOO_FEW_READINGS,
                    what + ": " + Figures.counted(readings.size(), "reading") + " at "
                            + Figures.counted(readings.levels(), "level") + " are too few for "
                            + parameters.size() + " parameters: read at least " + (parameters.size() + 1) + " steps");
        }
        double[] exposures = Arrays.copyOf(readings.logExposures(), readings.exposed());
        double[] start =
                ModelChecks.checkedStart(model, exposures, Arrays.copyOf(readings.densities(), exposures.length));
        LeastSquaresSolution solution = LeastSquares.withDefaults()
                .withBounds(Bounds.of(model.lowerBounds(), model.upperBounds()))
                .solve(new Problem(model, parameters.size(), readings), start);
        if (!solution.stopReason().isConverged()) {
            throw new CurveFitException(
                    FitFailure.NOT_CONVERGED,
                    what + ": no least sum of squares was found in " + solution.iterations()
                            + " iterations: look for bad readings, or give the model a better start");
        }
        for (int i = 0; i < parameters.size(); i++) {
            if (solution.isAtBound(i)) {
                throw new CurveFitException(
                        FitFailure.BOUND_HIT,
                        what + ": " + parameters.get(i) + " ran to the end of its range, " + solution.parameters()[i]
                                + ", so the readings do not determine it: read steps over a longer range, or take the"
                                + " parameter out");
            }
        }
        if (!(solution.conditionNumber() < MOST_CONDITION)) {
            throw new CurveFitException(
                    FitFailure.ILL_CONDITIONED,
                    what + ": the readings cannot tell the parameters apart: read steps over a longer range, or take a"
                            + " parameter out");
        }
        return new FittedModel(model, parameters, input, solution);
    }

    /**
     * Returns the fit in words.
     *
     * @return the model and the source of the repeatability
     */
    @Override
    public String toString() {
        return model.name() + ", repeatability from "
                + repeatability.map(Repeatability::toString).orElse("the residuals");
    }

    /** Residuals over their standard deviations; the last rows are the unexposed readings. */
    private record Problem(CurveModel model, int parameterCount, Readings readings) implements LeastSquaresProblem {

        private static final double STEP = 1e-6;

        @Override
        public int residualCount() {
            return readings.size();
        }

        @Override
        public void residuals(double[] parameters, double[] residuals) {
            double[] own = parameters.clone();
            for (int i = 0; i < residuals.length; i++) {
                double density = i < readings.exposed()
                        ? model.density(readings.logExposures()[i], own)
                        : model.basePlusFog(own);
                residuals[i] = Math.sqrt(readings.weights()[i]) * (density - readings.densities()[i]);
            }
        }

        @Override
        public boolean jacobian(double[] parameters, double[][] columns) {
            double[] own = parameters.clone();
            double[] row = new double[parameterCount];
            double[] base = readings.exposed() < readings.size() ? baseRow(own) : row;
            for (int i = 0; i < readings.size(); i++) {
                if (i < readings.exposed()) {
                    model.derivatives(readings.logExposures()[i], own, row);
                }
                double weight = Math.sqrt(readings.weights()[i]);
                for (int j = 0; j < parameterCount; j++) {
                    columns[j][i] = weight * (i < readings.exposed() ? row[j] : base[j]);
                }
            }
            return true;
        }

        /** The derivatives of base plus fog, by differences. */
        private double[] baseRow(double[] parameters) {
            double[] row = new double[parameterCount];
            for (int j = 0; j < parameterCount; j++) {
                double step = STEP * Math.max(Math.abs(parameters[j]), 0.1);
                double[] moved = parameters.clone();
                moved[j] = parameters[j] + step;
                double above = model.basePlusFog(moved);
                moved[j] = parameters[j] - step;
                row[j] = (above - model.basePlusFog(moved)) / (2 * step);
            }
            return row;
        }
    }
}
