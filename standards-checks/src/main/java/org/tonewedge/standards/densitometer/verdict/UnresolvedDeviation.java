// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Minimum;
import org.tonewedge.fitting.numeric.LinearFit;
import org.tonewedge.fitting.numeric.Matrices;

/**
 * How far an instrument may depart from the form that was fitted to its readings of a tablet, without having shown it there: the
 * definition that {@link DensityCorrection} tells.
 *
 * <p>The readings are y = X p + g + e: the form, a deviation g with the covariances τ² k(D, D′), k = exp(−(D − D′)² / 2 l²), and
 * errors e with the variances v<sub>i</sub>. The fitted form is off by h(D)<sup>T</sup> (g + e) − g(D), where h<sub>i</sub>(D) is
 * what it moves at D where step i reads one unit more. The residuals r, divided by √v, have the covariances 1 + τ² λ<sub>j</sub>
 * along the axes of S V<sup>−½</sup> K V<sup>−½</sup> S, where S takes the form out; z<sub>j</sub> are their components. So
 *
 * <p>−2 ln L(τ) = Σ ln (1 + τ² λ<sub>j</sub>) + z<sub>j</sub>² / (1 + τ² λ<sub>j</sub>),
 *
 * <p>and τ is where this is above its least by {@value #DROP}. Beside such residuals h<sup>T</sup>g − g(D) has, as the second
 * moments of a conditional normal distribution,
 *
 * <p>τ² [k − h<sup>T</sup>k(D′) − h′<sup>T</sup>k(D) + h<sup>T</sup>K h′] + Σ<sub>ij</sub> δ<sub>i</sub> δ′<sub>j</sub>
 * (b<sub>i</sub> b<sub>j</sub> − [i = j] τ⁴ / (1 + τ² λ<sub>j</sub>)),
 *
 * <p>with δ the components of K h − k(D), divided by √v, and b<sub>j</sub> = τ² z<sub>j</sub> / (1 + τ² λ<sub>j</sub>). As the
 * weights are 1 / v, h<sup>T</sup>e is independent of r, and its variance is that of the fit.
 *
 * @source Gaussian processes with a trend: C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning (MIT Press,
 *     2006), 2.2 and 2.7, from memory; likelihood-ratio limit: textbook
 */
final class UnresolvedDeviation {

    /** The 90 % point of χ² with one degree of freedom: 95 % on one side. */
    static final double DROP = 2.706;

    /** The correlation length is this part of the range of the tablet, or the distance of steps if that is larger. */
    private static final int LENGTHS = 4;

    private static final int PIECES = 48;
    /** The part of the sum of variances that is left out, so that the errors are few. */
    private static final double NEGLIGIBLE = 1e-4;
    /** Axes on which the deviation is less than this, as a part of the largest, are rounding. */
    private static final double ROUNDING = 1e-12;

    private static final double SMALLEST = 1e-3;
    private static final double STEP = 1.1;
    private static final double PRECISION = 1e-12;

    private final double[] densities;
    private final double[] weights;
    private final DoubleFunction<double[]> gradient;
    private final double[][] cofactors;
    private final double length;
    /** The axes of the deviation in the residuals, as unit vectors, with λ and z. */
    private final double[][] axes;

    private final double[] sizes;
    private final double[] components;

    private UnresolvedDeviation(
            double[] densities, double[] residuals, double[] variances, DoubleFunction<double[]> gradient) {
        int count = densities.length;
        this.densities = densities;
        this.gradient = gradient;
        weights = Arrays.stream(variances).map(v -> 1 / v).toArray();
        double[][] rows = Arrays.stream(densities).mapToObj(gradient).toArray(double[][]::new);
        LinearFit fit = LinearFit.of(rows, residuals, weights);
        int parameters = rows[0].length;
        cofactors = new double[parameters][parameters];
        for (int i = 0; i < parameters; i++) {
            for (int j = 0; j < parameters; j++) {
                cofactors[i][j] = fit.cofactor(i, j);
            }
        }
        double least = Arrays.stream(densities).min().orElseThrow();
        double most = Arrays.stream(densities).max().orElseThrow();
        length = (most - least) / Math.min(LENGTHS, count - 1);

        double[][] seen = new double[count][];
        for (int j = 0; j < count; j++) {
            double[] column = new double[count];
            for (int i = 0; i < count; i++) {
                column[i] = correlation(densities[i], densities[j]) * Math.sqrt(weights[i] * weights[j]);
            }
            seen[j] = withoutForm(column);
        }
        double[][] covariance = new double[count][];
        for (int i = 0; i < count; i++) {
            double[] row = new double[count];
            for (int j = 0; j < count; j++) {
                row[j] = seen[j][i];
            }
            covariance[i] = withoutForm(row);
        }
        double[] scaled = new double[count];
        Arrays.setAll(scaled, i -> residuals[i] * Math.sqrt(weights[i]));
        scaled = withoutForm(scaled);
        axes = Matrices.principalErrors(covariance, ROUNDING);
        sizes = new double[axes.length];
        components = new double[axes.length];
        for (int k = 0; k < axes.length; k++) {
            double[] axis = axes[k];
            sizes[k] = product(axis, axis);
            double norm = Math.sqrt(sizes[k]);
            Arrays.setAll(axis, i -> axis[i] / norm);
            components[k] = product(axis, scaled);
        }
    }

