// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.List;
import org.tonewedge.examples.chart.ChartBody;
import org.tonewedge.examples.chart.Drawing;
import org.tonewedge.examples.chart.Plot;

/**
 * Four plots round a common cross, their axes outside.
 *
 * @param quadrants the plots, counted as quadrants are: above right, above left, below left, below right
 */
record QuadrantPlot(List<Plot> quadrants) implements ChartBody {

    QuadrantPlot {
        quadrants = List.copyOf(quadrants);
    }

    @Override
    public double width() {
        return quadrants.get(1).width() + quadrants.get(0).width();
    }

    @Override
    public double height() {
        return quadrants.get(0).height() + quadrants.get(3).height();
    }

    @Override
    public Margins margins() {
        Margins aboveRight = quadrants.get(0).margins();
        Margins aboveLeft = quadrants.get(1).margins();
        Margins belowLeft = quadrants.get(2).margins();
        Margins belowRight = quadrants.get(3).margins();
        return new Margins(
                Math.max(aboveRight.top(), aboveLeft.top()),
                Math.max(aboveLeft.left(), belowLeft.left()),
                Math.max(belowLeft.bottom(), belowRight.bottom()),
                Math.max(aboveRight.right(), belowRight.right()));
    }

    @Override
    public void draw(Drawing drawing, double left, double top) {
        double x = left + quadrants.get(1).width();
        double y = top + quadrants.get(0).height();
        quadrants.get(0).draw(drawing, x, top);
        quadrants.get(1).draw(drawing, left, top);
        quadrants.get(2).draw(drawing, left, y);
        quadrants.get(3).draw(drawing, x, y);
    }
}
