// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.summary.ArithmeticAudit;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;
import org.tonewedge.standards.densitometer.summary.DriftFigures;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/** One judgement of a densitometer in progress. */
final class Judgement {

    private static final double WARNING_SHARE = 0.5;
    private static final double COVERAGE = 2;
    private static final double MANY = 4;
    /** An arithmetic departure up to this fraction of the tolerance is a note. */
    private static final double NEGLIGIBLE_SHARE = 0.1;
    /** The largest fraction of the tolerance that the certificate's expanded uncertainty may take without a warning. */
    private static final double CERTIFICATE_SHARE = 0.5;

    private static final double CHANCE = 0.01;
    private static final double DRIFT_COVERAGE = 3;

    private final DensitometerCheck check;
    private final DensityTolerance tolerance;
    private final DecisionRule rule;
    private final ReadingsSummary summary;
    private final List<Finding> findings = new ArrayList<>();
    private final CertificateComparison comparison;
    private final CertificateComparison optical;
    private final boolean arithmeticIsWrong;
    private final boolean soFar;
    /** Steps whose lack, or presence beyond the tablet, is explained. */
    private final Set<Integer> explainedSteps;
    /** Runs whose readings were moved to their own steps. */
    private final Set<Integer> runsInPlace;

    Judgement(DensitometerCheck check, ReadingsSummary summary, boolean soFar) {
        this(check, summary, soFar, Set.of(), Set.of());
    }

    private Judgement(
            DensitometerCheck check,
            ReadingsSummary summary,
            boolean soFar,
            Set<Integer> explainedSteps,
            Set<Integer> runsInPlace) {
        this.check = check;
        this.tolerance = check.tolerance();
        this.rule = check.rule();
        this.summary = summary;
        this.soFar = soFar;
        this.explainedSteps = explainedSteps;
        this.runsInPlace = runsInPlace;
        comparison = comparison(summary.densities());
        ArithmeticFault fault = summary.audit().flatMap(ArithmeticAudit::fault).orElse(null);
        arithmeticIsWrong = fault != null
                && fault != ArithmeticFault.STRAY_READINGS
                && fault != ArithmeticFault.DECIMALS_CUT_OFF
                && !isNegligible(summary.audit().orElseThrow().greatestDeparture());
        optical = arithmeticIsWrong ? comparison(summary.recomputed()) : comparison;
    }

    private boolean isNegligible(double departure) {
        double least = summary.densities().stream()
                .mapToDouble(step -> tolerance.at(step.step().density().value()))
                .min()
                .orElse(tolerance.at(0));
        return departure <= NEGLIGIBLE_SHARE * least;
    }

    private CertificateComparison comparison(List<StepReadings> steps) {
        return CertificateComparison.of(
                steps.stream().filter(step -> check.isJudged(step.step())).toList(),
                summary.resolution().orElse(0),
                " (" + summary.tally() + ")" + outsideLimits(" and ", "; is the sign reversed?"));
    }

    private String outsideLimits(String before, String after) {
        long lines = summary.tally().count(LineKind.IMPLAUSIBLE);
        return lines == 0
                ? ""
                : before + lines + (lines == 1 ? " line has a density" : " lines have densities") + " outside −0.2…10"
                        + after;
    }

    DensitometerVerdict verdict() {
        List<StepVerdict> steps = new ArrayList<>();
        for (StepTablet.Step step : summary.tablet().steps()) {
            if (check.isJudged(step)) {
                steps.add(judge(step));
            }
        }
        findArithmetic();
        boolean isNamed = summary.audit()
                .flatMap(ArithmeticAudit::fault)
                .filter(fault -> fault != ArithmeticFault.UNEXPLAINED)
                .isPresent();
        NamedFaults named = NamedFaults.of(summary, optical, tolerance, runsInPlace);
        int place = arithmeticIsWrong && isNamed ? 1 : 0;
        if (named.inPlace() != summary && isEnough(named.inPlace())) {
            Set<Integer> explained = new TreeSet<>(explainedSteps);
            explained.addAll(named.explainedSteps());
            DensitometerVerdict rest =
                    new Judgement(check, named.inPlace(), soFar, explained, named.runsInPlace()).verdict();
            findings.clear();
            findings.addAll(rest.findings());
            findings.addAll(place, named.found());
            return verdict(steps, rest.realignedSummary(), rest.opticalComparison());
        }
        findings.addAll(place, named.found());
        if (isFormulaSuspected()) {
            findings.removeIf(finding ->
                    finding.kind() == FindingKind.ARITHMETIC_SUSPECTED && finding.severity() != Severity.FAULT);
        }
        boolean explained = isWhollyExplained();
        if (!explained) {
            findOffsetAndSlope();
        }
        findShape(explained);
        findScatter(steps);
        findDrift();
        findGaps(steps);
        return verdict(steps, summary, optical);
    }

