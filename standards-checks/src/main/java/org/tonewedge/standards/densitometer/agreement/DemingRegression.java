// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.agreement;

import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * The straight line y = a + b x between the readings of two instruments that both have errors (Deming's regression),
 * with uncertainties by the jackknife.
 *
 * <p>With the ratio δ of the error variances of y and x, b = (S<sub>yy</sub> − δ S<sub>xx</sub> + √((S<sub>yy</sub> − δ
 * S<sub>xx</sub>)² + 4 δ S<sub>xy</sub>²)) / (2 S<sub>xy</sub>) and a = ȳ − b x̄. Leaving out each pair in turn gives n
 * values θ<sub>(i)</sub> of a figure; its variance is (n − 1)/n Σ (θ<sub>(i)</sub> − θ̄)², with n − 2 degrees of freedom.
 *
 * <p>The 95 % interval of the slope contained the true slope in 94.6 % of 10,000 simulated comparisons of 21 steps, by
 * {@code AgreementSimulation} in the tests.
 *
 * <p>Immutable and thread safe.
 *
 * @source K. Linnet, Evaluation of regression procedures for methods comparison studies, Clinical Chemistry 39 (1993)
 *     424–432, formulas from secondary sources; the refmanual of the general statistical system Dataplot of NIST, command
 *     DEMING FIT, for the slope
 */
public final class DemingRegression {

    private static final int FEWEST = 4;

    private final double[] x;
    private final double[] y;
    private final double ratio;
    private final Line line;

    private record Line(double intercept, double slope) {}

    private DemingRegression(double[] x, double[] y, double ratio) {
        this.x = x;
        this.y = y;
        this.ratio = ratio;
        line = line(-1);
    }

    /**
     * Fits the line, with equal error variances of both instruments.
     *
     * @param x the readings of the first instrument, one for each sample
     * @param y the readings of the second instrument, in the same order
     * @return the line
     * @throws IllegalArgumentException if the numbers of readings differ, there are fewer than four, one is not finite, the
     *     readings do not vary together, or one instrument gives another unit than the other, such as transmittance
     */
    public static DemingRegression of(double[] x, double[] y) {
        return of(x, y, 1);
    }

    /**
     * Fits the line.
     *
     * @param x the readings of the first instrument, one for each sample
     * @param y the readings of the second instrument, in the same order
     * @param ratio the variance of the errors of y divided by that of x, above 0, such as the squared ratio of the two
     *     instruments' repeatabilities
     * @return the line
     * @throws IllegalArgumentException if the numbers of readings differ, there are fewer than four, one is not finite, the
     *     ratio is not above 0, the readings do not vary together, or one instrument gives another unit than the other,
     *     such as transmittance
     */
    public static DemingRegression of(double[] x, double[] y, double ratio) {
        Objects.requireNonNull(x, "x");
        Objects.requireNonNull(y, "y");
        Pairs.check(x, y, FEWEST);
        Checks.positive("ratio of error variances", ratio);
        return new DemingRegression(x.clone(), y.clone(), ratio);
    }

    /** The line without one of the pairs; with all pairs for −1. */
    private Line line(int without) {
        double n = x.length - (without < 0 ? 0 : 1);
        double meanX = 0;
        double meanY = 0;
        for (int i = 0; i < x.length; i++) {
            meanX += i == without ? 0 : x[i] / n;
            meanY += i == without ? 0 : y[i] / n;
        }
        double xx = 0;
        double yy = 0;
        double xy = 0;
        for (int i = 0; i < x.length; i++) {
            if (i != without) {
                xx += (x[i] - meanX) * (x[i] - meanX);
                yy += (y[i] - meanY) * (y[i] - meanY);
                xy += (x[i] - meanX) * (y[i] - meanY);
            }
        }
        if (!(Math.abs(xy) > 0)) {
            throw new IllegalArgumentException("the readings of the two instruments do not vary together"
                    + (without < 0 ? "" : " without sample " + (without + 1))
                    + "; compare samples of different densities");
        }
        double difference = yy - ratio * xx;
        double slope = (difference + Math.sqrt(difference * difference + 4 * ratio * xy * xy)) / (2 * xy);
        return new Line(meanY - slope * meanX, slope);
    }

    private Estimate jackknifed(ToDoubleFunction<Line> figure) {
        int n = x.length;
        double[] values = new double[n];
        for (int i = 0; i < n; i++) {
            values[i] = figure.applyAsDouble(line(i));
        }
        double mean = Pairs.mean(values);
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        return Estimate.of(figure.applyAsDouble(line), Math.sqrt(squares * (n - 1) / n), n - 2.0);
    }

    /**
     * Returns the slope.
     *
     * @return b with its standard uncertainty
     */
    public Estimate slope() {
        return jackknifed(Line::slope);
    }

    /**
     * Returns the intercept.
     *
     * @return a with its standard uncertainty
     * @units density
     */
    public Estimate intercept() {
        return jackknifed(Line::intercept);
    }

    /**
     * Returns how far the second instrument reads from the first, on average, at a density.
     *
     * @param reading what the first instrument reads
     * @return a + (b − 1) x with its standard uncertainty
     * @throws IllegalArgumentException if the reading is not finite
     * @units density
     */
    public Estimate differenceAt(double reading) {
        Checks.finite("reading of the first instrument", reading);
        return jackknifed(some -> some.intercept() + (some.slope() - 1) * reading);
    }

    /**
     * Returns the line in words.
     *
     * @return for example {@code y = 0.003 + 0.998 x}
     */
    @Override
    public String toString() {
        return "y = " + Figures.plain(line.intercept()) + " + " + Figures.plain(line.slope()) + " x";
    }
}
