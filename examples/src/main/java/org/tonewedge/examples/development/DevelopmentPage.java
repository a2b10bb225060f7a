package org.tonewedge.examples.development;

import static org.tonewedge.examples.page.Page.escape;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.fitting.development.Caution;
import org.tonewedge.fitting.development.ContrastFit;
import org.tonewedge.fitting.development.DevelopmentException;
import org.tonewedge.fitting.development.DevelopmentTimes;
import org.tonewedge.fitting.development.LeftOutStrip;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedFigure;
import org.tonewedge.fitting.development.PredictedTime;
import org.tonewedge.fitting.development.TimeTemperatureTable;

/** The page of a development plan: one HTML file with its style inside, beside its plots; needs no network. */
final class DevelopmentPage {

    private static final double TABLE_STEP = 1;

    private final StringBuilder html = new StringBuilder();
    private final DevelopmentReport report;
    private final Set<ChartFiles.Format> plots;

    private DevelopmentPage(DevelopmentReport report, Set<ChartFiles.Format> plots) {
        this.report = report;
        this.plots = plots;
    }

    static void write(
            DevelopmentReport report, String title, List<String> notes, Set<ChartFiles.Format> plots, Path file)
            throws IOException {
        Files.writeString(file, new DevelopmentPage(report, plots).page(title, notes));
    }

    private String page(String title, List<String> notes) {
        Strip first = report.series().strips().get(0);
        String lead = first.film() + " in " + first.processing().developer().orElse("a developer not stated") + "; "
                + report.series().strips().size() + " test strips.";
        body();
        return new Page(title, lead, notes, plots)
                .markup("<style>\n" + Page.resource(DevelopmentPage.class, "development.css") + "</style>\n")
                .markup(html.toString())
                .finished();
    }

