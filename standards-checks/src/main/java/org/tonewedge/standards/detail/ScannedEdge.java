// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.Random;

/**
 * The sides of an edge that was read on a scan, in the quantity in which it was read, and the window about it.
 *
 * @param from the value on one side
 * @param to the value on the other side
 * @param flat the distance up to which the window is 1, in millimetres
 * @param outer the distance from which it is 0, in millimetres
 * @param light how the quantity relates to transmittance
 */
record ScannedEdge(double from, double to, double flat, double outer, Light light) {

    private static final long SEED = 20;

    double window(double place) {
        return window(place, flat, outer);
    }

    /** The window of the slope at a place: 1, then falling as a cosine, then 0. */
    static double window(double place, double flat, double outer) {
        double distance = Math.abs(place);
        if (distance <= flat) {
            return 1;
        }
        return distance >= outer ? 0 : 0.5 * (1 + Math.cos(Math.PI * (distance - flat) / (outer - flat)));
    }

    /** The modulation transfer of the film alone. */
    ModulationTransfer without(ModulationTransfer both, ModulationTransfer scanner, double floor) {
        ModulationTransfer quotient = both.dividedBy(scanner, floor);
        if (light.equals(Light.ITSELF)) {
            return quotient;
        }
        double[] frequencies = quotient.frequencies();
        double[] measured =
                Arrays.stream(frequencies).map(f -> both.at(f).value()).toArray();
        ScannerChain chain = new ScannerChain(frequencies, scanner, this);
        chain.fit(measured);
        Random random = new Random(SEED);
        return quotient.scaled(
                chain.factors(),
                index -> chain.factors(measured, both.alternativeAt(index, frequencies), random.nextGaussian()));
    }
}
