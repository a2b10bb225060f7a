// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;
import org.tonewedge.standards.densitometer.summary.PassDrift;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/**
 * Names common faults if some step is beyond its tolerance. Each fault predicts what the readings would be; it is named
 * if they are so and nothing simpler explains them. The limits are the project's own.
 */
final class NamedFaults {

    /** The fraction of steps that a fault must explain. */
    private static final double MOST_STEPS = 0.85;
    /** The fraction of steps that another formula must explain. */
    private static final double MOST_FORMULA = 0.9;
    /** How much better than any line it must be. */
    private static final double MUCH_BETTER = 0.2;

    /** The share of squares that a drift may leave. */
    private static final double EXPLAINED = 0.5;

    private static final int TRIALS = 33;
    private static final double NEAR = 0.3;
    /** Readings may scatter by this part of the tolerance. */
    private static final double NOISE = 0.25;

    private static final int LARGEST_WRAP = 8;

    private final ReadingsSummary summary;
    private final CertificateComparison comparison;
    private final DensityTolerance tolerance;
    private final List<StepReadings> steps;
    private final double[] certified;
    private final double[] errors;
    private final double[] allowed;
    private final List<Finding> found = new ArrayList<>();
    private ReadingsSummary inPlace;
    /** Runs whose readings were moved to their own steps: numbers of steps are no longer those of the log. */
    private final Set<Integer> runsInPlace = new TreeSet<>();

    private final Set<Integer> explainedSteps = new TreeSet<>();

    private NamedFaults(
            ReadingsSummary summary,
            CertificateComparison comparison,
            DensityTolerance tolerance,
            Set<Integer> runsInPlace) {
        this.summary = summary;
        this.runsInPlace.addAll(runsInPlace);
        inPlace = summary;
        this.comparison = comparison;
        this.tolerance = tolerance;
        steps = comparison.steps();
        certified = steps.stream()
                .mapToDouble(step -> step.step().density().value())
                .toArray();
        errors = comparison.errors();
        allowed = Arrays.stream(certified).map(tolerance::at).toArray();
    }

    /** Looks for faults; skipped steps are not looked for in runs whose readings were moved. */
    static NamedFaults of(
            ReadingsSummary summary,
            CertificateComparison comparison,
            DensityTolerance tolerance,
            Set<Integer> runsInPlace) {
        NamedFaults faults = new NamedFaults(summary, comparison, tolerance, runsInPlace);
        faults.find();
        return faults;
    }

    /** The faults in the readings of an instrument, most specific first; none if every step is within tolerance. */
    List<Finding> found() {
        return List.copyOf(found);
    }

    /** The readings with those moved to their own steps that were found to belong to others after a step was skipped. */
    ReadingsSummary inPlace() {
        return inPlace;
    }

    /** The runs whose readings are moved in {@link #inPlace()}. */
    Set<Integer> runsInPlace() {
        return Collections.unmodifiableSet(runsInPlace);
    }

    private void find() {
        findStale();
        look(this::findAveraged);
        boolean wrong = IntStream.range(0, errors.length).anyMatch(i -> Math.abs(errors[i]) > allowed[i]);
        if (wrong) {
            if (summary.audit().isEmpty()) {
                look(this::findFormula);
            }
            look(this::findCounts);
        }
        look(this::findFewBits);
        for (int run = 0; run < summary.runsKept(); run++) {
            int number = run;
            look(() -> findSteps(number));
        }
        if (wrong) {
            look(this::findGainByCounts);
            look(this::findClippedClearEnd);
            look(this::findWarmUp);
            look(this::findJump);
        }
    }

    /** A converter with too few bits for the decimals that are printed. */
    private void findFewBits() {
        for (int i = 0; i < steps.size(); i++) {
            double unit = comparison.resolutionAt(steps.get(i));
            if (unit / 2 > allowed[i] && unit > 2 * summary.resolution().orElse(0)) {
                add(
                        FindingKind.RESOLUTION,
                        steps.get(i).step().number(),
                        "one step of the converter is " + Figures.plain(unit) + " of density at step "
                                + steps.get(i).step().number() + ", though finer densities are printed: it has too few"
                                + " bits for dense steps");
                return;
            }
        }
    }

