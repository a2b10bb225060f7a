// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import java.util.Optional;

/**
 * The speed groups of dental film, each twice as fast as the one before. A group includes its lower limit and ends just
 * below its upper limit.
 *
 * @source a dental reference page on film speed: the limits, with a film of 55 in E and one of 57 in F (verified,
 * secondary); the letters of the two lower groups follow from these
 */
public enum DentalSpeedGroup {
    /** Speed 7 to 14. */
    C(7),
    /** Speed 14 to 28. */
    D(14),
    /** Speed 28 to 56. */
    E(28),
    /** Speed 56 to 112. */
    F(56);

    private final double lowest;

    DentalSpeedGroup(double lowest) {
        this.lowest = lowest;
    }

    /**
     * Returns the group of a speed.
     *
     * @param speed the exact speed by {@link RadiographicSpeed#DENTAL}
     * @return the group; empty below 7, and from 112 on
     */
    public static Optional<DentalSpeedGroup> of(double speed) {
        for (DentalSpeedGroup group : values()) {
            if (speed >= group.lowest && speed < 2 * group.lowest) {
                return Optional.of(group);
            }
        }
        return Optional.empty();
    }
}
