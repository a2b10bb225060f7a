// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;

/**
 * Examines the readings of a negative strip before a curve is drawn. It finds densities that fall where they must rise,
 * a strip read backwards, exposures that are not logarithms or seem to be stops, steps that contradict base plus fog,
 * steps too close or too far apart, a step skipped or read twice, and repeat readings that disagree. It reports what it
 * finds and changes nothing.
 *
 * <p>Differences up to the tolerance count as noise. The default of 0.05 is three and a half standard deviations of the
 * difference between two readings that repeat to 0.01; common practice, no source.
 *
 * <p>A step that was skipped or read twice shows by the densities on one side of it, which fit those on the other side
 * only if they are moved by a step. It can be told from noise only where density rises enough from step to step. Of
 * simulated strips with one such fault in the middle half of the tablet, where the gradient is 0.8 of the greatest or
 * more, this share is named within one step of its place. Of good strips of any film, those of two layers and those whose
 * gradient rises to the end included, fewer than 0.2 % are accused where readings scatter by 0.005 or 0.01, and fewer
 * than 0.9 % at 0.02; of film steeper than a gradient of 1.2, up to 0.5 and 1.0 % (2,000 strips of each film, tablet and
 * noise). One spoiled reading makes a good strip accused in at most 0.8 % of cases at 21 or 31 steps, 2 % at 11, and 5 %
 * on steep film. The shape of the curve is not known, so that a few steps on either side have to tell it: a step of 0.15
 * at a noise of 0.02 therefore remains hidden in every other strip.
 *
 * <table>
 * <caption>Skipped or doubled steps that are named, by the rise of density over the step</caption>
 * <tr><th>Steps<th>Noise<th>0.08 to 0.10<th>0.10 to 0.12<th>0.12 to 0.15<th>above
 * <tr><td>21 of 0.15<td>0.005<td>89 %<td>95 %<td>99 %<td>100 %
 * <tr><td><td>0.01<td>66 %<td>81 %<td>93 %<td>96 %
 * <tr><td><td>0.02<td>14 %<td>26 %<td>37 %<td>46 %
 * <tr><td>31 of 0.10<td>0.005<td>95 %<td>97 %<td>91 %<td>
 * <tr><td><td>0.01<td>69 %<td>81 %<td>91 %<td>
 * <tr><td>11 of 0.30<td>0.005<td>22 %<td>30 %<td>48 %<td>87 %
 * <tr><td><td>0.01<td>10 %<td>22 %<td>34 %<td>80 %
 * </table>
 *
 * <p>The command for it is in {@code StepShiftSimulation} of the tests. No finding does not mean that no step was
 * skipped: count them.
 *
 * <p>Exposures that lie in whole, half or third units seem to be stops where density rises as slowly as it does per stop.
 * Right logarithms in such steps are suspected too if the film is as soft as that; in other steps, such as the 0.15 and
 * 0.30 of tablets, they never are. The command for the table is in {@code StopsSimulation} of the tests.
 *
 * <table>
 * <caption>Strips that seem to be in stops, of 2,000 each, at a noise of 0.01; whole, half and third units</caption>
 * <tr><th>Gradient of the straight line<th>Right logarithms<th>Stops entered as logarithms
 * <tr><td>0.25 to 0.30<td>100 %, 100 %, 100 %<td>34 %, 52 %, 89 %
 * <tr><td>0.30 to 0.33<td>100 %, 100 %, 96 %<td>74 %, 88 %, 98 %
 * <tr><td>0.33 to 0.36<td>84 %, 88 %, 66 %<td>91 %, 97 %, 100 %
 * <tr><td>0.36 to 0.40<td>45 %, 44 %, 24 %<td>98 %, 100 %, 100 %
 * <tr><td>0.40 to 0.45<td>29 %, 18 %, 5 %<td>100 %, 100 %, 100 %
 * <tr><td>0.45 to 0.60<td>5 %, 2 %, 0.2 %<td>100 %, 100 %, 100 %
 * <tr><td>0.60 to 0.90<td>0 %, 0 %, 0 %<td>100 %, 100 %, 100 %
 * <tr><td>0.90 to 1.10<td>0 %, 0 %, 0 %<td>100 %, 99 %, 92 %
 * <tr><td>1.10 to 1.20<td>0 %, 0 %, 0 %<td>66 %, 56 %, 30 %
 * </table>
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 */
public final class StripCheck {

