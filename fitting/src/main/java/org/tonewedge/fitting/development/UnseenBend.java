// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.Arrays;
import org.tonewedge.fitting.numeric.LinearFit;

/**
 * How far a trend may be from a polynomial of degree d, because the next term is not fitted. With x from −1 at the
 * shortest time to 1 at the longest, on the scale of ln t, the trend is Σ p<sub>j</sub> x<sup>j</sup>. A line that may bend
 * but does not turn has |p<sub>2</sub>| ≤ |p<sub>1</sub>|/2; a parabola whose bend may change but not its direction has
 * |p<sub>3</sub>| ≤ |p<sub>2</sub>|/3. Any p<sub>d+1</sub> within ± |p<sub>d</sub>|/(d + 1) is thought equally probable. It
 * moves the trend by p<sub>d+1</sub> times what is left of x<sup>d+1</sup> if the polynomial is fitted to it at the times of
 * the strips.
 *
 * @source JCGM 100:2008, 4.3.7, for the standard deviation of a rectangular distribution, half its width over √3
 */
final class UnseenBend {

    private final double centre;
    private final double half;
    private final int degree;
    private final double deviation;
    private final LinearFit ofNextPower;

    private UnseenBend(double centre, double half, int degree, double deviation, LinearFit ofNextPower) {
        this.centre = centre;
        this.half = half;
        this.degree = degree;
        this.deviation = deviation;
        this.ofNextPower = ofNextPower;
    }

    /** Of a polynomial in ln t. */
    static UnseenBend of(ResponseFit fit, int degree) {
        double first = Math.log(fit.shortest());
        double last = Math.log(fit.longest());
        double centre = (first + last) / 2;
        double half = (last - first) / 2;
        double[] x = Arrays.stream(fit.equivalentMinutes())
                .map(minutes -> (Math.log(minutes) - centre) / half)
                .toArray();
        double[][] rows = new double[x.length][degree + 1];
        double[] next = new double[x.length];
        double[] weights = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            for (int j = 0; j <= degree; j++) {
                rows[i][j] = Math.pow(x[i], j);
            }
            next[i] = Math.pow(x[i], degree + 1);
            double u = fit.figures().get(i).standardUncertainty().orElse(1);
            weights[i] = 1 / (u * u);
        }
        double highest = fit.parameter(degree) * Math.pow(half, degree);
        return new UnseenBend(
                centre,
                half,
                degree,
                Math.abs(highest) / ((degree + 1) * Math.sqrt(3)),
                LinearFit.of(rows, next, weights));
    }

    /** The standard uncertainty after minutes at the reference temperature. */
    double uncertainty(double minutes) {
        double x = (Math.log(minutes) - centre) / half;
        double left = Math.pow(x, degree + 1);
        for (int j = 0; j <= degree; j++) {
            left -= ofNextPower.parameter(j) * Math.pow(x, j);
        }
        return Math.abs(left) * deviation;
    }
}
