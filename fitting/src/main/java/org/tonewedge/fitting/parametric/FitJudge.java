// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import org.tonewedge.fitting.internal.Readings;
import org.tonewedge.fitting.internal.ShapeFit;
import org.tonewedge.fitting.numeric.Distributions;

/** Reaches the verdict of {@link LackOfFit}. */
final class FitJudge {

    /** Readings whose robust weight is less than this are left out. */
    private static final double TRUSTED = 0.5;

    private static final double DEPENDENT = 1e-10;

    /** A density difference that no instrument shows. */
    private static final double EXACT = 1e-6;

    private final FitInput input;
    private final ShapeFit fit;
    private final ParametricForm form;

    FitJudge(FitInput input, ShapeFit fit, ParametricForm form) {
        this.input = input;
        this.fit = fit;
        this.form = form;
    }

    LackOfFit verdict() {
        int[] trusted = trusted();
        int freedom = fit.degreesOfFreedom() - (fit.residuals().length - trusted.length);
        if (freedom < 1) {
            return new LackOfFit(LackOfFit.Test.NONE, 0, 1);
        }
        double square = squares(trusted);
        if (input.isStated() && input.knownFreedom() == Double.POSITIVE_INFINITY) {
            return new LackOfFit(LackOfFit.Test.CHI_SQUARE, square, Distributions.chiSquaredExceeds(square, freedom));
        }
        double[] scatter = scatter(trusted);
        int repeats = (int) scatter[1];
        double ofMeans = square - scatter[0];
        if (input.isStated()) {
            return freedom - repeats < 1
                    ? new LackOfFit(LackOfFit.Test.NONE, 0, 1)
                    : byRepeats(ofMeans, freedom - repeats, input.knownVariance(), input.knownFreedom());
        }
        LackOfFit neighbours = byNeighbours(trusted);
        if (isExact(trusted)) {
            return new LackOfFit(neighbours.test(), neighbours.statistic(), 1);
        }
        if (repeats == 0 || freedom - repeats < 1 || scatter[0] == 0) {
            return neighbours;
        }
        LackOfFit byRepeats = byRepeats(ofMeans, freedom - repeats, scatter[0] / repeats, repeats);
        return repeats >= freedom - repeats || neighbours.test() == LackOfFit.Test.NONE
                ? byRepeats
                : moreDoubtful(byRepeats, neighbours);
    }

    private static LackOfFit byRepeats(double squares, int freedom, double variance, double freedomOfVariance) {
        double ratio = Math.max(0, squares) / freedom / variance;
        return new LackOfFit(LackOfFit.Test.F, ratio, Distributions.fisherExceeds(ratio, freedom, freedomOfVariance));
    }

    /**
     * Few repeat readings say little, so this takes the worse of both verdicts, with its probability doubled because
     * there were two chances.
     */
    private static LackOfFit moreDoubtful(LackOfFit one, LackOfFit other) {
        LackOfFit worse = one.probability() < other.probability() ? one : other;
        return new LackOfFit(worse.test(), worse.statistic(), Math.min(1, 2 * worse.probability()));
    }

    private int[] trusted() {
        int[] indices = new int[fit.residuals().length];
        int count = 0;
        for (int i = 0; i < indices.length; i++) {
            if (fit.lossWeights()[i] >= TRUSTED) {
                indices[count++] = i;
            }
        }
        return Arrays.copyOf(indices, count);
    }

    /** Whether all residuals are what arithmetic leaves of computed densities, in which there is nothing to judge. */
    private boolean isExact(int[] trusted) {
        return Arrays.stream(trusted).allMatch(i -> Math.abs(fit.residuals()[i]) < EXACT);
    }

    private double squares(int[] trusted) {
        double sum = 0;
        for (int i : trusted) {
            sum += input.readings().weights()[i] * fit.residuals()[i] * fit.residuals()[i];
        }
        return sum;
    }

