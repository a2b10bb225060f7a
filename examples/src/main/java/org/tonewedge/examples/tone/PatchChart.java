// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.RenderedPatch;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;

/** Draws how films render coloured patches: a row for each patch, a symbol for each film. */
final class PatchChart {

    private static final double WIDTH = 520;
    private static final double ROW = 15;
    private static final double COVERAGE_FACTOR = 2;

    private PatchChart() {}

    /** The chart of renderings, the reference first. */
    static Chart of(List<PatchRendering> renderings) {
        Map<Patch, Integer> rows = new LinkedHashMap<>();
        renderings.stream()
                .flatMap(rendering -> rendering.patches().stream())
                .map(RenderedPatch::patch)
                .distinct()
                .sorted(Comparator.comparing(Patch::group))
                .forEach(patch -> rows.put(patch, rows.size()));
        double farthest = renderings.stream()
                .flatMap(rendering -> rendering.patches().stream())
                .map(RenderedPatch::stops)
                .mapToDouble(stops -> Math.abs(stops.value()) + stops.expandedUncertainty(COVERAGE_FACTOR))
                .reduce(0.5, Math::max);
        double limit = Math.ceil(farthest * 2) / 2;
        Plot plot = new Plot(
                Axis.of(
                        "\u2190 darker     stops from a neutral of the same reflectance     lighter \u2192",
                        -limit,
                        limit,
                        0.5),
                patchAxis(List.copyOf(rows.keySet())),
                WIDTH,
                rows.size() * (ROW * renderings.size() + 6));
        plot.withRows(IntStream.range(1, rows.size()).mapToObj(row -> row - 0.5).toList());
        plot.line(new double[] {0, 0}, new double[] {-0.5, rows.size() - 0.5}, Line.solid(ChartStyle.INK, 1.4));
        List<LegendItem> legend = new ArrayList<>();
        double step = 0.7 / renderings.size();
        for (int i = 0; i < renderings.size(); i++) {
            PatchRendering rendering = renderings.get(i);
            double offset = (i - (renderings.size() - 1) / 2.0) * step;
            for (RenderedPatch patch : rendering.patches()) {
                drawPatch(plot, patch.stops(), rows.get(patch.patch()) + offset, i);
            }
            String label = rendering.film() + (i == 0 ? " (reference)" : "");
            legend.add(LegendItem.points(label, ChartStyle.symbol(i), ChartStyle.film(i), true));
        }
        return new Chart("Coloured patches in monochrome", "bars: expanded uncertainty (k = 2)", plot, legend);
    }

    private static void drawPatch(Plot plot, Estimate stops, double row, int film) {
        double half = stops.expandedUncertainty(COVERAGE_FACTOR);
        plot.sidewaysInterval(stops.value() - half, stops.value() + half, row, Line.solid(ChartStyle.film(film), 1.2));
        plot.points(
                new double[] {stops.value()},
                new double[] {row},
                ChartStyle.symbol(film),
                ChartStyle.SYMBOL,
                ChartStyle.film(film),
                true);
    }

    /** A row for each patch, the first at the top. */
    private static Axis patchAxis(List<Patch> patches) {
        return new Axis("", patches.size() - 0.5, -0.5, 1, row -> {
            Patch patch = patches.get((int) Math.round(row));
            return patch.label() + "  (" + patch.group().label() + ")";
        });
    }
}