    /**
     * Steps closer than this are repeat readings; between steps farther apart than {@link #FAR_APART} the curve is
     * unknown.
     */
    private static final double CROWDED = 0.01;

    private static final double FAR_APART = 0.5;

    /** This many first steps, if level to within this much and this far above base plus fog, contradict it. */
    private static final int LEVEL_STEPS = 3;

    private static final double LEVEL_SPREAD = 0.02;
    private static final double LEVEL_ABOVE_BASE = 0.04;

    /**
     * Positive numbers of this many steps that span this factor, each greater than the one before by a factor whose
     * logarithm scatters by less than this share, are exposures. For logarithms in equal steps that share is 0.63 or more.
     */
    private static final int EXPOSURE_STEPS = 5;

    private static final double EXPOSURE_SPAN = 10;
    private static final double EXPOSURE_SCATTER = 0.3;

    /**
     * Exposures taken for logarithms crowd the lower steps, so that the curve seems to flatten: its gradient over the
     * upper half of the steps is less than this share of that over the lower half. On a straight line in steps of one
     * stop, the share is halved for each further step in a half.
     */
    private static final double EXPOSURE_FLATTENING = 0.5;

    /**
     * Five steps or more whose gaps are whole, half or third units, each to within 0.07 and in the mean to 3 %, are stops
     * if the greatest gradient lies between log<sub>10</sub> 2 times 0.33 and times 1.2. Common practice, no source.
     */
    private static final double[] STOPS = {1, 1 / 2.0, 1 / 3.0};

    private static final int STOPS_STEPS = 5;
    private static final double STOPS_OFF = 0.07;
    private static final double STOPS_MEAN_OFF = 0.03;
    private static final double SOFTEST_IN_STOPS = 0.10;
    private static final double STEEPEST_IN_STOPS = 0.36;

    /** The steps of tablets, in log units, which no bracket has in stops; and how far each may be off, as a share. */
    private static final double[] TABLET_STEPS = {0.1, 0.15, 0.2, 0.3};

    private static final double TABLET_OFF = 0.2;
    private static final double STOP = Math.log10(2);

    /** What as many steps of a strip have in common is a fault of the strip. */
    private static final int MANY = 3;

    /** This many steps below base plus fog, of which the thinnest is as thin as this, are net densities. */
    private static final int NET_STEPS = 3;

    private static final double NET_TOE = 0.05;

    /** Readings may scatter by this share of the tolerance: 0.015 by default. */
    private static final double NOISE_SHARE = 0.3;

    private static final StripCheck DEFAULTS = new StripCheck(0.05);

    private final double tolerance;

    private StripCheck(double tolerance) {
        this.tolerance = tolerance;
    }

    /**
     * Returns the check with its default tolerance of 0.05.
     *
     * @return the check
     */
    public static StripCheck withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another tolerance.
     *
     * @param density the greatest difference of density that counts as noise, from 0 to 1
     * @return the copy
     * @throws IllegalArgumentException if the tolerance is out of range
     */
    public StripCheck withTolerance(double density) {
        return new StripCheck(Checks.within("tolerance of a strip check", density, 0, 1, ""));
    }

