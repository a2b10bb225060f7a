// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.fitting.internal.LeastSquaresSolution;
import org.tonewedge.fitting.numeric.AkaikeCriterion;
import org.tonewedge.fitting.numeric.DeltaMethod;

/**
 * A {@linkplain CurveModel model of your own} fitted to readings: the curve, its parameters and figures with their
 * uncertainty, and a criterion that compares it with the families of this library.
 *
 * <p>Uncertainties follow from the covariance of the parameters to first order.
 *
 * <p>Immutable and thread safe, as far as the model is.
 *
 * @source propagation of uncertainty to first order: JCGM 100:2008, 5.2.2
 */
public final class FittedModel implements Recorded {

    /** A difference over this part of a standard error is small beside the curve and large beside rounding. */
    private static final double STEP = 0.05;

    private final CurveModel model;
    private final List<String> names;
    private final FitInput input;
    private final double[] parameters;
    private final double[][] covariance;
    private final double sumOfSquares;
    private final double degreesOfFreedom;
    private final int residualFreedom;
    private final CharacteristicCurve curve;

    FittedModel(CurveModel model, List<String> names, FitInput input, LeastSquaresSolution solution) {
        this.model = model;
        this.names = names;
        this.input = input;
        parameters = solution.parameters().clone();
        sumOfSquares = solution.residualSumOfSquares();
        residualFreedom = solution.degreesOfFreedom();
        degreesOfFreedom = input.isVarianceKnown() ? input.knownFreedom() : residualFreedom;
        covariance = solution.unscaledCovariance();
        double variance = input.isVarianceKnown() ? input.knownVariance() : sumOfSquares / residualFreedom;
        for (double[] row : covariance) {
            for (int j = 0; j < row.length; j++) {
                row[j] *= variance;
            }
        }
        curve = curveOf(parameters);
    }

    private CharacteristicCurve curveOf(double[] values) {
        double[] own = values.clone();
        return CharacteristicCurve.of(
                input.name(),
                CurveForm.of(x -> model.density(x, own.clone()), x -> model.gradient(x, own.clone())),
                input.lowest(),
                input.highest(),
                Density.of(model.basePlusFog(own.clone())));
    }

    /**
     * Returns the curve.
     *
     * @return the fitted curve over the exposures that were read
     */
    public CharacteristicCurve curve() {
        return curve;
    }

    /**
     * Returns a parameter.
     *
     * @param name its name in the model
     * @return its value with its standard uncertainty
     * @throws IllegalArgumentException if the model has no such parameter
     */
    public Estimate parameter(String name) {
        int i = names.indexOf(name);
        if (i < 0) {
            throw new IllegalArgumentException(
                    "the model '" + model.name() + "' has no parameter '" + name + "'; it has " + names);
        }
        return Estimate.of(parameters[i], Math.sqrt(covariance[i][i]), degreesOfFreedom);
    }

    /**
     * Returns all parameters in the order of the model.
     *
     * @return each name with its value and standard uncertainty
     */
    public Map<String, Estimate> parameters() {
        Map<String, Estimate> all = new LinkedHashMap<>();
        names.forEach(name -> all.put(name, parameter(name)));
        return Collections.unmodifiableMap(all);
    }

    /**
     * Returns the covariance of the parameters.
     *
     * @return a copy, by rows, in the order of the model
     */
    public double[][] covariance() {
        double[][] copy = covariance.clone();
        Arrays.setAll(copy, i -> covariance[i].clone());
        return copy;
    }

    /**
     * Returns the scatter of the readings about the curve.
     *
     * @return the residual standard deviation
     * @units density; with a stated repeatability, multiples of it
     */
    public double residualStandardDeviation() {
        return Math.sqrt(sumOfSquares / residualFreedom);
    }

    /**
     * Returns the density at a log exposure with its standard uncertainty.
     *
     * @param logExposure where, within the exposures that were read
     * @return the gross density
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if it was not read there
     */
    public Estimate densityAt(LogExposure logExposure) {
        curve.densityAt(logExposure);
        return estimate(of -> of.form().density(logExposure.value()));
    }

