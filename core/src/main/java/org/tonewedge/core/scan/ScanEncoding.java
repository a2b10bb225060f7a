// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.util.Arrays;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;

/**
 * What the whole-number codes of a scan mean: equal steps of density, such as 0.0001 for each code, equal steps of
 * transmittance, as a sensor counts light, or what a measurement found.
 *
 * <p>Codes run from 0 to a highest code of at most 65,535. A code without a density, such as a light count at or below
 * black, is refused when it is read.
 *
 * <p>Immutable and thread safe.
 */
public final class ScanEncoding {

    /** The highest code of 16 bits. */
    public static final int HIGHEST_16_BIT = 0xFFFF;

    private final String description;
    private final int highestCode;
    private final IntToDoubleFunction densityOfCode;

    private ScanEncoding(String description, int highestCode, IntToDoubleFunction densityOfCode) {
        this.description = description;
        this.highestCode = highestCode;
        this.densityOfCode = densityOfCode;
    }

    /**
     * Returns a logarithmic encoding: equal steps of density, D = D<sub>0</sub> + s · code.
     *
     * @param atZero the density D<sub>0</sub> of code 0
     * @param perCode the density step s of one code, positive or negative but not 0; it is negative if higher codes
     *     mean more light
     * @param highestCode the highest code that occurs, from 1 to 65,535
     * @return the encoding
     * @throws IllegalArgumentException if the step is 0 or not finite, the highest code is out of range, or its density is
     *     outside the limits of {@link Density}
     * @units density, density for each code
     */
    public static ScanEncoding ofDensitySteps(Density atZero, double perCode, int highestCode) {
        Checks.finite("density step of a scan", perCode);
        if (perCode == 0) {
            throw new IllegalArgumentException("the density step of a scan must not be 0");
        }
        checkHighest(highestCode);
        Density.of(atZero.value() + perCode * highestCode); // refuses what no density is
        return new ScanEncoding(
                atZero + " at code 0, " + Figures.plain(perCode * 1000) + " for 1000 codes",
                highestCode,
                code -> atZero.value() + perCode * code);
    }

    /**
     * Returns a linear encoding: equal steps of transmittance, D = −log<sub>10</sub> ((code − black) / (open gate −
     * black)). Codes at or below black have no density.
     *
     * @param black the code without light
     * @param openGate the code of the open gate (for reflection, of the perfect diffuser), above that of black; it may
     *     lie above the highest code
     * @param highestCode the highest code that occurs, from 1 to 65,535
     * @return the encoding
     * @throws IllegalArgumentException if a code is not finite, the open gate is not above black, or the highest code is
     *     out of range
     */
    public static ScanEncoding ofTransmittanceSteps(double black, double openGate, int highestCode) {
        Checks.finite("code of black", black);
        Checks.finite("code of the open gate", openGate);
        if (!(openGate > black)) {
            throw new IllegalArgumentException(
                    "the code of the open gate must be above that of black, was " + openGate + " after " + black);
        }
        checkHighest(highestCode);
        return new ScanEncoding(
                "black at code " + black + ", open gate at code " + openGate,
                highestCode,
                code -> code > black ? -Math.log10((code - black) / (openGate - black)) : Double.NaN);
    }

    /**
     * Returns an encoding that was found by measurement, such as by a step tablet on the scan.
     *
     * @param description the encoding in words
     * @param highestCode the highest code that occurs, from 1 to 65 535
     * @param densityOfCode the density of each code from 0 to the highest, or nothing where there is none; it is asked once
     *     for each
     * @return the encoding
     * @throws IllegalArgumentException if the description is blank or the highest code is out of range
     */
    public static ScanEncoding measured(
            String description, int highestCode, IntFunction<OptionalDouble> densityOfCode) {
        Objects.requireNonNull(densityOfCode, "densityOfCode");
        checkHighest(highestCode);
        double[] densities = new double[highestCode + 1];
        Arrays.setAll(densities, code -> densityOfCode.apply(code).orElse(Double.NaN));
        return new ScanEncoding(
                Checks.notBlank("description of an encoding", description), highestCode, code -> densities[code]);
    }

    private static void checkHighest(int highestCode) {
        Checks.within("highest code", highestCode, 1, HIGHEST_16_BIT, "");
    }

    /**
     * Returns the highest code.
     *
     * @return from 1 to 65,535
     */
    public int highestCode() {
        return highestCode;
    }

    /** The density of a code in range; NaN if it has none. */
    double densityOrNaN(int code) {
        return densityOfCode.applyAsDouble(code);
    }

    /**
     * Returns the encoding in words.
     *
     * @return what the codes mean
     */
    @Override
    public String toString() {
        return description + ", codes up to " + highestCode;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other has the same description and the same density for each code
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ScanEncoding that
                && Objects.equals(description, that.description)
                && highestCode == that.highestCode
                && IntStream.rangeClosed(0, highestCode)
                        .allMatch(code -> Double.compare(densityOrNaN(code), that.densityOrNaN(code)) == 0);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(description, highestCode);
    }
}
