// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import org.tonewedge.core.internal.Roots;

/** Finds the turning points of a form that does not know them. */
final class TurningPoints {

    private static final int CELLS = 1024;

    private TurningPoints() {}

    static double[] of(CurveForm form, double from, double to) {
        double[] found = new double[CELLS];
        int count = 0;
        double before = from;
        double signBefore = Math.signum(form.gradient(from));
        for (int i = 1; i <= CELLS; i++) {
            double here = from + (to - from) * i / CELLS;
            double sign = Math.signum(form.gradient(here));
            if (sign != signBefore) {
                double sought = signBefore;
                double turn = Roots.boundary(at -> Math.signum(form.gradient(at)) == sought, before, here);
                if (turn > from && turn < to) {
                    found[count++] = turn;
                }
            }
            before = here;
            signBefore = sign;
        }
        return Arrays.copyOf(found, count);
    }
}