    /** Only the first fault found is named. */
    private void look(Runnable search) {
        if (found.isEmpty()) {
            search.run();
        }
    }

    private void add(FindingKind kind, int step, String words) {
        Finding finding = Finding.of(kind, Severity.FAULT, words);
        found.add(step > 0 ? finding.atStep(step) : finding);
    }

    private void findStale() {
        boolean coarse =
                IntStream.range(0, steps.size()).anyMatch(i -> comparison.resolutionAt(steps.get(i)) > allowed[i]);
        if (summary.staleVisits() > 1 && (!coarse || 2 * summary.staleVisits() > summary.visits())) {
            add(
                    FindingKind.STALE_READINGS,
                    0,
                    summary.staleVisits() + " of " + summary.visits()
                            + " times the first reading of a step is still that of the step before");
        }
    }

    private void findAveraged() {
        double least = Arrays.stream(allowed).min().orElse(0);
        summary.averaged().filter(mean -> mean.effect() > least / 2).ifPresent(mean -> {
            String span = mean.readingsToWait().isPresent() ? ", across the change of step" : "";
            String wait = mean.readingsToWait().isPresent()
                    ? "begin the average anew at each change of step, or leave out the first "
                            + mean.readingsToWait().getAsInt() + " readings of each step"
                    : "print the density of the counts beside it, or the counts that belong to the average";
            found.add(Finding.of(
                            FindingKind.READINGS_AVERAGED,
                            Severity.FAULT,
                            "each printed density is " + mean + span + ", which shifts readings by "
                                    + Figures.plain(mean.effect()) + " (standard deviation)")
                    .withRemedy(wait));
        });
    }

    /** Whether the readings of steps are the certified densities of other steps, run by run. */
    private void findSteps(int run) {
        List<StepTablet.Step> all = summary.tablet().steps();
        int[] nearest = new int[all.size()];
        List<Integer> misread = new ArrayList<>();
        int read = 0;
        for (int i = 0; i < all.size(); i++) {
            OptionalDouble mean = summary.runMean(run, i + 1);
            nearest[i] = -1;
            if (mean.isEmpty()) {
                continue;
            }
            read++;
            double density = all.get(i).density().value();
            nearest[i] = nearest(all, mean.getAsDouble());
            if (Math.abs(mean.getAsDouble() - density) > Math.max(tolerance.at(density), NEAR * spacing(all, i))) {
                misread.add(i);
            }
        }
        if (misread.isEmpty() || read < CertificateComparison.FEWEST_STEPS) {
            return;
        }
        String where = summary.runsKept() > 1 ? " in run " + (run + 1) : "";
        int first = misread.get(0);
        if (misread.size() == 2 && nearest[first] == misread.get(1) && nearest[misread.get(1)] == first) {
            add(
                    FindingKind.STEPS_SWAPPED,
                    first + 1,
                    "steps " + (first + 1) + " and " + (misread.get(1) + 1) + " are swapped" + where);
            return;
        }
        if (runsInPlace.contains(run)) {
            return;
        }
        double[] densities =
                all.stream().mapToDouble(step -> step.density().value()).toArray();
        double[] means = new double[densities.length];
        Arrays.setAll(means, i -> summary.runMean(run, i + 1).orElse(Double.NaN));
        double noise = NOISE * Arrays.stream(densities).map(tolerance::at).min().orElseThrow();
        boolean fromStart = IntStream.range(0, first).noneMatch(i -> nearest[i] == i);
        OptionalInt shift = IntStream.of(-2, -1, 1, 2)
                .filter(by -> isShifted(misread, nearest, by, all.size()))
                .findFirst();
        Optional<ShiftedSteps> shifted = ShiftedSteps.find(densities, means, noise);
        if (shifted.isEmpty() && !fromStart && shift.isPresent()) {
            // A reading that belongs to no step hides the shift of the others.
            misread.stream().filter(i -> nearest[i] != i + shift.getAsInt()).forEach(i -> means[i] = Double.NaN);
            shifted = ShiftedSteps.find(densities, means, noise);
        }
        if (shifted.isPresent()) {
            addSkipped(shifted.get(), where);
            ShiftedSteps places = shifted.get();
            inPlace = summary.withReadingsMoved(run, number -> places.gate(number - 1) + 1);
            runsInPlace.add(run);
            explain(shifted.get(), all.size());
        } else if (fromStart && shift.isPresent()) {
            addShift(shift.getAsInt(), first, where);
        }
    }