    /**
     * Judges the residuals of a form.
     *
     * @param densities the certified densities of the steps
     * @param residuals by how much each reads more than the form
     * @param variances those of the residuals, above 0
     * @param gradient the derivatives of the form with respect to its parameters at a density
     */
    static UnresolvedDeviation of(
            double[] densities, double[] residuals, double[] variances, DoubleFunction<double[]> gradient) {
        return new UnresolvedDeviation(densities, residuals, variances, gradient);
    }

    private double correlation(double density, double other) {
        double distance = (density - other) / length;
        return Math.exp(-0.5 * distance * distance);
    }

    /** What is left of readings, divided by their √v, when the form was fitted to them. */
    private double[] withoutForm(double[] scaled) {
        double[] left = scaled.clone();
        for (int j = 0; j < scaled.length; j++) {
            double[] moves = movesAt(gradient.apply(densities[j]));
            for (int i = 0; i < scaled.length; i++) {
                left[j] -= Math.sqrt(weights[j] / weights[i]) * moves[i] * scaled[i];
            }
        }
        return left;
    }

    /** h: by how much the form moves where the reading of each step is one unit higher. */
    private double[] movesAt(double[] at) {
        double[] moves = new double[densities.length];
        for (int i = 0; i < moves.length; i++) {
            double[] own = gradient.apply(densities[i]);
            for (int j = 0; j < at.length; j++) {
                for (int k = 0; k < at.length; k++) {
                    moves[i] += weights[i] * at[j] * cofactors[j][k] * own[k];
                }
            }
        }
        return moves;
    }

    private static double product(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    /** The upper limit of τ. */
    double amplitude() {
        if (sizes.length == 0) {
            return 0;
        }
        double least = deviance(0);
        double variance = SMALLEST / sizes[0];
        double highest = (Math.exp(least + DROP) - 1) / sizes[0]; // ln (1 + τ² λ) alone is more than allowed
        double best = 0;
        for (double trial = variance; trial < highest; trial *= STEP) {
            if (deviance(trial) < least) {
                least = deviance(trial);
                best = trial;
            }
        }
        if (best > 0) {
            least = deviance(Minimum.between(this::deviance, best / STEP, best * STEP, PRECISION * best));
        }
        double allowed = least + DROP;
        double below = best;
        double above = Math.max(best, variance);
        while (deviance(above) <= allowed) {
            below = above;
            above *= STEP;
        }
        while (above - below > PRECISION * above) {
            double middle = 0.5 * (below + above);
            if (deviance(middle) <= allowed) {
                below = middle;
            } else {
                above = middle;
            }
        }
        return Math.sqrt(above);
    }

    /** −2 ln L. */
    private double deviance(double variance) {
        double sum = 0;
        for (int k = 0; k < sizes.length; k++) {
            double seen = 1 + variance * sizes[k];
            sum += Math.log(seen) + components[k] * components[k] / seen;
        }
        return sum;
    }

    /** The second moments, in readings, of the error that the deviation makes of the form at some densities. */
    double[][] momentsAt(double[] at) {
        double amplitude = amplitude();
        double variance = amplitude * amplitude;
        int steps = densities.length;
        double[][] moves = new double[at.length][];
        double[][] near = new double[at.length][steps];
        double[][] moved = new double[at.length][steps];
        double[][] shown = new double[at.length][axes.length];
        for (int d = 0; d < at.length; d++) {
            moves[d] = movesAt(gradient.apply(at[d]));
            double[] departures = new double[steps];
            for (int i = 0; i < steps; i++) {
                near[d][i] = correlation(at[d], densities[i]);
                for (int j = 0; j < steps; j++) {
                    moved[d][i] += correlation(densities[i], densities[j]) * moves[d][j];
                }
                departures[i] = (moved[d][i] - near[d][i]) * Math.sqrt(weights[i]);
            }
            for (int k = 0; k < axes.length; k++) {
                shown[d][k] = product(axes[k], departures);
            }
        }
        double[][] moments = new double[at.length][at.length];
        for (int d = 0; d < at.length; d++) {
            for (int e = 0; e < at.length; e++) {
                double free = correlation(at[d], at[e])
                        - product(moves[d], near[e])
                        - product(moves[e], near[d])
                        + product(moves[d], moved[e]);
                double one = 0;
                double other = 0;
                double known = 0;
                for (int k = 0; k < axes.length; k++) {
                    double seen = 1 + variance * sizes[k];
                    one += shown[d][k] * variance * components[k] / seen;
                    other += shown[e][k] * variance * components[k] / seen;
                    known += shown[d][k] * shown[e][k] * variance * variance / seen;
                }
                moments[d][e] = variance * free + one * other - known;
            }
        }
        return moments;
    }

    /**
     * The same as independent errors of corrected densities, the largest first.
     *
     * @param slopeAt the slope of the form, by which readings become densities
     */
    List<PiecewiseError> errors(DoubleUnaryOperator slopeAt) {
        double least = Arrays.stream(densities).min().orElseThrow();
        double most = Arrays.stream(densities).max().orElseThrow();
        double[] knots = new double[PIECES + 1];
        Arrays.setAll(knots, i -> least + (most - least) * i / PIECES);
        double[][] moments = momentsAt(knots);
        for (int i = 0; i < knots.length; i++) {
            for (int j = 0; j < knots.length; j++) {
                moments[i][j] /= slopeAt.applyAsDouble(knots[i]) * slopeAt.applyAsDouble(knots[j]);
            }
        }
        List<Double> at = Arrays.stream(knots).boxed().toList();
        return Arrays.stream(Matrices.principalErrors(moments, NEGLIGIBLE))
                .map(error ->
                        PiecewiseError.along(at, Arrays.stream(error).boxed().toList()))
                .toList();
    }
}
