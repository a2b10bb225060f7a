// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * The rule that divides a curve into toe, straight line and shoulder.
 *
 * <p>The gradient is averaged over a window, G<sub>w</sub>(x) = [D(x + w/2) − D(x − w/2)] / w, so that noise in single
 * readings does not decide. The straight line is the stretch around the greatest G<sub>w</sub> in which G<sub>w</sub>
 * stays at or above a fraction of that greatest value. The toe begins, and the shoulder ends, where G<sub>w</sub> has
 * fallen to a second, smaller fraction.
 *
 * <table>
 * <caption>Defaults and their reasons (common practice, no source)</caption>
 * <tr><td>window</td><td>one stop</td><td>two to three readings of a usual strip; with readings repeatable to 0.01 the
 * averaged gradient is good to about 0.05</td></tr>
 * <tr><td>straight line</td><td>0.80</td><td>noise hides about a twentieth of a usual gradient in either direction;
 * four fifths is the nearest round figure at which noise does not cut the straight line short</td></tr>
 * <tr><td>least rise</td><td>0.10</td><td>a strip that does not rise by the density of the usual speed point cannot be
 * divided into parts</td></tr>
 * <tr><td>toe and shoulder ends</td><td>0.10</td><td>a smaller gradient gives no useful separation of tones</td></tr>
 * </table>
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class AnatomyCriterion {

    /** The least rise of density over the measured range that a curve needs to be divided into parts. */
    static final double LEAST_RISE = MethodFigures.SPEED_POINT;

    /** How far density may fall back: the noise that {@link org.tonewedge.core.strip.StripCheck} allows. */
    static final double GREATEST_REVERSAL = 0.05;

    private static final AnatomyCriterion DEFAULTS = new AnatomyCriterion(ExposureInterval.ofStops(1), 0.80, 0.10);

    private final ExposureInterval window;
    private final double straightLineFraction;
    private final double endFraction;

    private AnatomyCriterion(ExposureInterval window, double straightLineFraction, double endFraction) {
        this.window = window;
        this.straightLineFraction = straightLineFraction;
        this.endFraction = endFraction;
    }

    /**
     * Returns the defaults of the table above.
     *
     * @return the criterion
     */
    public static AnatomyCriterion withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another window.
     *
     * @param width the width over which the gradient is averaged, 0 or more; 0 takes the gradient at a point
     * @return the copy
     * @throws IllegalArgumentException if the width is negative or above 10 log units
     */
    public AnatomyCriterion withWindow(ExposureInterval width) {
        Checks.within("window in log units", width.logUnits(), 0, 10, "");
        return new AnatomyCriterion(width, straightLineFraction, endFraction);
    }

    /**
     * Returns a copy with other fractions of the greatest gradient.
     *
     * @param straightLine the fraction that bounds the straight line, above the end fraction and below 1
     * @param ends the fraction at which the toe begins and the shoulder ends, above 0
     * @return the copy
     * @throws IllegalArgumentException if the fractions are not 0 &lt; ends &lt; straight line &lt; 1
     */
    public AnatomyCriterion withFractions(double straightLine, double ends) {
        if (!(ends > 0 && ends < straightLine && straightLine < 1)) {
            throw new IllegalArgumentException(
                    "fractions must be 0 < ends < straight line < 1, were " + ends + " and " + straightLine);
        }
        return new AnatomyCriterion(window, straightLine, ends);
    }

    /**
     * Returns the window.
     *
     * @return the width over which the gradient is averaged
     */
    public ExposureInterval window() {
        return window;
    }

    /**
     * Returns the fraction that bounds the straight line.
     *
     * @return the fraction of the greatest gradient
     */
    public double straightLineFraction() {
        return straightLineFraction;
    }

    /**
     * Returns the fraction at which the toe begins and the shoulder ends.
     *
     * @return the fraction of the greatest gradient
     */
    public double endFraction() {
        return endFraction;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof AnatomyCriterion that
                && Objects.equals(window, that.window)
                && Double.compare(straightLineFraction, that.straightLineFraction) == 0
                && Double.compare(endFraction, that.endFraction) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(window, straightLineFraction, endFraction);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the window and the fractions
     */
    @Override
    public String toString() {
        return "gradient over " + window + ", straight line within " + Figures.plain(straightLineFraction)
                + " of the greatest, ends at " + Figures.plain(endFraction);
    }
}
