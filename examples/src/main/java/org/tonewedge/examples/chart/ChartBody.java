// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

/** What a chart shows between title and legend: an area of data of a stated size, and room for axes round it. */
public interface ChartBody {

    /**
     * Room round the area of data.
     *
     * @param top above it
     * @param left at its left
     * @param bottom below it
     * @param right at its right
     */
    record Margins(double top, double left, double bottom, double right) {}

    /**
     * Returns a text of small letters, cut with an ellipsis where it is wider than the room for it.
     *
     * @param text the text
     * @param room the width for it
     * @return the text or its beginning
     */
    static String fitted(String text, double room) {
        return Lettering.fitted(text, ChartStyle.SMALL, room);
    }

    /**
     * Returns the width of the area of data.
     *
     * @return the width, in units of the drawing
     */
    double width();

    /**
     * Returns the height of the area of data.
     *
     * @return the height, in units of the drawing
     */
    double height();

    /**
     * Returns the room that axes and labels need.
     *
     * @return the room round the area of data
     */
    Margins margins();

    /**
     * Draws it.
     *
     * @param drawing where to
     * @param left the left side of the area of data
     * @param top its upper side
     */
    void draw(Drawing drawing, double left, double top);
}
