// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;

/**
 * What a densitometer's detector counted for one reading, such as 6 200 through the sample, 200 in the dark and 60 200
 * with the gate open.
 *
 * <p>The density is D = log<sub>10</sub> ((O − k<sub>O</sub>) / (g<sub>O</sub> t<sub>O</sub>)) − log<sub>10</sub> ((S −
 * k) / (g t)), with the counts O, S and dark counts k<sub>O</sub>, k of open gate and sample, their gains g and
 * integration times t.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param sample the counts with the sample in the gate
 * @param dark the counts in the dark at the sample's settings
 * @param openGate the counts with the gate open
 * @param openGateDark the counts in the dark at the open gate's settings
 * @param gainRatio the gain of the sample divided by that of the open gate
 * @param timeRatio the integration time of the sample divided by that of the open gate
 * @units counts; the ratios are without unit
 * @source D = log<sub>10</sub> (Φ<sub>0</sub>/Φ), ISO 5-1 notation as given by BAM's reference procedure for X-ray films;
 *     detector proportional to light, gain and time: common practice, no source
 */
public record RawCounts(
        double sample, double dark, double openGate, double openGateDark, double gainRatio, double timeRatio) {

    static final double MOST_COUNTS = 1e12;

    /**
     * Checks the counts.
     *
     * @param sample the counts with the sample in the gate, from 0 to 10<sup>12</sup>
     * @param dark the counts in the dark at the sample's settings, likewise
     * @param openGate the counts with the gate open, likewise, above those in the dark
     * @param openGateDark the counts in the dark at the open gate's settings, likewise
     * @param gainRatio the gain of the sample divided by that of the open gate, above 0
     * @param timeRatio the integration time of the sample divided by that of the open gate, above 0
     * @throws IllegalArgumentException if a number is out of range or the open gate is not above the dark
     */
    public RawCounts {
        sample = Checks.within("counts of the sample", sample, 0, MOST_COUNTS, "");
        dark = Checks.within("dark counts", dark, 0, MOST_COUNTS, "");
        openGate = Checks.within("counts of the open gate", openGate, 0, MOST_COUNTS, "");
        openGateDark = Checks.within("dark counts of the open gate", openGateDark, 0, MOST_COUNTS, "");
        Checks.positive("ratio of gains", gainRatio);
        Checks.positive("ratio of integration times", timeRatio);
        if (!(openGate > openGateDark)) {
            throw new IllegalArgumentException("counts of the open gate must be above the dark counts " + openGateDark
                    + ", were " + openGate + ": is the lamp lit and the gate open?");
        }
    }

    /**
     * Returns counts that were all taken at one gain and one integration time.
     *
     * @param sample the counts with the sample in the gate, from 0 to 10<sup>12</sup>
     * @param dark the counts in the dark, likewise
     * @param openGate the counts with the gate open, likewise
     * @return the counts
     * @throws IllegalArgumentException as the constructor does
     */
    public static RawCounts of(double sample, double dark, double openGate) {
        return new RawCounts(sample, dark, openGate, dark, 1, 1);
    }

    /**
     * Tells whether the detector saw any light through the sample.
     *
     * @return false if the counts of the sample are not above the dark counts
     */
    public boolean isDeterminable() {
        return sample > dark;
    }

    /**
     * Returns the density, computed from the counts alone. If the counts are wrong, it may be outside the limits of
     * {@link org.tonewedge.core.quantity.Density}.
     *
     * @return the density
     * @throws NotDeterminableException if the counts of the sample are not above the dark counts
     * @units decimal log units of opacity
     */
    public double density() {
        if (!isDeterminable()) {
            throw new NotDeterminableException("counts of the sample " + sample + " are not above the dark counts "
                    + dark + ": the sample is too dense for the detector; count longer or at a higher gain");
        }
        return Math.log10((openGate - openGateDark) * gainRatio * timeRatio / (sample - dark));
    }

    /**
     * Returns the change of density that one count makes at this reading.
     *
     * @return log<sub>10</sub> (1 + 1/(S − k))
     * @throws NotDeterminableException as {@link #density()}
     * @units decimal log units of opacity
     */
    public double densityOfOneCount() {
        density();
        return Math.log1p(1 / (sample - dark)) / Math.log(10);
    }
}