    private static boolean isShifted(List<Integer> misread, int[] nearest, int shift, int size) {
        long explained = misread.stream().filter(i -> nearest[i] == i + shift).count();
        long beyond =
                misread.stream().filter(i -> i + shift < 0 || i + shift >= size).count();
        return explained > 1 && explained + beyond >= MOST_STEPS * misread.size();
    }

    /** Steps that have no readings because some were skipped, or are beyond the tablet because some were read twice. */
    Set<Integer> explainedSteps() {
        return Collections.unmodifiableSet(explainedSteps);
    }

    private void explain(ShiftedSteps shifted, int size) {
        Set<Integer> reached =
                IntStream.range(0, size).mapToObj(i -> shifted.gate(i) + 1).collect(Collectors.toSet());
        IntStream.rangeClosed(1, size)
                .filter(number -> !reached.contains(number))
                .forEach(explainedSteps::add);
        summary.strangeSteps().stream()
                .filter(number -> shifted.gate(number - 1) < size)
                .forEach(explainedSteps::add);
    }

    private void addSkipped(ShiftedSteps shifted, String where) {
        int before = 0;
        for (ShiftedSteps.Place place : shifted.places()) {
            int number = place.first() + 1;
            int change = place.shift() - before;
            String amount = Math.abs(change) == 1 ? "one" : "two";
            add(
                    FindingKind.STEP_SKIPPED,
                    number,
                    "from step " + number + " on the readings are those of " + belonging(place.shift()) + ", as if "
                            + amount + (before == 0 ? "" : " more")
                            + (change > 0 ? " had been skipped" : " had been read twice") + where);
            before = place.shift();
        }
    }

    private static String belonging(int shift) {
        String which = List.of("their own steps again", "the ", "the second ", "the third ", "the fourth ")
                .get(Math.abs(shift));
        return shift == 0 ? which : which + (shift > 0 ? "step after" : "step before");
    }

    private void addShift(int shift, int first, String where) {
        if (shift == -1 && first == 0) {
            add(
                    FindingKind.STALE_READINGS,
                    1,
                    "each reading is that of the step before" + where + ": stale, or the steps are numbered from 2");
        } else {
            String amount = Math.abs(shift) == 1 ? "one" : "two";
            add(
                    FindingKind.STEPS_MISNUMBERED,
                    first + 1,
                    "each step is read as the one " + (shift > 0 ? "after" : "before")
                            + " it" + where + ": the numbers of the steps are off by " + amount
                            + (shift == 1 ? ", as when they are counted from 0" : ""));
        }
    }

    private static int nearest(List<StepTablet.Step> all, double density) {
        int nearest = 0;
        for (int i = 1; i < all.size(); i++) {
            if (Math.abs(all.get(i).density().value() - density)
                    < Math.abs(all.get(nearest).density().value() - density)) {
                nearest = i;
            }
        }
        double away = Math.abs(all.get(nearest).density().value() - density);
        return away <= NEAR * spacing(all, nearest) ? nearest : -1;
    }

    private static double spacing(List<StepTablet.Step> all, int i) {
        double below = i == 0
                ? Double.POSITIVE_INFINITY
                : all.get(i).density().value() - all.get(i - 1).density().value();
        double above = i == all.size() - 1
                ? Double.POSITIVE_INFINITY
                : all.get(i + 1).density().value() - all.get(i).density().value();
        return Math.min(below, above);
    }

    /** Without counts: whether the printed numbers are what another formula makes of the certified densities. */
    private void findFormula() {
        double explained = share(density -> density);
        // a formula that only rounds explains no more than the density
        for (int units : new int[] {100, 1000, 10_000}) {
            explained = Math.max(explained, share(density -> Math.round(units * density) / (double) units));
        }
        ArithmeticFault best = null;
        double most = Math.max(MOST_FORMULA, explained + 0.5 / steps.size());
        for (ArithmeticFault fault : ArithmeticFault.values()) {
            double share = share(density -> fault.printed(density).orElse(Double.NaN));
            if (share > most) {
                most = share;
                best = fault;
            }
        }
        if (best != null) {
            found.add(Finding.of(FindingKind.ARITHMETIC_SUSPECTED, Severity.FAULT, best.suspicion())
                    .withRemedy(best.remedy()));
        }
    }

