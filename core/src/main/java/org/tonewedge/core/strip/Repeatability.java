// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;

/**
 * The standard deviation of a single density reading. You state it, or it is pooled over repeat readings. Fits and
 * uncertainties take it in this one form.
 *
 * <pre>{@code
 * Repeatability.of(0.01);                                // the same at all densities
 * Repeatability.of(density -> 0.005 + 0.005 * density);  // worse at high densities
 * Repeatability.fromRepeats();                           // from the repeat readings of each strip
 * Repeatability.fromRepeats().over(strips);              // from the repeat readings of all these strips together
 * }</pre>
 *
 * <p>A stated standard deviation is taken as exactly known. A pooled one is the same at all densities and is known with
 * the {@linkplain #degreesOfFreedom() degrees of freedom} of the repeat readings.
 *
 * <p>Immutable and thread safe if the function is.
 */
public final class Repeatability {

    private static final Repeatability FROM_REPEATS = new Repeatability(null, 0, "the repeat readings", "repeats");

    private final DoubleUnaryOperator deviation;
    private final double degreesOfFreedom;
    private final String origin;
    /** What makes it equal to another: the value, its degrees of freedom, or the function that you gave. */
    private final Object identity;

    private Repeatability(DoubleUnaryOperator deviation, double degreesOfFreedom, String origin, Object identity) {
        this.deviation = deviation;
        this.degreesOfFreedom = degreesOfFreedom;
        this.origin = origin;
        this.identity = identity;
    }

    /**
     * Returns a stated standard deviation, the same at all densities.
     *
     * @param standardDeviation the standard deviation of one reading, from 0 to 1; 0 takes readings as exact, which a fit
     *     refuses
     * @return the repeatability
     * @throws IllegalArgumentException if it is out of range
     * @units density
     */
    public static Repeatability of(double standardDeviation) {
        double value = Checks.within(
                "repeatability of a reading", standardDeviation, 0, 1, "give it as a density, such as 0.01");
        return new Repeatability(
                density -> value,
                Double.POSITIVE_INFINITY,
                "the stated repeatability " + Figures.plain(value),
                List.of(value, Double.POSITIVE_INFINITY));
    }

    /**
     * Returns a stated standard deviation that changes with density, for densitometers that read high densities less
     * well.
     *
     * <p>The function is called when a reading is weighed. What it gives is checked then: {@link #standardDeviationAt standardDeviationAt}
     * refuses NaN, infinity and negative values, and a fit refuses 0 as well.
     *
     * @param standardDeviationAt gives the standard deviation of one reading for its gross density; finite and 0 or more
     * @return the repeatability
     * @units density
     */
    public static Repeatability of(DoubleUnaryOperator standardDeviationAt) {
        Objects.requireNonNull(standardDeviationAt, "standardDeviationAt");
        return new Repeatability(
                standardDeviationAt,
                Double.POSITIVE_INFINITY,
                "the repeatability stated for each density",
                standardDeviationAt);
    }

    /**
     * Returns a repeatability that is taken from repeat readings: those of the strip or bracket to which it is applied, or
     * those of the strips named by {@link #over(List)}. It is pooled over all exposures and base plus fog: the square root
     * of the sum of squares about each mean, divided by the sum of n − 1. It covers only the densitometer's
     * repeatability: use it for a fit only if the exposures and the family of curves have smaller errors than the readings.
     *
     * @return the repeatability, not yet {@linkplain #isKnown() known}
     * @source pooled experimental variance: JCGM 100:2008, 4.2.4 and the note to H.3.6 (clauses from memory)
     */
    public static Repeatability fromRepeats() {
        return FROM_REPEATS;
    }

