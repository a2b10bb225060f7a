// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;

/**
 * N−2 to N+2 on a family of curves. The rise of density over the normal range at N is wanted over a range that is n
 * stops shorter; each is counted from the speed point of its own curve. The uncertainty of a time includes that of N,
 * on which it depends.
 */
final class Expansions {

    private static final int FARTHEST = 2;

    private final DevelopmentFamily family;
    private final ExposureInterval range;
    /** Why there is no range of densities at N, if there is none. */
    private final Optional<NotDeterminableException> noRise;

    /** The targets of N−2 to N+2; that of N alone if there is no range of densities at N. */
    private final Map<Integer, ContrastTarget> targets = new TreeMap<>();

    /** The times found, and the reasons why others were not. */
    private final Map<Integer, DevelopmentFamily.Solved> solved = new TreeMap<>();

    private final Map<Integer, NotDeterminableException> unsolved = new TreeMap<>();

    private Expansions(DevelopmentFamily family, ContrastTarget normal, ExposureInterval range) {
        this.family = family;
        this.range = range;
        DevelopmentFamily.Solved atNormal =
                family.solve("N: " + normal.measure(), normal.measure()::contrastOf, family.stated(normal.value()));
        ToDoubleFunction<CharacteristicCurve> overRange = ContrastMeasure.riseOver(range)::contrastOf;
        targets.put(0, normal.named("N"));
        solved.put(0, atNormal);
        DevelopmentFamily.Wanted rise;
        try {
            rise = family.at(atNormal, overRange);
        } catch (NotDeterminableException e) {
            noRise = Optional.of(e);
            return;
        }
        noRise = Optional.empty();
        for (int n = -FARTHEST; n <= FARTHEST; n++) {
            if (n != 0) {
                ContrastTarget target = ContrastTarget.of(
                        n > 0 ? "N+" + n : "N\u2212" + -n,
                        ContrastMeasure.riseOver(ExposureInterval.ofStops(range.stops() - n)),
                        rise.value());
                targets.put(n, target);
                try {
                    solved.put(
                            n,
                            family.solve(target.name() + ": " + target.measure(), target.measure()::contrastOf, rise));
                } catch (OutsideMeasuredRangeException e) {
                    unsolved.put(n, notExposed(target, n, atNormal, e));
                } catch (NotDeterminableException e) {
                    unsolved.put(n, e);
                }
            }
        }
    }

    /** Subjects with a longer range than the strips were exposed for. */
    private DevelopmentException notExposed(
            ContrastTarget target, int n, DevelopmentFamily.Solved atNormal, OutsideMeasuredRangeException cause) {
        ExposureInterval over = ExposureInterval.ofStops(range.stops() - n);
        double needed = family.value(
                        atNormal,
                        curve -> curve.pointAbove(ContrastMeasure.SPEED_POINT)
                                .logExposure()
                                .value())
                + over.logUnits();
        double end = family.value(atNormal, curve -> curve.highestExposure().value());
        DevelopmentException exception = new DevelopmentException(
                DevelopmentFailure.UNUSABLE_STRIPS,
                target.name() + " reads the curve " + unsigned(over)
                        + " from its speed point, at a log exposure of about " + Figures.plain(needed)
                        + ", but the strips were exposed only up to " + Figures.plain(end)
                        + ": expose and read steps up to there");
        exception.initCause(cause);
        return exception;
    }

    /** The lines of N−2 to N+2; if the rise at N cannot be determined, the line of N alone, with a note that says so. */
    static List<PlannedDevelopment> lines(
            DevelopmentSeries series, ContrastTarget normal, ExposureInterval range, List<Temperature> temperatures) {
        if (!(range.stops() > FARTHEST)) {
            throw new IllegalArgumentException("the range of the normal subject must be above " + FARTHEST
                    + " stops, so that N+" + FARTHEST + " leaves something of it, was " + range);
        }
        Expansions expansions;
        try {
            expansions = new Expansions(series.family(), normal, range);
        } catch (NotDeterminableException e) {
            return List.of(PlannedDevelopment.refused(normal.named("N"), null, failure(e), e.getMessage()));
        }
        FigureTrend speed = series.speedPoint();
        FigureTrend base = series.basePlusFog();
        List<PlannedDevelopment> lines = new ArrayList<>();
        for (int n : expansions.targets.keySet()) {
            for (Temperature at :
                    temperatures.isEmpty() ? Collections.<Temperature>singletonList(null) : temperatures) {
                lines.add(expansions.line(series, speed, base, n, at));
            }
        }
        return lines;
    }

    /** Why the plan has no other line than N. */
    private String onlyNormal(NotDeterminableException why) {
        return "N−2, N−1, N+1 and N+2 are missing: they are measured against the range of densities at N over "
                + unsigned(range) + " from the speed point, which cannot be determined; state a shorter range of the"
                + " normal subject, or expose and read more steps: " + why.getMessage();
    }

    private static String unsigned(ExposureInterval interval) {
        return interval.toString().replace("+", "");
    }

    /** The times of N−2 to N+2 before they are rounded to the clock; null if there is none. */
    static List<PredictedTime> times(DevelopmentSeries series, ContrastTarget normal, ExposureInterval range) {
        Expansions expansions = new Expansions(series.family(), normal, range);
        List<PredictedTime> times = new ArrayList<>();
        for (int n = -FARTHEST; n <= FARTHEST; n++) {
            DevelopmentFamily.Solved found = expansions.solved.get(n);
            times.add(found == null ? null : expansions.family.time(found, null));
        }
        return times;
    }

    private static DevelopmentFailure failure(NotDeterminableException e) {
        return e instanceof DevelopmentException found ? found.failure() : DevelopmentFailure.UNUSABLE_STRIPS;
    }

    private PlannedDevelopment line(
            DevelopmentSeries series, FigureTrend speed, FigureTrend base, int n, Temperature at) {
        ContrastTarget target = targets.get(n);
        DevelopmentFamily.Solved found = solved.get(n);
        if (found == null) {
            NotDeterminableException e = unsolved.get(n);
            return PlannedDevelopment.refused(target, at, failure(e), e.getMessage());
        }
        try {
            return DevelopmentPlan.line(
                    series,
                    target,
                    family.time(found, at),
                    time -> family.unguarded(time, target.measure()::contrastOf),
                    noRise.map(e -> List.of(onlyNormal(e))).orElse(List.of()),
                    speed,
                    base);
        } catch (DevelopmentException e) {
            return PlannedDevelopment.refused(target, at, e.failure(), e.getMessage());
        }
    }
}