    /**
     * The fraction of steps whose mean agrees, within tolerance, with what a formula gives for the certified density.
     */
    private double share(DoubleUnaryOperator formula) {
        int hits = 0;
        for (int i = 0; i < certified.length; i++) {
            hits += isGiven(formula, i) ? 1 : 0;
        }
        return (double) hits / certified.length;
    }

    private boolean isGiven(DoubleUnaryOperator formula, int i) {
        double unit = summary.resolution().orElse(0);
        double[] values = new double[TRIALS];
        for (int j = 0; j < TRIALS; j++) {
            values[j] = formula.applyAsDouble(certified[i] + allowed[i] * (2.0 * j / (TRIALS - 1) - 1));
        }
        for (int j = 1; j < TRIALS; j++) {
            double change = Math.abs(values[j] - values[j - 1]);
            double off = Math.min(
                    Math.abs(steps.get(i).mean() - values[j]),
                    Math.abs(steps.get(i).mean() - values[j - 1]));
            double smooth = Math.abs(values[TRIALS - 1] - values[0]) / (TRIALS - 1);
            if (off <= 0.51 * unit + Math.min(change, 2 * smooth)) {
                return true;
            }
        }
        return false;
    }

    private Optional<RawCounts> counts(int i) {
        return steps.get(i).meanCounts();
    }

    /** If the log has counts: overflow, clipping, and dark counts that are not those of the sample. */
    private void findCounts() {
        if (IntStream.range(0, steps.size()).anyMatch(i -> counts(i).isEmpty())) {
            return;
        }
        OptionalInt clipped = IntStream.range(0, steps.size())
                .filter(i -> isFullScale(counts(i).orElseThrow().sample()) && errors[i] > allowed[i])
                .max();
        if (clipped.isPresent()) {
            addClipped(clipped.getAsInt());
            return;
        }
        for (int bits : new int[] {8, 16}) {
            if (isWrapped(Math.pow(2, bits))) {
                add(
                        FindingKind.COUNTS_OVERFLOW,
                        0,
                        "the counts run over " + bits + " bits: with " + (long) Math.pow(2, bits)
                                + " or a multiple of it added, the densities are right");
                return;
            }
        }
        double open = counts(0).orElseThrow().openGate();
        boolean steady = IntStream.range(0, steps.size())
                .allMatch(i -> counts(i).orElseThrow().openGate() == open);
        if (steady && isFullScale(open) && median(errors) < 0) {
            add(
                    FindingKind.OPEN_GATE_CLIPPED,
                    0,
                    "the open gate always counts " + Figures.plain(open) + ", the full scale, and densities are read "
                            + Figures.signed(median(errors)) + " off: the detector is clipped with the gate open");
            return;
        }
        if (comparison.isLeakSignificant()) {
            findDark();
        }
    }

    private static boolean isFullScale(double counts) {
        return IntStream.rangeClosed(8, 24).anyMatch(bits -> counts == Math.pow(2, bits) - 1);
    }

    /** Whether every wrong step is right with a multiple of the range added; some step is wrong. */
    private boolean isWrapped(double range) {
        for (int i = 0; i < steps.size(); i++) {
            RawCounts counts = counts(i).orElseThrow();
            if (counts.sample() >= range) {
                return false;
            }
            if (Math.abs(errors[i]) <= allowed[i]) {
                continue;
            }
            boolean hit = false;
            for (int k = 1; k < LARGEST_WRAP && !hit; k++) {
                double net = counts.sample() + k * range - counts.dark();
                double density = Math.log10(
                        (counts.openGate() - counts.openGateDark()) * counts.gainRatio() * counts.timeRatio() / net);
                hit = Math.abs(density - certified[i]) <= allowed[i]
                        && Math.log10((net + range) / net) > 2 * allowed[i];
            }
            if (!hit) {
                return false;
            }
        }
        return true;
    }

