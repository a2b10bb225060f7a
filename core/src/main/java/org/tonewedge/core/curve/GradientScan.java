// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import org.tonewedge.core.internal.Minimum;
import org.tonewedge.core.internal.Roots;

/**
 * Searches the averaged gradient of a rising form for its greatest value and for where it falls below a level, as if at
 * every point of a grid of 2,048 cells. It looks at every 32nd point first, or on a short part of a curve at points as far apart
 * as on the whole. Where the second differences there are alike, the gradient bends evenly, and its top or its crossing is
 * found by interpolation; elsewhere every eighth point and those between are looked at where the second differences say
 * that they may matter.
 */
final class GradientScan {

    private static final int NODES = 256;
    /** A first look takes every fourth node, of a short part fewer. */
    private static final int STRIDE = 4;

    private static final int LONGEST_STRIDE = 16;
    private static final int PLACES = 8;
    private static final int CELLS = NODES * PLACES;
    /** The gradient is level at its greatest value, so its position need not be more exact. */
    private static final double NEAR = 1e-8;

    private static final double EXACT = 1e-14;
    /** Second differences up to so many times another are like it. */
    private static final double ALIKE = 2;

    private final CurveForm form;
    private final double window;
    private final double from;
    private final double to;
    private final int firstStride;
    /** The gradients at the nodes; NaN where none was needed yet. */
    private final double[] atNodes = new double[NODES + 1];

    /**
     * Begins a scan.
     *
     * @param form the form
     * @param window the width over which the gradient is averaged; 0 for the gradient itself
     * @param from the lower end of the scan
     * @param to the upper end
     */
    GradientScan(CurveForm form, double window, double from, double to) {
        this(form, window, from, to, 0);
    }

    private GradientScan(CurveForm form, double window, double from, double to, double apart) {
        int wide = STRIDE;
        while (wide < LONGEST_STRIDE && 2 * wide * (to - from) <= apart * NODES) {
            wide *= 2;
        }
        firstStride = wide;
        this.form = form;
        this.window = window;
        this.from = from;
        this.to = to;
        Arrays.fill(atNodes, Double.NaN);
        look();
    }

    /** A scan of a part of the same form, which looks first at points as far apart, with another window. */
    GradientScan ofPart(double otherWindow, double start, double end) {
        return new GradientScan(form, otherWindow, start, end, (to - from) * firstStride / NODES);
    }

    /** The first look, which asks the form for many places at once. */
    private void look() {
        int looks = NODES / firstStride + 1;
        double[] answers = new double[window == 0 ? looks : 2 * looks];
        for (int i = 0; i < looks; i++) {
            double x = at(i * firstStride * PLACES);
            if (window == 0) {
                answers[i] = x;
            } else {
                answers[i] = x + window / 2;
                answers[looks + i] = x - window / 2;
            }
        }
        if (window == 0) {
            form.gradients(answers, answers);
        } else {
            form.densities(answers, answers);
        }
        for (int i = 0; i < looks; i++) {
            atNodes[i * firstStride] = window == 0 ? answers[i] : (answers[i] - answers[looks + i]) / window;
        }
    }

    private double atNode(int node) {
        if (Double.isNaN(atNodes[node])) {
            atNodes[node] = gradient(at(node * PLACES));
        }
        return atNodes[node];
    }

    /**
     * How far the gradient may leave the range of its values at both ends of a cell: eight times what a parabola with the
     * second differences there would need.
     */
    private double bend(int node, int stride) {
        return Math.max(Math.abs(bendAtStart(node, stride)), Math.abs(bendAtEnd(node, stride)));
    }

    private double bendAtStart(int node, int stride) {
        return secondDifference(Math.max(node, stride), stride);
    }

    private double bendAtEnd(int node, int stride) {
        return secondDifference(Math.min(node + stride, NODES - stride), stride);
    }

    private double secondDifference(int node, int stride) {
        return atNode(node - stride) - 2 * atNode(node) + atNode(node + stride);
    }

    /** Whether the gradient bends evenly downwards between two nodes of the first look. */
    private boolean isArched(int node) {
        double start = bendAtStart(node, firstStride);
        double end = bendAtEnd(node, firstStride);
        return start < 0 && end < 0 && start >= ALIKE * end && end >= ALIKE * start;
    }

    /** Whether the gradient may be above a value between two nodes. */
    private boolean mayExceed(double value, int node, int stride) {
        return Math.max(atNode(node), atNode(node + stride)) + bend(node, stride) > value;
    }

    /** Whether the gradient is nowhere below a level between two nodes. */
    private boolean staysAbove(double level, int node, int stride) {
        return Math.min(atNode(node), atNode(node + stride)) - bend(node, stride) >= level;
    }

    /**
     * Whether the gradient falls through a level between two nodes, and nowhere rises: its slope changes by less than half of
     * what it is.
     */
    private boolean fallsThrough(double level, int node, int stride, int direction) {
        double start = atNode(direction > 0 ? node : node + stride);
        double end = atNode(direction > 0 ? node + stride : node);
        return start >= level && end < level && start - end > 2 * bend(node, stride);
    }

    private double at(int place) {
        return place == CELLS ? to : from + (to - from) * place / CELLS;
    }

