// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogListener;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.RunningSummary;
import org.tonewedge.standards.densitometer.verdict.DensityTolerance;

/**
 * Guides a person along the tablet: a line after each reading, with what to do next. Passes go up the tablet and down again
 * in turn, so that a drift does not look like a slope; a log without step numbers goes one way only.
 */
final class TabletGuide implements LogListener {

    private static final int MOST_LINES_BEHIND = 500;

    private final RunningSummary running;
    private final List<StepTablet.Step> steps;
    private final DensityTolerance tolerance;
    private final long wanted;
    private final int perPass;
    private final boolean turns;
    private final boolean endsAtOnce;
    private final BooleanSupplier caughtUp;
    private final Consumer<String> line;
    private int lines;

    /**
     * The steps to be read, each as often as wanted, some readings in each pass. Where lines come faster than a person can
     * read them, some are not reported.
     */
    TabletGuide(
            RunningSummary running,
            List<StepTablet.Step> steps,
            DensityTolerance tolerance,
            long wanted,
            int perPass,
            boolean turns,
            boolean endsAtOnce,
            BooleanSupplier caughtUp,
            Consumer<String> line) {
        this.running = running;
        this.steps = steps;
        this.tolerance = tolerance;
        this.wanted = wanted;
        this.perPass = perPass;
        this.turns = turns;
        this.endsAtOnce = endsAtOnce;
        this.caughtUp = caughtUp;
        this.line = line;
    }

    boolean isComplete() {
        return steps.stream().allMatch(step -> running.count(step.number()) >= wanted);
    }

    @Override
    public boolean wantsMore() {
        return !(endsAtOnce && isComplete());
    }

    @Override
    public void accept(LogReading reading) {
        running.accept(reading);
        tell();
    }

    @Override
    public void acceptImplausible(LogReading reading) {
        running.acceptImplausible(reading);
        tell();
    }

    @Override
    public void refuse(long number, LineKind kind, int step) {
        running.refuse(number, kind, step);
        if ((kind.mayHideReading() || kind == LineKind.OVERRANGE) && isWorthTelling()) {
            line.accept("line " + number + (step > 0 ? ", step " + step : "") + ": not a reading (" + kind.description()
                    + "); read again");
        }
    }

    private boolean isWorthTelling() {
        return caughtUp.getAsBoolean() || lines++ < MOST_LINES_BEHIND;
    }

    private void tell() {
        OptionalInt last = running.lastStep();
        if (last.isEmpty() || !isWorthTelling()) {
            return;
        }
        int number = last.getAsInt();
        steps.stream().filter(step -> step.number() == number).findFirst().ifPresent(step -> line.accept(words(step)));
    }

    private String words(StepTablet.Step step) {
        int number = step.number();
        double certified = step.density().value();
        double allowed = tolerance.at(certified);
        double latest = running.latest(number).orElse(Double.NaN);
        double mean = running.mean(number).orElse(Double.NaN);
        String figures = String.format(
                Locale.ROOT,
                "step %d of %d: n %d, mean %.3f, error %s of %.3f allowed; ",
                number,
                steps.size(),
                running.count(number),
                mean,
                CheckWords.signed(mean - certified, 3),
                allowed);
        if (!(Math.abs(latest - certified) <= allowed)) {
            StepTablet.Step nearest = nearest(latest);
            if (nearest.number() != number) {
                return figures
                        + String.format(
                                Locale.ROOT,
                                "%.3f looks like step %d: read step %d again",
                                latest,
                                nearest.number(),
                                number);
            }
            if (Math.abs(latest - mean) > allowed) {
                return figures
                        + String.format(Locale.ROOT, "%.3f is far from the mean: read step %d again", latest, number);
            }
        }
        return figures + next(number);
    }

    private StepTablet.Step nearest(double density) {
        StepTablet.Step nearest = steps.get(0);
        for (StepTablet.Step step : steps) {
            if (Math.abs(step.density().value() - density)
                    < Math.abs(nearest.density().value() - density)) {
                nearest = step;
            }
        }
        return nearest;
    }

    /** The next step of the pass under way: first on from here, else from where the pass begins. */
    private String next(int number) {
        if (isComplete()) {
            return "every step has its readings";
        }
        long least = steps.stream()
                .mapToLong(step -> running.count(step.number()))
                .min()
                .orElse(0);
        long pass = 1 + least / perPass;
        long due = Math.min(wanted, pass * perPass);
        boolean up = !turns || pass % 2 == 1;
        if (running.count(number) < due) {
            return "next: step " + number + " again (" + (running.count(number) + 1) + " of " + due + ")";
        }
        List<Integer> open = IntStream.range(0, steps.size())
                .map(i -> up ? i : steps.size() - 1 - i)
                .map(i -> steps.get(i).number())
                .filter(step -> running.count(step) < due)
                .boxed()
                .toList();
        int next = open.stream()
                .filter(step -> up ? step > number : step < number)
                .findFirst()
                .orElse(open.get(0));
        return "next: step " + next + (pass > 1 ? ", pass " + pass + (up ? " up" : " down") + " the tablet" : "");
    }
}
