// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import static org.tonewedge.examples.page.Page.escape;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.TableMarkup;
import org.tonewedge.examples.page.TableMarkup.Field;
import org.tonewedge.examples.page.TableMarkup.Heading;
import org.tonewedge.fitting.development.Caution;
import org.tonewedge.fitting.development.ContrastFit;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentException;
import org.tonewedge.fitting.development.LeftOutStrip;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedFigure;
import org.tonewedge.fitting.development.PredictedTime;
import org.tonewedge.fitting.development.TimeTemperatureTable;

/** The page of a development plan: one HTML file with its style inside, beside its plots; needs no network. */
final class DevelopmentPage {

    private static final double TABLE_STEP = 1;

    private static final Field NONE = new Field("–", "", "none");

    private final StringBuilder html = new StringBuilder();
    private final DevelopmentReport report;
    private final Set<ChartFiles.Format> plots;

    private DevelopmentPage(DevelopmentReport report, Set<ChartFiles.Format> plots) {
        this.report = report;
        this.plots = plots;
    }

    static void write(
            DevelopmentReport report,
            String title,
            List<String> notes,
            Set<ChartFiles.Format> plots,
            Provenance provenance,
            Path file)
            throws IOException {
        Files.writeString(file, new DevelopmentPage(report, plots).page(title, notes, provenance));
    }

    private String page(String title, List<String> notes, Provenance provenance) {
        Strip first = report.series().strips().get(0);
        String lead = first.film() + " in " + first.processing().developer().orElse("a developer not stated") + "; "
                + report.series().strips().size() + " test strips.";
        body();
        return new Page(title, lead, notes, plots)
                .markup(html.toString())
                .provenance(provenance)
                .finished();
    }

    private void body() {
        paragraph("answer", report.advice());
        cautions();
        html.append("<h2>Plan</h2>\n");
        paragraph(
                "hint",
                "Uncertainties are standard uncertainties (k = 1): they include the readings of the strips, the choice of"
                        + " the model, and the repeatability of development if it is stated. Times are rounded to 5 s,"
                        + " which their uncertainties include."
                        + " Speed is the effective speed 0.8/H of the point 0.10 above base plus fog; it is an ISO speed"
                        + " only if the contrast condition is met. Full precision is in plan.csv.");
        plan("Times for the targets", report.plan().developments());
        html.append("<h2>Contraction and expansion</h2>\n");
        paragraph(
                "hint",
                "N meets the ISO contrast condition; after N+1 a subject one stop shorter, after N\u22121 one a stop longer,"
                        + " has the density range that the normal subject has after N, each from its own speed point"
                        + " (common practice, no source). The last column is the speed gained over N.");
        plan("Times for flatter and harder subjects", report.expansions().developments());
        html.append("<h2>Contrast against time</h2>\n");
        figure("contrast-time", "Contrast of each strip and the fitted growth with time, within the tested times.");
        evidence();
        temperatures();
        html.append("<h2>Family of curves</h2>\n");
        figure(
                "family",
                "Readings of each strip, the curves of the family at their times, and the curve of the planned time in"
                        + " black.");
        checks();
    }

    private void paragraph(String style, String text) {
        html.append("<p class=\"")
                .append(style)
                .append("\">")
                .append(escape(text))
                .append("</p>\n");
    }

    private void cautions() {
        html.append("<ul class=\"cautions\">\n");
        for (Caution caution : report.cautions()) {
            html.append("<li>").append(escape(caution.description())).append("</li>\n");
        }
        html.append("</ul>\n");
    }

    private void plan(String caption, List<PlannedDevelopment> lines) {
        TableMarkup table = new TableMarkup(
                caption,
                List.of(
                        new Heading("Target", true),
                        new Heading("Contrast wanted", true),
                        new Heading("°C", false),
                        new Heading("Time", false),
                        new Heading("±", false),
                        new Heading("Contrast expected", false),
                        new Heading("Speed expected", false),
                        new Heading("Base + fog", false),
                        new Heading("Speed against N", false)));
        for (PlannedDevelopment line : lines) {
            table.row("", line.time().isPresent() ? "" : "refused", fields(line));
        }
        html.append(table.markup());
        lines.stream()
                .filter(line -> line.time().isPresent())
                .flatMap(line -> line.notes().stream())
                .distinct()
                .forEach(note -> paragraph("hint", note));
    }

    private List<Field> fields(PlannedDevelopment line) {
        Field target = Field.text(line.target().name());
        List<Field> fields = new ArrayList<>();
        fields.add(line.time().isPresent() ? target : target.under(escape(String.join(" ", line.notes())), "warn"));
        fields.add(Field.text(
                line.target().measure() + " = " + decimals(2, line.target().value())));
        fields.add(
                number(line.temperature().map(at -> DevelopmentTimes.inWords(at).replace(" °C", ""))));
        fields.add(line.time()
                .map(time -> new Field(
                        escape(DevelopmentTimes.inWords(time.time()) + (time.isExtrapolated() ? " *" : "")),
                        Double.toString(DevelopmentTimes.minutes(time.time())),
                        "time"))
                .orElse(NONE));
        fields.add(
                number(line.time().flatMap(PredictedTime::standardUncertainty).map(DevelopmentPage::seconds)));
        fields.add(number(line.contrast().map(figure -> plusMinus(figure, 3))));
        fields.add(number(line.effectiveSpeed().map(figure -> plusMinus(figure, figure.value() < 100 ? 1 : 0))));
        fields.add(number(line.basePlusFog().map(figure -> plusMinus(figure, 3))));
        fields.add(number(report.normal(line)
                .flatMap(line::speedGain)
                .map(ExposureInterval::stops)
                .map(DevelopmentPage::stops)));
        return fields;
    }

