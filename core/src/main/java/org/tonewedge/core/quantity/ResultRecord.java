// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.SerialForms;

/**
 * One named value of a result as data, for tables, files and other programs: a number with its unit and uncertainty, a
 * text, or the reason why there is no number.
 *
 * <pre>{@code
 * for (ResultRecord each : Iso6.withDefaults().determine(curve).records()) {
 *     System.out.println(each.name() + " " + each.value() + " " + each.unit());
 * }
 * }</pre>
 *
 * <p>Names are lower case with underscores; a point separates what belongs together, as in
 * {@code point.1.log_exposure}. They stay what they are within a major version; a minor version may add records.
 *
 * <p>Immutable, thread safe and serialisable; compared by value. Null is refused with the name of the parameter.
 */
public final class ResultRecord implements Serializable {

    private static final long serialVersionUID = 1;

    /** What the value is. */
    private final String name;
    /** NaN where there is no number; never handed out. */
    private final double value;

    /** Unit of value and uncertainty. */
    private final String unit;
    /** NaN where it is not known. */
    private final double standardUncertainty;

    /** Degrees of freedom of the uncertainty. */
    private final double degreesOfFreedom;
    /** The value in words. */
    private final String text;

    private ResultRecord(
            String name, double value, String unit, double standardUncertainty, double degreesOfFreedom, String text) {
        this.name = Checks.label("name of a record", Objects.requireNonNull(name, "name"));
        this.value = value;
        this.unit = Objects.requireNonNull(unit, "unit");
        this.standardUncertainty = standardUncertainty;
        this.degreesOfFreedom = degreesOfFreedom;
        this.text = Objects.requireNonNull(text, "text");
    }

    /**
     * Returns a number whose uncertainty is not known.
     *
     * @param name what it is
     * @param value the number, finite
     * @param unit its unit; empty for a number without one
     * @return the record
     * @throws IllegalArgumentException if the name is blank or the number not finite
     */
    public static ResultRecord ofNumber(String name, double value, String unit) {
        return new ResultRecord(name, Checks.finite(name, value), unit, Double.NaN, Double.POSITIVE_INFINITY, "");
    }

    /**
     * Returns a number with its uncertainty.
     *
     * @param name what it is
     * @param estimate the number with its standard uncertainty
     * @param unit the unit of both; empty for a number without one
     * @return the record
     * @throws IllegalArgumentException if the name is blank
     */
    public static ResultRecord ofEstimate(String name, Estimate estimate, String unit) {
        return new ResultRecord(
                name, estimate.value(), unit, estimate.standardUncertainty(), estimate.degreesOfFreedom(), "");
    }

    /**
     * Returns a number with its uncertainty where that is known.
     *
     * @param name what it is
     * @param value the number, finite
     * @param estimate the same number with its uncertainty, if there is one
     * @param unit the unit of both; empty for a number without one
     * @return the record
     * @throws IllegalArgumentException if the name is blank or the number not finite
     */
    public static ResultRecord ofNumber(String name, double value, Optional<Estimate> estimate, String unit) {
        return estimate.isPresent() ? ofEstimate(name, estimate.get(), unit) : ofNumber(name, value, unit);
    }

    /**
     * Returns a text.
     *
     * @param name what it is
     * @param text the text
     * @return the record
     * @throws IllegalArgumentException if the name is blank
     */
    public static ResultRecord ofText(String name, String text) {
        return new ResultRecord(name, Double.NaN, "", Double.NaN, Double.POSITIVE_INFINITY, text);
    }

    /**
     * Returns a number that could not be had.
     *
     * @param name what it would be
     * @param unit its unit; empty for a number without one
     * @param reason why there is none, and what to do
     * @return the record
     * @throws IllegalArgumentException if the name or the reason is blank
     */
    public static ResultRecord ofMissing(String name, String unit, String reason) {
        return new ResultRecord(
                name, Double.NaN, unit, Double.NaN, Double.POSITIVE_INFINITY, Checks.notBlank("reason", reason));
    }

    /**
     * Returns what the value is.
     *
     * @return for example {@code speed} or {@code point.1.density}
     */
    public String name() {
        return name;
    }

    /**
     * Returns the number.
     *
     * @return the number; nothing for a text, or where it could not be had
     */
    public OptionalDouble value() {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /**
     * Returns the unit.
     *
     * @return for example {@code log10 lx·s}; empty for a number without unit and for a text
     */
    public String unit() {
        return unit;
    }

    /**
     * Returns the number with its uncertainty.
     *
     * @return the estimate; nothing if there is no number or its uncertainty is not known
     */
    public Optional<Estimate> estimate() {
        return Double.isNaN(standardUncertainty)
                ? Optional.empty()
                : Optional.of(Estimate.of(value, standardUncertainty, degreesOfFreedom));
    }

    /**
     * Returns the text.
     *
     * @return the text, or the reason why there is no number; empty beside a number
     */
    public String text() {
        return text;
    }

    /**
     * Returns this record under a longer name, where results are put together.
     *
     * @param prefix what comes before the name, without the point
     * @return the record with the name {@code prefix.name}
     */
    public ResultRecord under(String prefix) {
        return new ResultRecord(
                Objects.requireNonNull(prefix, "prefix") + "." + name,
                value,
                unit,
                standardUncertainty,
                degreesOfFreedom,
                text);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is an equal record
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ResultRecord that
                && name.equals(that.name)
                && Double.compare(value, that.value) == 0
                && unit.equals(that.unit)
                && Double.compare(standardUncertainty, that.standardUncertainty) == 0
                && Double.compare(degreesOfFreedom, that.degreesOfFreedom) == 0
                && text.equals(that.text);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, value, unit, standardUncertainty, degreesOfFreedom, text);
    }

    /**
     * Returns the record in words.
     *
     * @return for example {@code speed 61.7 ± 1.7}, or the name and the reason why there is no number; the text may
     *     change
     */
    @Override
    public String toString() {
        if (Double.isNaN(value)) {
            return name + " " + text;
        }
        String said = estimate().map(EstimateFormat.withDefaults()::format).orElseGet(() -> Double.toString(value));
        return name + " " + said + (unit.isEmpty() ? "" : " " + unit);
    }

    private Object writeReplace() {
        return new SerialForm(name, value, unit, standardUncertainty, degreesOfFreedom, text);
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written. */
    private record SerialForm(
            String name, double value, String unit, double standardUncertainty, double degreesOfFreedom, String text)
            implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> record());
        }

        private ResultRecord record() {
            if (!Double.isNaN(standardUncertainty)) {
                return ofEstimate(name, Estimate.of(value, standardUncertainty, degreesOfFreedom), unit);
            }
            if (!Double.isNaN(value)) {
                return ofNumber(name, value, unit);
            }
            return unit.isEmpty() ? ofText(name, text) : ofMissing(name, unit, text);
        }
    }
}
