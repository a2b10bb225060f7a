// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;

/**
 * One step of a strip: an exposure and the densities read there, including repeat readings.
 *
 * @param exposure the exposure the step received
 * @param readings the gross densities read, one or more
 */
public record ExposedStep(LogExposure exposure, List<Density> readings) implements Serializable {

    /**
     * Copies the readings.
     *
     * @param exposure the exposure the step received
     * @param readings the gross densities read
     * @throws IllegalArgumentException if there is no reading
     */
    public ExposedStep {
        Objects.requireNonNull(exposure, "exposure");
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("a step needs at least one density, " + exposure + " had none");
        }
        readings = List.copyOf(readings);
    }

    /**
     * Returns the mean of the readings.
     *
     * @return the mean density
     */
    public Density density() {
        return mean(readings);
    }

    /**
     * Returns the spread of repeat readings.
     *
     * @return the experimental standard deviation (n − 1), or empty for a single reading
     * @source JCGM 100:2008, 4.2.2
     */
    public OptionalDouble repeatability() {
        return readings.size() < 2
                ? OptionalDouble.empty()
                : OptionalDouble.of(Math.sqrt(squaresAboutMean(readings) / (readings.size() - 1)));
    }

    /** The sum of squared differences from the mean, counted from the first reading: exactly 0 if all are equal. */
    static double squaresAboutMean(List<Density> readings) {
        double first = readings.get(0).value();
        double mean = 0;
        for (Density reading : readings) {
            mean += (reading.value() - first) / readings.size();
        }
        double sum = 0;
        for (Density reading : readings) {
            double difference = reading.value() - first - mean;
            sum += difference * difference;
        }
        return sum;
    }

    static Density mean(List<Density> readings) {
        double sum = 0;
        for (Density reading : readings) {
            sum += reading.value();
        }
        return Density.of(sum / readings.size());
    }
}
