// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;

/**
 * How long to develop for each of several targets at each of several temperatures, and what to expect.
 *
 * <p>Immutable and thread safe.
 */
public final class DevelopmentPlan implements Recorded {

    /** The step that a darkroom clock and a pair of hands can keep; common practice, no source. */
    private static final Duration CLOCK_STEP = Duration.ofSeconds(5);

    private final List<PlannedDevelopment> developments;

    DevelopmentPlan(List<PlannedDevelopment> developments) {
        this.developments = List.copyOf(developments);
    }

    static DevelopmentPlan of(DevelopmentSeries series, List<ContrastTarget> targets, List<Temperature> temperatures) {
        if (targets.isEmpty()) {
            throw new IllegalArgumentException("a development plan needs at least one target, had none");
        }
        FigureTrend speed = series.speedPoint();
        FigureTrend base = series.basePlusFog();
        Map<ContrastMeasure, ContrastFit> fits = new LinkedHashMap<>();
        List<PlannedDevelopment> lines = new ArrayList<>();
        for (ContrastTarget target : targets) {
            try {
                ContrastFit fit = fits.computeIfAbsent(
                        target.measure(), measure -> series.contrast(measure).best());
                if (temperatures.isEmpty()) {
                    lines.add(line(series, target, fit, speed, base, null));
                }
                for (Temperature at : temperatures) {
                    lines.add(line(series, target, fit, speed, base, at));
                }
            } catch (NotDeterminableException e) {
                // The measure itself cannot be read on these strips, whatever the temperature.
                DevelopmentFailure failure =
                        e instanceof DevelopmentException found ? found.failure() : DevelopmentFailure.UNUSABLE_STRIPS;
                lines.add(PlannedDevelopment.refused(target, null, failure, e.getMessage()));
            }
        }
        return new DevelopmentPlan(lines);
    }

    private static PlannedDevelopment line(
            DevelopmentSeries series,
            ContrastTarget target,
            ContrastFit fit,
            FigureTrend speed,
            FigureTrend base,
            Temperature at) {
        try {
            PredictedTime time = at == null ? fit.timeFor(target) : fit.timeFor(target, at);
            return line(series, target, time, fit::unguarded, fit.notes(), speed, base);
        } catch (DevelopmentException e) {
            return PlannedDevelopment.refused(target, at, e.failure(), e.getMessage());
        }
    }

    /** The line for a time that was found, rounded to a step of the clock. */
    static PlannedDevelopment line(
            DevelopmentSeries series,
            ContrastTarget target,
            PredictedTime exact,
            UnaryFigure contrast,
            List<String> fitNotes,
            FigureTrend speed,
            FigureTrend base) {
        PredictedTime time = exact.roundedTo(CLOCK_STEP);
        // The rounded time may lie a moment outside the tested times where the exact one does not, hence not guarded.
        PredictedFigure point = speed.unguarded(time);
        boolean absolute = series.strips().get(0).axis().isAbsolute();
        return PlannedDevelopment.of(
                target,
                time,
                contrast.after(time),
                point,
                absolute ? DevelopmentSeries.effectiveSpeed(point) : null,
                base.unguarded(time),
                notes(series, time, fitNotes, speed, base));
    }

    /** A figure after a time that is known to be tested, or flagged, before it was rounded. */
    interface UnaryFigure {
        PredictedFigure after(PredictedTime time);
    }

    private static List<String> notes(
            DevelopmentSeries series, PredictedTime time, List<String> fitNotes, FigureTrend speed, FigureTrend base) {
        List<String> notes = new ArrayList<>(series.notes());
        if (time.isExtrapolated()) {
            notes.add(Caution.EXTRAPOLATED.description());
        }
        if (time.cautions().contains(Caution.SHORT_TIME)) {
            notes.add(Caution.SHORT_TIME.description());
        }
        notes.addAll(fitNotes);
        List<String> ofSpeed = speed.notes();
        List<String> ofBase = new ArrayList<>(base.notes());
        ofSpeed.forEach(note -> notes.add((ofBase.remove(note) ? "Speed and base plus fog: " : "Speed: ") + note));
        ofBase.forEach(note -> notes.add("Base plus fog: " + note));
        return notes;
    }

    /**
     * Returns the lines.
     *
     * @return the lines, by target and, within each target, by temperature, in the order requested
     */
    public List<PlannedDevelopment> developments() {
        return developments;
    }

    /**
     * Returns the cautions that apply to all of its times.
     *
     * @return the cautions, the most pressing first
     */
    public List<Caution> cautions() {
        return developments.stream()
                .flatMap(line -> line.time().stream())
                .flatMap(time -> time.cautions().stream())
                .distinct()
                .sorted(Comparator.naturalOrder())
                .toList();
    }

    /**
     * Returns the plan with its cautions.
     *
     * @return one line for each development, then one for each caution
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder();
        developments.forEach(line -> text.append(line).append('\n'));
        return text.append(Caution.words(cautions())).toString();
    }

    /**
     * Returns the plan as named values: the records of each {@link PlannedDevelopment} under {@code development.N}, in the
     * order of {@link #developments()}, then each {@code caution.N} in words.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        int number = 1;
        for (PlannedDevelopment each : developments) {
            String name = "development." + number++;
            each.records().forEach(record -> records.add(record.under(name)));
        }
        number = 1;
        for (Caution caution : cautions()) {
            records.add(ResultRecord.ofText("caution." + number++, caution.description()));
        }
        return List.copyOf(records);
    }
}