    private DensitometerVerdict verdict(
            List<StepVerdict> steps, ReadingsSummary realigned, CertificateComparison ofInstrument) {
        return new DensitometerVerdict(
                summary,
                realigned,
                tolerance,
                rule,
                List.copyOf(steps),
                List.copyOf(findings),
                comparison,
                ofInstrument,
                arithmeticIsWrong,
                outcome(steps),
                soFar);
    }

    private boolean isEnough(ReadingsSummary moved) {
        return moved.densities().stream()
                        .filter(step -> check.isJudged(step.step()))
                        .count()
                >= CertificateComparison.FEWEST_STEPS;
    }

    private CheckOutcome outcome(List<StepVerdict> steps) {
        boolean failed = findings.stream().anyMatch(finding -> finding.severity() == Severity.FAULT)
                || steps.stream()
                        .anyMatch(step -> step.outcome() == StepOutcome.FAIL
                                || (step.outcome() == StepOutcome.NOT_READ && !soFar));
        if (failed) {
            return CheckOutcome.FAILED;
        }
        return steps.stream().allMatch(step -> step.outcome() == StepOutcome.PASS)
                ? CheckOutcome.PASSED
                : CheckOutcome.UNDECIDED;
    }

    private StepVerdict judge(StepTablet.Step step) {
        double allowed = tolerance.at(step.density().value());
        for (int i = 0; i < comparison.steps().size(); i++) {
            StepReadings readings = comparison.steps().get(i);
            if (readings.step().equals(step)) {
                double ofMean = comparison.uncertaintyOfMean(i);
                double expanded = COVERAGE * Math.hypot(ofMean, step.standardUncertainty());
                StepOutcome outcome = rule.decide(readings.error(), allowed, expanded);
                return new StepVerdict(step, outcome, allowed, readings, ofMean, budget(readings));
            }
        }
        return new StepVerdict(step, StepOutcome.NOT_READ, allowed, null, 0, null);
    }

    private UncertaintyBudget budget(StepReadings readings) {
        Map<BudgetSource, UncertaintyBudget.Entry> entries = new EnumMap<>(BudgetSource.class);
        if (comparison.isRepeatabilityKnown()) {
            entries.put(BudgetSource.REPEATABILITY, comparison.repeatabilityOf(readings));
        }
        if (comparison.isBetweenRunsKnown()) {
            entries.put(BudgetSource.BETWEEN_RUNS, comparison.betweenRunsOf(readings));
        }
        entries.put(BudgetSource.RESOLUTION, stated(comparison.resolutionAt(readings) / Math.sqrt(12)));
        entries.put(BudgetSource.CERTIFICATE, stated(readings.step().standardUncertainty()));
        DriftFigures drift = summary.drift();
        significant(drift, drift.perHour())
                .ifPresent(slope -> entries.put(
                        BudgetSource.DRIFT_WITH_TIME,
                        stated(Math.abs(slope.value()) * drift.hoursSpanned() / Math.sqrt(12))));
        significant(drift, drift.perKelvin())
                .ifPresent(slope -> entries.put(
                        BudgetSource.DRIFT_WITH_TEMPERATURE,
                        stated(Math.abs(slope.value()) * drift.kelvinsSpanned() / Math.sqrt(12))));
        return new UncertaintyBudget(entries);
    }

    private UncertaintyBudget.Entry stated(double standardUncertainty) {
        return new UncertaintyBudget.Entry(standardUncertainty, Double.POSITIVE_INFINITY);
    }

    private Optional<Estimate> significant(DriftFigures drift, Optional<Estimate> slope) {
        return slope.filter(drift::isSignificant);
    }

    private Severity severity(double effect, double allowed) {
        if (Math.abs(effect) > allowed) {
            return Severity.FAULT;
        }
        return Math.abs(effect) > WARNING_SHARE * allowed ? Severity.WARNING : Severity.NOTE;
    }

    /** Adds a finding whose effect takes a good part of what is allowed at a step. */
    private void add(FindingKind kind, StepReadings at, double effect, String words) {
        addSized(
                kind,
                at,
                effect,
                words + ", an effect of " + Figures.signed(effect) + " at step "
                        + at.step().number());
    }

