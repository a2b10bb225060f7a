// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.Serializable;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.StudentT;

/**
 * A figure with its standard uncertainty, such as 0.620 ± 0.010 (k = 1), and with the degrees of freedom of that
 * uncertainty.
 *
 * <p>The standard uncertainty is the uncertainty expressed as a standard deviation (JCGM 100:2008, 2.3.1). Value and
 * uncertainty share one unit, which the method that returns the estimate states. An uncertainty that rests on few
 * readings is itself uncertain: few degrees of freedom say so, and {@link #interval} widens accordingly. Two readings
 * give one degree of freedom, and a 95 % interval of ± 12.7 standard uncertainties.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param value the figure
 * @param standardUncertainty its standard uncertainty, 0 or more
 * @param degreesOfFreedom the degrees of freedom of the standard uncertainty, above 0; infinite if it is taken as
 *     exactly known
 */
public record Estimate(double value, double standardUncertainty, double degreesOfFreedom) implements Serializable {

    /**
     * Checks the numbers.
     *
     * @param value the figure, finite
     * @param standardUncertainty its standard uncertainty, finite, 0 or more
     * @param degreesOfFreedom the degrees of freedom of the standard uncertainty, above 0, possibly infinite
     * @throws IllegalArgumentException if a number is out of range
     */
    public Estimate {
        value = Checks.finite("estimate", value);
        if (!(standardUncertainty >= 0 && standardUncertainty < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "standard uncertainty must be a finite number of 0 or more, was " + standardUncertainty);
        }
        standardUncertainty += 0.0;
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException("degrees of freedom must be above 0, were " + degreesOfFreedom);
        }
    }

    /**
     * Returns an estimate whose standard uncertainty is taken as exactly known.
     *
     * @param value the figure, finite
     * @param standardUncertainty its standard uncertainty, finite, 0 or more
     * @return the estimate
     * @throws IllegalArgumentException as the constructor does
     */
    public static Estimate of(double value, double standardUncertainty) {
        return new Estimate(value, standardUncertainty, Double.POSITIVE_INFINITY);
    }

    /**
     * Returns an estimate.
     *
     * @param value the figure, finite
     * @param standardUncertainty its standard uncertainty, finite, 0 or more
     * @param degreesOfFreedom the degrees of freedom of the standard uncertainty, above 0, possibly infinite
     * @return the estimate
     * @throws IllegalArgumentException as the constructor does
     */
    public static Estimate of(double value, double standardUncertainty, double degreesOfFreedom) {
        return new Estimate(value, standardUncertainty, degreesOfFreedom);
    }

    /**
     * Returns the expanded uncertainty U = k u.
     *
     * @param coverageFactor the factor k, above 0; 2 is usual for about 95 %
     * @return the half-width of the interval
     * @throws IllegalArgumentException if the factor is not a finite number above 0
     * @source JCGM 100:2008, 6.2.1
     */
    public double expandedUncertainty(double coverageFactor) {
        return Checks.positive("coverage factor", coverageFactor) * standardUncertainty;
    }

    /**
     * Returns the interval value ± t u, with Student's t for the {@linkplain #degreesOfFreedom() degrees of freedom}.
     *
     * @param confidence such as 0.95
     * @return the interval
     * @throws IllegalArgumentException if the confidence is not between 0 and 1, or there is less than 1 degree of freedom
     * @source JCGM 100:2008, G.3.2
     */
    public CoverageInterval interval(double confidence) {
        double half = StudentT.coverageFactor(confidence, degreesOfFreedom) * standardUncertainty;
        return new CoverageInterval(value - half, value + half, confidence);
    }

    /**
     * Returns the difference from an independent estimate, u² = u<sub>1</sub>² + u<sub>2</sub>². What two figures share,
     * such as the error of one tablet, cancels in their difference and should be left out of both.
     *
     * @param other the estimate subtracted, in the same unit
     * @return the difference
     * @throws IllegalArgumentException if the difference is too large for a number
     * @source degrees of freedom by Welch and Satterthwaite: JCGM 100:2008, G.4.1
     */
    public Estimate minus(Estimate other) {
        Objects.requireNonNull(other, "other");
        double sum = Math.pow(standardUncertainty, 4) / degreesOfFreedom
                + Math.pow(other.standardUncertainty, 4) / other.degreesOfFreedom;
        double uncertainty = Math.hypot(standardUncertainty, other.standardUncertainty);
        return new Estimate(
                value - other.value, uncertainty, sum == 0 ? Double.POSITIVE_INFINITY : Math.pow(uncertainty, 4) / sum);
    }

    /**
     * Returns the figure with its standard uncertainty, both rounded as {@link EstimateFormat} does.
     *
     * @return for example {@code 0.620 ± 0.010 (k = 1)}
     */
    @Override
    public String toString() {
        return EstimateFormat.withDefaults().format(this) + " (k = 1)";
    }
}
