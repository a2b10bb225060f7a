package org.tonewedge.core.tone;

import java.util.Locale;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * A printing time, such as 12.5 s.
 *
 * <p>Immutable and thread safe; treat as a value.
 *
 * @param seconds the time, above 0
 * @units seconds
 */
public record PrintTime(double seconds) {

    /**
     * Checks the time.
     *
     * @param seconds the time
     * @throws IllegalArgumentException if it is not a finite number above 0
     */
    public PrintTime {
        Checks.positive("printing time in seconds", seconds);
    }

    /**
     * Returns a time.
     *
     * @param seconds the time, above 0
     * @return the time
     * @throws IllegalArgumentException if it is not a finite number above 0
     */
    public static PrintTime ofSeconds(double seconds) {
        return new PrintTime(seconds);
    }

    /**
     * Returns the time after a change of exposure made by time alone, on a paper without reciprocity failure.
     *
     * @param change the change of printing exposure
     * @return time × 10<sup>change in log units</sup>
     * @throws IllegalArgumentException if the time overflows the range of numbers
     */
    public PrintTime changedBy(ExposureInterval change) {
        return changedBy(change, SchwarzschildExponent.HOLDS);
    }

    /**
     * Returns the time after a change of exposure made by time alone, on a paper with reciprocity failure.
     *
     * <p>To change E t<sup>p</sup> by the factor k, the time changes by k<sup>1/p</sup>. The factor is the same whether
     * the print needs more light, or the negative, the magnification or a filter takes light away.
     *
     * @param change the change of printing exposure
     * @param paper the paper's departure from reciprocity
     * @return time × 10<sup>change in log units / p</sup>
     * @throws IllegalArgumentException if the time overflows the range of numbers
     */
    public PrintTime changedBy(ExposureInterval change, SchwarzschildExponent paper) {
        return new PrintTime(seconds * change.times(1 / paper.exponent()).ratio());
    }

    /**
     * Returns the time as set on a timer.
     *
     * @return for example {@code 12.5 s}
     */
    @Override
    public String toString() {
        return String.format(Locale.ROOT, "%.1f s", seconds);
    }
}
