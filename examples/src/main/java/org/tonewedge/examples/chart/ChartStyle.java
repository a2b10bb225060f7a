package org.tonewedge.examples.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** The look that all charts share: a white field with a fine grid, dark ink, colours that differ for all eyes. */
public final class ChartStyle {

    /** Text and axes. */
    public static final Color INK = new Color(0x22, 0x22, 0x22);
    /** What is measured. */
    public static final Color BLUE = new Color(0x00, 0x72, 0xB2);
    /** What is read off. */
    public static final Color ORANGE = new Color(0xD5, 0x5E, 0x00);
    /** What stands behind. */
    public static final Color PALE = new Color(0xaa, 0xaa, 0xaa);
    /** The font of axis names. */
    public static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
    /** The font of tick labels and legends. */
    public static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 11);
    /** An open reading. */
    public static final Shape RING = new Ellipse2D.Double(-2.5, -2.5, 5, 5);
    /** A point that is pointed out. */
    public static final Shape DOT = new Ellipse2D.Double(-4, -4, 8, 8);
    /** A fine line. */
    public static final Stroke FINE = new BasicStroke(1f);
    /** A line that stands out. */
    public static final Stroke BOLD = new BasicStroke(2.2f);
    /** A broken line. */
    public static final Stroke DASHED =
            new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {6f, 4f}, 0f);

    private static final Color GRID = new Color(0xdd, 0xdd, 0xdd);

    private ChartStyle() {}

    /**
     * Returns an empty plot.
     *
     * @return the plot, without axes
     */
    public static XYPlot plot() {
        XYPlot plot = new XYPlot();
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setDomainGridlineStroke(FINE);
        plot.setRangeGridlineStroke(FINE);
        plot.setOutlinePaint(INK);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        return plot;
    }

    /**
     * Returns a chart of a plot.
     *
     * @param plot the plot, with its axes
     * @param title its title
     * @return the chart
     */
    public static JFreeChart chart(XYPlot plot, String title) {
        JFreeChart chart = new JFreeChart(null, TEXT, plot, true);
        chart.setBackgroundPaint(Color.WHITE);
        chart.getLegend().setItemFont(SMALL);
        chart.getLegend().setFrame(BlockBorder.NONE);
        chart.setPadding(new RectangleInsets(8, 8, 8, 14));
        chart.setTitle(heading(title, new Font(Font.SANS_SERIF, Font.BOLD, 15)));
        return chart;
    }

    /**
     * Returns a line of text above a chart.
     *
     * @param text the text
     * @param font its font
     * @return the heading, at the left
     */
    public static TextTitle heading(String text, Font font) {
        TextTitle heading = new TextTitle(text, font);
        heading.setPaint(INK);
        heading.setHorizontalAlignment(HorizontalAlignment.LEFT);
        return heading;
    }

    /**
     * Returns an axis.
     *
     * @param name its name, with the unit
     * @param from its lower end
     * @param to its upper end
     * @param unit from tick to tick
     * @param label what a tick is called
     * @return the axis
     */
    public static NumberAxis axis(
            String name, double from, double to, double unit, DoubleFunction<String> label) {
        NumberAxis axis = new NumberAxis(name);
        axis.setRange(from, to);
        axis.setTickUnit(new NumberTickUnit(unit, new LabelFormat(label)));
        axis.setLabelFont(TEXT);
        axis.setTickLabelFont(SMALL);
        axis.setLabelPaint(INK);
        axis.setTickLabelPaint(INK);
        axis.setAxisLinePaint(INK);
        axis.setTickMarkPaint(INK);
        return axis;
    }

    /**
     * Returns a tick label with one decimal.
     *
     * @param value the value
     * @return for example {@code −1.5}
     */
    public static String oneDecimal(double value) {
        return String.format(Locale.ROOT, "%.1f", value).replace('-', '\u2212');
    }

    /**
     * Adds a series to a plot.
     *
     * @param plot the plot
     * @param series the series
     * @param colour its colour
     * @param stroke how its line is drawn; null for none
     * @param shape how its points are drawn; null for none
     * @param filled whether the points are filled
     */
    public static void add(
            XYPlot plot, XYSeries series, Color colour, Stroke stroke, Shape shape, boolean filled) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(stroke != null, shape != null);
        // Drawn as one path, or dashes would begin anew at every sample.
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, colour);
        if (stroke != null) {
            renderer.setSeriesStroke(0, stroke);
        }
        if (shape != null) {
            renderer.setSeriesShape(0, shape);
            renderer.setSeriesShapesFilled(0, filled);
        }
        int index = plot.getDatasetCount();
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }

    /**
     * Adds a text to a plot.
     *
     * @param plot the plot
     * @param text the text
     * @param x where, on the axes of the plot
     * @param y where
     * @param anchor which point of the text lies there
     * @param colour its colour
     */
    public static void text(XYPlot plot, String text, double x, double y, TextAnchor anchor, Color colour) {
        XYTextAnnotation annotation = new XYTextAnnotation(text, x, y);
        annotation.setFont(SMALL);
        annotation.setPaint(colour);
        annotation.setTextAnchor(anchor);
        plot.addAnnotation(annotation);
    }

    /**
     * Returns a legend item for a line.
     *
     * @param label its label
     * @param colour its colour
     * @param stroke how it is drawn
     * @return the item
     */
    public static LegendItem line(String label, Color colour, Stroke stroke) {
        return new LegendItem(label, null, null, null, new Line2D.Double(0, 0, 22, 0), stroke, colour);
    }

    /**
     * Returns a legend item for a symbol.
     *
     * @param label its label
     * @param shape the symbol
     * @param filled whether it is filled
     * @param colour its colour
     * @return the item
     */
    public static LegendItem symbol(String label, Shape shape, boolean filled, Color colour) {
        return new LegendItem(
                label, null, null, null, true, shape, filled, colour, !filled, colour, FINE, false, shape, FINE,
                colour);
    }

    /** An axis label made by a function of the value. */
    private static final class LabelFormat extends NumberFormat {

        private static final long serialVersionUID = 1L;

        private final transient DoubleFunction<String> label;

        LabelFormat(DoubleFunction<String> label) {
            this.label = label;
        }

        @Override
        public StringBuffer format(double value, StringBuffer text, FieldPosition position) {
            return text.append(label.apply(value));
        }

        @Override
        public StringBuffer format(long value, StringBuffer text, FieldPosition position) {
            return format((double) value, text, position);
        }

        @Override
        public Number parse(String text, ParsePosition position) {
            throw new UnsupportedOperationException("this format only writes");
        }
    }
}
