package org.tonewedge.core.curve;

import java.util.Arrays;

/** Finds the turning points of a form that does not know them. */
final class TurningPoints {

    private static final int CELLS = 1024;
    private static final int BISECTIONS = 60;

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
                double turn = bisect(form, before, here, signBefore);
                if (turn > from && turn < to) {
                    found[count++] = turn;
                }
            }
            before = here;
            signBefore = sign;
        }
        return Arrays.copyOf(found, count);
    }

    private static double bisect(CurveForm form, double low, double high, double signAtLow) {
        double a = low;
        double b = high;
        for (int i = 0; i < BISECTIONS; i++) {
            double middle = 0.5 * (a + b);
            if (Math.signum(form.gradient(middle)) == signAtLow) {
                a = middle;
            } else {
                b = middle;
            }
        }
        return 0.5 * (a + b);
    }
}
