// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;

/**
 * How root mean square granularity is measured.
 *
 * <pre>{@code Granularity grain = GranularityMethod.withDefaults().determine(image);}</pre>
 *
 * <table>
 * <caption>Defaults</caption>
 * <tr><td>aperture</td><td>48 µm, circular</td><td>usual convention</td></tr>
 * <tr><td>trend</td><td>a plane</td><td>common practice, no source</td></tr>
 * </table>
 *
 * <p>The standard deviation is s = √(Σ r<sup>2</sup> / n · m / (m − q)), with the residuals r of n readings, m of them
 * independent, from a trend of q terms. Its standard uncertainty is s / √(2 (m − q)). It comes with (m − q) / 2 degrees
 * of freedom, because a standard deviation is more often too small than too large: the 95 % interval of Student's t then
 * holds σ in 94.6 to 95.0 % for any m − q from 9 on, by the distribution of χ<sup>2</sup>; with m − q it would be 92.2 % at 9.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source the aperture: an encyclopedia article on rms granularity; uncertainty of an experimental standard deviation:
 *     JCGM 100:2008, E.4.3
 */
public final class GranularityMethod {

    /** The usual diameter of the aperture, in micrometres. */
    public static final double USUAL_APERTURE = 48;

    private static final int FEWEST_DEGREES = 9;
    private static final int SAMPLES = 16;
    private static final GranularityMethod DEFAULTS = new GranularityMethod(USUAL_APERTURE, Trend.PLANE);

    private final double aperture;
    private final Trend trend;

    private GranularityMethod(double aperture, Trend trend) {
        this.aperture = aperture;
        this.trend = trend;
    }

    /**
     * Returns the defaults of the table above.
     *
     * @return the method
     */
    public static GranularityMethod withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another aperture.
     *
     * @param diameter the diameter in micrometres, above 0
     * @return the copy
     * @throws IllegalArgumentException if the diameter is not above 0
     */
    public GranularityMethod withAperture(double diameter) {
        return new GranularityMethod(Checks.positive("aperture in micrometres", diameter), trend);
    }

    /**
     * Returns a copy that removes a trend of another degree.
     *
     * @param degree 0 for the mean alone, 1 for a plane, 2 for a quadratic surface
     * @return the copy
     * @throws IllegalArgumentException if the degree is not 0, 1 or 2
     */
    public GranularityMethod withTrendOfDegree(int degree) {
        return withTrend(
                switch (degree) {
                    case 0 -> Trend.LEVEL;
                    case 1 -> Trend.PLANE;
                    case 2 -> Trend.QUADRATIC;
                    default -> throw new IllegalArgumentException("degree of a trend must be 0, 1 or 2, was " + degree);
                });
    }

    GranularityMethod withTrend(Trend other) {
        return new GranularityMethod(aperture, other);
    }