    /**
     * Returns the repeatability that applies to some strips.
     *
     * @param strips the strips
     * @return this if it is known already; otherwise the standard deviation pooled over the repeat readings of all the
     *     strips, with their degrees of freedom
     * @throws IllegalArgumentException if it must come from repeat readings and there are none, or all are equal
     */
    public Repeatability over(List<Strip> strips) {
        Objects.requireNonNull(strips, "strips");
        List<Strip> copy = List.copyOf(strips);
        return isKnown()
                ? this
                : pooled(
                        copy.isEmpty() ? "no strip" : copy.get(0) + (copy.size() > 1 ? " and the others" : ""),
                        copy.stream()
                                .flatMap(strip -> Stream.concat(
                                        strip.steps().stream().map(ExposedStep::readings),
                                        Stream.of(strip.basePlusFogReadings())))
                                .toList());
    }

    /**
     * Returns the repeatability that applies to a bracket.
     *
     * @param bracket the bracket
     * @return this if it is known already; otherwise the standard deviation pooled over the repeat readings of the
     *     bracket, with their degrees of freedom
     * @throws IllegalArgumentException if it must come from repeat readings and there are none, or all are equal
     */
    public Repeatability over(Bracket bracket) {
        Objects.requireNonNull(bracket, "bracket");
        return isKnown() ? this : pooled(bracket.toString(), bracket.repeats());
    }

    private static Repeatability pooled(String whose, List<List<Density>> repeats) {
        int freedom = freedom(repeats);
        if (freedom == 0) {
            throw new IllegalArgumentException(whose
                    + ": no repeat readings; read some steps again, or state the repeatability of the densitometer");
        }
        double deviation = pooledDeviation(repeats);
        if (deviation == 0) {
            throw new IllegalArgumentException(whose
                    + ": all repeat readings are equal, so they say nothing about the repeatability; read more"
                    + " decimals, or state the repeatability of the densitometer");
        }
        return new Repeatability(
                density -> deviation,
                freedom,
                "the repeatability " + Figures.plain(deviation) + " with " + Figures.counted(freedom, "degree")
                        + " of freedom",
                List.of(deviation, (double) freedom));
    }

    static int freedom(List<List<Density>> repeats) {
        return repeats.stream()
                .mapToInt(readings -> Math.max(0, readings.size() - 1))
                .sum();
    }

    /** The pooled standard deviation; needs at least one degree of freedom. */
    static double pooledDeviation(List<List<Density>> repeats) {
        double squares = repeats.stream()
                .filter(readings -> !readings.isEmpty())
                .mapToDouble(ExposedStep::squaresAboutMean)
                .sum();
        return Math.sqrt(squares / freedom(repeats));
    }

    /**
     * Tells whether the standard deviation is known: stated, or pooled {@linkplain #over over} certain readings.
     *
     * @return false for {@link #fromRepeats()} until it is applied
     */
    public boolean isKnown() {
        return deviation != null;
    }

    /**
     * Returns the standard deviation of one reading.
     *
     * @param density the gross density that is read
     * @return the standard deviation, finite and 0 or more
     * @throws IllegalStateException if it is not {@linkplain #isKnown() known}: apply it {@link #over over} readings first
     * @throws IllegalArgumentException if the stated function gives NaN, infinity or a negative value for the density; the
     *     message names the density
     * @units density
     */
    public double standardDeviationAt(Density density) {
        Objects.requireNonNull(density, "density");
        if (deviation == null) {
            throw new IllegalStateException("the repeatability comes from repeat readings: apply it over strips first");
        }
        double value = deviation.applyAsDouble(density.value());
        if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("the repeatability stated for " + density
                    + " must be a finite number of 0 or more, was " + value
                    + "; give the standard deviation of a reading, such as 0.01");
        }
        return value;
    }

    /**
     * Returns how well the standard deviation is known.
     *
     * @return the degrees of freedom of the pooled repeat readings; infinite if stated; 0 if not {@linkplain #isKnown()
     *     known}
     */
    public double degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if both have the same standard deviation and degrees of freedom, or the same function object, or
     *     neither is known yet
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Repeatability that && identity.equals(that.identity);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return identity.hashCode();
    }

    /**
     * Returns where the standard deviation comes from.
     *
     * @return for example {@code the stated repeatability 0.01}
     */
    @Override
    public String toString() {
        return origin;
    }
}