    /**
     * Returns the interval in which the true curve lies.
     *
     * @param logExposure where, within the exposures that were read
     * @param confidence such as 0.95
     * @return the interval of gross densities
     * @throws org.tonewedge.core.curve.OutsideMeasuredRangeException if it was not read there
     */
    public CoverageInterval confidenceBand(LogExposure logExposure, double confidence) {
        return densityAt(logExposure).interval(confidence);
    }

    /**
     * Returns any figure of the curve with its standard uncertainty.
     *
     * @param figure reads the figure off a curve
     * @return the figure
     * @throws NotDeterminableException if the figure cannot be read off the curve, or off the curves beside it
     */
    public Estimate estimate(ToDoubleFunction<CharacteristicCurve> figure) {
        double value = figure.applyAsDouble(curve);
        double[] steps = new double[parameters.length];
        for (int j = 0; j < steps.length; j++) {
            steps[j] = STEP * Math.sqrt(covariance[j][j]);
        }
        double[] gradient = DeltaMethod.gradient(moved -> readOrNaN(figure, moved), value, parameters, steps);
        double variance = DeltaMethod.variance(gradient, covariance);
        if (Double.isNaN(variance)) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    input.name() + " (" + model.name()
                            + "): the figure cannot be read off curves beside the fitted one, so its uncertainty is unknown: read"
                            + " steps over a longer range");
        }
        return Estimate.of(value, Math.sqrt(variance), degreesOfFreedom);
    }

    private double readOrNaN(ToDoubleFunction<CharacteristicCurve> figure, double[] values) {
        try {
            return figure.applyAsDouble(curveOf(values));
        } catch (NotDeterminableException | IllegalArgumentException e) {
            return Double.NaN;
        }
    }

    /**
     * Returns Akaike's criterion with the correction for small samples, comparable with that of a {@link FittedCurve} of
     * the same readings with the same repeatability and without a robust loss.
     *
     * @return the criterion: less is better; infinite if there are too few readings for it
     */
    public double aicc() {
        int n = input.readings().size();
        boolean known = input.isVarianceKnown();
        double misfit = known
                ? sumOfSquares / input.knownVariance()
                : AkaikeCriterion.misfit(n, sumOfSquares, Akaike.LEAST_MEAN_SQUARE);
        return AkaikeCriterion.corrected(n, parameters.length + (known ? 0 : 1), misfit);
    }

    /**
     * Returns how much the readings prefer this model to a fitted family: Akaike's weight among the two.
     *
     * @param family a fit of the same readings with the same repeatability, without a robust loss
     * @return from 0, the readings support the family alone, to 1, they support this model alone
     * @throws NotDeterminableException if the readings are too few for the criterion of both
     * @throws IllegalArgumentException if the family was fitted to other readings, with another repeatability or with a
     *     robust loss
     * @source K. P. Burnham and D. R. Anderson, Model Selection and Multimodel Inference (2002), 2.9 (from memory)
     */
    public double weightBeside(FittedCurve family) {
        family.requireComparable(input);
        double own = aicc();
        double other = family.aicc();
        if (Double.isInfinite(own) && Double.isInfinite(other)) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    input.name() + ": the readings are too few to compare " + model.name()
                            + " with a family: read more steps");
        }
        return 1 / (1 + Math.exp(0.5 * (own - other)));
    }

    /**
     * Returns the fit as named values: {@code model}, each parameter by its name with its uncertainty, and the scatter.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("model", model.name()));
        parameters().forEach((name, value) -> records.add(ResultRecord.ofEstimate(name, value, "")));
        records.add(ResultRecord.ofNumber(
                "residual_standard_deviation", residualStandardDeviation(), input.unitOfResiduals()));
        records.add(ResultRecord.ofNumber("readings", input.readings().size(), ""));
        return List.copyOf(records);
    }

    /**
     * Returns the fit in words.
     *
     * @return the readings, the model and the parameters
     */
    @Override
    public String toString() {
        return input.name() + ": " + model.name() + ", " + parameters();
    }
}
