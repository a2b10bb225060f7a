// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * The relative sensitivity of a film against wavelength, from a wedge spectrogram: a spectrum photographed through a wedge
 * that lies across it.
 *
 * <p>At each wavelength the density of the wedge is read behind which the film just reaches a stated density. The film gets
 * the energy of the source there less that density, so that
 *
 * <p>log S(λ) = D<sub>wedge</sub>(λ) − log<sub>10</sub> E(λ) + constant,
 *
 * <p>and the constant makes the greatest value 0. Without the energies of the source the curve is that of film and light
 * together. The uncertainty of a value is that of its difference from the greatest.
 *
 * <p>Immutable and thread safe.
 *
 * @source spectral sensitivity as the reciprocal of the exposure for a stated density: common practice, no source
 */
public final class SensitivityCurve {

    private static final int FEWEST = 3;

    private final List<WedgeReading> readings;
    private final double[] logs;
    private final int peak;

    private SensitivityCurve(List<WedgeReading> readings, double[] logs, int peak) {
        this.readings = readings;
        this.logs = logs;
        this.peak = peak;
    }

    /**
     * A reading of a spectrogram.
     *
     * @param wavelength the wavelength in nanometres
     * @param wedgeDensity the density of the wedge behind which the film reaches the stated density
     * @param relativeEnergy the energy of the source there, relative to any other wavelength; 1 everywhere where it is not
     *     known
     */
    public record WedgeReading(double wavelength, Estimate wedgeDensity, double relativeEnergy) {

        /**
         * Checks the reading.
         *
         * @param wavelength the wavelength, from 200 to 2000 nm
         * @param wedgeDensity the density of the wedge, from 0 to 10
         * @param relativeEnergy the energy of the source, above 0
         * @throws IllegalArgumentException if a number is out of range
         */
        public WedgeReading {
            Objects.requireNonNull(wedgeDensity, "wedgeDensity");
            Checks.within("wavelength in nanometres", wavelength, 200, 2000, "");
            Checks.within(
                    "density of the wedge at " + Figures.plain(wavelength) + " nm", wedgeDensity.value(), 0, 10, "");
            Checks.positive("energy of the source at " + Figures.plain(wavelength) + " nm", relativeEnergy);
        }
    }

    /**
     * Returns the curve of a spectrogram.
     *
     * @param readings three or more readings, by rising wavelength
     * @return the curve
     * @throws IllegalArgumentException if there are fewer than three or the wavelengths do not rise
     */
    public static SensitivityCurve of(List<WedgeReading> readings) {
        if (readings.size() < FEWEST) {
            throw new IllegalArgumentException(
                    "a curve of sensitivity needs three wavelengths at least, had " + readings.size());
        }
        double[] logs = new double[readings.size()];
        int peak = 0;
        for (int i = 0; i < logs.length; i++) {
            WedgeReading reading = readings.get(i);
            if (i > 0 && !(reading.wavelength() > readings.get(i - 1).wavelength())) {
                throw new IllegalArgumentException("wavelengths must rise, was " + Figures.plain(reading.wavelength())
                        + " after " + Figures.plain(readings.get(i - 1).wavelength()) + " nm; sort the readings");
            }
            logs[i] = reading.wedgeDensity().value() - Math.log10(reading.relativeEnergy());
            peak = logs[i] > logs[peak] ? i : peak;
        }
        return new SensitivityCurve(List.copyOf(readings), logs, peak);
    }

    /**
     * Returns the wavelength of the greatest sensitivity among those read.
     *
     * @return nanometres
     */
    public double peakWavelength() {
        return readings.get(peak).wavelength();
    }

    /**
     * Returns the relative log sensitivity at a wavelength, straight between those read.
     *
     * @param wavelength the wavelength in nanometres, within those read
     * @return 0 at the greatest sensitivity, else below; the uncertainty is that of the difference
     * @throws IllegalArgumentException if the wavelength was not covered
     */
    public Estimate logSensitivity(double wavelength) {
        int last = readings.size() - 1;
        Checks.within(
                "wavelength in nanometres",
                wavelength,
                readings.get(0).wavelength(),
                readings.get(last).wavelength(),
                "the spectrogram was not read beyond");
        int above = 1;
        while (above < last && readings.get(above).wavelength() < wavelength) {
            above++;
        }
        double from = readings.get(above - 1).wavelength();
        double part = (wavelength - from) / (readings.get(above).wavelength() - from);
        double[] shares = new double[readings.size()];
        shares[above - 1] += 1 - part;
        shares[above] += part;
        shares[peak] -= 1;
        double value = 0;
        double variance = 0;
        double degrees = Double.POSITIVE_INFINITY;
        for (int i = 0; i < shares.length; i++) {
            Estimate density = readings.get(i).wedgeDensity();
            value += shares[i] * logs[i];
            variance += Math.pow(shares[i] * density.standardUncertainty(), 2);
            degrees = shares[i] == 0 ? degrees : Math.min(degrees, density.degreesOfFreedom());
        }
        return Estimate.of(value, Math.sqrt(variance), degrees);
    }

    /**
     * Returns the wavelength beyond which the film is blind for practical purposes: where the sensitivity, from its greatest
     * towards the red, first falls below a part of it.
     *
     * @param below how far below the greatest, in log units, such as 1.0
     * @return nanometres
     * @throws IllegalArgumentException if the depth is not above 0
     * @throws NotDeterminableException if the sensitivity does not fall so far within the wavelengths read
     */
    public double cutOff(double below) {
        Checks.positive("depth below the greatest sensitivity", below);
        for (int i = peak + 1; i < logs.length; i++) {
            double before = logs[i - 1] - logs[peak] + below;
            double after = logs[i] - logs[peak] + below;
            if (after < 0) {
                double from = readings.get(i - 1).wavelength();
                return from + before / (before - after) * (readings.get(i).wavelength() - from);
            }
        }
        throw new OutsideMeasuredRangeException("the sensitivity does not fall " + Figures.plain(below)
                + " log units below its greatest up to "
                + Figures.plain(readings.get(logs.length - 1).wavelength())
                + " nm; read the spectrogram to longer wavelengths");
    }

    /**
     * Returns the curve in words.
     *
     * @return its range and peak
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "log sensitivity from %.0f to %.0f nm, greatest at %.0f nm",
                readings.get(0).wavelength(),
                readings.get(readings.size() - 1).wavelength(),
                peakWavelength());
    }
}
