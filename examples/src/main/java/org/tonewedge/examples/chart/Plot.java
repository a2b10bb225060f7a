// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;

/** Lines, points and texts between two axes; a mark added later covers those before. Not thread safe. */
public final class Plot implements ChartBody {

    private static final double TICK = 4;
    private static final double LABEL_GAP = 4;
    private static final double NAME_GAP = 6;
    private static final double LETTER_HEIGHT = 0.72;
    /** A viewer without the font of charts may draw letters wider by this factor. */
    private static final double WIDER = 1.2;

    private static final double BAR_GAP = 18;
    private static final double BAR_WIDTH = 12;
    private static final int BAR_STEPS = 64;
    private static final Line AXIS = Line.solid(ChartStyle.INK, 1);
    private static final Line GRID = Line.solid(ChartStyle.GRID, 1);

    private final Axis x;
    private final Axis y;
    private final double width;
    private final double height;
    private final List<PlotMark> marks = new ArrayList<>();
    private final List<Double> separators = new ArrayList<>();
    private Optional<Axis> topAxis = Optional.empty();
    private Optional<ColourBar> bar = Optional.empty();
    private boolean xAbove;
    private boolean yAtRight;
    private boolean yGrid = true;

    /** A mark with its values still in those of the axes. */
    private interface PlotMark {
        void draw(Drawing drawing, Frame frame);
    }

    private record ColourBar(Axis axis, DoubleFunction<Color> colours, boolean labelled) {}

    /** The place of the area of data; values become places on the drawing. */
    private record Frame(double left, double top, double width, double height, Axis x, Axis y) {

        double atX(double value) {
            return left + x.place(value) * width;
        }

        double atY(double value) {
            return top + (1 - y.place(value)) * height;
        }

        double[] xs(double[] values) {
            return Arrays.stream(values).map(this::atX).toArray();
        }

        double[] ys(double[] values) {
            return Arrays.stream(values).map(this::atY).toArray();
        }
    }

    /**
     * Begins a plot.
     *
     * @param x the axis to the right
     * @param y the axis upwards
     * @param width the width between the ends of the axis to the right
     * @param height the height between the ends of the axis upwards
     */
    public Plot(Axis x, Axis y, double width, double height) {
        this.x = x;
        this.y = y;
        this.width = width;
        this.height = height;
    }

    /**
     * Puts the axis to the right above the plot.
     *
     * @return this plot
     */
    public Plot withXAbove() {
        xAbove = true;
        return this;
    }

    /**
     * Puts the axis upwards at the right of the plot.
     *
     * @return this plot
     */
    public Plot withYAtRight() {
        yAtRight = true;
        return this;
    }

    /**
     * Adds a second scale along the top, with the same ends as the axis below.
     *
     * @param axis the scale
     * @return this plot
     */
    public Plot withTopAxis(Axis axis) {
        topAxis = Optional.of(axis);
        return this;
    }

    /**
     * Takes out the grid of the axis upwards and draws thin lines at these values.
     *
     * @param values the places of the lines
     * @return this plot
     */
    public Plot withRows(List<Double> values) {
        yGrid = false;
        separators.addAll(values);
        return this;
    }

    /**
     * Adds a bar at the right that explains colours.
     *
     * @param axis its scale
     * @param colours the colour of a value of the scale
     * @param labelled whether its ticks have labels
     * @return this plot
     */
    public Plot withColourBar(Axis axis, DoubleFunction<Color> colours, boolean labelled) {
        bar = Optional.of(new ColourBar(axis, colours, labelled));
        return this;
    }

    /**
     * Adds a line through points.
     *
     * @param xs values of the axis to the right
     * @param ys values of the axis upwards, as many
     * @param line how it is drawn
     */
    public void line(double[] xs, double[] ys, Line line) {
        marks.add((drawing, frame) -> drawing.line(frame.xs(xs), frame.ys(ys), line));
    }

    /**
     * Adds an area.
     *
     * @param xs corners on the axis to the right
     * @param ys corners on the axis upwards, as many
     * @param colour its colour
     */
    public void area(double[] xs, double[] ys, Color colour) {
        marks.add((drawing, frame) -> drawing.area(frame.xs(xs), frame.ys(ys), colour));
    }

    /**
     * Adds points.
     *
     * @param xs values of the axis to the right
     * @param ys values of the axis upwards, as many
     * @param symbol their form
     * @param radius their size in units of the drawing
     * @param colour their colour
     * @param filled whether they are filled
     */
    public void points(double[] xs, double[] ys, Symbol symbol, double radius, Color colour, boolean filled) {
        marks.add((drawing, frame) -> drawing.points(frame.xs(xs), frame.ys(ys), symbol, radius, colour, filled));
    }