    /** The weighted squares of the readings about the means of their exposures, and the number of repeat readings. */
    private double[] scatter(int[] trusted) {
        double[] d = input.readings().densities();
        double squares = 0;
        int repeats = 0;
        for (int start = 0, end; start < trusted.length; start = end) {
            end = start + 1;
            // Measured from the first, equal readings have no scatter, not even that of their mean.
            double first = d[trusted[start]];
            double sum = 0;
            while (end < trusted.length && input.isSameLevel(trusted[start], trusted[end])) {
                sum += d[trusted[end++]] - first;
            }
            double mean = sum / (end - start);
            for (int i = start; i < end; i++) {
                double weight = input.readings().weights()[trusted[i]];
                double off = d[trusted[i]] - first - mean;
                squares += weight * off * off;
            }
            repeats += end - start - 1;
        }
        return new double[] {squares, repeats};
    }

    private LackOfFit byNeighbours(int[] trusted) {
        int exposed = (int) Arrays.stream(trusted)
                .filter(i -> i < input.readings().exposed())
                .count();
        double[][] directions = directions(trusted);
        // Residuals of readings at no exposure take up the offset, and leave the exposed ones one freedom more.
        boolean unexposed = exposed < trusted.length && !fit.search().offsetHeld();
        int freedom = exposed - directions.length + (unexposed ? 1 : 0);
        if (freedom < 2 || exposed < 4) {
            return new LackOfFit(LackOfFit.Test.NONE, 0, 1);
        }
        double[] residuals = new double[trusted.length];
        for (int k = 0; k < trusted.length; k++) {
            residuals[k] = Math.sqrt(input.readings().weights()[trusted[k]]) * fit.residuals()[trusted[k]];
        }
        double ratio = ratio(residuals, exposed);
        return new LackOfFit(LackOfFit.Test.DURBIN_WATSON, ratio, DurbinWatson.chance(ratio, exposed, directions));
    }

    private static double ratio(double[] residuals, int count) {
        double differences = 0;
        double squares = residuals[0] * residuals[0];
        for (int i = 1; i < count; i++) {
            differences += (residuals[i] - residuals[i - 1]) * (residuals[i] - residuals[i - 1]);
            squares += residuals[i] * residuals[i];
        }
        return squares == 0 ? 2 : differences / squares;
    }

    /** Orthonormal directions in which the parameters move the fitted readings; errors along them leave no residual. */
    private double[][] directions(int[] trusted) {
        Readings readings = input.readings();
        int parameters = fit.shape().length + 2;
        double[][] columns = new double[parameters][trusted.length];
        for (int k = 0; k < trusted.length; k++) {
            int i = trusted[k];
            double root = Math.sqrt(readings.weights()[i]);
            double[] row = new double[parameters];
            if (i < readings.exposed()) {
                row = form.densityBySearch(readings.logExposures()[i]);
            } else {
                row[0] = 1;
            }
            for (int j = 0; j < parameters; j++) {
                columns[j][k] = root * row[j];
            }
        }
        double[][] directions = new double[parameters][];
        int count = 0;
        for (int j = 0; j < parameters; j++) {
            boolean held = j < 2
                    ? j == 0 && fit.search().offsetHeld()
                    : j - 2 == fit.search().heldParameter();
            if (held) {
                continue;
            }
            double[] column = columns[j];
            double before = norm(column);
            for (int pass = 0; pass < 2; pass++) {
                for (int l = 0; l < count; l++) {
                    remove(directions[l], column);
                }
            }
            double after = norm(column);
            if (after > DEPENDENT * before) {
                for (int k = 0; k < column.length; k++) {
                    column[k] /= after;
                }
                directions[count++] = column;
            }
        }
        return Arrays.copyOf(directions, count);
    }

    private static double norm(double[] vector) {
        double sum = 0;
        for (double element : vector) {
            sum += element * element;
        }
        return Math.sqrt(sum);
    }

    private static void remove(double[] direction, double[] vector) {
        double along = 0;
        for (int i = 0; i < vector.length; i++) {
            along += direction[i] * vector[i];
        }
        for (int i = 0; i < vector.length; i++) {
            vector[i] -= along * direction[i];
        }
    }
}