    /**
     * Examines a strip.
     *
     * @param strip a strip of a negative material
     * @return the findings, by rising exposure; what three or more steps have in common is told once, at the first of
     *     them; empty if there are none
     */
    public List<StripFinding> check(Strip strip) {
        List<ExposedStep> steps = strip.steps();
        ExposedStep first = steps.get(0);
        ExposedStep last = steps.get(steps.size() - 1);
        if (areExposures(steps)) {
            return List.of(new StripFinding(
                    StripFinding.Kind.EXPOSURES_NOT_LOGARITHMS,
                    first.exposure(),
                    strip + ": the log exposures run from "
                            + Figures.plain(first.exposure().value()) + " to "
                            + Figures.plain(last.exposure().value())
                            + " and grow by about the same factor from step to step; are these exposures, not their logarithms?"
                            + " Enter log10 of each"));
        }
        if (first.density().minus(last.density()).value() > tolerance) {
            return List.of(new StripFinding(
                    StripFinding.Kind.DENSITIES_REVERSED,
                    first.exposure(),
                    strip + ": density falls with exposure, from " + first.density() + " at " + first.exposure()
                            + " to "
                            + last.density() + " at " + last.exposure()
                            + "; was the tablet read from the wrong end, or is this a reversal material? If step 1 is the dense end"
                            + " of the tablet, enter read_from: dense"));
        }
        List<StripFinding> found = new ArrayList<>();
        OptionalDouble perStop = perStop(steps);
        perStop.ifPresent(gradient -> found.add(new StripFinding(
                StripFinding.Kind.EXPOSURES_IN_STOPS,
                first.exposure(),
                strip + ": the log exposures lie in whole, half or third units, from "
                        + Figures.plain(first.exposure().value()) + " to "
                        + Figures.plain(last.exposure().value())
                        + ", and density rises by no more than "
                        + Figures.plain(Math.round(100 * gradient) / 100.0)
                        + " per unit; are these stops? A stop is 0.301 log units: multiply by 0.301, or enter them"
                        + " as stops")));
        strip.basePlusFog().ifPresent(base -> {
            checkBaseRepeats(strip, found);
            checkBase(strip, base, found);
        });
        ExposedStep densest = first;
        boolean fallen = false;
        for (int i = 0; i < steps.size(); i++) {
            ExposedStep step = steps.get(i);
            checkRepeats(strip, step, found);
            if (i > 0 && perStop.isEmpty()) {
                checkSpacing(strip, steps.get(i - 1), step, found);
            }
            boolean falls = densest.density().minus(step.density()).value() > tolerance;
            if (falls && !fallen) {
                found.add(falls(strip, densest, step));
            }
            fallen = falls;
            if (step.density().compareTo(densest.density()) > 0) {
                densest = step;
            }
        }
        if (found.stream().noneMatch(finding -> finding.kind() == StripFinding.Kind.DENSITY_FALLS)) {
            StepShift.find(steps, NOISE_SHARE * tolerance)
                    .map(shift -> shifted(strip, shift))
                    .ifPresent(found::add);
        }
        found.sort(Comparator.comparing(finding -> finding.exposure().value()));
        return together(found);
    }

    private static List<StripFinding> together(List<StripFinding> found) {
        Map<StripFinding.Kind, List<StripFinding>> alike = new EnumMap<>(StripFinding.Kind.class);
        found.forEach(finding ->
                alike.computeIfAbsent(finding.kind(), any -> new ArrayList<>()).add(finding));
        Set<StripFinding.Kind> summed = EnumSet.noneOf(StripFinding.Kind.class);
        List<StripFinding> told = new ArrayList<>();
        for (StripFinding finding : found) {
            List<StripFinding> all = alike.get(finding.kind());
            if (all.size() < MANY) {
                told.add(finding);
            } else if (summed.add(finding.kind())) {
                told.add(new StripFinding(
                        finding.kind(),
                        finding.exposure(),
                        finding.message() + ". So at " + (all.size() - 1) + " more steps" + ofStrip(finding.kind())));
            }
        }
        return List.copyOf(told);
    }

    /** What a finding means of a strip that has it at many steps. */
    private static String ofStrip(StripFinding.Kind kind) {
        return switch (kind) {
            case STEPS_TOO_CLOSE -> ": was the strip entered twice?";
            case REPEATS_DISAGREE -> ": are these two pieces of film? Give each an identifier of its own";
            case BELOW_BASE_PLUS_FOG -> ": was base plus fog read on another film?";
            default -> "";
        };
    }

    /** The greatest gradient if the exposures seem to be stops. */
    private static OptionalDouble perStop(List<ExposedStep> steps) {
        if (steps.size() < STOPS_STEPS) {
            return OptionalDouble.empty();
        }
        // Two whole log units would reach beyond the straight line of most films; of stops, one tells more than noise.
        return Arrays.stream(STOPS)
                .filter(unit -> areApart(steps, unit, STOPS_OFF))
                .map(unit -> steepest(steps, unit == 1 ? 1 : 2))
                .filter(gradient -> gradient >= SOFTEST_IN_STOPS && gradient <= STEEPEST_IN_STOPS)
                .findFirst();
    }

