// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.fitting.numeric.LinearFit;

/**
 * How much denser silver looks in a beam than in diffuse light: Callier's factor Q, the specular over the diffuse density of
 * the image, such as 1.3. An enlarger with a condenser prints from densities close to specular ones, a densitometer reads
 * diffuse ones.
 *
 * <pre>{@code
 * CallierFactor factor = CallierFactor.measured(pairs, Density.of(0.25), Density.of(0.26));
 * factor.projected(Density.of(1.05), Density.of(0.25)); // as the enlarger sees it
 * }</pre>
 *
 * <p>Clear base scatters little, so that Q is taken of densities above base plus fog: D<sub>s</sub> = B<sub>s</sub> + Q
 * (D<sub>d</sub> − B<sub>d</sub>), by least squares through the origin. Q varies with density, grain and development; one
 * value stands for the range of the pairs, and {@link #scatter()} says how well. Dyes hardly scatter: with chromogenic film Q
 * is near 1.
 *
 * <p>Immutable and thread safe.
 *
 * @source Q = specular density over diffuse density, never below 1: an encyclopedia article on the Callier effect (secondary);
 *     net densities: common practice, no source
 */
public final class CallierFactor implements Recorded {

    private static final double HIGHEST = 3;

    private final Estimate factor;
    private final double scatter;

    private CallierFactor(Estimate factor, double scatter) {
        this.factor = factor;
        this.scatter = scatter;
    }

    /**
     * A diffuse and a specular reading of one place.
     *
     * @param diffuse the diffuse density
     * @param specular the specular density, as the enlarger or a densitometer of its geometry reads it
     */
    public record Pair(Density diffuse, Density specular) {
        /**
         * Checks that nothing is missing.
         *
         * @param diffuse the diffuse density
         * @param specular the specular density, as the enlarger or a densitometer of its geometry reads it
         */
        public Pair {
            Objects.requireNonNull(diffuse, "diffuse");
            Objects.requireNonNull(specular, "specular");
        }
    }

    /**
     * Returns a stated factor.
     *
     * @param factor the factor with its standard uncertainty, from 1 to 3
     * @return the factor
     * @throws IllegalArgumentException if it is out of range
     */
    public static CallierFactor of(Estimate factor) {
        Checks.within("Callier factor", factor.value(), 1, HIGHEST, "it is specular over diffuse density");
        return new CallierFactor(factor, 0);
    }

    /**
     * Measures the factor.
     *
     * @param pairs readings of two or more places
     * @param diffuseBase base plus fog, diffuse
     * @param specularBase base plus fog, specular
     * @return the factor; noise may take it slightly below 1
     * @throws IllegalArgumentException if there are fewer than two pairs, a diffuse density is not above base plus fog, or the
     *     factor is not from 0.9 to 3, as where the two columns were swapped
     */
    public static CallierFactor measured(List<Pair> pairs, Density diffuseBase, Density specularBase) {
        Objects.requireNonNull(diffuseBase, "diffuseBase");
        Objects.requireNonNull(specularBase, "specularBase");
        if (pairs.size() < 2) {
            throw new IllegalArgumentException(
                    "a Callier factor needs two pairs of readings at least, had " + pairs.size());
        }
        double[][] rows = new double[pairs.size()][1];
        double[] y = new double[rows.length];
        double[] weights = new double[rows.length];
        for (int i = 0; i < rows.length; i++) {
            rows[i][0] = pairs.get(i).diffuse().minus(diffuseBase).value();
            y[i] = pairs.get(i).specular().minus(specularBase).value();
            weights[i] = 1;
            if (!(rows[i][0] > 0)) {
                throw new IllegalArgumentException(
                        "pair " + (i + 1) + ": the diffuse density must be above base plus fog "
                                + Figures.plain(diffuseBase.value()) + ", was "
                                + Figures.plain(pairs.get(i).diffuse().value()));
            }
        }
        LinearFit fit = LinearFit.of(rows, y, weights);
        if (!(fit.parameter(0) >= 0.9 && fit.parameter(0) <= HIGHEST)) {
            throw new IllegalArgumentException("specular densities are " + Figures.plain(fit.parameter(0))
                    + " times the diffuse ones, beyond 0.9 to 3: look for swapped columns");
        }
        return new CallierFactor(
                Estimate.of(fit.parameter(0), fit.deviation(0), fit.degreesOfFreedom()), fit.residualDeviation());
    }

    /**
     * Returns the factor.
     *
     * @return Q
     */
    public Estimate factor() {
        return factor;
    }

    /**
     * Returns how far specular densities scatter about the factor.
     *
     * @return their standard deviation; 0 for a stated factor
     * @units density
     */
    public double scatter() {
        return scatter;
    }

    /**
     * Returns a density as the enlarger sees it.
     *
     * @param diffuse the diffuse density
     * @param basePlusFog base plus fog, diffuse; it is taken to look the same in a beam
     * @return the density, with the uncertainty of the factor
     */
    public Estimate projected(Density diffuse, Density basePlusFog) {
        Objects.requireNonNull(basePlusFog, "basePlusFog");
        double net = diffuse.minus(basePlusFog).value();
        return Estimate.of(
                basePlusFog.value() + factor.value() * net,
                Math.abs(net) * factor.standardUncertainty(),
                factor.degreesOfFreedom());
    }

    /**
     * Returns the change of printing exposure for two net densities of one film, as the enlarger sees them.
     *
     * @param difference the diffuse density of the negative to print less that of the one whose exposure is known, both above
     *     their base plus fog
     * @return the change: positive for more exposure
     */
    public ExposureInterval printExposure(DensityDifference difference) {
        return ExposureInterval.ofLogUnits(factor.value() * difference.value());
    }

    /**
     * Returns the factor in words.
     *
     * @return Q with its uncertainty
     */
    @Override
    public String toString() {
        return "Callier factor " + EstimateFormat.withDefaults().format(factor);
    }

    /**
     * Returns the factor as named values: {@code factor}, and the {@code scatter} of the pairs, missing where there is none.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofEstimate("factor", factor, ""),
                scatter > 0
                        ? ResultRecord.ofNumber("scatter", scatter, "density")
                        : ResultRecord.ofMissing(
                                "scatter", "density", "the factor was stated, or its pairs agree exactly"));
    }
}
