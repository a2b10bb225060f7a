// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import java.util.Optional;

/** A form whose exposure axis is moved, and mirrored where the scale is −1. */
final class ShiftedForm implements CurveForm {

    private final CurveForm form;
    private final double scale;
    private final double shift;

    private ShiftedForm(CurveForm form, double scale, double shift) {
        this.form = form;
        this.scale = scale;
        this.shift = shift;
    }

    /** The form moved up the axis by a shift. */
    static CurveForm moved(CurveForm form, double shift) {
        return new ShiftedForm(form, 1, shift);
    }

    /** The form with its axis counted the other way. */
    static CurveForm mirrored(CurveForm form) {
        return new ShiftedForm(form, -1, 0);
    }

    CurveForm original() {
        return form;
    }

    /** Positions of the original form, rising, as they are on this one's axis, rising. */
    double[] moved(double[] positions) {
        return Arrays.stream(positions).map(at -> scale * at + shift).sorted().toArray();
    }

    private double original(double logExposure) {
        return scale * (logExposure - shift);
    }

    @Override
    public double density(double logExposure) {
        return form.density(original(logExposure));
    }

    @Override
    public double gradient(double logExposure) {
        return scale * form.gradient(original(logExposure));
    }

    @Override
    public Optional<StraightLine> straightLine() {
        return form.straightLine()
                .map(line ->
                        new StraightLine(scale * line.logExposure() + shift, line.density(), scale * line.gradient()));
    }

    @Override
    public boolean hasOneSteepestPlace() {
        return scale > 0 && form.hasOneSteepestPlace(); // mirrored, the gradient changes its sign
    }

    @Override
    public double[] turningPoints(double from, double to) {
        double[] turns =
                form.turningPoints(Math.min(original(from), original(to)), Math.max(original(from), original(to)));
        return moved(turns);
    }
}
