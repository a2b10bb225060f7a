// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import static org.tonewedge.examples.page.Page.escape;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.StripFigures;

/** What the readings of a strip leave beside its curve, as a small picture inside the page. */
final class Residuals {

    private static final int WIDTH = 640;
    private static final int HEIGHT = 170;
    private static final int LEFT = 62;
    private static final int RIGHT = 12;
    private static final int TOP = 10;
    private static final int BOTTOM = 40;
    private static final double ROOM = 1.15;
    private static final double LEAST_SCALE = 0.01;

    /** A reading beside the curve. */
    private record Residual(double logExposure, double density) {}

    private final List<Residual> residuals = new ArrayList<>();
    private final double from;
    private final double to;

    private Residuals(Strip strip, CharacteristicCurve curve) {
        from = curve.lowestExposure().value();
        to = curve.highestExposure().value();
        for (ExposedStep step : strip.steps()) {
            double x = step.exposure().value();
            if (x >= from && x <= to) {
                for (Density reading : step.readings()) {
                    residuals.add(new Residual(x, reading.value() - curve.density(x)));
                }
            }
        }
    }

    /** The picture with its caption; nothing without a curve, or where the curve goes through every reading. */
    static Optional<String> markup(StripFigures figures) {
        return figures.curve()
                .map(curve -> new Residuals(figures.strip(), curve))
                .filter(found -> found.greatest() > 1e-6)
                .map(Residuals::figure);
    }

    private double greatest() {
        return residuals.stream()
                .mapToDouble(residual -> Math.abs(residual.density()))
                .max()
                .orElse(0);
    }

    private double rootMeanSquare() {
        return Math.sqrt(residuals.stream()
                .mapToDouble(residual -> residual.density() * residual.density())
                .average()
                .orElse(0));
    }

    private String figure() {
        String said = String.format(
                Locale.ROOT,
                "Readings minus curve: root mean square %.3f, at most %.3f, over %d readings.",
                rootMeanSquare(),
                greatest(),
                residuals.size());
        return "<figure class=\"residuals\">" + svg(said) + "<figcaption>" + escape(said) + "</figcaption></figure>\n";
    }

    private String svg(String said) {
        double reach = Math.max(LEAST_SCALE, ROOM * greatest());
        StringBuilder svg = new StringBuilder(
                "<svg viewBox=\"0 0 " + WIDTH + " " + HEIGHT + "\" role=\"img\" aria-label=\"" + escape(said) + "\">");
        for (double tick : new double[] {-roundBelow(reach), 0, roundBelow(reach)}) {
            svg.append(String.format(
                    Locale.ROOT,
                    "<path class=\"grid\" d=\"M%d,%.1fH%d\"/><text x=\"%d\" y=\"%.1f\" text-anchor=\"end\">%s</text>",
                    LEFT,
                    y(tick, reach),
                    WIDTH - RIGHT,
                    LEFT - 6,
                    y(tick, reach) + 4,
                    signed(tick)));
        }
        for (double tick = Math.ceil(from * 2) / 2; tick <= to; tick += 0.5) {
            svg.append(String.format(
                    Locale.ROOT,
                    "<path class=\"grid\" d=\"M%.1f,%dV%d\"/><text x=\"%.1f\" y=\"%d\" text-anchor=\"middle\">%s</text>",
                    x(tick),
                    TOP,
                    HEIGHT - BOTTOM,
                    x(tick),
                    HEIGHT - BOTTOM + 16,
                    String.format(Locale.ROOT, "%.1f", tick + 0.0).replace('-', '\u2212')));
        }
        svg.append(String.format(
                Locale.ROOT,
                "<path class=\"axis\" d=\"M%d,%dV%dH%d\"/><text x=\"%d\" y=\"%d\" text-anchor=\"middle\">log H</text>",
                LEFT,
                TOP,
                HEIGHT - BOTTOM,
                WIDTH - RIGHT,
                (LEFT + WIDTH - RIGHT) / 2,
                HEIGHT - 6));
        for (Residual residual : residuals) {
            svg.append(String.format(
                    Locale.ROOT,
                    "<circle class=\"reading\" r=\"3\" cx=\"%.1f\" cy=\"%.1f\"/>",
                    x(residual.logExposure()),
                    y(residual.density(), reach)));
        }
        return svg.append("</svg>").toString();
    }

    /** The greatest of 1, 2 or 5 times a power of ten that is not above a number. */
    private static double roundBelow(double number) {
        double power = Math.pow(10, Math.floor(Math.log10(number)));
        double digit = number / power;
        return power * (digit >= 5 ? 5 : digit >= 2 ? 2 : 1);
    }

    private static String signed(double tick) {
        if (tick == 0) {
            return "0";
        }
        int decimals = Math.max(0, (int) Math.ceil(-Math.log10(Math.abs(tick)) - 1e-9));
        return (tick < 0 ? "\u2212" : "+") + String.format(Locale.ROOT, "%." + decimals + "f", Math.abs(tick));
    }

    private double x(double logExposure) {
        return LEFT + (logExposure - from) / (to - from) * (WIDTH - LEFT - RIGHT);
    }

    private static double y(double density, double reach) {
        return TOP + (1 - density / reach) / 2 * (HEIGHT - TOP - BOTTOM);
    }
}
