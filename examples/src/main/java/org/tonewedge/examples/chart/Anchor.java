// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

/** Which part of a text lies at its place. */
public enum Anchor {
    /** The text begins there. */
    START("start", 0),
    /** The text is centred there. */
    MIDDLE("middle", 0.5),
    /** The text ends there. */
    END("end", 1);

    private final String svg;
    private final double share;

    Anchor(String svg, double share) {
        this.svg = svg;
        this.share = share;
    }

    /** The name of it in SVG. */
    String svg() {
        return svg;
    }

    /** The part of a text's width that lies before its place. */
    double share() {
        return share;
    }
}
