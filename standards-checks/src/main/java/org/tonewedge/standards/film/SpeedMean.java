// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.List;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;

/**
 * The mean speed of several samples of one film, which a standard requires for the speed of a product.
 *
 * <p>The logarithmic speeds are averaged before rounding, and the mean is rounded once; it is the geometric mean of the
 * arithmetic speeds. Its standard uncertainty is the standard deviation of the samples divided by the square root of
 * their number. The mean of ISO speeds is rounded by {@link IsoSpeed#nearest(double)} of its exact speed.
 *
 * @source several samples, stored to the average age at use: ISO 6:1993, clause 4 (read in an excerpt; verified). That
 *     the mean is one of logarithms is from memory. Standard deviation of a mean: JCGM 100:2008, 4.2.3.
 */
public final class SpeedMean {

    private SpeedMean() {}

    /**
     * Returns the mean speed of samples.
     *
     * @param samples the speed of each sample, two or more, all by one method
     * @return the mean, with the points and the conditions of all samples
     * @throws IllegalArgumentException if there are fewer than two samples or they were determined by different rules
     */
    public static SpeedReading of(List<? extends FilmSpeed<?>> samples) {
        if (samples.size() < 2) {
            throw new IllegalArgumentException(
                    "a mean speed needs at least 2 samples, had " + samples.size() + ": test more samples");
        }
        Criterion rule = samples.get(0).criterion();
        for (FilmSpeed<?> sample : samples) {
            if (!sample.criterion().equals(rule)) {
                throw new IllegalArgumentException("samples must be of one method, had " + rule.name() + " and "
                        + sample.criterion().name());
            }
        }
        double[] degrees = samples.stream().mapToDouble(FilmSpeed::exactDegrees).toArray();
        double sum = 0;
        for (double degree : degrees) {
            sum += degree;
        }
        double mean = sum / degrees.length;
        double squares = 0;
        for (double degree : degrees) {
            squares += (degree - mean) * (degree - mean);
        }
        double deviation = Math.sqrt(squares / (degrees.length - 1));
        List<Condition> conditions =
                samples.stream().flatMap(sample -> sample.conditions().stream()).toList();
        Evidence evidence = Evidence.of(
                        new Criterion(
                                "mean of " + degrees.length + " samples, standard deviation " + Figures.plain(deviation)
                                        + "°; each by " + rule.name(),
                                rule.source()),
                        samples.stream()
                                .flatMap(sample -> sample.points().stream())
                                .toList(),
                        conditions)
                .withUncertainty(deviation / Math.sqrt(degrees.length), degrees.length - 1);
        return new SpeedReading(Math.pow(10, (mean - 1) / FilmSpeed.DEGREES_PER_LOG_UNIT), evidence);
    }
}
