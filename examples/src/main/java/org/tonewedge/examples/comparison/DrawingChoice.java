// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.Locale;
import java.util.function.Function;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.standards.comparison.CurveDrawing;

/** The drawings that may be asked for on the command line. */
enum DrawingChoice {
    /** A fitted model. */
    FIT(repeatability -> CurveDrawing.fitted()),
    /** A smoothing spline. */
    SPLINE(CurveDrawing::spline),
    /** A curve through the readings. */
    THROUGH(CurveDrawing::throughReadings);

    @SuppressWarnings("ImmutableEnumChecker") // a function without state
    private final Function<Repeatability, CurveDrawing> drawing;

    DrawingChoice(Function<Repeatability, CurveDrawing> drawing) {
        this.drawing = drawing;
    }

    CurveDrawing drawing(Repeatability repeatability) {
        return drawing.apply(repeatability);
    }

    /** The resource that explains it on the page. */
    String definition() {
        return "curve-" + name().toLowerCase(Locale.ROOT) + ".html";
    }
}
