// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;

/**
 * How the readings of a step change with time and with the instrument's temperature: one common slope through the
 * readings of all steps, each step about its own mean.
 *
 * <p>If the log has both times and temperatures, the two slopes are fitted together; each is the effect that remains
 * after allowing for the other. If the instrument warms up as it runs, the two effects cannot be separated:
 * {@link #isSeparable()} is then false and each slope is fitted alone.
 *
 * <p>Immutable and thread safe.
 */
public final class DriftFigures {

    private static final double SECONDS_PER_HOUR = 3600;
    private static final double MOST_CORRELATION = 0.95;
    private static final double COVERAGE = 0.999;

    private final Estimate perHour;
    private final Estimate perKelvin;
    private final double hours;
    private final double kelvins;
    private final double degreesOfFreedom;
    private final boolean separable;

    private DriftFigures(
            Estimate perHour,
            Estimate perKelvin,
            double hours,
            double kelvins,
            double degreesOfFreedom,
            boolean separable) {
        this.perHour = perHour;
        this.perKelvin = perKelvin;
        this.hours = hours;
        this.kelvins = kelvins;
        this.degreesOfFreedom = degreesOfFreedom;
        this.separable = separable;
    }

    /**
     * Computes the drift from the pooled products of time (s), temperature and density; a span of 0 means that the
     * quantity is not known.
     */
    static DriftFigures of(double[][] pooled, long within, double seconds, double kelvins) {
        boolean timed = seconds > 0 && pooled[0][0] > 0;
        boolean warmed = kelvins > 0 && pooled[1][1] > 0;
        boolean separable = !(timed && warmed)
                || Math.abs(pooled[0][1]) < MOST_CORRELATION * Math.sqrt(pooled[0][0] * pooled[1][1]);
        if (timed && warmed && separable && within > 2) {
            double determinant = pooled[0][0] * pooled[1][1] - pooled[0][1] * pooled[0][1];
            double byTime = (pooled[1][1] * pooled[0][2] - pooled[0][1] * pooled[1][2]) / determinant;
            double byWarmth = (pooled[0][0] * pooled[1][2] - pooled[0][1] * pooled[0][2]) / determinant;
            double rest = Math.max(0, pooled[2][2] - byTime * pooled[0][2] - byWarmth * pooled[1][2]) / (within - 2);
            return new DriftFigures(
                    perHour(byTime, Math.sqrt(rest * pooled[1][1] / determinant)),
                    Estimate.of(byWarmth, Math.sqrt(rest * pooled[0][0] / determinant)),
                    seconds / SECONDS_PER_HOUR,
                    kelvins,
                    within - 2,
                    true);
        }
        Estimate alone = timed && within > 1 ? single(pooled, 0, within) : null;
        return new DriftFigures(
                alone == null ? null : perHour(alone.value(), alone.standardUncertainty()),
                warmed && within > 1 ? single(pooled, 1, within) : null,
                seconds / SECONDS_PER_HOUR,
                kelvins,
                within - 1,
                separable);
    }

    private static Estimate perHour(double perSecond, double uncertainty) {
        return Estimate.of(perSecond * SECONDS_PER_HOUR, uncertainty * SECONDS_PER_HOUR);
    }

    private static Estimate single(double[][] pooled, int cause, long within) {
        double slope = pooled[cause][2] / pooled[cause][cause];
        double rest = Math.max(0, pooled[2][2] - slope * pooled[cause][2]) / (within - 1);
        return Estimate.of(slope, Math.sqrt(rest / pooled[cause][cause]));
    }

    /**
     * Returns the drift with time.
     *
     * @return density per hour; empty if the log has no times or no step was read at two times
     * @units density per hour
     */
    public Optional<Estimate> perHour() {
        return Optional.ofNullable(perHour);
    }

    /**
     * Returns the drift with temperature.
     *
     * @return density per kelvin; empty if the log has no temperatures or no step was read at two of them
     * @units density per kelvin
     */
    public Optional<Estimate> perKelvin() {
        return Optional.ofNullable(perKelvin);
    }

    /**
     * Returns the time span of the log.
     *
     * @return the time from the earliest to the latest reading, 0 if there are no times
     * @units hours
     */
    public double hoursSpanned() {
        return hours;
    }

    /**
     * Returns the temperature span of the log.
     *
     * @return the difference of the highest and the lowest temperature, 0 if there are none
     * @units kelvins
     */
    public double kelvinsSpanned() {
        return kelvins;
    }

    /**
     * Tells whether the effects of time and temperature can be separated.
     *
     * @return false if their correlation within the steps is 0.95 or more, a limit of the project's own
     */
    public boolean isSeparable() {
        return separable;
    }

    /**
     * Tells whether a slope differs from zero so clearly that it may be extended over the whole log.
     *
     * @param slope one of the two slopes
     * @return true if it is beyond its expanded uncertainty for 99.9 %, a limit of the project's own
     */
    public boolean isSignificant(Estimate slope) {
        return Math.abs(slope.value())
                > StudentT.coverageFactor(COVERAGE, degreesOfFreedom) * slope.standardUncertainty();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof DriftFigures that
                && Objects.equals(perHour, that.perHour)
                && Objects.equals(perKelvin, that.perKelvin)
                && Double.compare(hours, that.hours) == 0
                && Double.compare(kelvins, that.kelvins) == 0
                && Double.compare(degreesOfFreedom, that.degreesOfFreedom) == 0
                && separable == that.separable;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(perHour, perKelvin, hours, kelvins, degreesOfFreedom, separable);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the drift by time and by temperature
     */
    @Override
    public String toString() {
        return "drift per hour " + (perHour == null ? "unknown" : perHour) + ", per kelvin "
                + (perKelvin == null ? "unknown" : perKelvin);
    }
}
