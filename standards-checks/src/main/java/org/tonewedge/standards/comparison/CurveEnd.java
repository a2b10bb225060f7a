// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.quantity.LogExposure;

/** The level below which the gradient at an end of the readings must fall before a part of the curve is named. */
enum CurveEnd {
    /** The straight line has ended towards the toe. */
    TOE("a toe", "thin", AnatomyCriterion.withDefaults().straightLineFraction(), "read steps of less exposure"),
    /** The toe is read from its beginning. */
    WHOLE_TOE(
            "the beginning of the toe",
            "thin",
            AnatomyCriterion.withDefaults().endFraction(),
            "read steps of less exposure"),
    /** The straight line has ended towards the shoulder. */
    SHOULDER(
            "a shoulder",
            "dense",
            AnatomyCriterion.withDefaults().straightLineFraction(),
            "read steps of more exposure");

    private final String part;
    private final String where;
    private final double level;
    private final String remedy;

    CurveEnd(String part, String where, double level, String remedy) {
        this.part = part;
        this.where = where;
        this.level = level;
        this.remedy = remedy;
    }

    /** The gradient at the end, averaged over the window of the criterion, as a fraction of the greatest. */
    double share(StripReading reading) {
        double greatest = reading.anatomy()
                .orElseThrow(() -> new NotDeterminableException(
                        Reason.UNSUITABLE_CURVE, reading.strip() + " has no straight line"))
                .greatestGradient()
                .value();
        CharacteristicCurve curve = reading.drawn();
        double window = AnatomyCriterion.withDefaults().window().logUnits();
        boolean dense = this == SHOULDER;
        double end = (dense ? curve.highestExposure() : curve.lowestExposure()).value();
        double inner = dense ? end - window : end + window;
        double rise = curve.densityAt(new LogExposure(end, curve.axis())).value()
                - curve.densityAt(new LogExposure(inner, curve.axis())).value();
        return rise / (end - inner) / greatest;
    }

    String part() {
        return part;
    }

    String where() {
        return where;
    }

    double level() {
        return level;
    }

    String remedy() {
        return remedy;
    }
}
