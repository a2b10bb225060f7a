// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import java.util.Optional;

/** A form that is continued as a straight line outside a range. */
final class StraightEndsForm implements CurveForm {

    private final CurveForm form;
    private final double from;
    private final double to;

    StraightEndsForm(CurveForm form, double from, double to) {
        this.form = form;
        this.from = from;
        this.to = to;
    }

    private double inside(double logExposure) {
        return Math.max(from, Math.min(to, logExposure));
    }

    @Override
    public double density(double logExposure) {
        double end = inside(logExposure);
        if (end == logExposure) {
            return form.density(logExposure);
        }
        return form.density(end) + form.gradient(end) * (logExposure - end);
    }

    @Override
    public double gradient(double logExposure) {
        return form.gradient(inside(logExposure));
    }

    @Override
    public Optional<StraightLine> straightLine() {
        return form.straightLine();
    }

    @Override
    public double[] turningPoints(double lower, double upper) {
        double[] turns = form.turningPoints(from, to);
        double[] all = new double[turns.length + 2];
        all[0] = from;
        System.arraycopy(turns, 0, all, 1, turns.length);
        all[all.length - 1] = to;
        return Arrays.stream(all).filter(turn -> turn > lower && turn < upper).toArray();
    }
}