    private void findDark() {
        double leak = comparison.leak().orElseThrow().value();
        boolean none = true;
        boolean same = true;
        boolean gains = false;
        double twice = 0;
        RawCounts first = counts(0).orElseThrow();
        for (int i = 0; i < steps.size(); i++) {
            RawCounts counts = counts(i).orElseThrow();
            none &= counts.dark() == 0;
            same &= Math.abs(counts.dark() - first.dark()) <= 0.05 * first.dark();
            gains |= counts.gainRatio() != first.gainRatio() || counts.timeRatio() != first.timeRatio();
            twice = -counts.dark()
                    / ((counts.openGate() - counts.openGateDark()) * counts.gainRatio() * counts.timeRatio());
        }
        if (none && leak < 0) {
            add(
                    FindingKind.DARK_CLIPPED,
                    0,
                    "the dark always counts 0 and dense steps are read too dense: the detector is clipped in the dark");
        } else if (twice < 0 && Math.abs(leak / twice - 1) < 0.25) {
            add(
                    FindingKind.DARK_SUBTRACTED_TWICE,
                    0,
                    "dense steps are read as if the dark counts were subtracted once too often");
        } else if (gains && same && !none) {
            add(
                    FindingKind.DARK_OF_OTHER_GAIN,
                    0,
                    "the dark counts are the same at every gain and dense steps are read wrong: they are not the dark of"
                            + " the sample's gain");
        }
    }

    /** One shift for each gain: the gains in the log are not those of the hardware. */
    private void findGainByCounts() {
        Map<Double, List<Integer>> byGain = new TreeMap<>();
        for (int i = 0; i < steps.size(); i++) {
            Optional<RawCounts> counts = counts(i);
            if (counts.isEmpty()) {
                return;
            }
            byGain.computeIfAbsent(counts.get().gainRatio() * counts.get().timeRatio(), key -> new ArrayList<>())
                    .add(i);
        }
        if (byGain.size() < 2) {
            return;
        }
        StringBuilder words = new StringBuilder();
        double base = Double.NaN;
        double left = 0;
        double total = 0;
        for (Map.Entry<Double, List<Integer>> group : byGain.entrySet()) {
            double mean = group.getValue().stream()
                    .mapToDouble(i -> errors[i])
                    .average()
                    .orElse(0);
            for (int i : group.getValue()) {
                left += (errors[i] - mean) * (errors[i] - mean);
                total += errors[i] * errors[i];
            }
            base = Double.isNaN(base) ? mean : base;
            if (Math.abs(mean - base) > 0.01) {
                words.append(String.format(
                        Locale.ROOT,
                        "%s%.4g is %.4g",
                        words.length() == 0 ? "" : ", ",
                        group.getKey(),
                        group.getKey() * Math.pow(10, base - mean)));
            }
        }
        if (words.length() > 0 && left < MUCH_BETTER * total && left < NEAR * Math.min(ofLine(), ofLeak())) {
            add(
                    FindingKind.GAIN_RATIO_WRONG,
                    0,
                    "densities are shifted by the gain they were read at; the true ratio for " + words);
        }
    }

    private double ofLine() {
        return squares(comparison.departures());
    }

    private double ofLeak() {
        return squares(comparison.departuresFromLeak());
    }

    private static double squares(double[] values) {
        return Arrays.stream(values).map(value -> value * value).sum();
    }

    /** Steps at the clear end that read too dense, the clearer the more, while all others are right. */
    private void findClippedClearEnd() {
        int wrong = 0;
        while (wrong < steps.size() / 3
                && errors[wrong] > allowed[wrong]
                && (wrong == 0 || errors[wrong] < errors[wrong - 1])) {
            wrong++;
        }
        int first = wrong;
        boolean rest = IntStream.range(first, steps.size()).allMatch(i -> Math.abs(errors[i]) <= allowed[i]);
        boolean flat = wrong > 1
                && steps.get(wrong - 1).mean() - steps.get(0).mean()
                        < MUCH_BETTER * (certified[wrong - 1] - certified[0]);
        if (rest && (wrong == 1 || flat)) {
            addClipped(wrong - 1);
        }
    }

    private void addClipped(int last) {
        int number = steps.get(last).step().number();
        add(
                FindingKind.SAMPLE_CLIPPED,
                number,
                "up to step " + number
                        + " the clear steps are read too dense and too similar: the detector is clipped with the"
                        + " sample in the gate");
    }