    /**
     * Whether exposures that were entered in stops seem to be logarithms: they are as many stops apart as the steps of a
     * tablet are log units, and density rises faster per stop than it does on film of a gradient of 1.2.
     */
    static boolean stopsMayBeLogarithms(Strip strip) {
        List<ExposedStep> steps = strip.steps();
        return steps.size() >= STOPS_STEPS
                && Arrays.stream(TABLET_STEPS)
                        .map(step -> step * STOP)
                        .anyMatch(unit -> areApart(steps, unit, TABLET_OFF * unit))
                && steepest(steps, STOPS_STEPS - 1) * STOP > STEEPEST_IN_STOPS;
    }

    /** Whether each step lies one unit above the one before, as near as rounding and a calibrated tablet allow. */
    private static boolean areApart(List<ExposedStep> steps, double unit, double off) {
        int gaps = steps.size() - 1;
        double span = apart(steps.get(0), steps.get(gaps));
        if (Math.abs(span - gaps * unit) > STOPS_MEAN_OFF * gaps * unit) {
            return false;
        }
        for (int i = 1; i <= gaps; i++) {
            if (Math.abs(apart(steps.get(i - 1), steps.get(i)) - unit) > off) {
                return false;
            }
        }
        return true;
    }

    private static double apart(ExposedStep before, ExposedStep step) {
        return step.exposure().minus(before.exposure()).logUnits();
    }

