package org.tonewedge.examples.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.text.NumberFormat;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleInsets;

/** The look that charts share: plain, with colours that colour-blind readers can tell apart. */
public final class ChartStyle {

    /** The colour of text and axes. */
    public static final Color INK = new Color(0x22, 0x22, 0x22);

    /** The colour of lines that matter less. */
    public static final Color PALE = new Color(0x99, 0x99, 0x99);

    /** The colour of grids. */
    public static final Color GRID = new Color(0xdd, 0xdd, 0xdd);

    /** The font of axis names. */
    public static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 12);

    /** The font of tick labels and legends. */
    public static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 11);

    private static final Font HEADING = new Font(Font.SANS_SERIF, Font.BOLD, 15);

    /** Colours for films after the reference, from a palette made for colour-blind readers (Okabe and Ito, 2008). */
    private static final List<Color> FILMS = List.of(
            new Color(0x00, 0x72, 0xB2),
            new Color(0xD5, 0x5E, 0x00),
            new Color(0x00, 0x9E, 0x73),
            new Color(0xCC, 0x79, 0xA7),
            new Color(0xE6, 0x9F, 0x00),
            new Color(0x56, 0xB4, 0xE9));

    private static final double SYMBOL = 3.6;

    private ChartStyle() {}

    /**
     * Returns the colour of a film.
     *
     * @param index 0 for the reference, then from 1
     * @return black for the reference, else a colour; colours repeat after six films
     */
    public static Color film(int index) {
        return index == 0 ? Color.BLACK : FILMS.get((index - 1) % FILMS.size());
    }

    /**
     * Returns the symbol of a film, so that colour alone does not tell films apart.
     *
     * @param index 0 for the reference, then from 1
     * @return a shape round the origin; shapes repeat after four films
     */
    public static Shape symbol(int index) {
        return switch (index % 4) {
            case 0 -> new Ellipse2D.Double(-SYMBOL, -SYMBOL, 2 * SYMBOL, 2 * SYMBOL);
            case 1 -> new Rectangle2D.Double(-SYMBOL, -SYMBOL, 2 * SYMBOL, 2 * SYMBOL);
            case 2 -> polygon(0, -1.3, 1.2, 1, -1.2, 1);
            default -> polygon(0, -1.4, 1.4, 0, 0, 1.4, -1.4, 0);
        };
    }

    private static Shape polygon(double... coordinates) {
        Path2D path = new Path2D.Double();
        path.moveTo(coordinates[0] * SYMBOL, coordinates[1] * SYMBOL);
        for (int i = 2; i < coordinates.length; i += 2) {
            path.lineTo(coordinates[i] * SYMBOL, coordinates[i + 1] * SYMBOL);
        }
        path.closePath();
        return path;
    }

    /**
     * Returns the line of a film.
     *
     * @param index 0 for the reference, then from 1
     * @return dashed for the reference, else solid
     */
    public static Stroke stroke(int index) {
        return index == 0
                ? new BasicStroke(1.8f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {7f, 4f}, 0f)
                : new BasicStroke(2.2f);
    }

    /**
     * Returns a line for a legend.
     *
     * @param label what the line is
     * @param index 0 for the reference, then from 1
     * @return the legend's item
     */
    public static LegendItem line(String label, int index) {
        return new LegendItem(label, null, null, null, new Line2D.Double(0, 0, 26, 0), stroke(index), film(index));
    }

    /**
     * Returns an axis of numbers with one decimal.
     *
     * @param name its name and unit
     * @param from its lower end
     * @param to its upper end
     * @param unit the distance of ticks
     * @return the axis
     */
    public static NumberAxis axis(String name, double from, double to, double unit) {
        DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
        symbols.setMinusSign('\u2212');
        return axis(name, from, to, unit, new DecimalFormat("0.0", symbols));
    }

    /**
     * Returns an axis of numbers.
     *
     * @param name its name and unit
     * @param from its lower end
     * @param to its upper end
     * @param unit the distance of ticks
     * @param labels the format of tick labels
     * @return the axis
     */
    public static NumberAxis axis(String name, double from, double to, double unit, NumberFormat labels) {
        NumberAxis axis = new NumberAxis(name);
        axis.setRange(from, to);
        axis.setTickUnit(new NumberTickUnit(unit, labels));
        axis.setLabelFont(TEXT);
        axis.setTickLabelFont(SMALL);
        axis.setLabelPaint(INK);
        axis.setTickLabelPaint(INK);
        axis.setAxisLinePaint(INK);
        axis.setTickMarkPaint(INK);
        return axis;
    }

    /**
     * Gives a plot its plain look.
     *
     * @param plot the plot
     */
    public static void plain(XYPlot plot) {
        plot.setBackgroundPaint(Color.WHITE);
        plot.setDomainGridlinePaint(GRID);
        plot.setRangeGridlinePaint(GRID);
        plot.setDomainGridlineStroke(new BasicStroke(1f));
        plot.setRangeGridlineStroke(new BasicStroke(1f));
        plot.setOutlinePaint(INK);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    }

    /**
     * Returns a chart of a plot with a title.
     *
     * @param title the title
     * @param subtitle what is to be said below it; empty for nothing
     * @param plot the plot, with its legend items
     * @return the chart
     */
    public static JFreeChart chart(String title, String subtitle, Plot plot) {
        JFreeChart chart = new JFreeChart(null, TEXT, plot, true);
        chart.setBackgroundPaint(Color.WHITE);
        chart.getLegend().setItemFont(SMALL);
        chart.getLegend().setFrame(BlockBorder.NONE);
        chart.setPadding(new RectangleInsets(8, 8, 8, 14));
        chart.setTitle(heading(title, HEADING));
        if (!subtitle.isEmpty()) {
            chart.addSubtitle(heading(subtitle, SMALL));
        }
        return chart;
    }

    private static TextTitle heading(String text, Font font) {
        TextTitle heading = new TextTitle(text, font);
        heading.setPaint(INK);
        heading.setHorizontalAlignment(HorizontalAlignment.LEFT);
        return heading;
    }
}