    private void addScatter(FindingKind kind, StepReadings at, double effect, String words) {
        addSized(
                kind,
                at,
                effect,
                words + " by ±" + Figures.plain(effect) + " (twice their standard deviation) at step "
                        + at.step().number());
    }

    private void addSized(FindingKind kind, StepReadings at, double effect, String words) {
        double allowed = tolerance.at(at.step().density().value());
        Severity severity = severity(effect, allowed);
        if (severity != Severity.NOTE) {
            findings.add(Finding.of(kind, severity, words + " where " + Figures.plain(allowed) + " is allowed")
                    .atStep(at.step().number())
                    .withEffect(effect, allowed));
        }
    }

    private StepReadings densest() {
        return optical.steps().get(optical.steps().size() - 1);
    }

    private void findArithmetic() {
        summary.audit()
                .ifPresent(audit -> audit.fault().ifPresent(fault -> {
                    Severity severity = isNegligible(audit.greatestDeparture())
                            ? Severity.NOTE
                            : arithmeticIsWrong ? Severity.FAULT : Severity.WARNING;
                    findings.add(Finding.of(
                                    FindingKind.ARITHMETIC,
                                    severity,
                                    fault.description() + " (" + fault + "): only " + audit.agreeing() + " of "
                                            + audit.readings()
                                            + " printed densities follow from their counts, the furthest is "
                                            + Figures.plain(audit.greatestDeparture()) + " off")
                            .withEffect(audit.greatestDeparture(), 0)
                            .withRemedy(fault.remedy()));
                }));
        if (summary.isOpenDarkAssumed()) {
            boolean matters = summary.printed().isEmpty();
            findings.add(Finding.of(
                    FindingKind.OPEN_DARK_NOT_STATED,
                    matters ? Severity.WARNING : Severity.NOTE,
                    "the log does not give the dark counts of the open gate at its own gain and time, so that "
                            + (matters
                                    ? "the densities rest on the dark counts of the sample"
                                    : "the firmware's arithmetic is judged only where they do not matter")));
        }
        if (!summary.implausibleSteps().isEmpty()) {
            findings.add(Finding.of(
                    FindingKind.IMPLAUSIBLE_DENSITIES,
                    Severity.FAULT,
                    outsideLimits("", ", including most readings of " + named(summary.implausibleSteps()))));
        }
        if (summary.printed().isEmpty() && summary.tally().hasUnusedNumbers()) {
            findings.add(Finding.of(
                    FindingKind.DENSITY_NOT_USED,
                    Severity.WARNING,
                    "the densities are computed from the counts, and other numbers in the log are not used; if one is"
                            + " the density that the firmware prints, it was not judged"));
        }
        if (summary.audit().isEmpty() && !summary.printed().isEmpty()) {
            double slope = comparison.slope().value();
            suspect(slope, Math.log(10), "the natural logarithm");
            suspect(slope, 1 / Math.log10(2), "the logarithm to base 2");
            if (readsBelowZero()) {
                suspect(slope, -1, "a reversed sign");
            }
        }
    }

    private boolean readsBelowZero() {
        return comparison.steps().stream().mapToDouble(StepReadings::mean).sum() < 0;
    }

    private void suspect(double slope, double wrong, String cause) {
        double closeness = 0.03;
        if (Math.abs(slope / wrong - 1) < closeness) {
            findings.add(Finding.of(
                    FindingKind.ARITHMETIC_SUSPECTED,
                    Severity.WARNING,
                    "the slope " + Figures.plain(slope) + " is what " + cause + " would give"));
        }
    }

    /**
     * Whether the tablet was read from its other end, or a formula or wrong step numbers explain the readings: offset,
     * slope and departures from a line then say nothing more.
     */
    private boolean isWhollyExplained() {
        return isReversed() || isFormulaSuspected() || isFault(FindingKind.STEPS_MISNUMBERED);
    }

    private boolean isFormulaSuspected() {
        return isFault(FindingKind.ARITHMETIC_SUSPECTED);
    }

    private boolean isFault(FindingKind kind) {
        return findings.stream().anyMatch(finding -> finding.kind() == kind && finding.severity() == Severity.FAULT);
    }

    private boolean isReversed() {
        return optical.slope().value() < 0 && !readsBelowZero();
    }

