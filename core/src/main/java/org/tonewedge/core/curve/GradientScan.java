// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Arrays;
import org.tonewedge.core.internal.Minimum;
import org.tonewedge.core.internal.Roots;

/**
 * The search in a gradient of any shape, as if at every point of a grid of 2,048 cells. It looks at every 32nd point first,
 * or on a short part of a curve at points as far apart as on the whole. Where the second differences there are alike, the
 * gradient bends evenly, and its top is found by interpolation. Every eighth point is looked at where the second differences
 * say that it may matter, and so are the points between, unless the gradient is smooth there: a cubic, or nearly straight
 * where it crosses the level.
 */
final class GradientScan implements GradientSearch {

    private static final int NODES = 256;
    /** A first look takes every fourth node, of a short part fewer. */
    private static final int STRIDE = 4;

    private static final int LONGEST_STRIDE = 16;
    private static final int PLACES = 8;
    private static final int CELLS = NODES * PLACES;
    /** The gradient is level at its greatest value, so its position need not be more exact. */
    private static final double NEAR = 1e-8;

    /** Second differences up to so many times another are like it. */
    private static final double ALIKE = 2;
    /** How far the gradients one place before and after a top may differ, as a fraction of how far both together fall. */
    private static final double LEVEL = 0.04;
    /** A fourth difference up to this fraction of the gradient counts as none. */
    private static final double HIDDEN = 1e-6;

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

    /** The scan of a part looks first at points as far apart. */
    @Override
    public GradientScan ofPart(double otherWindow, double start, double end) {
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
     * Whether the gradient falls through a level between a node and the next, and nowhere rises: its slope changes by less than
     * half of what it is.
     */
    private boolean fallsThrough(double level, int node, int direction) {
        double start = atNode(direction > 0 ? node : node + 1);
        double end = atNode(direction > 0 ? node + 1 : node);
        return start >= level && end < level && start - end > 2 * bend(node, 1);
    }

    /**
     * Whether nothing between two nodes is above the value of a top. Where the fourth differences are nothing, a cubic follows
     * the gradient, which has no second top beside the first and leaves the values at the nodes by no more than twice what a
     * parabola would. An average over less than two cells may have peaks that no node shows.
     */
    private boolean isUnder(double top, double value, int node) {
        boolean isBeside = top >= at((node - 1) * PLACES) && top <= at((node + 2) * PLACES);
        return (isBeside || Math.max(atNode(node), atNode(node + 1)) + 0.25 * bend(node, 1) <= value)
                && window * NODES >= 2 * (to - from)
                && isCubic(node)
                && isCubic(node + 1);
    }

    private boolean isCubic(int about) {
        int node = Math.max(2, Math.min(NODES - 2, about));
        double fourth = secondDifference(node - 1, 1) - 2 * secondDifference(node, 1) + secondDifference(node + 1, 1);
        return Math.abs(fourth) <= HIDDEN * Math.abs(atNode(node));
    }

    private double at(int place) {
        return place == CELLS ? to : from + (to - from) * place / CELLS;
    }

    @Override
    public double gradient(double x) {
        return GradientSearch.averaged(form, window, x);
    }

    @Override
    public double steepest() {
        int best = 0;
        for (int node = firstStride; node <= NODES; node += firstStride) {
            best = atNode(node) > atNode(best) ? node : best;
        }
        boolean isTopOfArch = (best == 0 || isArched(best - firstStride)) && (best == NODES || isArched(best));
        double top = isTopOfArch ? top(best * PLACES, firstStride * PLACES) : Double.NaN;
        double steepest = isTopOfArch ? steeper(at(best * PLACES), top) : at(best * PLACES);
        int place = placeAbove(gradient(steepest), top);
        if (place < 0 && isTopOfArch) {
            return steepest;
        }
        int middle = place < 0 ? best * PLACES : place;
        return steeper(at(middle), top(middle, 1));
    }

    private double steeper(double one, double other) {
        return gradient(other) > gradient(one) ? other : one;
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
                double top = Roots.crossing(this::difference, start, rise, end, fall, EXACT);
                if (isTop(top)) {
                    return top;
                }
            }
        }
        double[] three = {start, at(place), end};
        double[] down = Arrays.stream(three).map(x -> -gradient(x)).toArray();
        return Minimum.around(x -> -gradient(x), three, down, 0.25 * NEAR);
    }

    /** Whether the values beside a place show it to be a top: the gradients of a form given by a user may be approximate. */
    private boolean isTop(double x) {
        double beside = Math.min((to - from) / CELLS, Math.min(x - from, to - x));
        double before = gradient(x - beside);
        double after = gradient(x + beside);
        return Math.abs(after - before) <= LEVEL * (2 * gradient(x) - before - after);
    }

    private double difference(double x) {
        return form.gradient(x + window / 2) - form.gradient(x - window / 2);
    }

    /** The place of the greatest gradient above a value, that of a known top if there is one; negative if there is none. */
    private int placeAbove(double value, double top) {
        double greatest = value;
        int best = -1;
        for (int node = 0; node < NODES; node++) {
            if (node % firstStride == 0 && !mayExceed(greatest, node, firstStride)) {
                node += firstStride - 1;
            } else if (mayExceed(greatest, node, 1) && !isUnder(top, greatest, node)) {
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

    @Override
    public double fallsBelow(double level, double start, int direction) {
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
            double cellEnd = endOf(cell, 1, direction);
            if (staysAbove(level, cell, 1)) {
                above = cellEnd;
                continue;
            }
            if (fallsThrough(level, cell, direction)) {
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

    private double crossing(double level, double notBelow, double below) {
        return GradientSearch.crossing(this, level, notBelow, gradient(notBelow), below, gradient(below));
    }
}
