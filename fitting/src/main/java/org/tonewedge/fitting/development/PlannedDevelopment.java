// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;

/**
 * One line of a {@link DevelopmentPlan}: a target, the time for it and what to expect; or the reason why there is no
 * time.
 *
 * <p>Immutable and thread safe.
 */
public final class PlannedDevelopment implements Recorded {

    private final ContrastTarget target;
    private final Temperature temperature;
    private final PredictedTime time;
    private final PredictedFigure contrast;
    private final PredictedFigure speedPoint;
    private final PredictedFigure speed;
    private final PredictedFigure basePlusFog;
    private final List<String> notes;
    /** Why there is no time; null if there is one. */
    private final DevelopmentFailure failure;

    private PlannedDevelopment(
            ContrastTarget target,
            Temperature temperature,
            PredictedTime time,
            PredictedFigure contrast,
            PredictedFigure speedPoint,
            PredictedFigure speed,
            PredictedFigure basePlusFog,
            List<String> notes,
            DevelopmentFailure failure) {
        this.target = target;
        this.temperature = temperature;
        this.time = time;
        this.contrast = contrast;
        this.speedPoint = speedPoint;
        this.speed = speed;
        this.basePlusFog = basePlusFog;
        this.notes = List.copyOf(notes);
        this.failure = failure;
    }

    static PlannedDevelopment refused(
            ContrastTarget target, Temperature temperature, DevelopmentFailure failure, String reason) {
        return new PlannedDevelopment(target, temperature, null, null, null, null, null, List.of(reason), failure);
    }

    static PlannedDevelopment of(
            ContrastTarget target,
            PredictedTime time,
            PredictedFigure contrast,
            PredictedFigure speedPoint,
            PredictedFigure speed,
            PredictedFigure basePlusFog,
            List<String> notes) {
        return new PlannedDevelopment(
                target, time.temperature().orElse(null), time, contrast, speedPoint, speed, basePlusFog, notes, null);
    }

    /**
     * Returns the target.
     *
     * @return the target
     */
    public ContrastTarget target() {
        return target;
    }

    /**
     * Returns the temperature.
     *
     * @return the temperature, or empty if the temperature of the strips is not known
     */
    public Optional<Temperature> temperature() {
        return Optional.ofNullable(temperature);
    }

    /**
     * Returns the time, rounded to 5 s. Its uncertainty includes that of rounding, 5 s/√12 (JCGM 100:2008, F.2.2.1).
     *
     * @return the time with its uncertainty and cautions; empty if the target is not reached, see {@link #notes()}
     */
    public Optional<PredictedTime> time() {
        return Optional.ofNullable(time);
    }

    /**
     * Returns the contrast to expect after the time.
     *
     * @return the contrast in the measure of the target; empty if there is no time
     */
    public Optional<PredictedFigure> contrast() {
        return Optional.ofNullable(contrast);
    }

    /**
     * Returns the log exposure of the speed point to expect.
     *
     * @return log<sub>10</sub> H on the axis of the strips; empty if there is no time
     */
    public Optional<PredictedFigure> speedPoint() {
        return Optional.ofNullable(speedPoint);
    }

    /**
     * Returns the effective speed to expect, 0.8 / H<sub>m</sub>.
     *
     * @return the arithmetic speed; empty if there is no time or the exposures are relative
     */
    public Optional<PredictedFigure> effectiveSpeed() {
        return Optional.ofNullable(speed);
    }

    /**
     * Returns the base plus fog to expect.
     *
     * @return the density; empty if there is no time
     */
    public Optional<PredictedFigure> basePlusFog() {
        return Optional.ofNullable(basePlusFog);
    }

    /**
     * Returns what you should know: why there is no time, or why not to rely on it.
     *
     * @return sentences; may be empty
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * Returns how much faster the film is than at another development of the plan.
     *
     * @param other another line, such as that of N
     * @return the gain, negative for a loss; empty if a line has no time
     */
    public Optional<ExposureInterval> speedGain(PlannedDevelopment other) {
        Objects.requireNonNull(other, "other");
        return speedPoint == null || other.speedPoint == null
                ? Optional.empty()
                : Optional.of(ExposureInterval.ofLogUnits(other.speedPoint.value() - speedPoint.value()));
    }

    /**
     * Returns how to change from the present development to that of this line.
     *
     * @param now the present time, at the temperature of this line, above 0
     * @return the change
     * @throws IllegalArgumentException if the time is not above 0
     * @throws DevelopmentException if this line has no time
     */
    public DevelopmentChange changeFrom(Duration now) {
        Objects.requireNonNull(now, "now");
        Checks.positive("time of development in minutes", DevelopmentTimes.minutes(now));
        if (time == null) {
            throw new DevelopmentException(failure, target + " has no time: " + String.join(" ", notes));
        }
        return new DevelopmentChange(now, time);
    }

    /**
     * Returns the line in words.
     *
     * @return target, time and what to expect, or the reason why there is no time
     */
    @Override
    public String toString() {
        if (time == null) {
            return target
                    + temperature()
                            .map(at -> " at " + DevelopmentTimes.inWords(at))
                            .orElse("") + ": no time; " + String.join(" ", notes);
        }
        return target + ": " + time + "; " + target.measure() + " " + contrast
                + effectiveSpeed().map(found -> "; speed " + found).orElse("") + "; base plus fog " + basePlusFog
                + (notes.isEmpty() ? "" : "; " + String.join(" ", notes));
    }

    /**
     * Returns the plan for one target as named values: {@code target}, its {@code target.measure} and
     * {@code target.value}, then {@code time}, {@code temperature}, {@code contrast} in the measure of the target,
     * {@code log_h_m}, {@code speed} and {@code base_plus_fog} where they can be had, and the notes. A time that could not be
     * had is missing, with the reason. A contrast that is a rise of density has the unit density; a gradient has none.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("target", target().name()));
        String unit = target().measure().unit();
        records.add(ResultRecord.ofText("target.measure", target().measure().label()));
        records.add(ResultRecord.ofNumber("target.value", target().value(), unit));
        records.addAll(time().map(PredictedTime::records)
                .orElseGet(() -> List.of(ResultRecord.ofMissing("time", "s", String.join(" ", notes)))));
        contrast().ifPresent(found -> records.add(found.record("contrast", unit)));
        // Only exposures in lux seconds give a speed.
        String axis = effectiveSpeed().isPresent() ? "log10 lx·s" : "log10";
        speedPoint().ifPresent(found -> records.add(found.record("log_h_m", axis)));
        effectiveSpeed().ifPresent(found -> records.add(found.record("speed", "1/(lx·s)")));
        basePlusFog().ifPresent(found -> records.add(found.record("base_plus_fog", "density")));
        int number = 1;
        for (String note : notes()) {
            records.add(ResultRecord.ofText("note." + number++, note));
        }
        return List.copyOf(records);
    }
}