    /** An offset or slope that the uncertainties explain is not reported; nor is an offset if readings fall. */
    private void findOffsetAndSlope() {
        boolean leaks = optical.isLeakSignificant();
        Estimate offset = leaks ? optical.zeroOffsetBesideLeak().orElseThrow() : optical.zeroOffset();
        Estimate slope = leaks ? optical.slopeBesideLeak().orElseThrow() : optical.slope();
        boolean offsets = slope.value() > 0 && Math.abs(offset.value()) > offset.expandedUncertainty(COVERAGE);
        boolean slopes = Math.abs(slope.value() - 1) > slope.expandedUncertainty(COVERAGE);
        double reach = densest().step().density().value();
        String sloping = "the slope is " + Figures.plain(slope.value()) + " instead of 1";
        if (slopes && mayBeDrift(slope.value(), reach)) {
            findDriftOrSlope(offsets ? offset.value() : 0, (slope.value() - 1) * reach, sloping);
            return;
        }
        if (offsets) {
            add(
                    FindingKind.ZERO_OFFSET,
                    optical.steps().get(0),
                    offset.value(),
                    "the line through the steps meets density 0 at " + Figures.signed(offset.value()));
        }
        if (slopes) {
            add(FindingKind.SLOPE, densest(), (slope.value() - 1) * reach, sloping);
        }
    }

    /** In a single pass, a drift gives the same readings as a slope, with or without an offset. */
    private void findDriftOrSlope(double offset, double effect, String sloping) {
        String words = sloping + (offset == 0 ? "" : " and the line meets density 0 at " + Figures.signed(offset))
                + ", or the instrument drifted: in this single pass, drift and slope give the same readings";
        StepReadings clearest = optical.steps().get(0);
        boolean atDense = Math.abs(effect)
                        / tolerance.at(densest().step().density().value())
                > Math.abs(offset) / tolerance.at(clearest.step().density().value());
        int before = findings.size();
        add(FindingKind.DRIFT_OR_SLOPE, atDense ? densest() : clearest, atDense ? effect : offset, words);
        if (findings.size() == before) {
            findings.add(Finding.of(FindingKind.DRIFT_NOT_SEPARABLE, Severity.NOTE, words));
        }
    }

    /** Whether readings taken while a step stayed in the gate leave room for a drift of this size in the single pass. */
    private boolean mayBeDrift(double slope, double reach) {
        boolean named = findings.stream()
                .anyMatch(finding ->
                        finding.severity() == Severity.FAULT || finding.kind() == FindingKind.ARITHMETIC_SUSPECTED);
        if (summary.runsKept() != 1 || !(slope > 0) || named) {
            return false;
        }
        return summary.passDrift()
                .map(drift -> Math.abs(drift.perReading().value() * drift.readings() - (slope - 1) * reach)
                        <= DRIFT_COVERAGE * drift.perReading().standardUncertainty() * drift.readings())
                .orElse(true);
    }

    private void findShape(boolean explained) {
        double reach = densest().step().density().value();
        boolean leaks = optical.isLeakSignificant();
        if (leaks && !explained) {
            Estimate leak = optical.leak().orElseThrow();
            String amount = String.format(Locale.ROOT, "%.2e", leak.value());
            add(
                    leak.value() > 0 ? FindingKind.STRAY_LIGHT : FindingKind.DARK_OVERSUBTRACTED,
                    densest(),
                    -optical.lossByLeak(reach),
                    "the detector sees a transmittance of " + amount + " in addition to the sample's"
                            + (leak.value() > 0
                                    ? ", so nothing reads above D " + Figures.plain(-Math.log10(leak.value()))
                                    : ""));
        }
        double[] departures = leaks ? optical.departuresFromLeak() : optical.departures();
        int worst = CertificateComparison.indexOfLargest(departures);
        if (!explained && optical.probabilityOf(departures, leaks ? 3 : 2) < CHANCE) {
            add(
                    FindingKind.NON_LINEAR,
                    optical.steps().get(worst),
                    departures[worst],
                    "the largest departure from " + (leaks ? "the line with leak" : "the line"));
        }
        if (isFormulaSuspected()) {
            return;
        }
        if (optical.slope().value() < 0) {
            Finding falls = Finding.of(
                    FindingKind.NOT_MONOTONE,
                    Severity.FAULT,
                    "readings fall where the certificate rises"
                            + (readsBelowZero()
                                    ? ""
                                    : ", as when the tablet is read from its other end, or as transmittances do"));
            findings.add(
                    readsBelowZero()
                            ? falls
                            : falls.withRemedy(
                                    "number the steps from the clear end, or state the order of a log without"
                                            + " step numbers (from-dense-end); log densities, not transmittances"));
            return;
        }
        optical.saturatedFrom()
                .ifPresent(step -> findings.add(Finding.of(
                                FindingKind.SATURATED,
                                Severity.FAULT,
                                "from step " + step
                                        + " on, readings rise by less than a fifth of what the certificate does")
                        .atStep(step)));
        for (int step : optical.fallingSteps()) {
            findings.add(Finding.of(
                            FindingKind.NOT_MONOTONE,
                            Severity.FAULT,
                            "step " + step + " is read as less dense than the step before it")
                    .atStep(step));
        }
    }

