package org.tonewedge.examples.tone;

import java.awt.Graphics2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.PlotState;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;

/** Four plots round a common cross, their axes outside. */
final class QuadrantPlot extends Plot {

    /** The room for an axis at the left and at the right. */
    static final double AXIS_WIDTH = 52;

    /** The room for an axis at the top and at the bottom. */
    static final double AXIS_HEIGHT = 46;

    private static final long serialVersionUID = 1L;

    /** The plots, counted as quadrants are: above right, above left, below left, below right. */
    private final transient List<XYPlot> quadrants;

    /** The part of the width that the left plots take. */
    private final double left;

    /** The part of the height that the upper plots take. */
    private final double upper;

    /** What the lines are. */
    private final transient LegendItemCollection legend;

    QuadrantPlot(List<XYPlot> quadrants, double left, double upper, LegendItemCollection legend) {
        this.quadrants = List.copyOf(quadrants);
        this.left = left;
        this.upper = upper;
        this.legend = legend;
        setInsets(RectangleInsets.ZERO_INSETS);
        setOutlineVisible(false);
        for (int i = 0; i < quadrants.size(); i++) {
            AxisSpace horizontal = new AxisSpace();
            AxisSpace vertical = new AxisSpace();
            if (i < 2) {
                horizontal.setTop(AXIS_HEIGHT);
            } else {
                horizontal.setBottom(AXIS_HEIGHT);
            }
            if (i == 0 || i == 3) {
                vertical.setRight(AXIS_WIDTH);
            } else {
                vertical.setLeft(AXIS_WIDTH);
            }
            XYPlot plot = quadrants.get(i);
            plot.setFixedDomainAxisSpace(horizontal);
            plot.setFixedRangeAxisSpace(vertical);
            plot.setInsets(RectangleInsets.ZERO_INSETS);
        }
    }

    @Override
    public String getPlotType() {
        return "four quadrants";
    }

    @Override
    public LegendItemCollection getLegendItems() {
        return legend;
    }

    @Override
    public void draw(Graphics2D graphics, Rectangle2D area, Point2D anchor, PlotState parent, PlotRenderingInfo info) {
        if (info != null) {
            info.setPlotArea(area);
            info.setDataArea(area);
        }
        double x = area.getX() + AXIS_WIDTH + left * (area.getWidth() - 2 * AXIS_WIDTH);
        double y = area.getY() + AXIS_HEIGHT + upper * (area.getHeight() - 2 * AXIS_HEIGHT);
        for (int i = 0; i < quadrants.size(); i++) {
            double fromX = i == 0 || i == 3 ? x : area.getX();
            double toX = i == 0 || i == 3 ? area.getMaxX() : x;
            double fromY = i < 2 ? area.getY() : y;
            double toY = i < 2 ? y : area.getMaxY();
            quadrants
                    .get(i)
                    .draw(graphics, new Rectangle2D.Double(fromX, fromY, toX - fromX, toY - fromY), null, null, null);
        }
    }
}
