package org.tonewedge.core.quantity;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * A figure with its standard uncertainty, such as 0.62 ± 0.01 (k = 1).
 *
 * <p>The standard uncertainty is the uncertainty expressed as a standard deviation (JCGM 100:2008, 2.3.1). The unit is
 * that of the figure, which whoever hands out the estimate states.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param value the figure
 * @param standardUncertainty its standard uncertainty, 0 or more
 */
public record Estimate(double value, double standardUncertainty) {

    /**
     * Checks both numbers.
     *
     * @param value the figure, finite
     * @param standardUncertainty its standard uncertainty, finite, 0 or more
     * @throws IllegalArgumentException if a number is not finite or the uncertainty is negative
     */
    public Estimate {
        value = Checks.finite("estimate", value);
        if (!(standardUncertainty >= 0 && standardUncertainty < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "standard uncertainty must be a finite number of 0 or more, was " + standardUncertainty);
        }
        standardUncertainty += 0.0;
    }

    /**
     * Returns an estimate.
     *
     * @param value the figure, finite
     * @param standardUncertainty its standard uncertainty, finite, 0 or more
     * @return the estimate
     * @throws IllegalArgumentException as the constructor does
     */
    public static Estimate of(double value, double standardUncertainty) {
        return new Estimate(value, standardUncertainty);
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
     * Returns the figure with its standard uncertainty.
     *
     * @return for example {@code 0.62 ± 0.01 (k = 1)}
     */
    @Override
    public String toString() {
        return Figures.plain(value) + " ± " + Figures.plain(standardUncertainty) + " (k = 1)";
    }
}
