// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;
import java.util.Optional;

/** A line or symbol of a legend and what it stands for. */
public final class LegendItem {

    private static final double MARK = 24;
    private static final double GAP = 5;

    private final String label;
    private final Optional<Line> line;
    private final Symbol symbol;
    private final Color colour;
    private final boolean filled;

    private LegendItem(String label, Optional<Line> line, Symbol symbol, Color colour, boolean filled) {
        this.label = label;
        this.line = line;
        this.symbol = symbol;
        this.colour = colour;
        this.filled = filled;
    }

    /**
     * Returns the item of a line.
     *
     * @param label what it is
     * @param line how it is drawn
     * @return the item
     */
    public static LegendItem line(String label, Line line) {
        return new LegendItem(label, Optional.of(line), Symbol.CIRCLE, line.colour(), false);
    }

    /**
     * Returns the item of points.
     *
     * @param label what they are
     * @param symbol their form
     * @param colour their colour
     * @param filled whether they are filled
     * @return the item
     */
    public static LegendItem points(String label, Symbol symbol, Color colour, boolean filled) {
        return new LegendItem(label, Optional.empty(), symbol, colour, filled);
    }

    /** The width with its label, which is cut where it is wider than the room. */
    double width(double room) {
        return markWidth() + GAP + Lettering.width(fitted(room), ChartStyle.SMALL);
    }

    private String fitted(double room) {
        return Lettering.fitted(label, ChartStyle.SMALL, room - markWidth() - GAP);
    }

    private double markWidth() {
        return line.isPresent() ? MARK : 2 * ChartStyle.SYMBOL + 2;
    }

    void draw(Drawing drawing, double x, double baseline, double room) {
        double y = baseline - 0.35 * ChartStyle.SMALL;
        if (line.isPresent()) {
            drawing.line(new double[] {x, x + MARK}, new double[] {y, y}, line.get());
        } else {
            drawing.points(
                    new double[] {x + ChartStyle.SYMBOL + 1},
                    new double[] {y},
                    symbol,
                    ChartStyle.SYMBOL,
                    colour,
                    filled);
        }
        drawing.fittedText(fitted(room), x + markWidth() + GAP, baseline, ChartStyle.SMALL, ChartStyle.INK);
    }
}