    /** In a single pass: errors that die away during the pass. */
    private void findWarmUp() {
        if (summary.runsKept() != 1 || steps.size() < 6) {
            return;
        }
        Optional<PassDrift> drift = summary.passDrift().filter(PassDrift::isSignificant);
        if (drift.isPresent()) {
            addDrift(drift.get());
            return;
        }
        double best = Double.POSITIVE_INFINITY;
        double amplitude = 0;
        for (double share = 0.06; share < 0.6; share *= 1.2) {
            double[] decay = new double[errors.length];
            for (int i = 0; i < decay.length; i++) {
                decay[i] = Math.exp(-i / (share * decay.length));
            }
            double[] fit = line(decay, errors);
            if (fit[1] < best) {
                best = fit[1];
                amplitude = fit[0];
            }
        }
        if (best < 2 * MUCH_BETTER * Math.min(ofLine(), ofLeak()) && Math.abs(amplitude) > allowed[0] / 2) {
            add(
                    FindingKind.LAMP_WARM_UP,
                    steps.get(0).step().number(),
                    "errors begin at " + Figures.signed(errors[0])
                            + " and die away in the single pass, as while a lamp warms up; in a single pass drift and slope"
                            + " cannot be separated");
        }
    }

    /** The drift that is seen while steps stay in the gate, if it also explains most of the errors. */
    private void addDrift(PassDrift drift) {
        double[] left = new double[errors.length];
        for (int i = 0; i < left.length; i++) {
            left[i] = errors[i] - drift.atStep(steps.get(i).step().number()).orElse(0);
        }
        if (aboutMean(left) < EXPLAINED * Math.min(squares(errors), 2 * aboutMean(errors))) {
            add(
                    drift.isDyingAway() ? FindingKind.LAMP_WARM_UP : FindingKind.DRIFT_WITH_TIME,
                    steps.get(0).step().number(),
                    "readings change while a step stays in the gate, by " + drift + ", which explains the errors of"
                            + " the single pass" + (drift.isDyingAway() ? ", as while a lamp warms up" : ""));
        }
    }

    private static double aboutMean(double[] values) {
        double mean = Arrays.stream(values).average().orElse(0);
        return Arrays.stream(values)
                .map(value -> (value - mean) * (value - mean))
                .sum();
    }

    /** The slope of the least-squares line, and the sum of squares that it leaves. */
    private static double[] line(double[] x, double[] y) {
        double meanX = Arrays.stream(x).average().orElse(0);
        double meanY = Arrays.stream(y).average().orElse(0);
        double spread = 0;
        double product = 0;
        for (int i = 0; i < x.length; i++) {
            spread += (x[i] - meanX) * (x[i] - meanX);
            product += (x[i] - meanX) * (y[i] - meanY);
        }
        double slope = product / spread;
        double rest = 0;
        for (int i = 0; i < x.length; i++) {
            double left = y[i] - meanY - slope * (x[i] - meanX);
            rest += left * left;
        }
        return new double[] {slope, rest};
    }

    /** Without counts: one shift between two steps, with no trend on either side. */
    private void findJump() {
        double best = Double.POSITIVE_INFINITY;
        int at = 0;
        double height = 0;
        for (int split = 2; split <= errors.length - 2; split++) {
            double low = Arrays.stream(errors, 0, split).average().orElse(0);
            double high = Arrays.stream(errors, split, errors.length).average().orElse(0);
            double rest = 0;
            for (int i = 0; i < errors.length; i++) {
                double left = errors[i] - (i < split ? low : high);
                rest += left * left;
            }
            if (rest < best) {
                best = rest;
                at = split;
                height = high - low;
            }
        }
        if (at > 0 && best < MUCH_BETTER * Math.min(ofLine(), ofLeak()) && Math.abs(height) > allowed[at] / 2) {
            add(
                    FindingKind.GAIN_RATIO_WRONG,
                    steps.get(at).step().number(),
                    "from step " + steps.get(at).step().number() + " on all densities are shifted by "
                            + Figures.signed(height) + ", as by a wrong ratio of gains");
        }
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}
