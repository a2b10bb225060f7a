// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The granularity of a film at one density, such as 0.010 through an aperture of 48 µm: the standard deviation of
 * densities read through a small circular aperture on an evenly exposed area.
 *
 * <p>Specular readings give a larger figure than diffuse readings, in proportion to the ratio of specular to diffuse
 * density.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param aperture the diameter of the aperture, above 0, in micrometres
 * @param meanDensity the mean density of the area
 * @param standardDeviation the standard deviation of density, detrended
 * @units micrometres for the aperture
 * @source root mean square granularity through 48 µm at density 1.0, often times 1000: an encyclopedia article; the
 *     method of ISO 10505:2009 was not read
 */
public record Granularity(double aperture, Density meanDensity, Estimate standardDeviation) implements Recorded {

    private static final double THOUSAND = 1000;

    /**
     * Checks the parts.
     *
     * @param aperture the diameter of the aperture in micrometres
     * @param meanDensity the mean density of the area
     * @param standardDeviation the standard deviation of density
     * @throws IllegalArgumentException if the aperture is not above 0 or the standard deviation is negative
     */
    public Granularity {
        Checks.positive("aperture in micrometres", aperture);
        Objects.requireNonNull(meanDensity, "meanDensity");
        Checks.within("granularity", standardDeviation.value(), 0, 10, "");
    }

    /**
     * Returns the figure as often quoted, times 1000.
     *
     * @return the standard deviation times 1000, such as 10
     */
    public Estimate timesThousand() {
        return scaled(THOUSAND);
    }

    private Estimate scaled(double factor) {
        return times(factor, standardDeviation);
    }

    /**
     * Returns the granularity to expect through another aperture, by Selwyn's law: σ √A is constant, so σ is inversely
     * proportional to the diameter. The law holds for apertures that are large compared with the grain.
     *
     * @param otherAperture the diameter in micrometres, above 0
     * @return the granularity through it
     * @throws IllegalArgumentException if the diameter is not above 0
     * @source Selwyn's law: an encyclopedia article on film grain
     */
    public Granularity throughAperture(double otherAperture) {
        return new Granularity(
                otherAperture,
                meanDensity,
                scaled(aperture / Checks.positive("aperture in micrometres", otherAperture)));
    }

    /**
     * Returns the Selwyn granularity in Selwyn's own form; it does not depend on the aperture.
     *
     * @return σ √(2A), A the area of the aperture
     * @units micrometres
     * @source σ √A constant: an encyclopedia article on film grain; the factor 2 from memory
     */
    public Estimate selwyn() {
        return scaled(Math.sqrt(2 * area()));
    }

    /**
     * Returns the Selwyn granularity without the factor 2, as some texts give it.
     *
     * @return σ √A
     * @units micrometres
     * @source an encyclopedia article on film grain
     */
    public Estimate selwynByArea() {
        return scaled(Math.sqrt(area()));
    }

    private double area() {
        return Math.PI * aperture * aperture / 4;
    }

    /**
     * Returns the granularity at a stated density, such as 1.0 above base plus fog, interpolated linearly between areas
     * of other densities.
     *
     * @param density the density stated
     * @param areas granularities through one aperture at two or more densities
     * @return the granularity there
     * @throws IllegalArgumentException if the apertures differ or there is no area
     * @throws OutsideMeasuredRangeException if the density does not lie between the densities of two areas
     */
    public static Granularity at(Density density, List<Granularity> areas) {
        Objects.requireNonNull(density, "density");
        List<Granularity> sorted = areas.stream()
                .sorted(Comparator.comparing(Granularity::meanDensity))
                .toList();
        if (sorted.isEmpty()) {
            throw new IllegalArgumentException("there is no granularity to interpolate");
        }
        for (Granularity area : sorted) {
            if (area.aperture != sorted.get(0).aperture) {
                throw new IllegalArgumentException(
                        "granularities must be for one aperture to be interpolated, were for "
                                + Figures.plain(area.aperture) + " and " + Figures.plain(sorted.get(0).aperture)
                                + " µm; convert them to one aperture with throughAperture");
            }
        }
        for (int i = 0; i < sorted.size(); i++) {
            Granularity upper = sorted.get(i);
            if (upper.meanDensity.equals(density)) {
                return upper;
            }
            if (upper.meanDensity.compareTo(density) > 0 && i > 0) {
                return between(density, sorted.get(i - 1), upper);
            }
        }
        throw new OutsideMeasuredRangeException("granularity at " + density + " is not known; areas were read from "
                + sorted.get(0).meanDensity + " to " + sorted.get(sorted.size() - 1).meanDensity
                + ": measure an area on either side of it");
    }

    private static Granularity between(Density density, Granularity lower, Granularity upper) {
        double weight = density.minus(lower.meanDensity).value()
                / upper.meanDensity.minus(lower.meanDensity).value();
        Estimate a = lower.standardDeviation;
        Estimate b = upper.standardDeviation;
        return new Granularity(lower.aperture, density, times(1 - weight, a).minus(times(-weight, b)));
    }

    private static Estimate times(double factor, Estimate estimate) {
        return Estimate.of(
                factor * estimate.value(),
                Math.abs(factor) * estimate.standardUncertainty(),
                estimate.degreesOfFreedom());
    }

    /**
     * Returns the granularity in words.
     *
     * @return for example {@code granularity 10.20 ± 0.30 (× 1000, 48 µm, D 1.00)}
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "granularity %s (× 1000, %.0f µm, %s)",
                EstimateFormat.withDefaults().format(timesThousand()),
                aperture,
                meanDensity);
    }

    /**
     * Returns the granularity as named values: {@code aperture} in µm, {@code mean_density}, the standard deviation of density
     * as {@code granularity}, and what follows from it: {@code times_thousand}, and {@code selwyn} in µm.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofNumber("aperture", aperture, "µm"),
                ResultRecord.ofNumber("mean_density", meanDensity.value(), "density"),
                ResultRecord.ofEstimate("granularity", standardDeviation, "density"),
                ResultRecord.ofEstimate("times_thousand", timesThousand(), ""),
                ResultRecord.ofEstimate("selwyn", selwyn(), "µm"));
    }
}
