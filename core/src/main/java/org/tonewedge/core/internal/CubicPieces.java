// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.Arrays;

/**
 * Cubics joined at knots, given by their values and slopes there (Hermite form). Beyond the first and the last knot the
 * end cubics go on.
 *
 * <p>A piece is found through a table of equal cells of the axis, so that the time of an evaluation does not grow with
 * the number of knots. The bulk forms give the same bits as the single ones.
 *
 * <p>Immutable and thread safe.
 */
public final class CubicPieces {

    private static final int MOST_CELLS_PER_KNOT = 16;

    private final double[] knots;
    /** For each piece: value, slope, and the factors of the square and the cube of the distance from its left knot. */
    private final double[] factors;
    /** For each of many equal cells of the axis: the piece in which the cell begins. No cell begins before its piece. */
    private final int[] firstPiece;

    private final double cellsPerUnit;
    /** Whether no cell holds more than one inner knot, so that one comparison finds the piece. */
    private final boolean oneKnotPerCell;
    /** The upper knot of each piece; beyond all numbers for the last piece, which goes on. */
    private final double[] upper;

    /**
     * Joins the pieces. The arrays are read, not kept, apart from the knots, which the caller does not change any more.
     *
     * @param knots the knots, strictly rising, at least 2
     * @param values the values at the knots
     * @param slopes the slopes at the knots
     */
    public CubicPieces(double[] knots, double[] values, double[] slopes) {
        this.knots = knots;
        int pieces = knots.length - 1;
        factors = new double[4 * pieces];
        double narrowest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < pieces; i++) {
            double h = knots[i + 1] - knots[i];
            double perWidth = 1 / h;
            double secant = (values[i + 1] - values[i]) * perWidth;
            double bend = slopes[i] + slopes[i + 1] - 2 * secant;
            factors[4 * i] = values[i];
            factors[4 * i + 1] = slopes[i];
            factors[4 * i + 2] = (secant - slopes[i] - bend) * perWidth;
            factors[4 * i + 3] = bend * perWidth * perWidth;
            narrowest = h < narrowest ? h : narrowest; // never NaN, and faster than Math.min
        }
        double length = knots[pieces] - knots[0];
        // Cells no wider than the narrowest piece: at most one knot lies in each.
        firstPiece = new int[(int) Math.min(MOST_CELLS_PER_KNOT * knots.length, Math.ceil(length / narrowest) + 1)];
        cellsPerUnit = firstPiece.length / length;
        upper = Arrays.copyOfRange(knots, 1, pieces + 1);
        upper[pieces - 1] = Double.POSITIVE_INFINITY;
        boolean one = true;
        int cell = 0;
        for (int i = 0; i < pieces; i++) {
            int lastCell = i == pieces - 1 ? firstPiece.length - 1 : cell(knots[i + 1]);
            one &= cell <= lastCell || i == pieces - 1;
            while (cell <= lastCell) {
                firstPiece[cell++] = i;
            }
        }
        oneKnotPerCell = one;
    }

    private int cell(double at) {
        return Math.max(0, Math.min((int) ((at - knots[0]) * cellsPerUnit), firstPiece.length - 1));
    }

    private int piece(double at) {
        int i = firstPiece[cell(at)];
        if (oneKnotPerCell) {
            // 1 where the position is not below the upper knot, from the sign bit: a branch would often be
            // mispredicted.
            return i + (int) (~Double.doubleToRawLongBits(at - upper[i]) >>> 63);
        }
        while (at >= upper[i]) {
            i++;
        }
        return i;
    }

    /**
     * Returns the value.
     *
     * @param at the position
     * @return the value there
     */
    public double value(double at) {
        int i = piece(at);
        int f = 4 * i;
        double t = at - knots[i];
        return factors[f] + t * (factors[f + 1] + t * (factors[f + 2] + t * factors[f + 3]));
    }

    /**
     * Returns the slope.
     *
     * @param at the position
     * @return the derivative of the value there
     */
    public double slope(double at) {
        int i = piece(at);
        int f = 4 * i;
        double t = at - knots[i];
        return factors[f + 1] + t * (2 * factors[f + 2] + t * (3 * factors[f + 3]));
    }

    /**
     * Returns where the slope changes its sign, between the first and the last knot.
     *
     * @param from the lower end of the range
     * @param to the upper end of the range
     * @return the positions strictly inside the range, rising
     */
    public double[] turns(double from, double to) {
        double[] found = new double[2 * knots.length];
        int count = 0;
        double before = knots[0];
        double signBefore = 0;
        for (double at : slopeExtremes()) {
            double sign = Math.signum(slope(at));
            if (sign == 0) {
                continue;
            }
            if (sign == -signBefore) {
                double sought = signBefore;
                double turn = Roots.boundary(x -> Math.signum(slope(x)) == sought, before, at);
                if (turn > from && turn < to) {
                    found[count++] = turn;
                }
            }
            before = at;
            signBefore = sign;
        }
        return Arrays.copyOf(found, count);
    }

    /**
     * Returns the position of the least slope, between the first and the last knot.
     *
     * @param sign 1 for the least slope, −1 for the greatest
     * @return the position where sign times the slope is least
     */
    public double leastSlopePosition(double sign) {
        double best = knots[0];
        double least = Double.POSITIVE_INFINITY;
        for (double at : slopeExtremes()) {
            double slope = sign * slope(at);
            if (slope < least) {
                least = slope;
                best = at;
            }
        }
        return best;
    }

    /** The knots, and the inner points where a cubic bends neither way, rising: between two of them the slope is monotone. */
    private double[] slopeExtremes() {
        double[] found = new double[2 * knots.length];
        int count = 0;
        for (int i = 0; i + 1 < knots.length; i++) {
            found[count++] = knots[i];
            double at = knots[i] - factors[4 * i + 2] / (3 * factors[4 * i + 3]);
            if (at > knots[i] && at < knots[i + 1]) {
                found[count++] = at;
            }
        }
        found[count++] = knots[knots.length - 1];
        return Arrays.copyOf(found, count);
    }
}
