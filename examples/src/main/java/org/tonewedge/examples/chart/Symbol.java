// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.util.Locale;

/** The form of a plotted point, so that colour alone does not tell films apart. */
public enum Symbol {
    /** A circle. */
    CIRCLE,
    /** A square. */
    SQUARE,
    /** A triangle that points upwards. */
    TRIANGLE,
    /** A square that stands on a corner. */
    DIAMOND;

    /** The corners for radius 1, x before y; none of a circle. */
    private double[] corners() {
        return switch (this) {
            case CIRCLE -> new double[0];
            case SQUARE -> new double[] {-0.9, -0.9, 0.9, -0.9, 0.9, 0.9, -0.9, 0.9};
            case TRIANGLE -> new double[] {0, -1.3, 1.2, 1, -1.2, 1};
            case DIAMOND -> new double[] {0, -1.4, 1.4, 0, 0, 1.4, -1.4, 0};
        };
    }

    /** The symbol round a point, for Java2D. */
    Shape shape(double x, double y, double radius) {
        double[] corners = corners();
        if (corners.length == 0) {
            return new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius);
        }
        Path2D path = new Path2D.Double();
        for (int i = 0; i < corners.length; i += 2) {
            if (i == 0) {
                path.moveTo(x + corners[0] * radius, y + corners[1] * radius);
            } else {
                path.lineTo(x + corners[i] * radius, y + corners[i + 1] * radius);
            }
        }
        path.closePath();
        return path;
    }

    /** The path of the symbol from its own middle, for SVG. */
    String svgPath(double radius) {
        double[] corners = corners();
        if (corners.length == 0) {
            String r = SvgText.number(radius);
            return String.format(
                    Locale.ROOT,
                    "m-%s,0a%s,%s 0 1,0 %s,0a%s,%s 0 1,0 -%s,0",
                    r,
                    r,
                    r,
                    SvgText.number(2 * radius),
                    r,
                    r,
                    SvgText.number(2 * radius));
        }
        StringBuilder path = new StringBuilder();
        for (int i = 0; i < corners.length; i += 2) {
            double fromX = i == 0 ? 0 : corners[i - 2];
            double fromY = i == 0 ? 0 : corners[i - 1];
            path.append(i == 0 ? 'm' : 'l')
                    .append(SvgText.number((corners[i] - fromX) * radius))
                    .append(',')
                    .append(SvgText.number((corners[i + 1] - fromY) * radius));
        }
        return path.append('z').toString();
    }
}
