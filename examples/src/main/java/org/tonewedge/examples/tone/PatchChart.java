package org.tonewedge.examples.tone;

import java.awt.BasicStroke;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.SymbolAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.RenderedPatch;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;

/** Draws how films render coloured patches: a row for each patch, a symbol for each film. */
final class PatchChart {

    private static final double WIDTH = 520;
    private static final double ROW = 15;
    private static final double COVERAGE_FACTOR = 2;

    private PatchChart() {}

    /** Draws renderings, the reference first, into {@code directory/name.svg} and {@code .png}. */
    static void write(List<PatchRendering> renderings, Path directory, String name) throws IOException {
        Map<Patch, Integer> rows = new LinkedHashMap<>();
        renderings.stream()
                .flatMap(rendering -> rendering.patches().stream())
                .map(RenderedPatch::patch)
                .distinct()
                .sorted(java.util.Comparator.comparing(Patch::group))
                .forEach(patch -> rows.put(patch, rows.size()));
        XYIntervalSeriesCollection data = new XYIntervalSeriesCollection();
        XYErrorRenderer renderer = new XYErrorRenderer();
        renderer.setDrawYError(false);
        renderer.setErrorStroke(new BasicStroke(1.2f));
        renderer.setCapLength(8);
        LegendItemCollection legend = new LegendItemCollection();
        double farthest = 0.5;
        double step = 0.7 / renderings.size();
        for (int i = 0; i < renderings.size(); i++) {
            PatchRendering rendering = renderings.get(i);
            XYIntervalSeries series = new XYIntervalSeries(rendering.film());
            double offset = (i - (renderings.size() - 1) / 2.0) * step;
            for (RenderedPatch patch : rendering.patches()) {
                Estimate stops = patch.stops();
                double half = stops.expandedUncertainty(COVERAGE_FACTOR);
                double y = rows.get(patch.patch()) + offset;
                series.add(stops.value(), stops.value() - half, stops.value() + half, y, y, y);
                farthest = Math.max(farthest, Math.abs(stops.value()) + half);
            }
            data.addSeries(series);
            renderer.setSeriesShape(i, ChartStyle.symbol(i));
            renderer.setSeriesPaint(i, ChartStyle.film(i));
            legend.add(symbol(rendering.film() + (i == 0 ? " (reference)" : ""), i));
        }
        XYPlot plot = new XYPlot(data, null, null, renderer);
        ChartStyle.plain(plot);
        double limit = Math.ceil(farthest * 2) / 2;
        plot.setDomainAxis(ChartStyle.axis(
                "\u2190 darker     stops from a neutral of the same reflectance     lighter \u2192",
                -limit,
                limit,
                0.5));
        plot.setDomainAxisLocation(AxisLocation.BOTTOM_OR_LEFT);
        plot.setRangeAxis(patchAxis(rows));
        plot.setRangeGridlinesVisible(false);
        for (int row = 1; row < rows.size(); row++) {
            plot.addRangeMarker(new ValueMarker(row - 0.5, ChartStyle.GRID, new BasicStroke(1f)), Layer.BACKGROUND);
        }
        plot.addDomainMarker(new ValueMarker(0, ChartStyle.INK, new BasicStroke(1.4f)), Layer.BACKGROUND);
        plot.setFixedLegendItems(legend);
        ChartFiles.write(
                ChartStyle.chart(
                        "Coloured patches in monochrome", "bars: expanded uncertainty of the readings, k = 2", plot),
                WIDTH,
                rows.size() * (ROW * renderings.size() + 6),
                directory,
                name);
    }

    private static SymbolAxis patchAxis(Map<Patch, Integer> rows) {
        SymbolAxis axis = new SymbolAxis(
                null,
                rows.keySet().stream()
                        .map(patch -> patch.label() + "  (" + patch.group().label() + ")")
                        .toArray(String[]::new));
        axis.setInverted(true);
        axis.setGridBandsVisible(false);
        axis.setTickLabelFont(ChartStyle.TEXT);
        axis.setTickLabelPaint(ChartStyle.INK);
        axis.setAxisLinePaint(ChartStyle.INK);
        axis.setTickMarksVisible(false);
        axis.setRange(-0.5, rows.size() - 0.5);
        return axis;
    }

    private static LegendItem symbol(String label, int index) {
        return new LegendItem(label, null, null, null, ChartStyle.symbol(index), ChartStyle.film(index));
    }
}
