package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.Density;

/** From what a densitometer reads to the density, as a check against a certified tablet found it. */
public interface ReadingCorrection {

    /**
     * Returns the name of the correction.
     *
     * @return for notices, and as the name of its error, which all strips read with the instrument share
     */
    String name();

    /**
     * Returns the corrected density.
     *
     * @param reading what the instrument reads
     * @return the density
     * @throws IllegalArgumentException if the reading is outside what was checked
     */
    Density correct(Density reading);

    /**
     * Returns the uncertainty of a corrected density.
     *
     * @param corrected the corrected density
     * @return the standard uncertainty (k = 1)
     */
    double standardUncertainty(Density corrected);
}