    /**
     * Measures an image. Apertures are placed side by side on it without overlap. Within each, transmittances are
     * averaged, as light does in an instrument; a pixel at the rim counts by the fraction that lies inside.
     *
     * <p>Pixels with weights w at pitch p average over an area of p<sup>2</sup> / Σ w<sup>2</sup>, if the grain is
     * independent from pixel to pixel. That is more than the area of the aperture: 7 % more with eight pixels across
     * it, four times as much if a pixel is almost as large. Selwyn's law scales the deviation to the area of the
     * aperture.
     *
     * @param image the image of an evenly exposed area
     * @return the granularity
     * @throws NotDeterminableException if the pixels are larger than the aperture, or fewer than ten readings more than
     *     the terms of the trend fit on the image
     */
    public Granularity determine(DensityImage image) {
        if (image.pitch() > aperture) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the pixels of " + Figures.plain(image.pitch()) + " µm are larger than the aperture of "
                            + Figures.plain(aperture) + " µm; scan finer");
        }
        int step = (int) Math.ceil(aperture / image.pitch() - 1e-9);
        if (step > Math.min(image.width(), image.height())) {
            throw tooFew(0);
        }
        double[] weights = weights(step, aperture / image.pitch() / 2);
        int columns = image.width() / step;
        int rows = image.height() / step;
        double[] readings = new double[columns * rows];
        for (int i = 0; i < readings.length; i++) {
            readings[i] = read(image, i % columns * step, i / columns * step, step, weights);
        }
        double averagedArea = image.pitch() * image.pitch() / sumOfSquares(weights);
        double area = Math.PI * aperture * aperture / 4;
        return judge(readings, Math.max(1, columns), readings.length, Math.sqrt(averagedArea / area));
    }

    private static double sumOfSquares(double[] weights) {
        return Arrays.stream(weights).map(weight -> weight * weight).sum();
    }

    /**
     * The fraction of each pixel of a square block that lies in the circle inscribed in it; the fractions are scaled to
     * sum to 1.
     */
    private static double[] weights(int step, double radius) {
        double[] weights = new double[step * step];
        double sum = 0;
        for (int i = 0; i < step * SAMPLES; i++) {
            double x = (i + 0.5) / SAMPLES - step / 2.0;
            for (int j = 0; j < step * SAMPLES; j++) {
                double y = (j + 0.5) / SAMPLES - step / 2.0;
                if (x * x + y * y <= radius * radius) {
                    weights[j / SAMPLES * step + i / SAMPLES]++;
                    sum++;
                }
            }
        }
        for (int i = 0; i < weights.length; i++) {
            weights[i] /= sum;
        }
        return weights;
    }

    private static double read(DensityImage image, int column, int row, int step, double[] weights) {
        double transmittance = 0;
        for (int i = 0; i < weights.length; i++) {
            if (weights[i] > 0) {
                transmittance += weights[i] * Math.pow(10, -image.density(column + i % step, row + i / step));
            }
        }
        return -Math.log10(transmittance);
    }

    /**
     * Measures a row of readings that an instrument took through the aperture at a known spacing.
     *
     * <p>Readings closer than the aperture overlap. All are used, but only as many count as independent as there are
     * apertures side by side along the row.
     *
     * @param readings the densities in the order of the scan
     * @param spacingMicrometres the distance between neighbours, above 0
     * @return the granularity
     * @throws IllegalArgumentException if the spacing is not above 0 or a reading is not a density
     * @throws NotDeterminableException if fewer than ten independent readings remain beyond the terms of the trend
     * @units micrometres
     */
    public Granularity determineRow(double[] readings, double spacingMicrometres) {
        DensityImage row = DensityImage.of(readings, readings.length, spacingMicrometres);
        int independent = (int) Math.min(readings.length, readings.length * (row.pitch() / aperture));
        return judge(readings, readings.length, independent, 1);
    }

    private Granularity judge(double[] readings, int width, int independent, double toAperture) {
        if (independent <= FEWEST_DEGREES) {
            throw tooFew(independent);
        }
        Trend.Residuals residuals = trend.residuals(readings, width);
        int degrees = independent - residuals.terms();
        if (degrees < FEWEST_DEGREES) {
            throw tooFew(independent);
        }
        double deviation = toAperture * Math.sqrt(residuals.meanSquare() * independent / degrees);
        return new Granularity(
                aperture,
                Density.of(Arrays.stream(readings).average().orElseThrow()),
                Estimate.of(deviation, deviation / Math.sqrt(2.0 * degrees), degrees / 2.0));
    }

    private NotDeterminableException tooFew(int independent) {
        return new NotDeterminableException(
                Reason.UNSUITABLE_IMAGE,
                "the area gives " + independent
                        + " independent readings through an aperture of " + Figures.plain(aperture)
                        + " µm, too few for a standard deviation; scan a larger area");
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof GranularityMethod that
                && Double.compare(aperture, that.aperture) == 0
                && Objects.equals(trend, that.trend);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(aperture, trend);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the aperture and the trend
     */
    @Override
    public String toString() {
        return "granularity through " + Figures.plain(aperture) + " micrometres, less a trend: "
                + trend.name().toLowerCase(Locale.ROOT);
    }
}