    private void body() {
        paragraph("answer", report.advice());
        cautions();
        html.append("<h2>Plan</h2>\n");
        paragraph(
                "hint",
                "Uncertainties are standard uncertainties (k = 1): they hold the readings of the strips, the choice of"
                        + " the model, and the repeatability of development where it is stated. Times are rounded to 5 s."
                        + " Speed is the effective speed 0.8/H of the point 0.10 above base plus fog; it is an ISO speed"
                        + " only where the contrast condition is met. Full precision is in plan.csv.");
        plan(report.plan().developments());
        html.append("<h2>Contraction and expansion</h2>\n");
        paragraph(
                "hint",
                "N is the ISO contrast condition; N\u22121 and N+1 give a subject one stop longer or shorter the density"
                        + " range of the normal one (common practice, no source). The last column is the speed gained on N.");
        plan(report.expansions().developments());
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
            html.append("<li>").append(escape(caution.text())).append("</li>\n");
        }
        html.append("</ul>\n");
    }

    private void plan(List<PlannedDevelopment> lines) {
        html.append(
                "<div class=\"wide\"><table class=\"plain\">\n<thead><tr><th class=\"text\">Target</th><th class=\"text\">Contrast"
                        + " wanted</th><th>°C</th><th>Time</th><th>±</th><th>Contrast expected</th><th>Speed expected</th>"
                        + "<th>Base + fog</th><th>Speed against N</th></tr></thead>\n<tbody>\n");
        for (PlannedDevelopment line : lines) {
            html.append(line.time().isPresent() ? "<tr>" : "<tr class=\"refused\">");
            text(line.target().name());
            text(line.target().measure() + " = " + decimals(2, line.target().value()));
            cell(line.temperature()
                    .map(at -> DevelopmentTimes.inWords(at).replace(" °C", ""))
                    .orElse("–"));
            if (line.time().isPresent()) {
                PredictedTime time = line.time().get();
                html.append("<td class=\"time\">")
                        .append(DevelopmentTimes.inWords(time.time()))
                        .append(time.isExtrapolated() ? " *" : "")
                        .append("</td>");
                cell(time.standardUncertainty().map(DevelopmentPage::seconds).orElse("–"));
                cell(line.contrast().map(figure -> plusMinus(figure, 3)).orElse("–"));
                cell(line.effectiveSpeed()
                        .map(figure -> plusMinus(figure, figure.value() < 100 ? 1 : 0))
                        .orElse("–"));
                cell(line.basePlusFog().map(figure -> plusMinus(figure, 3)).orElse("–"));
                cell(report.normal(line)
                        .flatMap(line::speedGain)
                        .map(ExposureInterval::stops)
                        .map(DevelopmentPage::stops)
                        .orElse("–"));
                html.append("</tr>\n");
            } else {
                html.append("<td class=\"reason\" colspan=\"6\">")
                        .append(escape(String.join(" ", line.notes())))
                        .append("</td></tr>\n");
            }
        }
        html.append("</tbody></table></div>\n");
        lines.stream()
                .filter(line -> line.time().isPresent())
                .flatMap(line -> line.notes().stream())
                .distinct()
                .forEach(note -> paragraph("hint", note));
    }

    private static String seconds(Duration time) {
        return Math.round(DevelopmentTimes.minutes(time) * 60) + " s";
    }

    private static String plusMinus(PredictedFigure figure, int decimals) {
        return decimals(decimals, figure.value())
                + (figure.standardUncertainty().isPresent()
                        ? " ± "
                                + decimals(
                                        decimals, figure.standardUncertainty().getAsDouble())
                        : "");
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
        html.append(
                "<div class=\"wide\"><table class=\"plain\">\n<thead><tr><th class=\"text\">Model</th><th>Evidence (less is"
                        + " better)</th><th>Ceiling</th><th>Rate per minute</th><th>Induction, min</th></tr></thead>\n<tbody>\n");
        for (ContrastFit fit : report.contrast().fits()) {
            html.append("<tr>");
            text(fit.model().toString());
            cell(Double.isInfinite(fit.evidence()) ? "too few strips" : decimals(1, fit.evidence()));
            cell(fit.ceiling().map(figure -> plusMinus(figure, 3)).orElse("–"));
            cell(fit.ratePerMinute().map(figure -> plusMinus(figure, 4)).orElse("–"));
            cell(fit.inductionMinutes().map(figure -> plusMinus(figure, 2)).orElse("–"));
            html.append("</tr>\n");
        }
        html.append("</tbody></table></div>\n");
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
            TimeTemperatureTable table =
                    fit.timeTemperatureTable(0.80, tested.get(0), tested.get(tested.size() - 1), TABLE_STEP);
            html.append(
                    "<div class=\"wide\"><table class=\"plain\">\n<thead><tr><th>°C</th><th>Time for ΔD 0.80 over 1.30</th>"
                            + "<th>±</th></tr></thead>\n<tbody>\n");
            for (PredictedTime time : table.times()) {
                html.append("<tr>");
                cell(time.temperature()
                        .map(at -> DevelopmentTimes.inWords(at).replace(" °C", ""))
                        .orElse("–"));
                html.append("<td class=\"time\">")
                        .append(DevelopmentTimes.inWords(time.time()))
                        .append("</td>");
                cell(time.standardUncertainty().map(DevelopmentPage::seconds).orElse("–"));
                html.append("</tr>\n");
            }
            html.append("</tbody></table></div>\n");
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
        paragraph("", "Each strip foretold from the others:");
        html.append(
                "<div class=\"wide\"><table class=\"plain\">\n<thead><tr><th class=\"text\">Strip left out</th><th>Time</th>"
                        + "<th>RMS error</th><th>Greatest error</th><th class=\"text\"></th></tr></thead>\n<tbody>\n");
        for (LeftOutStrip check : report.checks()) {
            html.append("<tr>");
            text(check.strip());
            cell(DevelopmentTimes.inWords(check.time()));
            cell(decimals(3, check.rootMeanSquare()));
            cell(decimals(3, check.greatest()));
            text(check.isExtrapolated() ? "beyond the times of the others" : "");
            html.append("</tr>\n");
        }
        html.append("</tbody></table></div>\n");
    }

    private void figure(String name, String caption) {
        html.append(Page.markupOf(new ReportFigure(name, "", caption), plots));
    }

    private void text(String text) {
        html.append("<td class=\"text\">").append(escape(text)).append("</td>");
    }

    private void cell(String text) {
        html.append("<td>").append(escape(text)).append("</td>");
    }
}