    /** The greatest gradient over so many gaps between steps. */
    private static double steepest(List<ExposedStep> steps, int gaps) {
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = gaps; i < steps.size(); i++) {
            greatest = Math.max(greatest, gradient(steps.get(i - gaps), steps.get(i)));
        }
        return greatest;
    }

    private static StripFinding shifted(Strip strip, StepShift shift) {
        ExposedStep before = strip.steps().get(shift.step() - 1);
        ExposedStep step = strip.steps().get(shift.step());
        String place =
                before.density() + " at " + before.exposure() + " and " + step.density() + " at " + step.exposure();
        return shift.isSkip()
                ? new StripFinding(
                        StripFinding.Kind.STEP_SKIPPED,
                        step.exposure(),
                        strip + ": between " + place + " density rises as it does over two steps, and one side fits the"
                                + " other only if it is moved by a step; was a step skipped near here? Count the steps,"
                                + " and read the strip again from there")
                : new StripFinding(
                        StripFinding.Kind.STEP_READ_TWICE,
                        step.exposure(),
                        strip + ": between " + place + " density hardly rises, and one side fits the other only if it"
                                + " is moved by a step; was a step read twice near here? Count the steps, and read the"
                                + " strip again from there");
    }

    private void checkBaseRepeats(Strip strip, List<StripFinding> found) {
        Density thinnest =
                strip.basePlusFogReadings().stream().min(Density::compareTo).orElseThrow();
        Density densest =
                strip.basePlusFogReadings().stream().max(Density::compareTo).orElseThrow();
        if (densest.minus(thinnest).value() > tolerance) {
            found.add(new StripFinding(
                    StripFinding.Kind.BASE_PLUS_FOG_DISAGREES,
                    strip.steps().get(0).exposure(),
                    strip + ": base-plus-fog readings run from " + thinnest + " to " + densest
                            + "; read it again, and look for a step whose exposure was left empty"));
        }
    }

    private static boolean areExposures(List<ExposedStep> steps) {
        double[] values =
                steps.stream().mapToDouble(step -> step.exposure().value()).toArray();
        int gaps = values.length - 1;
        if (values.length < EXPOSURE_STEPS || values[0] <= 0 || values[gaps] < EXPOSURE_SPAN * values[0]) {
            return false;
        }
        double mean = Math.log(values[gaps] / values[0]) / gaps;
        double squares = 0;
        for (int i = 0; i < gaps; i++) {
            double departure = Math.log(values[i + 1] / values[i]) - mean;
            squares += departure * departure;
        }
        return Math.sqrt(squares / gaps) < EXPOSURE_SCATTER * mean && flattens(steps);
    }

    private static boolean flattens(List<ExposedStep> steps) {
        ExposedStep first = steps.get(0);
        ExposedStep middle = steps.get(steps.size() / 2);
        ExposedStep last = steps.get(steps.size() - 1);
        return Math.abs(gradient(middle, last)) < EXPOSURE_FLATTENING * Math.abs(gradient(first, middle));
    }

    private static double gradient(ExposedStep from, ExposedStep to) {
        return to.density().minus(from.density()).value()
                / to.exposure().minus(from.exposure()).logUnits();
    }

    private void checkBase(Strip strip, Density base, List<StripFinding> found) {
        List<ExposedStep> steps = strip.steps();
        List<ExposedStep> below = steps.stream()
                .filter(step -> base.minus(step.density()).value() > tolerance)
                .toList();
        Optional<ExposedStep> thinnest = below.stream().min(Comparator.comparing(ExposedStep::density));
        if (below.size() >= NET_STEPS && thinnest.orElseThrow().density().value() <= NET_TOE) {
            found.add(
                    new StripFinding(
                            StripFinding.Kind.BELOW_BASE_PLUS_FOG,
                            below.get(0).exposure(),
                            strip + ": " + below.size() + " steps are below base plus fog, " + base + ", down to "
                                    + thinnest.get().density()
                                    + "; are these net densities? Enter gross densities, from which base plus fog is not subtracted"));
        } else {
            below.forEach(step -> found.add(new StripFinding(
                    StripFinding.Kind.BELOW_BASE_PLUS_FOG,
                    step.exposure(),
                    strip + ": " + step.density() + " at " + step.exposure() + " is below base plus fog, " + base
                            + "; read base plus fog again, on the same strip")));
        }
        if (steps.size() < LEVEL_STEPS) {
            return;
        }
        List<Density> toe = steps.subList(0, LEVEL_STEPS).stream()
                .map(ExposedStep::density)
                .sorted()
                .toList();
        double spread = toe.get(LEVEL_STEPS - 1).minus(toe.get(0)).value();
        if (spread <= LEVEL_SPREAD && toe.get(0).minus(base).value() > LEVEL_ABOVE_BASE) {
            found.add(new StripFinding(
                    StripFinding.Kind.LEVEL_ABOVE_BASE_PLUS_FOG,
                    steps.get(0).exposure(),
                    strip + ": the first " + LEVEL_STEPS + " steps are level at " + toe.get(0)
                            + ", but base plus fog was read as " + base
                            + "; read it again on the same strip: speeds are counted from it"));
        }
    }

    private static void checkSpacing(Strip strip, ExposedStep before, ExposedStep step, List<StripFinding> found) {
        double apart = step.exposure().minus(before.exposure()).logUnits();
        if (apart < CROWDED) {
            found.add(new StripFinding(
                    StripFinding.Kind.STEPS_TOO_CLOSE,
                    step.exposure(),
                    strip + ": steps at " + before.exposure() + " and " + step.exposure()
                            + " are less than 0.01 log units apart; enter them as repeat readings of one exposure"));
        }
        if (apart > FAR_APART) {
            found.add(new StripFinding(
                    StripFinding.Kind.STEPS_TOO_FAR_APART,
                    step.exposure(),
                    strip + ": no step was read between " + before.exposure() + " and " + step.exposure()
                            + "; figures read there are guesses: read steps between them"));
        }
    }

    private void checkRepeats(Strip strip, ExposedStep step, List<StripFinding> found) {
        Density thinnest = step.readings().stream().min(Density::compareTo).orElseThrow();
        Density densest = step.readings().stream().max(Density::compareTo).orElseThrow();
        if (densest.minus(thinnest).value() > tolerance) {
            found.add(new StripFinding(
                    StripFinding.Kind.REPEATS_DISAGREE,
                    step.exposure(),
                    strip + ": repeat readings at " + step.exposure() + " run from " + thinnest + " to " + densest
                            + "; read the step again"));
        }
    }

    private static StripFinding falls(Strip strip, ExposedStep before, ExposedStep step) {
        return new StripFinding(
                StripFinding.Kind.DENSITY_FALLS,
                step.exposure(),
                strip + ": density falls from " + before.density() + " at " + before.exposure() + " to "
                        + step.density() + " at " + step.exposure()
                        + "; look for dust or a finger mark there, or for swapped steps");
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof StripCheck that && Double.compare(tolerance, that.tolerance) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(tolerance);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the tolerance
     */
    @Override
    public String toString() {
        return "check of strips, tolerance " + Figures.plain(tolerance);
    }
}
