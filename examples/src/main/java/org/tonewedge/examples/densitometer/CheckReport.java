// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.ReadingCorrection;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.summary.DriftFigures;
import org.tonewedge.standards.densitometer.summary.StepReadings;
import org.tonewedge.standards.densitometer.verdict.BudgetSource;
import org.tonewedge.standards.densitometer.verdict.CertificateComparison;
import org.tonewedge.standards.densitometer.verdict.CheckOutcome;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.Finding;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;
import org.tonewedge.standards.densitometer.verdict.UncertaintyBudget;

/** What is told about a verdict, once, for the terminal and for a page. */
final class CheckReport {

    /** Uncertainties that differ by less than this part are the same. */
    private static final double ROUNDING = 1e-9;

    /** Of more degrees of freedom, t is that of infinitely many to the digits that are printed. */
    private static final int MOST_DEGREES = 10_000;

    private static final String NONE = "-";
    private static final String NOT_KNOWN = "not known";
    private static final String UNCERTAINTY_NOT_KNOWN = "u not known (no step was read twice)";

    private static final String FINDINGS = "Findings";
    private static final String LOG = "Log";

    private final String title;
    private final DensitometerVerdict verdict;
    private final List<Section> sections = new ArrayList<>();

    /** A heading with a table; the header may be empty. */
    private record Section(String heading, String note, List<String> header, List<List<String>> rows) {

        String headingWithNote() {
            return note.isEmpty() ? heading : heading + " (" + note + ")";
        }
    }

    CheckReport(String title, DensitometerVerdict verdict) {
        this.title = title;
        this.verdict = verdict;
    }

    /** The reason why a correction is withheld is empty if it is not. */
    static CheckReport of(DensitometerVerdict verdict, Optional<DensityCorrection> correction, String withheld) {
        CheckReport report = new CheckReport(
                (verdict.isSoFar() ? "So far: the densitometer " : "The densitometer ") + title(verdict.outcome()),
                verdict);
        report.addSummary(verdict);
        report.addFindings(verdict.findings());
        report.addFigures(verdict);
        report.addSteps(verdict);
        report.addBudget(verdict);
        report.addCorrection(verdict, correction, withheld);
        return report;
    }

    static String title(CheckOutcome outcome) {
        return switch (outcome) {
            case PASSED -> "PASSED";
            case FAILED -> "DID NOT PASS";
            case UNDECIDED -> "is UNDECIDED";
        };
    }

    void add(String heading, String note, List<String> header, List<List<String>> rows) {
        sections.add(new Section(heading, note, header, rows));
    }

