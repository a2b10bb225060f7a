// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A chart with its title, what is said below it, and its legend.
 *
 * @param title the title
 * @param subtitle what is to be said below it; empty for nothing
 * @param body what it shows
 * @param legend what lines and symbols are
 */
public record Chart(String title, String subtitle, ChartBody body, List<LegendItem> legend) {

    private static final double EDGE = 10;
    private static final double LEADING = 1.3;
    private static final double ITEM_GAP = 18;

    /**
     * Copies the legend.
     *
     * @param title the title
     * @param subtitle what is to be said below it
     * @param body what it shows
     * @param legend what lines and symbols are
     */
    public Chart {
        legend = List.copyOf(legend);
    }

    /**
     * Lays the chart out.
     *
     * @return the drawing
     */
    public Drawing drawing() {
        ChartBody.Margins margins = body.margins();
        double inner = margins.left() + body.width() + margins.right();
        List<String> titleLines = Lettering.wrapped(title, ChartStyle.HEADING, inner);
        List<String> subtitleLines =
                subtitle.isEmpty() ? List.of() : Lettering.wrapped(subtitle, ChartStyle.SMALL, inner);
        double heading = titleLines.size() * ChartStyle.HEADING * LEADING
                + subtitleLines.size() * ChartStyle.SMALL * LEADING
                + EDGE / 2;
        double legendLeft = EDGE + Math.min(margins.left(), inner / 4);
        double legendRoom = EDGE + inner - legendLeft;
        List<List<LegendItem>> legendRows = rows(legendRoom);
        double legendHeight = legendRows.isEmpty() ? 0 : EDGE + legendRows.size() * ChartStyle.SMALL * 1.5;
        double dataTop = EDGE + heading + margins.top();
        double height = dataTop + body.height() + margins.bottom() + legendHeight + EDGE;
        Drawing drawing = new Drawing(title, inner + 2 * EDGE, height);
        double baseline = EDGE;
        for (String line : titleLines) {
            baseline += ChartStyle.HEADING * LEADING;
            drawing.text(line, EDGE, baseline - 4, ChartStyle.HEADING, Anchor.START, ChartStyle.INK);
        }
        for (String line : subtitleLines) {
            baseline += ChartStyle.SMALL * LEADING;
            drawing.text(line, EDGE, baseline - 3, ChartStyle.SMALL, Anchor.START, ChartStyle.INK);
        }
        body.draw(drawing, EDGE + margins.left(), dataTop);
        double row = dataTop + body.height() + margins.bottom() + EDGE;
        for (List<LegendItem> items : legendRows) {
            row += ChartStyle.SMALL * 1.5;
            double x = legendLeft;
            for (LegendItem item : items) {
                item.draw(drawing, x, row - 4, legendRoom);
                x += item.width(legendRoom) + ITEM_GAP;
            }
        }
        return drawing;
    }

    private List<List<LegendItem>> rows(double room) {
        List<List<LegendItem>> rows = new ArrayList<>();
        double x = Double.POSITIVE_INFINITY;
        for (LegendItem item : legend) {
            double width = item.width(room);
            if (x + width > room) {
                rows.add(new ArrayList<>());
                x = 0;
            }
            rows.get(rows.size() - 1).add(item);
            x += width + ITEM_GAP;
        }
        return rows;
    }
}