    private void findScatter(List<StepVerdict> steps) {
        boolean anyRepeats = false;
        boolean anyRuns = false;
        StepReadings[] worst = new StepReadings[3];
        double[] share = new double[3];
        double[] effect = new double[3];
        for (StepReadings step : optical.steps()) {
            double allowed = tolerance.at(step.step().density().value());
            anyRepeats |= step.repeatability().isPresent();
            anyRuns |= step.betweenRuns().isPresent();
            double[] sizes = {
                COVERAGE * optical.repeatabilityOf(step).standardUncertainty(),
                COVERAGE
                        * Math.hypot(
                                optical.repeatabilityOf(step).standardUncertainty(),
                                optical.betweenRunsOf(step).standardUncertainty()),
                optical.resolutionAt(step) / 2
            };
            for (int i = 0; i < sizes.length; i++) {
                if (worst[i] == null || sizes[i] / allowed > share[i]) {
                    worst[i] = step;
                    share[i] = sizes[i] / allowed;
                    effect[i] = sizes[i];
                }
            }
        }
        addScatter(FindingKind.REPEATABILITY, worst[0], effect[0], "single readings of a run scatter");
        if (anyRuns && effect[1] > effect[0] * (1 + 1e-9)) {
            addScatter(FindingKind.REPRODUCIBILITY, worst[1], effect[1], "single readings of different runs scatter");
        }
        if (!isFormulaSuspected() && findings.stream().noneMatch(finding -> finding.kind() == FindingKind.RESOLUTION)) {
            add(FindingKind.RESOLUTION, worst[2], effect[2], "half of the smallest step of density");
        }
        if (!anyRepeats) {
            findings.add(Finding.of(
                    FindingKind.TOO_FEW_READINGS,
                    Severity.WARNING,
                    "no step was read twice within a run, so the scatter of readings is not known"));
        }
        if (anyRepeats && optical.scatters() == 0) {
            findings.add(Finding.of(
                    FindingKind.RESOLUTION,
                    Severity.NOTE,
                    "all readings of a step are equal, so their scatter is hidden by the resolution: their uncertainty is"
                            + " 0.29 of the smallest step of density, " + Figures.plain(effect[2] / Math.sqrt(3))
                            + " at most, as for a rectangular distribution (JCGM 100:2008, F.2.2.1)"));
        }
        findNormalisedErrors(steps);
    }

    private static double normalised(StepVerdict step) {
        return Math.abs(step.normalisedError().orElse(0));
    }

    private void findNormalisedErrors(List<StepVerdict> steps) {
        List<StepVerdict> beyond = steps.stream()
                .filter(step -> normalised(step) > 1)
                .sorted(Comparator.comparingDouble(Judgement::normalised).reversed())
                .toList();
        if (!beyond.isEmpty() && comparison.probabilityOf(comparison.errors(), 0) < CHANCE) {
            StepVerdict worst = beyond.get(0);
            findings.add(Finding.of(
                            FindingKind.NORMALISED_ERROR,
                            Severity.NOTE,
                            "the normalised error exceeds 1 at " + beyond.size() + " of " + steps.size()
                                    + " steps, largest at step " + worst.step().number() + ": "
                                    + Figures.signed(Math.rint(100
                                                    * worst.normalisedError().orElseThrow())
                                            / 100))
                    .atStep(worst.step().number())
                    .withEffect(worst.error().orElseThrow(), worst.expandedUncertaintyOfError()));
        }
        findWideCertificate(steps);
        if (steps.stream().anyMatch(step -> step.step().standardUncertainty() == 0)) {
            findings.add(Finding.of(
                    FindingKind.CERTIFICATE_WITHOUT_UNCERTAINTY,
                    Severity.WARNING,
                    "some steps are certified without an uncertainty, so their normalised error is too large"));
        }
    }

