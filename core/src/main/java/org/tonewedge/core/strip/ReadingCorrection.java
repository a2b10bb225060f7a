// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;
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
     * @units density
     */
    double standardUncertainty(Density corrected);

    /**
     * Returns the errors that all corrected densities share, and that therefore neither repeat readings nor the residuals of a
     * fit show. They become {@linkplain Strip#statedErrors() stated errors} of every strip. Unless overridden, there is one: the
     * {@linkplain #standardUncertainty standard uncertainty}, with the same sign at all densities. Such an error hardly changes
     * a gradient, so override this if you know how the errors at two densities go together.
     *
     * @return by the name of each source, independent of the others, what one standard uncertainty of it adds to a corrected
     *     density
     * @units density
     */
    default Map<String, DoubleUnaryOperator> commonErrors() {
        return Map.of("correction " + name(), new SameSignError(this));
    }
}
