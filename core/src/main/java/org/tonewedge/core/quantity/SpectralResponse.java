// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.internal.Checks;

/**
 * A spectral response of densitometry, such as visual or status M green: the weight of each wavelength.
 *
 * <p>The weights are the spectral products of ISO 5-3, influx spectrum times responsivity, at steps of 10 nm with their
 * peak at 100. A density of a known spectrum of transmittance T(λ) is
 *
 * <p>D = −log<sub>10</sub>(Σ T(λ) Π(λ) / Σ Π(λ)).
 *
 * <p>General colour libraries compute it in this way. ISO 5-3:2009, clause 4, gives the products for filter
 * instruments, but other weighting functions and a procedure for densities from spectra. A density from
 * {@link #density density} is therefore close to an ISO 5 standard density, but may not be called one. Weights below 1 have
 * only one or two significant digits.
 *
 * @source ISO 5-3 spectral products as carried by a general-purpose colour library (BSD licence; verified), the visual
 *     column cross-checked with CIE illuminant A and V(λ) to 0.0020 in log<sub>10</sub>; clause 4 of ISO 5-3:2009 read in
 *     an excerpt (verified)
 */
@SuppressWarnings("ImmutableEnumChecker") // the weights are never handed out
public enum SpectralResponse {
    /** Visual, for neutral silver images: CIE illuminant A times V(λ). */
    VISUAL(
            400, 0.01, 0.02, 0.08, 0.28, 0.65, 1.23, 2.22, 3.82, 6.58, 10.99, 18.88, 32.58, 50.35, 66.83, 80.35, 90.57,
            97.5, 100, 97.5, 90.36, 79.8, 67.14, 53.83, 39.17, 27.1, 17.3, 10.3, 5.61, 3.09, 1.54, 0.8, 0.42, 0.22,
            0.11, 0.05, 0.03, 0.01, 0.01),
    /** Status A blue, for colour positives. */
    STATUS_A_BLUE(420, 4, 65.92, 100, 81.66, 41.69, 10.96, 0.79, 0.04),
    /** Status A green, for colour positives. */
    STATUS_A_GREEN(500, 0.04, 6.64, 60.53, 100, 80.54, 44.06, 16.63, 4.06, 0.58, 0.04),
    /** Status A red, for colour positives. */
    STATUS_A_RED(600, 0.37, 43.45, 100, 74.3, 40.18, 19.32, 7.94, 3.56, 1.46, 0.6, 0.24, 0.09, 0.04, 0.01, 0.01),
    /** Status M blue, for colour negatives. */
    STATUS_M_BLUE(410, 0.13, 12.91, 42.85, 74.3, 100, 90.16, 55.34, 22.03, 5.53, 0.98, 0.07),
    /** Status M green, for colour negatives. */
    STATUS_M_GREEN(470, 0.01, 0.16, 1.43, 6.37, 18.71, 42.27, 74.47, 100, 98.86, 65.77, 28.71, 8.22, 1.49, 0.17, 0.01),
    /** Status M red, for colour negatives. */
    STATUS_M_RED(620, 0.13, 30.13, 100, 79.25, 37.84, 17.86, 7.5, 3.1, 1.26, 0.49, 0.19, 0.07, 0.03, 0.01),
    /** Status T blue, wide band, graphic arts. */
    STATUS_T_BLUE(
            350, 0.01, 0.02, 0.1, 0.3, 1.5, 6, 16.98, 39.99, 59.98, 82.04, 93.97, 100, 97.05, 84.92, 65.01, 39.99,
            17.99, 5, 0.2, 0.04),
    /** Status T green, wide band, graphic arts. */
    STATUS_T_GREEN(480, 1, 5, 27.99, 68.08, 92.04, 100, 87.9, 66.07, 41.98, 21.98, 8.99, 2.5, 0.7, 0.09, 0.01),
    /** Status T red, wide band, graphic arts. */
    STATUS_T_RED(570, 0.06, 0.45, 29.99, 100, 84.92, 54.95, 25, 10, 5, 1.5, 0.5, 0.3, 0.15, 0.05, 0.01),
    /** Status E blue, wide band with a narrower blue, graphic arts. */
    STATUS_E_BLUE(370, 0.01, 0.27, 2.7, 13, 29.99, 59.98, 82.04, 100, 90.99, 76.03, 46.99, 17.99, 6, 0.8, 0.05, 0.01),
    /** Status E green, wide band with a narrower blue, graphic arts. */
    STATUS_E_GREEN(470, 0.01, 1, 5, 27.99, 68.08, 92.04, 100, 87.9, 66.07, 41.98, 21.98, 8.99, 2.5, 0.7, 0.09, 0.01),
    /** Status E red, wide band with a narrower blue, graphic arts. */
    STATUS_E_RED(560, 0.01, 0.06, 0.45, 29.99, 100, 84.92, 54.95, 25, 10, 5, 1.5, 0.5, 0.3, 0.15, 0.05, 0.01),
    /** Type 1, printing density for materials that respond about 400 nm (their names from memory: diazo, vesicular). */
    TYPE_1(360, 0.01, 0.04, 0.72, 28.84, 100, 28.84, 0.72, 0.04, 0.01),
    /** Type 2, printing density for blue-sensitive and orthochromatic print materials (from memory). */
    TYPE_2(
            340, 0.01, 0.51, 19.05, 38.28, 57.54, 70.96, 82.41, 90.36, 97.27, 100, 97.72, 89.33, 73.11, 55.34, 38.19,
            22.44, 9.84, 2.52, 0.64, 0.16, 0.01),
    /**
     * Type 3, for optical sound records on colour film: 800 nm with a bandwidth of 20 nm (from memory); the triangle is the
     * project's own.
     */
    TYPE_3(790, 50, 100, 50);

