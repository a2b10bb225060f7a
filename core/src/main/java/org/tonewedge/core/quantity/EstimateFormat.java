// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;

/**
 * Writes a figure with as many digits as its uncertainty leaves: {@code 61.7 ± 1.7}, not {@code 61.6616 ± 1.7064}.
 *
 * <pre>{@code
 * System.out.println(EstimateFormat.withDefaults().format(speed));                 // 61.7 ± 1.7
 * System.out.println(EstimateFormat.withDefaults().withAscii().withDigits(1).format(speed)); // 62 +/- 2
 * }</pre>
 *
 * <p>The uncertainty is rounded to two significant digits unless told otherwise, and the figure to the same place. A
 * figure whose uncertainty is 0 is written with as many decimals as it has, up to six.
 *
 * <p>Immutable and thread safe; each {@code with} returns a copy. Null is refused with the name of the parameter.
 *
 * @source JCGM 100:2008, 7.2.6: an uncertainty has at most two significant digits, and the estimate is rounded to be
 *     consistent with it
 */
public final class EstimateFormat {

    private static final EstimateFormat DEFAULTS = new EstimateFormat(2, false);
    private static final int MOST_DIGITS = 9;
    private static final int DECIMALS_WITHOUT_UNCERTAINTY = 6;

    private final int digits;
    private final boolean ascii;

    private EstimateFormat(int digits, boolean ascii) {
        this.digits = digits;
        this.ascii = ascii;
    }

    /**
     * Returns the format of two digits, with the signs − and ±.
     *
     * @return the format
     */
    public static EstimateFormat withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns this format with more or fewer digits of the uncertainty.
     *
     * @param ofUncertainty the significant digits, from 1 to 9
     * @return a copy
     * @throws IllegalArgumentException if the number is out of range
     */
    public EstimateFormat withDigits(int ofUncertainty) {
        return new EstimateFormat(
                (int) Checks.within("digits of an uncertainty", ofUncertainty, 1, MOST_DIGITS, ""), ascii);
    }

    /**
     * Returns this format in ASCII, for consoles and files that lack other signs: {@code -} and {@code +/-}.
     *
     * @return a copy
     */
    public EstimateFormat withAscii() {
        return new EstimateFormat(digits, true);
    }

    /**
     * Writes a figure with its standard uncertainty.
     *
     * @param estimate the figure
     * @return for example {@code 61.7 ± 1.7}
     */
    public String format(Estimate estimate) {
        Objects.requireNonNull(estimate, "estimate");
        double u = estimate.standardUncertainty();
        if (u == 0) {
            return exact(estimate.value()) + plusMinus() + "0";
        }
        BigDecimal rounded = BigDecimal.valueOf(u).round(new MathContext(digits, RoundingMode.HALF_EVEN));
        int scale = digits - rounded.precision() + rounded.scale();
        return at(estimate.value(), scale) + plusMinus() + at(u, scale);
    }

    /**
     * Writes the two ends of an interval, with as many significant digits of its width as of an uncertainty. Ends of an
     * infinite interval are not rounded.
     *
     * @param interval the interval
     * @return for example {@code 58.3 to 65.1}
     */
    public String format(CoverageInterval interval) {
        Objects.requireNonNull(interval, "interval");
        if (Double.isInfinite(interval.width())) {
            return interval.lower() + " to " + interval.upper();
        }
        if (interval.width() == 0) {
            return exact(interval.lower());
        }
        int scale = digits - 1 - (int) Math.floor(Math.log10(interval.width()));
        return at(interval.lower(), scale) + " to " + at(interval.upper(), scale);
    }

    private String exact(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value)
                .setScale(DECIMALS_WITHOUT_UNCERTAINTY, RoundingMode.HALF_EVEN)
                .stripTrailingZeros();
        return signed(rounded.setScale(Math.max(0, rounded.scale())));
    }

    private String at(double value, int scale) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(scale, RoundingMode.HALF_EVEN);
        return signed(scale < 0 ? rounded.setScale(0) : rounded);
    }

    private String signed(BigDecimal value) {
        String text = value.toPlainString();
        if (value.signum() == 0) {
            text = text.replace("-", "");
        }
        return ascii ? text : text.replace('-', '\u2212');
    }

    private String plusMinus() {
        return ascii ? " +/- " : " \u00b1 ";
    }

    /**
     * Returns the format in words.
     *
     * @return an example
     */
    @Override
    public String toString() {
        return "such as " + format(Estimate.of(-61.6616, 1.7064));
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof EstimateFormat that && digits == that.digits && ascii == that.ascii;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(digits, ascii);
    }
}