    /**
     * Adds an interval upwards, with short caps.
     *
     * @param at the value of the axis to the right
     * @param low the lower end
     * @param high the upper end
     * @param line how it is drawn
     */
    public void upwardInterval(double at, double low, double high, Line line) {
        marks.add((drawing, frame) -> {
            double px = frame.atX(at);
            double[] ends = {frame.atY(low), frame.atY(high)};
            drawing.line(new double[] {px, px}, ends, line);
            for (double end : ends) {
                drawing.line(new double[] {px - TICK, px + TICK}, new double[] {end, end}, line);
            }
        });
    }

    /**
     * Adds an interval to the right, with short caps.
     *
     * @param low the lower end
     * @param high the upper end
     * @param at the value of the axis upwards
     * @param line how it is drawn
     */
    public void sidewaysInterval(double low, double high, double at, Line line) {
        marks.add((drawing, frame) -> {
            double py = frame.atY(at);
            double[] ends = {frame.atX(low), frame.atX(high)};
            drawing.line(ends, new double[] {py, py}, line);
            for (double end : ends) {
                drawing.line(new double[] {end, end}, new double[] {py - TICK, py + TICK}, line);
            }
        });
    }

    /**
     * Adds a text that keeps clear of lines. One that would begin here and end beyond the right side of the plot ends
     * here instead, as far to the left.
     *
     * @param text the text
     * @param atX the value of the axis to the right
     * @param atY the value of the axis upwards
     * @param dx how far to the right of it, in units of the drawing
     * @param dy how far the middle of the letters lies below it, in units of the drawing
     * @param anchor which part of it lies there
     * @param colour its colour
     */
    public void text(String text, double atX, double atY, double dx, double dy, Anchor anchor, Color colour) {
        marks.add((drawing, frame) -> {
            double at = frame.atX(atX);
            double right = Math.max(frame.atX(x.from()), frame.atX(x.to()));
            boolean beyond =
                    anchor == Anchor.START && at + dx + WIDER * Lettering.width(text, ChartStyle.SMALL) > right;
            drawing.clearText(
                    text,
                    beyond ? at - dx : at + dx,
                    frame.atY(atY) + dy + 0.36 * ChartStyle.SMALL,
                    ChartStyle.SMALL,
                    beyond ? Anchor.END : anchor,
                    colour);
        });
    }

    @Override
    public double width() {
        return width;
    }

    @Override
    public double height() {
        return height;
    }

    @Override
    public Margins margins() {
        double xRoom = roomAlong(x);
        double yRoom = TICK + LABEL_GAP + y.widestLabel(ChartStyle.SMALL) + nameRoom(y);
        double right = bar.map(found -> BAR_GAP
                        + BAR_WIDTH
                        + TICK
                        + LABEL_GAP
                        + (found.labelled() ? found.axis().widestLabel(ChartStyle.SMALL) : 0)
                        + nameRoom(found.axis()))
                .orElse(8.0);
        return new Margins(
                topAxis.map(Plot::roomAlong).orElse(xAbove ? xRoom : 6.0),
                yAtRight ? 8 : yRoom,
                xAbove ? 6 : xRoom,
                yAtRight ? yRoom : right);
    }

    private static double roomAlong(Axis axis) {
        return TICK + LABEL_GAP + ChartStyle.SMALL + nameRoom(axis);
    }

    private static double nameRoom(Axis axis) {
        return axis.name().isEmpty() ? 0 : NAME_GAP + ChartStyle.TEXT;
    }

    @Override
    public void draw(Drawing drawing, double left, double top) {
        Frame frame = new Frame(left, top, width, height, x, y);
        drawGrid(drawing, frame);
        drawing.clip(left, top, width, height);
        marks.forEach(mark -> mark.draw(drawing, frame));
        drawing.unclip();
        double right = left + width;
        double bottom = top + height;
        drawing.line(new double[] {left - 0.5, right + 0.5}, new double[] {top, top}, AXIS);
        drawing.line(new double[] {left - 0.5, right + 0.5}, new double[] {bottom, bottom}, AXIS);
        drawing.line(new double[] {left, left}, new double[] {top, bottom}, AXIS);
        drawing.line(new double[] {right, right}, new double[] {top, bottom}, AXIS);
        drawAlong(drawing, frame, x, xAbove);
        topAxis.ifPresent(axis -> drawAlong(drawing, frame, axis, true));
        drawUpward(drawing, frame);
        bar.ifPresent(found -> drawBar(drawing, frame, found));
    }

    private void drawGrid(Drawing drawing, Frame frame) {
        for (double tick : x.ticks()) {
            double px = frame.atX(tick);
            drawing.line(new double[] {px, px}, new double[] {frame.top(), frame.top() + height}, GRID);
        }
        for (double tick : yGrid ? y.ticks() : separators) {
            double py = frame.atY(tick);
            drawing.line(new double[] {frame.left(), frame.left() + width}, new double[] {py, py}, GRID);
        }
    }

