// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import org.tonewedge.core.internal.Checks;

/**
 * The light sources with which films are tested, such as photographic daylight, by their relative spectral energies
 * from 350 to 690 nm, with 100 at 560 nm.
 *
 * <p>A film in a camera receives the source through a lens: the sensitometric illuminant is the source multiplied by a
 * standard lens.
 *
 * @source ISO 7589:2002 as included in a general-purpose colour-science library (verified, secondary); which of them
 * ISO 6 allows: ISO 6:1993, clause 5.3.3 (read in an excerpt, verified)
 */
@SuppressWarnings("ImmutableEnumChecker") // the energies are never handed out
public enum SensitometricIlluminant {
    /** Daylight; about 5500 K (from memory). */
    DAYLIGHT(
            28, 31, 34, 33, 38, 61, 69, 72, 68, 86, 98, 100, 100, 103, 98, 101, 101, 100, 104, 102, 103, 100, 97, 98,
            91, 94, 95, 94, 90, 92, 89, 90, 94, 90, 80),
    /** Studio tungsten; about 3200 K (from memory). */
    STUDIO_TUNGSTEN(
            1, 3, 5, 8, 12, 16, 20, 24, 29, 34, 38, 43, 48, 53, 59, 64, 70, 76, 81, 88, 94, 100, 105, 111, 116, 122,
            127, 132, 138, 143, 148, 153, 157, 162, 167),
    /** Photoflood; about 3400 K (from memory). */
    PHOTOFLOOD(
            11, 14, 16, 19, 23, 26, 30, 34, 38, 42, 47, 52, 56, 61, 66, 71, 76, 81, 86, 91, 95, 100, 104, 109, 113, 117,
            121, 125, 129, 132, 135, 138, 141, 144, 146);

    private static final int SHORTEST = 350;
    private static final int STEP = 10;
    private static final double[] LENS = {
        0, 0.07, 0.23, 0.42, 0.6, 0.74, 0.83, 0.88, 0.91, 0.94, 0.95, 0.97, 0.98, 0.98, 0.99, 0.99, 1, 1, 1, 1, 1, 1, 1,
        1, 0.99, 0.99, 0.99, 0.98, 0.98, 0.97, 0.97, 0.96, 0.95, 0.94, 0.94
    };
    private static final double[] PRINTER_DIFFUSER = {
        0, 0, 0, 0.1, 0.43, 0.69, 0.78, 0.83, 0.86, 0.88, 0.9, 0.91, 0.93, 0.94, 0.95, 0.96, 0.97, 0.98, 0.99, 0.99, 1,
        1
    };

    private final double[] energies;

    SensitometricIlluminant(double... energies) {
        this.energies = energies;
    }

    /**
     * Returns the relative energy of the source.
     *
     * @param nanometres the wavelength, a multiple of 10 from 350 to 690
     * @return the energy, 100 at 560 nm
     * @throws IllegalArgumentException if the wavelength is not tabulated
     */
    public double source(int nanometres) {
        return tabulated(energies, nanometres);
    }

    /**
     * Returns the relative energy at the film, through the standard lens.
     *
     * @param nanometres the wavelength, a multiple of 10 from 350 to 690
     * @return the energy, 100 at 560 nm
     * @throws IllegalArgumentException if the wavelength is not tabulated
     */
    public double throughLens(int nanometres) {
        return source(nanometres) * tabulated(LENS, nanometres);
    }

    /**
     * Returns the relative energy of a printer: studio tungsten through the standard lens and a diffuser.
     *
     * @param nanometres the wavelength, a multiple of 10 from 350 to 560, the range in which the diffuser is tabulated
     * @return the energy, 100 at 560 nm
     * @throws IllegalArgumentException if the wavelength is not tabulated
     */
    public static double printer(int nanometres) {
        return STUDIO_TUNGSTEN.throughLens(nanometres) * tabulated(PRINTER_DIFFUSER, nanometres);
    }

    private static double tabulated(double[] table, int nanometres) {
        int longest = SHORTEST + STEP * (table.length - 1);
        Checks.within("wavelength in nanometres", nanometres, SHORTEST, longest, "");
        if (nanometres % STEP != 0) {
            throw new IllegalArgumentException(
                    "spectral energies are tabulated at multiples of 10 nm, was " + nanometres + " nm");
        }
        return table[(nanometres - SHORTEST) / STEP];
    }
}
