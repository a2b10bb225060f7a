// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Roots;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;

/**
 * The characteristic curve of a strip: gross density as a smooth function of log exposure, such as the curve through 21
 * readings of a film.
 *
 * <pre>{@code
 * CharacteristicCurve curve = CharacteristicCurve.through(strip);
 * CurvePoint speedPoint = curve.pointAbove(DensityDifference.of(0.10)); // 0.10 above base plus fog
 * Gradient gradient = curve.gradientAt(speedPoint.logExposure());
 * }</pre>
 *
 * <p>The curve answers from {@link #lowestExposure()} to {@link #highestExposure()} and throws an exception outside
 * that range (1e−9 log units are allowed for rounding). It also keeps base plus fog as read on the unexposed film,
 * which is not the lowest density of the curve.
 *
 * <p>Most questions come in two forms: with typed quantities, or with plain numbers on this curve's own axis. A
 * {@code double} parameter named log exposure is log<sub>10</sub> H on {@link #axis()}. The array methods allocate
 * nothing.
 *
 * <p>Immutable and thread safe, provided that its form is, as {@link CurveForm} requires.
 */
public final class CharacteristicCurve {

    /** The fewest exposures that a curve can be drawn through: fewer cannot show a toe and a straight line. */
    public static final int FEWEST_STEPS = 4;

    static final double ROUNDING = 1e-9;

    private final String name;
    private final CurveForm form;
    private final ExposureAxis axis;
    private final double lowest;
    private final double highest;
    private final Density basePlusFog;
    /** The ends of the curve and its turning points, rising, and the densities there. */
    private final double[] turns;

    private final double[] turnDensities;

    private CharacteristicCurve(
            String name, CurveForm form, ExposureAxis axis, double lowest, double highest, Density basePlusFog) {
        this.name = name;
        this.form = form;
        this.axis = axis;
        this.lowest = lowest;
        this.highest = highest;
        this.basePlusFog = basePlusFog;
        double[] inner = form.turningPoints(lowest, highest);
        turns = new double[inner.length + 2];
        turns[0] = lowest;
        System.arraycopy(inner, 0, turns, 1, inner.length);
        turns[turns.length - 1] = highest;
        turnDensities = new double[turns.length];
        for (int i = 0; i < turns.length; i++) {
            turnDensities[i] = form.density(turns[i]);
        }
    }