    private static void drawAlong(Drawing drawing, Frame frame, Axis axis, boolean above) {
        double edge = above ? frame.top() : frame.top() + frame.height();
        int out = above ? -1 : 1;
        int every = axis.labelEvery(axis.widestLabel(ChartStyle.SMALL) + 8, frame.width());
        double room = TICK + LABEL_GAP;
        double baseline = above ? edge - room : edge + room + LETTER_HEIGHT * ChartStyle.SMALL;
        for (double tick : axis.ticks()) {
            double px = frame.left() + axis.place(tick) * frame.width();
            drawing.line(new double[] {px, px}, new double[] {edge, edge + out * TICK}, AXIS);
            if (Math.round(tick / axis.unit()) % every == 0) {
                drawing.text(axis.label().apply(tick), px, baseline, ChartStyle.SMALL, Anchor.MIDDLE, ChartStyle.INK);
            }
        }
        if (!axis.name().isEmpty()) {
            double far = room + LETTER_HEIGHT * ChartStyle.SMALL + NAME_GAP;
            drawing.text(
                    Lettering.fitted(axis.name(), ChartStyle.TEXT, frame.width() + 40),
                    frame.left() + frame.width() / 2,
                    above ? edge - far : edge + far + LETTER_HEIGHT * ChartStyle.TEXT,
                    ChartStyle.TEXT,
                    Anchor.MIDDLE,
                    ChartStyle.INK);
        }
    }

    private void drawUpward(Drawing drawing, Frame frame) {
        double edge = yAtRight ? frame.left() + width : frame.left();
        int out = yAtRight ? 1 : -1;
        int every = y.labelEvery(ChartStyle.SMALL + 2, height);
        for (double tick : y.ticks()) {
            double py = frame.atY(tick);
            drawing.line(new double[] {edge, edge + out * TICK}, new double[] {py, py}, AXIS);
            if (Math.round(tick / y.unit()) % every == 0) {
                drawing.text(
                        y.label().apply(tick),
                        edge + out * (TICK + LABEL_GAP),
                        py + 0.36 * ChartStyle.SMALL,
                        ChartStyle.SMALL,
                        yAtRight ? Anchor.START : Anchor.END,
                        ChartStyle.INK);
            }
        }
        if (!y.name().isEmpty()) {
            double far = TICK + LABEL_GAP + y.widestLabel(ChartStyle.SMALL) + NAME_GAP;
            drawing.upwardText(
                    Lettering.fitted(y.name(), ChartStyle.TEXT, height + 40),
                    yAtRight ? edge + far + LETTER_HEIGHT * ChartStyle.TEXT : edge - far,
                    frame.top() + height / 2,
                    ChartStyle.TEXT,
                    Anchor.MIDDLE,
                    ChartStyle.INK);
        }
    }

    private void drawBar(Drawing drawing, Frame frame, ColourBar found) {
        Axis axis = found.axis();
        double left = frame.left() + width + BAR_GAP;
        double right = left + BAR_WIDTH;
        double from = frame.top() + 0.1 * height;
        double length = 0.8 * height;
        for (int i = 0; i < BAR_STEPS; i++) {
            double value = axis.from() + (axis.to() - axis.from()) * (i + 0.5) / BAR_STEPS;
            double below = from + length * (1 - (double) i / BAR_STEPS);
            double above = from + length * (1 - (i + 1.0) / BAR_STEPS) - 0.5;
            drawing.area(
                    new double[] {left, right, right, left},
                    new double[] {below, below, above, above},
                    found.colours().apply(value));
        }
        int every = axis.labelEvery(ChartStyle.SMALL + 2, length);
        for (double tick : found.labelled() ? axis.ticks() : List.<Double>of()) {
            double py = from + (1 - axis.place(tick)) * length;
            drawing.line(new double[] {right, right + TICK}, new double[] {py, py}, AXIS);
            if (Math.round(tick / axis.unit()) % every == 0) {
                drawing.text(
                        axis.label().apply(tick),
                        right + TICK + LABEL_GAP,
                        py + 0.36 * ChartStyle.SMALL,
                        ChartStyle.SMALL,
                        Anchor.START,
                        ChartStyle.INK);
            }
        }
        double labels = found.labelled() ? axis.widestLabel(ChartStyle.SMALL) : 0;
        drawing.upwardText(
                axis.name(),
                right + TICK + LABEL_GAP + labels + NAME_GAP + LETTER_HEIGHT * ChartStyle.TEXT,
                from + length / 2,
                ChartStyle.TEXT,
                Anchor.MIDDLE,
                ChartStyle.INK);
    }
}
