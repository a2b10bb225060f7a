// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * How far a density may be from the certificate: 0.02 or 2 % of density, whichever is more.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param absolute the departure that is always allowed, 0 or more
 * @param relative the departure allowed as a fraction of the certified density, 0 or more
 * @units density; the relative part is a fraction
 * @source 0.02 or 2 %: common practice, no source. For comparison, two national laboratories agreed within 0.010 up to D
 *     3.3 on photographic film (Buhr, Bergmann, Early, O'Brian, J. Imaging Sci. Technol. 44 (2000) 156–159, abstract)
 */
public record DensityTolerance(double absolute, double relative) {

    /** The usual tolerance: 0.02 or 2 % of density. */
    public static final DensityTolerance USUAL = new DensityTolerance(0.02, 0.02);

    /**
     * Checks both parts.
     *
     * @param absolute the departure that is always allowed, from 0 to 1
     * @param relative the departure allowed as a fraction of the certified density, from 0 to 1
     * @throws IllegalArgumentException if a part is out of range or both are 0
     */
    public DensityTolerance {
        absolute = Checks.within("absolute tolerance of density", absolute, 0, 1, "");
        relative = Checks.within("relative tolerance of density", relative, 0, 1, "2 % is 0.02");
        Checks.positive("sum of the tolerances", absolute + relative);
    }

    /**
     * Returns the departure allowed at a density.
     *
     * @param certified the certified density
     * @return the larger of the absolute part and the relative part times the density
     * @units density
     */
    public double at(double certified) {
        return Math.max(absolute, relative * Math.abs(certified));
    }

    /**
     * Returns the tolerance in words.
     *
     * @return for example {@code within 0.02 or 2.00 % of density}
     */
    @Override
    public String toString() {
        return "within " + Figures.plain(absolute) + " or " + Figures.plain(100 * relative) + " % of density";
    }
}
