// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.awt.Color;
import java.util.List;
import java.util.OptionalDouble;
import org.tonewedge.examples.chart.Anchor;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.ChartBody;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.Drawing;

/**
 * Rows of print greys with their densities written on them, a row for each film.
 *
 * @param films the names of the rows
 * @param columns the names of the columns
 * @param densities the density of each swatch, row by row; nothing where it was not measured
 */
record PrintSwatches(List<String> films, List<String> columns, List<List<OptionalDouble>> densities)
        implements ChartBody {

    private static final double SWATCH = 62;
    private static final double ROW = 46;
    private static final double NAMES = 170;
    private static final double HEADS = 20;
    private static final double MIDDLE_GREY = 0.75;

    PrintSwatches {
        films = List.copyOf(films);
        columns = List.copyOf(columns);
        densities = densities.stream().map(List::copyOf).toList();
    }

    @Override
    public double width() {
        return SWATCH * columns.size();
    }

    @Override
    public double height() {
        return ROW * films.size();
    }

    @Override
    public Margins margins() {
        return new Margins(HEADS, NAMES, 4, 4);
    }

    @Override
    public void draw(Drawing drawing, double left, double top) {
        for (int column = 0; column < columns.size(); column++) {
            drawing.text(
                    columns.get(column),
                    left + (column + 0.5) * SWATCH,
                    top - 6,
                    ChartStyle.SMALL,
                    Anchor.MIDDLE,
                    ChartStyle.INK);
        }
        for (int row = 0; row < films.size(); row++) {
            double y = top + row * ROW;
            drawing.text(
                    ChartBody.fitted(films.get(row), NAMES - 12),
                    left - 10,
                    y + ROW / 2 + 4,
                    ChartStyle.SMALL,
                    Anchor.END,
                    ChartStyle.INK);
            for (int column = 0; column < columns.size(); column++) {
                swatch(drawing, left + column * SWATCH, y, densities.get(row).get(column));
            }
        }
    }

    private static void swatch(Drawing drawing, double x, double y, OptionalDouble print) {
        boolean measured = print.isPresent();
        double density = print.orElse(0);
        drawing.area(
                new double[] {x, x + SWATCH, x + SWATCH, x},
                new double[] {y, y, y + ROW, y + ROW},
                measured ? PrintTone.grey(density) : Color.WHITE);
        drawing.text(
                measured ? Axis.decimals(density, 2) : "beyond",
                x + SWATCH / 2,
                y + ROW / 2 + 4,
                ChartStyle.SMALL,
                Anchor.MIDDLE,
                measured && density > MIDDLE_GREY ? Color.WHITE : Color.BLACK);
    }
}