    double gradient(double x) {
        return window == 0 ? form.gradient(x) : (form.density(x + window / 2) - form.density(x - window / 2)) / window;
    }

    /** The position of the greatest gradient. */
    double steepest() {
        int best = 0;
        for (int node = firstStride; node <= NODES; node += firstStride) {
            best = atNode(node) > atNode(best) ? node : best;
        }
        // The arch about the best node has one top, which no other part of it exceeds.
        int archFrom = best;
        int archTo = best;
        while (archFrom > 0 && isArched(archFrom - firstStride)) {
            archFrom -= firstStride;
        }
        while (archTo < NODES && isArched(archTo)) {
            archTo += firstStride;
        }
        boolean isTopOfArch = (best == 0 || archFrom < best) && (best == NODES || archTo > best);
        double steepest = at(best * PLACES);
        double greatest = atNode(best);
        if (isTopOfArch) {
            double top = top(best * PLACES, firstStride * PLACES);
            double atTop = gradient(top);
            if (atTop > greatest) {
                steepest = top;
                greatest = atTop;
            }
        }
        int place = placeAbove(greatest, isTopOfArch ? archFrom : NODES, isTopOfArch ? archTo : 0);
        if (place < 0 && isTopOfArch) {
            return steepest;
        }
        int middle = place < 0 ? best * PLACES : place;
        double refined = top(middle, 1);
        return gradient(refined) > gradient(at(middle)) ? refined : at(middle);
    }

    /**
     * Where the gradient is greatest about a place that is steeper than those around: where its derivative, which for an
     * averaged gradient is the difference of two gradients, crosses 0; or by comparing.
     */
    private double top(int place, int around) {
        double start = at(Math.max(0, place - around));
        double end = at(Math.min(CELLS, place + around));
        if (window > 0) {
            double rise = difference(start);
            double fall = difference(end);
            if (rise > 0 && fall < 0) {
                return Roots.crossing(this::difference, start, rise, end, fall, EXACT);
            }
        }
        double[] three = {start, at(place), end};
        double[] down = Arrays.stream(three).map(x -> -gradient(x)).toArray();
        return Minimum.around(x -> -gradient(x), three, down, 0.25 * NEAR);
    }

    private double difference(double x) {
        return form.gradient(x + window / 2) - form.gradient(x - window / 2);
    }

    /** The place of the greatest gradient above a value, outside some nodes; negative if there is none. */
    private int placeAbove(double value, int exceptFrom, int exceptTo) {
        double greatest = value;
        int best = -1;
        for (int node = 0; node < NODES; node++) {
            if (node % firstStride == 0
                    && ((node >= exceptFrom && node < exceptTo) || !mayExceed(greatest, node, firstStride))) {
                node += firstStride - 1;
            } else if (mayExceed(greatest, node, 1)) {
                for (int place = node * PLACES + 1; place <= (node + 1) * PLACES; place++) {
                    double here = place % PLACES == 0 ? atNode(place / PLACES) : gradient(at(place));
                    if (here > greatest) {
                        greatest = here;
                        best = place;
                    }
                }
            }
        }
        return best;
    }

    /** The first position from a start, in one direction, where the gradient is below a level; NaN if there is none. */
    double fallsBelow(double level, double start, int direction) {
        double end = direction > 0 ? to : from;
        double step = direction * (to - from) / CELLS;
        double above = start;
        while (above != end) {
            int cell = cellBeyond(above, direction);
            int wide = cell - cell % firstStride;
            if (staysAbove(level, wide, firstStride)) {
                above = endOf(wide, firstStride, direction);
                continue;
            }
            if (fallsThrough(level, wide, firstStride, direction)) {
                return crossing(level, endOf(wide, firstStride, -direction), endOf(wide, firstStride, direction));
            }
            double cellEnd = endOf(cell, 1, direction);
            if (staysAbove(level, cell, 1)) {
                above = cellEnd;
                continue;
            }
            if (fallsThrough(level, cell, 1, direction)) {
                return crossing(level, endOf(cell, 1, -direction), cellEnd);
            }
            double next = Math.abs(cellEnd - above) <= Math.abs(step) ? cellEnd : above + step;
            if (gradient(next) < level) {
                return crossing(level, above, next);
            }
            above = next;
        }
        return Double.NaN;
    }

    /** The end of a stretch between two nodes that lies in a direction. */
    private double endOf(int node, int stride, int direction) {
        return at((direction > 0 ? node + stride : node) * PLACES);
    }

    /** The cell between two nodes that contains a position, or begins there in the given direction. */
    private int cellBeyond(double x, int direction) {
        int cell = (int) Math.max(0, Math.min(NODES - 1, Math.floor((x - from) / (to - from) * NODES)));
        if (direction > 0) {
            return cell < NODES - 1 && x >= at((cell + 1) * PLACES) ? cell + 1 : cell;
        }
        return cell > 0 && x <= at(cell * PLACES) ? cell - 1 : cell;
    }

    /** The position between two others where the gradient crosses a level. */
    private double crossing(double level, double notBelow, double below) {
        return Roots.crossing(
                x -> gradient(x) - level, notBelow, gradient(notBelow) - level, below, gradient(below) - level, EXACT);
    }
}