    /**
     * Returns a curve with a given form.
     *
     * @param name what the curve describes, for messages, such as {@code strip 'S07'}
     * @param form the form
     * @param lowest the least exposure measured
     * @param highest the greatest exposure measured, on the same axis
     * @param basePlusFog the density of the unexposed, processed material
     * @return the curve
     * @throws IllegalArgumentException if the name is blank, the exposures are on different axes or the highest is not
     *     above the lowest
     */
    public static CharacteristicCurve of(
            String name, CurveForm form, LogExposure lowest, LogExposure highest, Density basePlusFog) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(form, "form");
        Objects.requireNonNull(highest, "highest");
        Objects.requireNonNull(basePlusFog, "basePlusFog");
        if (!lowest.isBelow(highest)) {
            throw new IllegalArgumentException("the highest exposure of a curve must be above its lowest, was "
                    + highest + " with a lowest of " + lowest);
        }
        return new CharacteristicCurve(
                Checks.notBlank("name of a curve", name),
                Objects.requireNonNull(form, "form"),
                lowest.axis(),
                lowest.value(),
                highest.value(),
                Objects.requireNonNull(basePlusFog, "basePlusFog"));
    }

    /**
     * Returns the monotone cubic through a strip's readings, with the slopes of {@link MonotoneSlopes#FRITSCH_CARLSON}.
     * Repeat readings at one exposure are averaged.
     *
     * @param strip the strip
     * @return the curve
     * @throws NotDeterminableException as {@link #through(Strip, MonotoneSlopes)} does
     */
    public static CharacteristicCurve through(Strip strip) {
        return through(strip, MonotoneSlopes.FRITSCH_CARLSON);
    }

    /**
     * Returns a monotone cubic through a strip's readings. Repeat readings at one exposure are averaged. Readings are
     * taken as they are: where they reverse, the curve reverses too.
     *
     * @param strip the strip
     * @param rule how the slopes are chosen
     * @return the curve
     * @throws NotDeterminableException if the strip has fewer than {@link #FEWEST_STEPS} exposures or no base-plus-fog
     *     reading
     */
    public static CharacteristicCurve through(Strip strip, MonotoneSlopes rule) {
        Objects.requireNonNull(rule, "rule");
        List<ExposedStep> steps = strip.steps();
        if (steps.size() < FEWEST_STEPS) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    strip + " has " + Figures.counted(steps.size(), "exposure") + "; a curve needs at least "
                            + FEWEST_STEPS + ": expose and read more steps");
        }
        if (strip.basePlusFog().isEmpty()) {
            throw new NotDeterminableException(
                    Reason.NO_BASE_PLUS_FOG,
                    strip + " has no base-plus-fog reading;"
                            + " read an unexposed, processed part of the film and enter it with an empty exposure");
        }
        Density base = strip.basePlusFog().get();
        double[] x = new double[steps.size()];
        double[] y = new double[steps.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = steps.get(i).exposure().value();
            y[i] = steps.get(i).density().value();
        }
        return new CharacteristicCurve(
                strip.toString(), MonotoneCubic.through(x, y, rule), strip.axis(), x[0], x[x.length - 1], base);
    }

    /**
     * Returns the name of the curve, such as {@code strip 'S07'}.
     *
     * @return the name, as used in messages
     */
    public String name() {
        return name;
    }

    /**
     * Returns the exposure axis.
     *
     * @return the axis
     */
    public ExposureAxis axis() {
        return axis;
    }

    /**
     * Returns the form.
     *
     * @return the form, which answers unguarded
     */
    public CurveForm form() {
        return form;
    }

    /**
     * Returns the least exposure at which the curve answers.
     *
     * @return the lower end of the measured range
     */
    public LogExposure lowestExposure() {
        return new LogExposure(lowest, axis);
    }

    /**
     * Returns the greatest exposure at which the curve answers.
     *
     * @return the upper end of the measured range
     */
    public LogExposure highestExposure() {
        return new LogExposure(highest, axis);
    }

    /**
     * Returns base plus fog, the density of the unexposed, processed material.
     *
     * @return the density, as it was read or fitted
     */
    public Density basePlusFog() {
        return basePlusFog;
    }

    /**
     * Returns the greatest density of the curve within its range; more exposure may give more density.
     *
     * @return the density
     * @throws IllegalArgumentException if an extrapolated curve leaves the limits of a density
     */
    public Density maximumDensity() {
        return Density.of(greatest());
    }

    /**
     * Returns the least density of the curve within its range.
     *
     * @return the density
     * @throws IllegalArgumentException if an extrapolated curve leaves the limits of a density
     */
    public Density minimumDensity() {
        return Density.of(least());
    }

    private double greatest() {
        double greatest = turnDensities[0];
        for (double density : turnDensities) {
            greatest = Math.max(greatest, density);
        }
        return greatest;
    }

    private double least() {
        double least = turnDensities[0];
        for (double density : turnDensities) {
            least = Math.min(least, density);
        }
        return least;
    }

    /** The densities of the curve, for messages: an extrapolated curve may leave what a density can be. */
    private String densityRange() {
        return "D " + Figures.plain(least()) + " to D " + Figures.plain(greatest());
    }

    /**
     * Tells whether density rises or falls over the whole curve.
     *
     * @return rising if the upper end is at least as dense as the lower
     */
    public CurveDirection direction() {
        return turnDensities[turnDensities.length - 1] >= turnDensities[0]
                ? CurveDirection.RISING
                : CurveDirection.FALLING;
    }

    /**
     * Tells whether the curve never reverses; rounding errors up to 1e−9 in level parts are ignored.
     *
     * @return true if the curve only rises or only falls; level stretches are allowed
     */
    public boolean isMonotone() {
        double sign = direction() == CurveDirection.RISING ? 1 : -1;
        for (int i = 1; i < turnDensities.length; i++) {
            if (sign * (turnDensities[i] - turnDensities[i - 1]) < -ROUNDING) {
                return false;
            }
        }
        return true;
    }

    /**
     * Returns the density at an exposure.
     *
     * @param logExposure the exposure, on the axis of this curve
     * @return the gross density
     * @throws IllegalArgumentException if the exposure is on another axis, or the form leaves the limits of a density there
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public Density densityAt(LogExposure logExposure) {
        double density = density(onThisAxis(logExposure));
        if (!Double.isFinite(density)) {
            throw new IllegalArgumentException(name + ": the density is " + density + " at " + logExposure
                    + ": correct the formula of the curve, or restrict the curve to where it holds");
        }
        return Density.of(density);
    }

    /**
     * Returns the density at a log exposure, both as plain numbers.
     *
     * @param logExposure log<sub>10</sub> H on the axis of this curve
     * @return the gross density
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public double density(double logExposure) {
        return form.density(requireInRange(logExposure));
    }

    /**
     * Returns the gradient at an exposure.
     *
     * @param logExposure the exposure, on the axis of this curve
     * @return dD / dlog<sub>10</sub> H there
     * @throws IllegalArgumentException if the exposure is on another axis
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public Gradient gradientAt(LogExposure logExposure) {
        return Gradient.of(gradient(onThisAxis(logExposure)));
    }

    /**
     * Returns the gradient at a log exposure, both as plain numbers.
     *
     * @param logExposure log<sub>10</sub> H on the axis of this curve
     * @return dD / dlog<sub>10</sub> H there
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public double gradient(double logExposure) {
        return form.gradient(requireInRange(logExposure));
    }

    /**
     * Returns the point of the curve at an exposure.
     *
     * @param logExposure the exposure, on the axis of this curve
     * @return the point
     * @throws IllegalArgumentException if the exposure is on another axis, or the form leaves the limits of a density there
     * @throws OutsideMeasuredRangeException if the exposure is outside the measured range
     */
    public CurvePoint pointAt(LogExposure logExposure) {
        return new CurvePoint(logExposure, densityAt(logExposure));
    }

    /**
     * Returns the one exposure that gives a density.
     *
     * @param density the gross density
     * @return the exposure
     * @throws OutsideMeasuredRangeException if the curve does not reach the density
     * @throws AmbiguousDensityException if the curve reaches the density several times, or is level there
     */
    public LogExposure logExposureAt(Density density) {
        return new LogExposure(logExposure(density.value()), axis);
    }

    /**
     * Returns the point where the curve reaches a density above base plus fog.
     *
     * @param aboveBasePlusFog the density above base plus fog, such as {@code DensityDifference.of(0.10)}
     * @return the point
     * @throws OutsideMeasuredRangeException if the curve does not reach the density
     * @throws AmbiguousDensityException if the curve reaches the density several times, or is level there
     */
    public CurvePoint pointAbove(DensityDifference aboveBasePlusFog) {
        Density density = aboveBasePlusFog.above(basePlusFog);
        try {
            return new CurvePoint(logExposureAt(density), density);
        } catch (OutsideMeasuredRangeException e) {
            throw new OutsideMeasuredRangeException(e.getMessage() + " (it is "
                    + Figures.plain(aboveBasePlusFog.value()) + " above base plus fog " + basePlusFog + ")");
        }
    }

    /**
     * Returns the one log exposure that gives a density, both as plain numbers.
     *
     * @param density the gross density
     * @return log<sub>10</sub> H on the axis of this curve
     * @throws OutsideMeasuredRangeException if the curve does not reach the density
     * @throws AmbiguousDensityException if the curve reaches the density several times, or is level there
     */
    public double logExposure(double density) {
        Checks.finite("density", density);
        double found = Double.NaN;
        for (int i = 0; i + 1 < turns.length; i++) {
            if (reachesBetween(i, density)) {
                if (!Double.isNaN(found) || isLevel(i)) {
                    throw ambiguous(density);
                }
                found = solve(i, density);
            }
        }
        if (Double.isNaN(found)) {
            throw new OutsideMeasuredRangeException(name + ": density " + Figures.plain(density)
                    + " is not reached; the curve runs from " + densityRange()
                    + " between "
                    + lowestExposure() + " and " + highestExposure() + ": read a strip with "
                    + (density > greatest() == (direction() == CurveDirection.RISING) ? "more" : "less")
                    + " exposure");
        }
        return found;
    }

    /**
     * Returns all exposures that give a density, for a curve that reverses.
     *
     * @param density the gross density
     * @return the exposures in rising order; empty if the curve does not reach the density; a level stretch counts
     *     once, by its lower end
     */
    public List<LogExposure> logExposuresAt(Density density) {
        List<LogExposure> found = new ArrayList<>();
        for (int i = 0; i + 1 < turns.length; i++) {
            if (reachesBetween(i, density.value())) {
                LogExposure exposure = new LogExposure(solve(i, density.value()), axis);
                // A level stretch begins where the piece before it ended.
                if (!found.contains(exposure)) {
                    found.add(exposure);
                }
            }
        }
        return List.copyOf(found);
    }

    /** Whether a density lies on piece i; a density right at a turning point counts for the piece before it only. */
    private boolean reachesBetween(int i, double density) {
        double start = turnDensities[i];
        double end = turnDensities[i + 1];
        if (density == start) {
            return i == 0 || isLevel(i);
        }
        return start < end ? density > start && density <= end : density < start && density >= end;
    }

    private boolean isLevel(int i) {
        return turnDensities[i] == turnDensities[i + 1];
    }

    /** How far the curve falls back at most: from a height it reached to a lower density after it. */
    double greatestReversal() {
        double sign = direction() == CurveDirection.RISING ? 1 : -1;
        double reached = Double.NEGATIVE_INFINITY;
        double reversal = 0;
        for (double density : turnDensities) {
            reached = Math.max(reached, sign * density);
            reversal = Math.max(reversal, reached - sign * density);
        }
        return reversal;
    }

    /** The log exposure of a density on monotone piece i. */
    private double solve(int i, double density) {
        double a = turns[i];
        double b = turns[i + 1];
        if (density == turnDensities[i]) {
            return a;
        }
        if (density == turnDensities[i + 1]) {
            return b;
        }
        double rise = turnDensities[i + 1] - turnDensities[i];
        double sign = Math.signum(rise);
        // Classes, not lambdas, which a fresh process takes milliseconds to make.
        return Roots.ofRising(
                new DoubleUnaryOperator() {
                    @Override
                    public double applyAsDouble(double x) {
                        return sign * (form.density(x) - density);
                    }
                },
                new DoubleUnaryOperator() {
                    @Override
                    public double applyAsDouble(double x) {
                        return sign * form.gradient(x);
                    }
                },
                a,
                b,
                a + (b - a) * (density - turnDensities[i]) / rise);
    }

    private AmbiguousDensityException ambiguous(double density) {
        List<LogExposure> all = logExposuresAt(Density.of(density));
        if (all.size() < 2) {
            return new AmbiguousDensityException(name + ": the curve is level at density " + Figures.plain(density)
                    + ", from " + all.get(0) + " on; it has no single exposure");
        }
        return new AmbiguousDensityException(name + ": density " + Figures.plain(density) + " is reached " + all.size()
                + " times, at "
                + String.join(", ", all.stream().map(LogExposure::toString).toList())
                + "; look for dust, a finger mark, swapped steps or a reversing material, or restrict the curve to one"
                + " branch");
    }

    /**
     * Returns the slope of the chord between two exposures.
     *
     * @param from one exposure, on the axis of this curve
     * @param to another exposure
     * @return the difference of densities divided by the difference of log exposures
     * @throws IllegalArgumentException if an exposure is on another axis or the two are equal
     * @throws OutsideMeasuredRangeException if an exposure is outside the measured range
     */
    public Gradient averageGradient(LogExposure from, LogExposure to) {
        Objects.requireNonNull(from, "from");
        Objects.requireNonNull(to, "to");
        return Gradient.between(densityAt(to).minus(densityAt(from)), to.minus(from));
    }

    /**
     * Writes the densities at many log exposures. Allocates nothing.
     *
     * @param logExposures log<sub>10</sub> H of each sample on the axis of this curve
     * @param densities receives one gross density for each; may be the same array as the input
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if a sample is outside the measured range or NaN; the message gives its
     *     index, and no density is written
     */
    public void densities(double[] logExposures, double[] densities) {
        Objects.requireNonNull(densities, "densities");
        requireAllInRange(logExposures, densities);
        form.densities(logExposures, densities);
    }

    /**
     * Writes the gradients at many log exposures. Allocates nothing.
     *
     * @param logExposures log<sub>10</sub> H of each sample on the axis of this curve
     * @param gradients receives one gradient for each; may be the same array as the input
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if a sample is outside the measured range or NaN; the message gives its
     *     index, and no gradient is written
     */
    public void gradients(double[] logExposures, double[] gradients) {
        Objects.requireNonNull(gradients, "gradients");
        requireAllInRange(logExposures, gradients);
        form.gradients(logExposures, gradients);
    }

    /** Refuses arrays of different lengths and samples outside the range, by their index. */
    void requireAllInRange(double[] logExposures, double[] results) {
        if (logExposures.length != results.length) {
            throw new IllegalArgumentException(
                    name + ": " + logExposures.length + " log exposures but room for " + results.length + " results");
        }
        int outside = SampleRange.firstOutside(logExposures, lowest - ROUNDING, highest + ROUNDING);
        if (outside >= 0) {
            throw outside(logExposures[outside], "sample " + outside + ": ");
        }
    }

    /**
     * Returns this curve over a part of its range, for example one branch of a reversing curve.
     *
     * @param from the new lowest exposure
     * @param to the new highest exposure
     * @return the part
     * @throws IllegalArgumentException if an exposure is on another axis or the two are not in rising order
     * @throws OutsideMeasuredRangeException if an exposure is outside the measured range
     */
    public CharacteristicCurve restrictedTo(LogExposure from, LogExposure to) {
        Objects.requireNonNull(from, "from");
        Objects.requireNonNull(to, "to");
        requireInRange(onThisAxis(from));
        requireInRange(onThisAxis(to));
        return of(name, form, from, to, basePlusFog);
    }

    /**
     * Returns this curve moved along its axis, for example to allow for another lamp or exposure time.
     *
     * @param interval how far up the axis
     * @return the moved curve
     * @throws IllegalArgumentException if an end leaves the range of {@link LogExposure}
     */
    public CharacteristicCurve shiftedBy(ExposureInterval interval) {
        return of(
                name,
                ShiftedForm.moved(form, interval.logUnits()),
                lowestExposure().plus(interval),
                highestExposure().plus(interval),
                basePlusFog);
    }

    /**
     * Returns this curve on another axis, by means of one exposure known on both. This is how a relative curve is
     * anchored to lux seconds.
     *
     * @param known an exposure on the axis of this curve
     * @param same the same exposure on the new axis
     * @return the curve on the new axis
     * @throws IllegalArgumentException if the known exposure is not on the axis of this curve, or an end leaves the
     *     range of {@link LogExposure}
     */
    public CharacteristicCurve anchored(LogExposure known, LogExposure same) {
        Objects.requireNonNull(known, "known");
        double shift = same.value() - onThisAxis(known);
        return of(
                name,
                ShiftedForm.moved(form, shift),
                new LogExposure(lowest + shift, same.axis()),
                new LogExposure(highest + shift, same.axis()),
                basePlusFog);
    }

    /**
     * Returns this curve continued beyond the measured range: straight on, with the gradient at the end of the range. The
     * caller decides how far.
     *
     * @param below how far below the lowest exposure, 0 or more
     * @param above how far above the highest exposure, 0 or more
     * @return the longer curve, whose name says that it is extrapolated
     * @throws IllegalArgumentException if an interval is negative
     */
    public CharacteristicCurve extrapolatedStraight(ExposureInterval below, ExposureInterval above) {
        return extrapolated(new StraightEndsForm(form, lowest, highest), below, above);
    }

    /**
     * Returns this curve continued beyond the measured range by its own formula, which is sensible for a fitted model but
     * not for a piecewise cubic. The caller decides how far.
     *
     * @param below how far below the lowest exposure, 0 or more
     * @param above how far above the highest exposure, 0 or more
     * @return the longer curve, whose name says that it is extrapolated
     * @throws IllegalArgumentException if an interval is negative
     */
    public CharacteristicCurve extrapolatedByFormula(ExposureInterval below, ExposureInterval above) {
        return extrapolated(form, below, above);
    }

    private CharacteristicCurve extrapolated(CurveForm continued, ExposureInterval below, ExposureInterval above) {
        Objects.requireNonNull(below, "below");
        Objects.requireNonNull(above, "above");
        if (below.logUnits() < 0 || above.logUnits() < 0) {
            throw new IllegalArgumentException(
                    "extrapolation intervals must be 0 or more, were " + below + " below and " + above + " above");
        }
        return of(
                name + " (extrapolated)",
                continued,
                lowestExposure().minus(below),
                highestExposure().plus(above),
                basePlusFog);
    }

    private double onThisAxis(LogExposure logExposure) {
        if (!axis.equals(logExposure.axis())) { // the words cost more than the reading
            axis.requireSame(logExposure.axis(), "read " + name + " at " + logExposure);
        }
        return logExposure.value();
    }

    double requireInRange(double logExposure) {
        if (!(logExposure >= lowest - ROUNDING && logExposure <= highest + ROUNDING)) {
            throw outside(logExposure, "");
        }
        return logExposure;
    }

    OutsideMeasuredRangeException outside(double logExposure, String sample) {
        return new OutsideMeasuredRangeException(name + ": " + sample + "log exposure "
                + (Double.isNaN(logExposure) ? "NaN" : Figures.plain(logExposure)) + " is outside the measured range, "
                + lowestExposure() + " to " + highestExposure()
                + ": read a strip that covers it, or extrapolate the curve");
    }

    /**
     * Returns the curve in words.
     *
     * @return its name, range and densities
     */
    @Override
    public String toString() {
        return name + ": " + densityRange() + " between " + lowestExposure() + " and " + highestExposure();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof CharacteristicCurve that
                && Objects.equals(name, that.name)
                && Objects.equals(form, that.form)
                && Objects.equals(axis, that.axis)
                && Double.compare(lowest, that.lowest) == 0
                && Double.compare(highest, that.highest) == 0
                && Objects.equals(basePlusFog, that.basePlusFog);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, form, axis, lowest, highest, basePlusFog);
    }
}
