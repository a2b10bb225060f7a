// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.List;
import org.tonewedge.core.quantity.Estimate;

/** The weights of log exposures in a fit, by their uncertainties, which are stated for all of them or for none. */
final class StatedWeights {

    private StatedWeights() {}

    /** Whether uncertainties are stated. */
    static boolean areStated(List<Estimate> logExposures) {
        long stated =
                logExposures.stream().filter(h -> h.standardUncertainty() > 0).count();
        if (stated != 0 && stated != logExposures.size()) {
            throw new IllegalArgumentException(stated + " of " + logExposures.size()
                    + " exposures state an uncertainty; state it for all or for none");
        }
        return stated > 0;
    }

    /** The inverse variances where uncertainties are stated, otherwise equal weights. */
    static double[] of(List<Estimate> logExposures) {
        boolean stated = areStated(logExposures);
        return logExposures.stream()
                .mapToDouble(h -> stated ? Math.pow(h.standardUncertainty(), -2) : 1)
                .toArray();
    }
}
