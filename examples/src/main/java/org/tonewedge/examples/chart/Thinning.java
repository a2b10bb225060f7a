// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.util.ArrayDeque;
import java.util.Deque;

/** Which points of a line show (Douglas and Peucker 1973). */
final class Thinning {

    private Thinning() {}

    /** Whether each point is needed for the line to stay within the tolerance of the given one. */
    static boolean[] kept(double[] xs, double[] ys, double tolerance) {
        boolean[] kept = new boolean[xs.length];
        if (xs.length == 0) {
            return kept;
        }
        kept[0] = true;
        kept[xs.length - 1] = true;
        Deque<int[]> open = new ArrayDeque<>();
        open.push(new int[] {0, xs.length - 1});
        while (!open.isEmpty()) {
            int[] span = open.pop();
            int farthest = -1;
            double most = tolerance;
            for (int i = span[0] + 1; i < span[1]; i++) {
                double distance = distance(xs, ys, span[0], span[1], i);
                if (distance > most) {
                    most = distance;
                    farthest = i;
                }
            }
            if (farthest >= 0) {
                kept[farthest] = true;
                open.push(new int[] {span[0], farthest});
                open.push(new int[] {farthest, span[1]});
            }
        }
        return kept;
    }

    private static double distance(double[] xs, double[] ys, int from, int to, int i) {
        double dx = xs[to] - xs[from];
        double dy = ys[to] - ys[from];
        double length = Math.hypot(dx, dy);
        double x = xs[i] - xs[from];
        double y = ys[i] - ys[from];
        return length == 0 ? Math.hypot(x, y) : Math.abs(dx * y - dy * x) / length;
    }

    static double[] select(double[] values, boolean[] kept) {
        double[] selected = new double[values.length];
        int count = 0;
        for (int i = 0; i < values.length; i++) {
            if (kept[i]) {
                selected[count++] = values[i];
            }
        }
        return java.util.Arrays.copyOf(selected, count);
    }
}
