// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;

import java.util.List;
import java.util.Locale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;

/** The curves of a comparison that answer: choose films, read them, lay them over each other. */
final class CurveData {

    private static final int SAMPLES = 80;
    /** How many films stand out at first, the reference among them. */
    private static final int CHOSEN_FIRST = 3;

    private final List<StripFigures> strips;
    private final StripFigures reference;
    private final String unit;

    CurveData(List<StripComparison> rows, StripFigures reference) {
        strips = rows.stream()
                .map(StripComparison::figures)
                .filter(strip -> strip.curve().isPresent())
                .toList();
        this.reference = reference;
        unit = Assumed.unit(reference.strip().axis(), rows);
    }

    /** The picture with its controls; it shows where scripts run, else the figure that stands beside it does. */
    String markup() {
        StringBuilder html = new StringBuilder("<div class=\"live\">\n<div class=\"controls\"><label>Align curves by"
                + " <select><option value=\"exposure\">exposure</option><option value=\"speed-point\">speed point</option>"
                + "<option value=\"base\">density above base plus fog</option></select></label>\n"
                + "<label>Read at <input type=\"range\" value=\"-1\" min=\"-5\" max=\"5\" step=\"0.05\">"
                + " <span class=\"u\">log H <span class=\"place\"></span></span></label></div>\n"
                + "<svg viewBox=\"0 0 1000 560\" role=\"img\" aria-label=\"Characteristic curves; the table below reads"
                + " the chosen ones\"></svg>\n<output aria-live=\"polite\">Point at a curve, or tap it to choose it.</output>\n"
                + "<table class=\"few\"><caption>Chosen films at that place</caption><thead><tr><th scope=\"col\""
                + " class=\"text\">Film</th><th scope=\"col\">Density</th><th scope=\"col\">Gradient</th></tr></thead>"
                + "<tbody></tbody></table>\n<fieldset><legend>Films that stand out, six at most</legend>"
                + "<div class=\"choices\" tabindex=\"0\" role=\"group\" aria-label=\"Films\">\n");
        int others = 0;
        for (int i = 0; i < strips.size(); i++) {
            boolean chosen = strips.get(i) == reference || others++ < CHOSEN_FIRST - 1;
            html.append("<label><input type=\"checkbox\" value=\"")
                    .append(i)
                    .append(chosen ? "\" checked> <bdi>" : "\"> <bdi>")
                    .append(escape(name(strips.get(i))))
                    .append("</bdi></label>\n");
        }
        return html.append("</div></fieldset>\n</div>\n<script type=\"application/json\">")
                .append(json())
                .append("</script>\n")
                .toString();
    }

    boolean isEmpty() {
        return strips.isEmpty();
    }

    static String name(StripFigures figures) {
        Strip strip = figures.strip();
        String name = strip.film().equals(strip.id()) ? strip.id() : strip.film() + " (" + strip.id() + ")";
        return Checks.shortened(name);
    }

    private String json() {
        StringBuilder json = new StringBuilder("{\"unit\":");
        string(json, unit);
        json.append(",\"curves\":[");
        for (int i = 0; i < strips.size(); i++) {
            StripFigures strip = strips.get(i);
            CharacteristicCurve curve = strip.curve().orElseThrow();
            double from = curve.lowestExposure().value();
            double step = (curve.highestExposure().value() - from) / SAMPLES;
            json.append(i == 0 ? "\n" : ",\n").append("{\"name\":");
            string(json, name(strip));
            json.append(",\"reference\":").append(strip == reference);
            json.append(",\"m\":")
                    .append(strip.iso6Contrast()
                            .map(found ->
                                    number(5, found.speedPoint().logExposure().value()))
                            .orElse("null"));
            json.append(",\"base\":").append(number(4, curve.basePlusFog().value()));
            json.append(",\"x0\":").append(number(5, from));
            json.append(",\"dx\":").append(number(7, step)).append(",\"d\":[");
            for (int k = 0; k <= SAMPLES; k++) {
                double x = k == SAMPLES ? curve.highestExposure().value() : from + k * step;
                json.append(k == 0 ? "" : ",").append(number(4, curve.density(x)));
            }
            json.append("]}");
        }
        return json.append("]}").toString();
    }

    private static String number(int decimals, double value) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** A string whose characters can end neither it nor the element that it stands in. */
    private static void string(StringBuilder json, String text) {
        json.append('"');
        text.chars().forEach(c -> {
            if (c < 0x20 || c == '"' || c == '\\' || c == '<' || c == '>' || c == '&' || c > 0x7e) {
                json.append(String.format(Locale.ROOT, "\\u%04x", c));
            } else {
                json.append((char) c);
            }
        });
        json.append('"');
    }
}