    private static Field number(Optional<String> text) {
        return text.map(found ->
                        Field.number(found, found.replace('\u2212', '-').replaceAll("[^-.\\d].*", "")))
                .orElse(NONE);
    }

    private static String seconds(Duration time) {
        return Math.round(DevelopmentTimes.minutes(time) * 60) + "\u00a0s";
    }

    private static String plusMinus(PredictedFigure figure, int decimals) {
        OptionalDouble uncertainty = figure.standardUncertainty();
        return uncertainty.isPresent()
                ? EstimateFormat.withDefaults().format(Estimate.of(figure.value(), uncertainty.getAsDouble()))
                : decimals(decimals, figure.value());
    }

    private static String stops(double stops) {
        String text = decimals(2, stops);
        return Double.parseDouble(text.replace('\u2212', '-')) == 0
                ? "0"
                : Figures.signed(Math.rint(stops * 100) / 100);
    }

    private static String decimals(int decimals, double value) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value).replace('-', '\u2212');
    }

    private void evidence() {
        TableMarkup table = new TableMarkup(
                "Models of contrast against time",
                List.of(
                        new Heading("Model", true),
                        new Heading("Evidence (less is better)", false),
                        new Heading("Ceiling", false),
                        new Heading("Rate per minute", false),
                        new Heading("Induction, min", false)));
        for (ContrastFit fit : report.contrast().fits()) {
            table.row(
                    "",
                    "",
                    List.of(
                            Field.text(fit.modelName()),
                            Double.isInfinite(fit.informationCriterion())
                                    ? new Field("too few strips", "", "")
                                    : number(Optional.of(decimals(1, fit.informationCriterion()))),
                            number(fit.ceiling().map(figure -> plusMinus(figure, 3))),
                            number(fit.ratePerMinute().map(figure -> plusMinus(figure, 4))),
                            number(fit.inductionMinutes().map(figure -> plusMinus(figure, 2)))));
        }
        html.append(table.markup());
        report.contrast().refusals().forEach(refusal -> paragraph("hint", "Not fitted: " + refusal + "."));
        report.contrast().best().notes().forEach(note -> paragraph("hint", note));
        report.contrast()
                .best()
                .referenceTemperature()
                .ifPresent(at -> paragraph(
                        "hint", "Rates and induction times are those at " + DevelopmentTimes.inWords(at) + "."));
    }

    private void temperatures() {
        List<Temperature> tested = report.series().temperatures();
        if (tested.size() < 2) {
            return;
        }
        ContrastFit fit = report.contrast().best();
        html.append("<h2>Time and temperature</h2>\n");
        fit.temperatureCoefficient(10)
                .ifPresent(factor -> paragraph(
                        "",
                        "Development is " + plusMinus(factor, 2) + " times as fast for 10 °C more ("
                                + fit.temperatureLaw().orElseThrow() + ")."));
        try {
            TimeTemperatureTable table = fit.timeTemperatureTable(
                    ContrastTarget.isoContrastCondition(), tested.get(0), tested.get(tested.size() - 1), TABLE_STEP);
            TableMarkup markup = new TableMarkup(
                    "Times for one contrast at other temperatures",
                    List.of(
                            new Heading("°C", false),
                            new Heading("Time for ΔD 0.80 over 1.30", false),
                            new Heading("±", false)));
            for (PredictedTime time : table.times()) {
                markup.row(
                        "",
                        "",
                        List.of(
                                number(time.temperature()
                                        .map(at -> DevelopmentTimes.inWords(at).replace(" °C", ""))),
                                new Field(
                                        escape(DevelopmentTimes.inWords(time.time())),
                                        Double.toString(DevelopmentTimes.minutes(time.time())),
                                        "time"),
                                number(time.standardUncertainty().map(DevelopmentPage::seconds))));
            }
            html.append(markup.markup());
        } catch (DevelopmentException e) {
            paragraph("hint", "There is no table: " + e.getMessage() + ".");
        }
    }

    private void checks() {
        paragraph(
                "hint",
                String.format(
                        Locale.ROOT,
                        "The readings scatter about the family by %.4f (residual standard deviation, %d parameters).",
                        report.family().residualStandardDeviation(),
                        report.family().parameterCount()));
        if (report.checks().isEmpty()) {
            paragraph("hint", "There are too few strips to leave one out.");
            return;
        }
        TableMarkup table = new TableMarkup(
                "Each strip predicted from the others",
                List.of(
                        new Heading("Strip left out", true),
                        new Heading("Time", false),
                        new Heading("RMS error", false),
                        new Heading("Greatest error", false),
                        new Heading("Remark", true)));
        for (LeftOutStrip check : report.checks()) {
            table.row(
                    "",
                    "",
                    List.of(
                            Field.text(check.strip()),
                            new Field(
                                    escape(DevelopmentTimes.inWords(check.time())),
                                    Double.toString(DevelopmentTimes.minutes(check.time())),
                                    ""),
                            number(Optional.of(decimals(3, check.rootMeanSquareDifference()))),
                            number(Optional.of(decimals(3, check.greatestDifference()))),
                            Field.text(check.isExtrapolated() ? "beyond the times of the others" : "")));
        }
        html.append(table.markup());
    }

    private void figure(String name, String caption) {
        html.append(Page.markupOf(new ReportFigure(name, "", caption), plots));
    }
}