    private void addSummary(DensitometerVerdict verdict) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("tablet", verdict.summary().tablet().toString()));
        rows.add(List.of("tolerance", verdict.tolerance() + " (" + verdict.rule() + ")"));
        LogTally tally = verdict.summary().tally();
        rows.add(List.of("log", tally.toString()));
        for (LineKind kind : LineKind.values()) {
            if (kind == LineKind.HEADER || kind == LineKind.COMMENT) {
                continue;
            }
            tally.examples(kind)
                    .forEach(example -> rows.add(
                            List.of("", kind.description() + ", line " + example.line() + ": " + example.text())));
        }
        add(LOG, "", List.of(), rows);
    }

    private void addFindings(List<Finding> findings) {
        add(
                FINDINGS,
                "",
                List.of(),
                findings.isEmpty()
                        ? List.of(List.of("nothing found"))
                        : findings.stream()
                                .map(found -> List.of(
                                        found.severity().name(),
                                        found.kind().name(),
                                        found.message() + "; " + found.remedy()))
                                .toList());
    }

    private void addFigures(DensitometerVerdict verdict) {
        CertificateComparison comparison = verdict.opticalComparison();
        List<List<String>> rows = new ArrayList<>();
        boolean known = comparison.isScatterKnown();
        rows.add(List.of("zero offset", estimate(comparison.zeroOffset(), 4, known)));
        rows.add(List.of("slope", estimate(comparison.slope(), 4, known)));
        if (comparison.isLeakSignificant()) {
            comparison
                    .zeroOffsetBesideLeak()
                    .ifPresent(offset -> rows.add(List.of("zero offset beside the leak", estimate(offset, 4, known))));
            comparison
                    .slopeBesideLeak()
                    .ifPresent(slope -> rows.add(List.of("slope beside the leak", estimate(slope, 4, known))));
        }
        int worst = comparison.indexOfGreatestDeparture();
        rows.add(List.of(
                "largest departure from the line",
                CheckWords.signed(comparison.greatestDeparture(), 4) + " at step "
                        + comparison.steps().get(worst).step().number()));
        comparison
                .lackOfFit()
                .ifPresent(ratio -> rows.add(List.of(
                        "lack of fit, F (scatter and certificate)",
                        decimals(ratio, 1) + " (probability "
                                + probability(comparison.lackOfFitProbability().orElse(1)) + ")")));
        comparison
                .leak()
                .ifPresent(leak -> rows.add(List.of(
                        "leak, as transmittance",
                        String.format(Locale.ROOT, "%.2e, ", leak.value())
                                + (known
                                        ? String.format(Locale.ROOT, "u = %.1e", leak.standardUncertainty())
                                        : UNCERTAINTY_NOT_KNOWN)
                                + (comparison.isLeakSignificant() ? "" : " (not significant)"))));
        rows.add(List.of("smallest step of density", decimals(verdict.summary().resolution(), 4)));
        verdict.steps().stream()
                .filter(step -> step.outcome() == StepOutcome.PASS)
                .max(Comparator.comparingDouble(
                        step -> step.probabilityOutOfTolerance().orElse(0)))
                .ifPresent(step -> rows.add(List.of(
                        "greatest risk of wrong acceptance",
                        probability(step.probabilityOutOfTolerance().orElse(0)) + " at step "
                                + step.step().number())));
        DriftFigures drift = verdict.summary().drift();
        drift.perHour().ifPresent(slope -> rows.add(List.of("drift per hour", estimate(slope, 4))));
        drift.perKelvin().ifPresent(slope -> rows.add(List.of("drift per kelvin", estimate(slope, 5))));
        verdict.summary()
                .audit()
                .ifPresent(audit -> rows.add(List.of(
                        "densities that follow from their counts", audit.agreeing() + " of " + audit.readings())));
        List<String> notes = new ArrayList<>();
        if (verdict.isArithmeticWrong()) {
            notes.add("of the densities recomputed from the counts");
        }
        if (verdict.realignedSummary() != verdict.summary()) {
            notes.add("with the readings behind a skipped or doubled step at their own steps");
        }
        add("Figures", String.join(", ", notes), List.of(), rows);
    }

    private void addSteps(DensitometerVerdict verdict) {
        List<List<String>> rows = new ArrayList<>();
        for (StepVerdict step : verdict.steps()) {
            Optional<StepReadings> readings = step.readings();
            rows.add(List.of(
                    Integer.toString(step.step().number()),
                    decimals(step.step().density().value(), 3),
                    decimals(2 * step.step().standardUncertainty(), 3),
                    readings.map(r -> decimals(r.mean(), 3)).orElse(NONE),
                    readings.map(r -> Long.toString(r.count())).orElse("0"),
                    readings.map(r -> Long.toString(r.runs())).orElse("0"),
                    step.error().isPresent() ? CheckWords.signed(step.error().getAsDouble(), 3) : NONE,
                    decimals(step.allowed(), 3),
                    readings.map(r -> decimals(r.repeatability(), 4)).orElse(NONE),
                    readings.map(r -> decimals(r.reproducibility(), 4)).orElse(NONE),
                    step.normalisedError().isPresent()
                            ? CheckWords.signed(step.normalisedError().getAsDouble(), 2)
                            : NONE,
                    step.budget().map(budget -> decimals(budget.expanded(), 3)).orElse(NONE),
                    step.outcome().name()));
        }
        add(
                "Steps",
                "s_r within runs, s_R over runs, En normalised error, U of one reading at 95 %",
                List.of(
                        "step",
                        "certified",
                        "U(k=2)",
                        "mean",
                        "n",
                        "runs",
                        "error",
                        "allowed",
                        "s_r",
                        "s_R",
                        "En",
                        "U",
                        "verdict"),
                rows);
    }

    private void addBudget(DensitometerVerdict verdict) {
        StepVerdict widest = null;
        for (StepVerdict step : verdict.steps()) {
            if (step.budget().isPresent()
                    && (widest == null
                            || step.budget().get().expanded()
                                    > (1 + ROUNDING) * widest.budget().get().expanded())) {
                widest = step;
            }
        }
        if (widest == null) {
            return;
        }
        UncertaintyBudget budget = widest.budget().get();
        List<List<String>> rows = new ArrayList<>();
        List<BudgetSource> missing = Stream.of(BudgetSource.REPEATABILITY, BudgetSource.BETWEEN_RUNS)
                .filter(source -> !budget.entries().containsKey(source))
                .toList();
        missing.forEach(source -> rows.add(List.of(source.name(), NOT_KNOWN, NONE)));
        String ofWhat = missing.isEmpty() ? "" : " (of what is known)";
        budget.entries()
                .forEach((source, entry) -> rows.add(List.of(
                        source.name(), decimals(entry.standardUncertainty(), 5), degrees(entry.degreesOfFreedom()))));
        rows.add(List.of(
                "combined" + ofWhat, decimals(budget.combined(), 5), degrees(budget.effectiveDegreesOfFreedom())));
        rows.add(List.of(
                "expanded" + ofWhat, decimals(budget.expanded(), 5), "k = " + decimals(budget.coverageFactor(), 2)));
        add(
                "Uncertainty of one reading",
                "at step " + widest.step().number() + ", where it is widest",
                List.of("source", "u", "degrees of freedom"),
                rows);
    }

    private void addCorrection(DensitometerVerdict verdict, Optional<DensityCorrection> correction, String withheld) {
        if (correction.isPresent()) {
            add(
                    "Correction",
                    verdict.isArithmeticWrong() ? "valid once the arithmetic is right" : "",
                    List.of(),
                    List.of(
                            List.of(
                                    correction.get().kind().name(),
                                    correction.get().toString()),
                            List.of(
                                    "gradients",
                                    "uncertain by " + decimals(100 * ofGradients(correction.get()), 2)
                                            + " % (k = 1) from the correction, the same for all films; figures of films read with"
                                            + " --correction correction.csv include it")));
        } else if (!withheld.isEmpty()) {
            add("Correction", "", List.of(), List.of(List.of("none", withheld)));
        }
    }

    /** What the errors that all readings share leave uncertain in a difference over the whole range, as a share of it. */
    private static double ofGradients(DensityCorrection correction) {
        ReadingCorrection common = correction.forReadings("the densitometer");
        double low = common.correct(Density.of(correction.lowestReading())).value();
        double high = common.correct(Density.of(correction.highestReading())).value();
        double squares = common.commonErrors().values().stream()
                .mapToDouble(error -> error.applyAsDouble(high) - error.applyAsDouble(low))
                .map(difference -> difference * difference)
                .sum();
        return Math.sqrt(squares) / (high - low);
    }

    private static String estimate(Estimate estimate, int decimals, boolean scatterIsKnown) {
        return scatterIsKnown
                ? estimate(estimate, decimals)
                : CheckWords.signed(estimate.value(), decimals) + ", " + UNCERTAINTY_NOT_KNOWN;
    }

    private static String estimate(Estimate estimate, int decimals) {
        return CheckWords.signed(estimate.value(), decimals) + ", u = "
                + decimals(estimate.standardUncertainty(), decimals);
    }

    private static String probability(double value) {
        return value < 0.001 ? "below 0.001" : decimals(value, 3);
    }

    private static String degrees(double value) {
        if (Double.isInfinite(value)) {
            return "infinite";
        }
        return value > MOST_DEGREES ? "above " + MOST_DEGREES : decimals(value, 0);
    }

    private static String decimals(OptionalDouble value, int decimals) {
        return value.isPresent() ? decimals(value.getAsDouble(), decimals) : NONE;
    }

    private static String decimals(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    String asText() {
        StringBuilder text = new StringBuilder(title).append(System.lineSeparator());
        for (Section section : sections) {
            text.append(System.lineSeparator())
                    .append(section.headingWithNote())
                    .append(System.lineSeparator());
            List<List<String>> all = new ArrayList<>(section.rows());
            if (!section.header().isEmpty()) {
                all.add(0, section.header());
            }
            int[] widths = widths(all);
            for (List<String> row : all) {
                StringBuilder line = new StringBuilder(" ");
                for (int i = 0; i < row.size(); i++) {
                    String cell = row.get(i);
                    String gap = " ".repeat(widths[i] - cell.length());
                    boolean right = !section.header().isEmpty() && i > 0;
                    line.append(' ').append(right ? gap + cell : cell + gap);
                }
                text.append(line.toString().stripTrailing()).append(System.lineSeparator());
            }
        }
        // A terminal may not have the true minus sign.
        return text.toString().replace('\u2212', '-');
    }

    private static int[] widths(List<List<String>> rows) {
        int[] widths = new int[rows.stream().mapToInt(List::size).max().orElse(0)];
        for (List<String> row : rows) {
            for (int i = 0; i < row.size(); i++) {
                widths[i] = Math.max(widths[i], row.get(i).length());
            }
        }
        return widths;
    }

    String asHtml(String plot, Set<ChartFiles.Format> plots, Provenance provenance) {
        return asHtml(
                new Page(CheckWords.title(verdict), "", List.of(), plots)
                        .figure(new ReportFigure(plot, "", "error of each step against its certified density")),
                plot,
                provenance);
    }

    /** A page without a figure. */
    String asHtml(String name, Provenance provenance) {
        return asHtml(new Page(title, "", List.of(), Set.of()), name, provenance);
    }

    private String asHtml(Page page, String plot, Provenance provenance) {
        for (Section section : sections) {
            if (section.heading().equals(FINDINGS)) {
                page.heading(FINDINGS).markup(CheckWords.findings(verdict.findings()));
                continue;
            }
            // lines of the log stand as they came
            List<List<String>> rows = section.heading().equals(LOG)
                    ? section.rows()
                    : section.rows().stream().map(CheckWords::typeset).toList();
            if (section.header().isEmpty()) {
                page.heading(section.headingWithNote()).markup(definitions(rows));
            } else {
                page.table(new ReportTable(plot, section.heading(), section.note(), section.header(), rows));
            }
        }
        return page.provenance(provenance).finished();
    }

    private static String definitions(List<List<String>> rows) {
        StringBuilder markup = new StringBuilder("<dl>\n");
        for (List<String> row : rows) {
            int last = row.size() - 1;
            markup.append("<dt>")
                    .append(Page.escape(String.join(" ", row.subList(0, last))))
                    .append("</dt><dd>")
                    .append(Page.escape(row.get(last)))
                    .append("</dd>\n");
        }
        return markup.append("</dl>\n").toString();
    }
}
