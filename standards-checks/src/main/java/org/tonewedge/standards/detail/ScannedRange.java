// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The exposures that a scan of a negative tells apart, where it is not paper but a scanner that reads the film.
 *
 * <pre>{@code
 * ScannedRange range = ScannedRange.withDefaults().determine(curve, density -> 0.004 + 0.002 * density);
 * range.width(); // in stops
 * range.speedAgainst(reference); // positive where this film shows deeper shadows
 * }</pre>
 *
 * <p>An exposure counts as told apart where a third of a stop changes the density by {@value #USUAL_RATIO} times its noise, that
 * of grain and scanner together through the spot that matters, such as a pixel of the final picture. Between the lowest and
 * the highest such exposure about the steepest part of the curve lies the range; paper, with its own toe and shoulder, shows
 * less of it. Measure noise on even areas, with {@link org.tonewedge.core.tone.GranularityMethod} or as the scatter of a
 * {@link PatchGrid patch}, as a function of gross density. Take a fitted curve: the gradient of a curve through the readings
 * follows their errors.
 *
 * <p>Immutable and thread safe.
 *
 * @source signal over noise as the limit of a recording: common practice, no source; a third of a stop and the ratio are the
 *     project's own
 */
public final class ScannedRange {

    /** How many times its noise a change of density must be by default. */
    public static final double USUAL_RATIO = 3;

    private static final double THIRD = Math.log10(2) / 3;
    private static final int STEPS = 2000;
    private static final int BISECTIONS = 50;

    private final LogExposure lowest;
    private final LogExposure highest;
    private final boolean measuredToTheEnds;

    private ScannedRange(LogExposure lowest, LogExposure highest, boolean measuredToTheEnds) {
        this.lowest = lowest;
        this.highest = highest;
        this.measuredToTheEnds = measuredToTheEnds;
    }

    /**
     * Returns the method with its defaults.
     *
     * @return the method
     */
    public static Method withDefaults() {
        return new Method(USUAL_RATIO);
    }

    /** The method: how well exposures must be told apart. Immutable and thread safe. */
    public static final class Method {

        private final double ratio;

        private Method(double ratio) {
            this.ratio = ratio;
        }

        /**
         * Returns what this is, in words that may change.
         *
         * @return the ratio
         */
        @Override
        public String toString() {
            return "range of a scan, signal over noise " + ratio;
        }

        /**
         * Returns a copy with another ratio.
         *
         * @param signalOverNoise how many times its noise the change of density must be, from 0.1 to 100
         * @return the copy
         * @throws IllegalArgumentException if the ratio is out of range
         */
        public Method withRatio(double signalOverNoise) {
            return new Method(Checks.within("signal over noise", signalOverNoise, 0.1, 100, ""));
        }

        /**
         * Determines the range of a film.
         *
         * @param curve the curve of the film
         * @param noiseOfDensity the standard deviation of density at a gross density, above 0
         * @return the range
         * @throws IllegalArgumentException if a noise is not above 0
         * @throws NotDeterminableException if no exposure is told apart
         */
        public ScannedRange determine(CharacteristicCurve curve, DoubleUnaryOperator noiseOfDensity) {
            double from = curve.lowestExposure().value();
            double to = curve.highestExposure().value();
            int best = 0;
            double greatest = 0;
            for (int i = 0; i <= STEPS; i++) {
                double signal = signal(curve, noiseOfDensity, from + (to - from) * i / STEPS);
                if (signal > greatest) {
                    greatest = signal;
                    best = i;
                }
            }
            if (!(greatest >= ratio)) {
                throw new NotDeterminableException("a third of a stop changes the density of " + curve.name()
                        + " by at most " + Figures.plain(greatest) + " times its noise, less than "
                        + Figures.plain(ratio) + "; judge it through a larger spot");
            }
            double step = (to - from) / STEPS;
            double low = limit(curve, noiseOfDensity, from + best * step, -step, from);
            double high = limit(curve, noiseOfDensity, from + best * step, step, to);
            return new ScannedRange(
                    new LogExposure(low, curve.axis()), new LogExposure(high, curve.axis()), low == from || high == to);
        }

        private double signal(CharacteristicCurve curve, DoubleUnaryOperator noiseOfDensity, double at) {
            double noise = Checks.positive(
                    "noise at density " + Figures.plain(curve.density(at)),
                    noiseOfDensity.applyAsDouble(curve.density(at)));
            return Math.abs(curve.gradient(at)) * THIRD / noise;
        }

        private double limit(
                CharacteristicCurve curve, DoubleUnaryOperator noiseOfDensity, double best, double step, double end) {
            double inside = best;
            while ((end - inside) * Math.signum(step) > 0) {
                double next = step > 0 ? Math.min(end, inside + step) : Math.max(end, inside + step);
                if (signal(curve, noiseOfDensity, next) < ratio) {
                    double outside = next;
                    for (int i = 0; i < BISECTIONS; i++) {
                        double middle = 0.5 * (inside + outside);
                        if (signal(curve, noiseOfDensity, middle) < ratio) {
                            outside = middle;
                        } else {
                            inside = middle;
                        }
                    }
                    return inside;
                }
                inside = next;
            }
            return end;
        }
    }

    /**
     * Returns the least exposure that is told apart.
     *
     * @return log H on the axis of the curve
     */
    public LogExposure lowest() {
        return lowest;
    }

    /**
     * Returns the greatest exposure that is told apart.
     *
     * @return log H on the axis of the curve
     */
    public LogExposure highest() {
        return highest;
    }

    /**
     * Returns the width of the range.
     *
     * @return from the lowest to the highest exposure
     */
    public ExposureInterval width() {
        return highest.minus(lowest);
    }

    /**
     * Tells whether the range reaches an end of the measured curve, so that it may be wider.
     *
     * @return true for a lower bound of the width
     */
    public boolean isLowerBound() {
        return measuredToTheEnds;
    }

    /**
     * Returns the effective speed against a reference film read by the same scanner.
     *
     * @param reference the range of the reference film, on the same axis
     * @return positive where this film tells smaller exposures apart
     * @throws IllegalArgumentException if the axes differ
     */
    public ExposureInterval speedAgainst(ScannedRange reference) {
        return reference.lowest.minus(lowest);
    }

    /**
     * Returns the range in words.
     *
     * @return its ends and width
     */
    @Override
    public String toString() {
        return String.format(Locale.ROOT, "%s to %s, %.1f stops", lowest, highest, width().stops());
    }
}