    private void findWideCertificate(List<StepVerdict> steps) {
        List<StepVerdict> wide = steps.stream()
                .filter(step -> COVERAGE * step.step().standardUncertainty() > CERTIFICATE_SHARE * step.allowed())
                .toList();
        if (wide.isEmpty()) {
            return;
        }
        StepVerdict widest = wide.stream()
                .max(Comparator.comparingDouble(step -> step.step().standardUncertainty() / step.allowed()))
                .orElseThrow();
        double expanded = COVERAGE * widest.step().standardUncertainty();
        findings.add(Finding.of(
                        FindingKind.CERTIFICATE_TOO_UNCERTAIN,
                        Severity.WARNING,
                        "the certificate's expanded uncertainty is more than half of the tolerance at " + wide.size()
                                + " of " + steps.size() + " steps, largest at step "
                                + widest.step().number() + ": " + Figures.plain(expanded) + " where "
                                + Figures.plain(widest.allowed()) + " is allowed")
                .atStep(widest.step().number())
                .withEffect(expanded, widest.allowed()));
    }

    private void findDrift() {
        DriftFigures drift = summary.drift();
        significant(drift, drift.perHour())
                .ifPresent(slope -> add(
                        FindingKind.DRIFT_WITH_TIME,
                        optical.steps().get(0),
                        slope.value() * drift.hoursSpanned(),
                        "readings drift by " + Figures.signed(slope.value()) + " per hour over "
                                + Figures.plain(drift.hoursSpanned()) + " hours"));
        significant(drift, drift.perKelvin())
                .ifPresent(slope -> add(
                        FindingKind.DRIFT_WITH_TEMPERATURE,
                        optical.steps().get(0),
                        slope.value() * drift.kelvinsSpanned(),
                        "readings drift by " + Figures.signed(slope.value()) + " per kelvin over "
                                + Figures.plain(drift.kelvinsSpanned()) + " kelvins"));
        if (!drift.isSeparable() && significant(drift, drift.perHour()).isPresent()) {
            findings.add(Finding.of(
                    FindingKind.DRIFT_NOT_SEPARABLE,
                    Severity.NOTE,
                    "time and temperature changed together, so the cause of the drift is unknown"));
        }
    }

    /** Such as step 4, or steps 4, 5 and 9. */
    private static String named(Collection<Integer> steps) {
        List<String> numbers = steps.stream().map(String::valueOf).toList();
        int last = numbers.size() - 1;
        return last == 0
                ? "step " + numbers.get(0)
                : "steps " + String.join(", ", numbers.subList(0, last)) + " and " + numbers.get(last);
    }

    private void findGaps(List<StepVerdict> steps) {
        for (StepVerdict step : steps) {
            int number = step.step().number();
            long beyond = summary.overrange(number) + summary.belowDark(number);
            if (beyond > 0) {
                findings.add(Finding.of(
                                FindingKind.STEP_OVERRANGE,
                                Severity.WARNING,
                                "step " + number + " was " + summary.overrange(number)
                                        + " times marked as beyond the range and " + summary.belowDark(number)
                                        + " times not above the dark counts")
                        .atStep(number));
            }
        }
        List<Integer> missing = steps.stream()
                .filter(step -> step.outcome() == StepOutcome.NOT_READ)
                .map(step -> step.step().number())
                .filter(number -> !explainedSteps.contains(number))
                .toList();
        if (!missing.isEmpty()) {
            findings.add(Finding.of(
                            FindingKind.STEP_NOT_READ,
                            soFar ? Severity.WARNING : Severity.FAULT,
                            named(missing) + (missing.size() == 1 ? " has" : " have") + " no density")
                    .atStep(missing.get(0)));
        }
        List<Integer> strange = summary.strangeSteps().stream()
                .filter(number -> !explainedSteps.contains(number))
                .toList();
        if (!strange.isEmpty()) {
            findings.add(Finding.of(
                    FindingKind.UNKNOWN_STEP,
                    Severity.FAULT,
                    "the log has " + named(strange) + ", the tablet has "
                            + summary.tablet().steps().size()));
        }
        long damaged = summary.tally().damaged()
                - (summary.implausibleSteps().isEmpty() ? 0 : summary.tally().count(LineKind.IMPLAUSIBLE));
        if (damaged > 0) {
            boolean many = damaged * 100 > MANY * summary.tally().count(LineKind.READING);
            findings.add(Finding.of(
                    FindingKind.DAMAGED_LINES,
                    many ? Severity.WARNING : Severity.NOTE,
                    damaged == 1
                            ? "1 line may be a reading that was damaged in transmission"
                            : damaged + " lines may be readings that were damaged in transmission"));
        }
    }
}
