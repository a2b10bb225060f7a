// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

/**
 * The distribution of Durbin and Watson's ratio Σ(r<sub>i+1</sub> − r<sub>i</sub>)² / Σr<sub>i</sub>² of the residuals
 * that normal errors e leave.
 *
 * <p>A ratio of at most c means that the quadratic form r′(A − cI)r is at most 0. T = A − cI is tridiagonal, and r = Y
 * Y′e with Y orthonormal across the directions X of the fit. So the chance follows from the characteristic function
 * φ(t) = det(I − 2it Y′TY)<sup>−1/2</sup> by the integral of Gil-Pelaez, ½ − (1/π) ∫ Im φ(t) dt/t from 0 to ∞. No
 * eigenvalues are needed, since det(I − 2it Y′TY) = det N · det(X′N<sup>−1</sup>X) with N = I − 2itT. N and
 * X′N<sup>−1</sup>X have positive definite real parts, so that all their pivots lie in the right half-plane, where the
 * logarithm is continuous.
 *
 * @source J. P. Imhof, Computing the distribution of quadratic forms in normal variables, Biometrika 48 (1961), 419–426
 *     (from memory)
 */
final class DurbinWatson {

    /**
     * The step of the midpoint rule over x, with t = scale · sinh x. On designs of 6 to 1,001 readings the chance is
     * then right to 3 · 10<sup>−8</sup>; of few readings at the least or greatest ratio that they allow, to
     * 10<sup>−5</sup>.
     */
    private static final double STEP = 0.25;

    /** The same for up to {@link #FEW} degrees of freedom, whose φ has a longer tail and less curvature. */
    private static final double STEP_OF_FEW = 0.4;

    private static final int FEW = 20;

    /** The step times the mean of the form, in standard deviations, is at most this: far from 0, φ turns faster. */
    private static final double TURN = 0.5;

    /** The integral ends where φ is this small. */
    private static final double NEGLIGIBLE = 1e-8;

    private final double[][] directions;

    /** The diagonal of T; the elements beside it are −1 among the first readings and 0 among the rest. */
    private final double[] diagonal;

    private final int count;

    private DurbinWatson(double ratio, int count, double[][] directions) {
        this.directions = directions;
        this.count = count;
        diagonal = new double[directions[0].length];
        for (int i = 0; i < count; i++) {
            diagonal[i] = (i == 0 || i == count - 1 ? 1 : 2) - ratio;
        }
    }

    /**
     * Returns how often chance makes the ratio as small.
     *
     * @param ratio the ratio
     * @param count the number of residuals that it is made of; the others come after them
     * @param directions orthonormal, along which errors leave no residuals; at least one
     * @return the probability of this ratio or less
     */
    static double chance(double ratio, int count, double[][] directions) {
        return new DurbinWatson(ratio, count, directions).chance();
    }

    private double chance() {
        double norm = 2.0 * (count - 1);
        double mean = 0;
        for (double element : diagonal) {
            norm += element * element;
            mean += element;
        }
        double squares = norm;
        for (double[] direction : directions) {
            double[] image = image(direction);
            squares -= 2 * product(image, image);
            mean -= product(direction, image);
            for (double[] other : directions) {
                double element = product(other, image);
                squares += element * element;
            }
        }
        int freedom = diagonal.length - directions.length;
        double step = Math.min(freedom > FEW ? STEP : STEP_OF_FEW, TURN * Math.sqrt(2 * squares) / Math.abs(mean));
        double scale = 0.5 / Math.sqrt(norm);
        double sum = 0;
        double[] logarithm = {0, 0};
        for (double x = step / 2; logarithm[0] < -Math.log(NEGLIGIBLE); x += step) {
            logarithm = halfLogarithmOfDeterminant(2 * scale * Math.sinh(x));
            sum += Math.exp(-logarithm[0]) * Math.sin(logarithm[1]) / Math.tanh(x);
        }
        double chance = 0.5 + step / Math.PI * sum;
        return Math.min(1, Math.max(0, chance)); // beyond 0 and 1 by the error of the integral
    }

    private double[] image(double[] vector) {
        double[] image = new double[vector.length];
        for (int i = 0; i < count; i++) {
            image[i] = diagonal[i] * vector[i] - (i == 0 ? 0 : vector[i - 1]) - (i == count - 1 ? 0 : vector[i + 1]);
        }
        return image;
    }

    private static double product(double[] one, double[] other) {
        double sum = 0;
        for (int i = 0; i < one.length; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    /** Half the logarithm of det(I − iuY′TY), real and imaginary part. */
    private double[] halfLogarithmOfDeterminant(double u) {
        int order = directions.length;
        double[] re = new double[order]; // a row of L⁻¹X, where N = LPL′
        double[] im = new double[order];
        double[][] gramRe = new double[order][order]; // X′N⁻¹X, the lower triangle
        double[][] gramIm = new double[order][order];
        double squares = 0; // the logarithm of the squared modulus
        double angle = 0;
        double inverseRe = 0;
        double inverseIm = 0;
        for (int i = 0; i < diagonal.length; i++) {
            double beside = i > 0 && i < count ? u : 0;
            double pivotRe = 1 + beside * beside * inverseRe;
            double pivotIm = -u * diagonal[i] + beside * beside * inverseIm;
            for (int j = 0; j < order; j++) {
                // L has iu over the pivot beside its diagonal.
                double factorRe = -beside * inverseIm;
                double factorIm = beside * inverseRe;
                double was = re[j];
                re[j] = directions[j][i] - (factorRe * was - factorIm * im[j]);
                im[j] = -(factorRe * im[j] + factorIm * was);
            }
            double modulus = pivotRe * pivotRe + pivotIm * pivotIm;
            squares += Math.log(modulus);
            angle += Math.atan2(pivotIm, pivotRe);
            inverseRe = pivotRe / modulus;
            inverseIm = -pivotIm / modulus;
            for (int j = 0; j < order; j++) {
                double scaledRe = re[j] * inverseRe - im[j] * inverseIm;
                double scaledIm = re[j] * inverseIm + im[j] * inverseRe;
                for (int l = 0; l <= j; l++) {
                    gramRe[j][l] += scaledRe * re[l] - scaledIm * im[l];
                    gramIm[j][l] += scaledRe * im[l] + scaledIm * re[l];
                }
            }
        }
        for (int j = 0; j < order; j++) {
            double modulus = gramRe[j][j] * gramRe[j][j] + gramIm[j][j] * gramIm[j][j];
            squares += Math.log(modulus);
            angle += Math.atan2(gramIm[j][j], gramRe[j][j]);
            for (int k = j + 1; k < order; k++) {
                double factorRe = (gramRe[k][j] * gramRe[j][j] + gramIm[k][j] * gramIm[j][j]) / modulus;
                double factorIm = (gramIm[k][j] * gramRe[j][j] - gramRe[k][j] * gramIm[j][j]) / modulus;
                for (int l = j + 1; l <= k; l++) {
                    gramRe[k][l] -= factorRe * gramRe[l][j] - factorIm * gramIm[l][j];
                    gramIm[k][l] -= factorRe * gramIm[l][j] + factorIm * gramRe[l][j];
                }
            }
        }
        return new double[] {squares / 4, angle / 2};
    }
}