    /** The distance between neighbouring weights, in nanometres. */
    public static final int WAVELENGTH_STEP = 10;

    private final int shortest;
    private final double[] weights;
    private final double sum;

    SpectralResponse(int shortest, double... weights) {
        this.shortest = shortest;
        this.weights = weights;
        double total = 0;
        for (double weight : weights) {
            total += weight;
        }
        this.sum = total;
    }

    /**
     * Finds a response by its name.
     *
     * @param name the {@link #description()}, such as {@code status M green}, in capitals or not; blanks may be hyphens or
     *     underscores
     * @return the response
     * @throws IllegalArgumentException if no response has the name
     */
    public static SpectralResponse of(String name) {
        Objects.requireNonNull(name, "name");
        String wanted = name.strip().toUpperCase(Locale.ROOT).replaceAll("[\\s_-]+", "_");
        return Arrays.stream(values())
                .filter(response -> response.name().equals(wanted))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("\"" + Checks.shortened(name)
                        + "\" is not a spectral response; write visual, type 1, type 2, type 3, or status A, M, T or E with its"
                        + " colour, such as status M blue"));
    }

    /**
     * Returns the shortest wavelength with a weight.
     *
     * @return the wavelength, a multiple of 10
     * @units nanometres
     */
    public int shortestWavelength() {
        return shortest;
    }

    /**
     * Returns the longest wavelength with a weight.
     *
     * @return the wavelength, a multiple of 10
     * @units nanometres
     */
    public int longestWavelength() {
        return shortest + WAVELENGTH_STEP * (weights.length - 1);
    }

    /**
     * Returns the weight of a wavelength.
     *
     * @param nanometres the wavelength, a multiple of 10
     * @return the spectral product, 100 at the peak, 0 outside the response
     * @throws IllegalArgumentException if the wavelength is not a multiple of 10
     */
    public double weight(int nanometres) {
        if (nanometres % WAVELENGTH_STEP != 0) {
            throw new IllegalArgumentException(
                    "spectral products are tabulated at multiples of 10 nm, was " + nanometres + " nm");
        }
        int i = (nanometres - shortest) / WAVELENGTH_STEP;
        return nanometres < shortest || i >= weights.length ? 0 : weights[i];
    }

    /**
     * Returns the response in words.
     *
     * @return for example {@code status M green}
     */
    public String description() {
        String words = name().toLowerCase(Locale.ROOT).replace('_', ' ');
        for (String status : new String[] {"a", "m", "t", "e"}) {
            words = words.replace("status " + status + " ", "status " + status.toUpperCase(Locale.ROOT) + " ");
        }
        return words;
    }

    /**
     * Returns the sum of the weights.
     *
     * @return Σ Π(λ)
     */
    public double sumOfWeights() {
        return sum;
    }

    /**
     * Returns the density of a spectrum under this response.
     *
     * @param transmittance gives the transmittance, or the reflectance factor, at a wavelength in nanometres; called at
     *     the multiples of 10 from {@link #shortestWavelength()} to {@link #longestWavelength()}
     * @return the density
     * @throws IllegalArgumentException if a transmittance is negative or not finite, or all are 0
     */
    public Density density(DoubleUnaryOperator transmittance) {
        double passed = 0;
        for (int i = 0; i < weights.length; i++) {
            int wavelength = shortest + WAVELENGTH_STEP * i;
            passed += weights[i]
                    * Checks.within(
                            "transmittance at " + wavelength + " nm",
                            transmittance.applyAsDouble(wavelength),
                            0,
                            Double.MAX_VALUE,
                            "");
        }
        return Density.ofTransmittance(passed / sum);
    }
}
