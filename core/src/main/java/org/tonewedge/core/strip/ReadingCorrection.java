// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import org.tonewedge.core.quantity.Density;

/** Corrects a densitometer's reading to the true density, as found by a check against a certified tablet. */
public interface ReadingCorrection {

    /**
     * Returns the name of the correction.
     *
     * @return the name, used in notices and for its error, which all strips read with the instrument share
     */
    String name();

    /**
     * Returns the corrected density.
     *
     * @param reading what the instrument reads
     * @return the density
     * @throws IllegalArgumentException if the reading is outside the range that was checked
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
