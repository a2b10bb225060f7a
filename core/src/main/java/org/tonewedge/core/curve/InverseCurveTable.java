// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.Roots;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The inverse of a characteristic curve as a look-up table, for scans of millions of samples: the log exposure of a
 * density, by straight lines between many equally spaced densities.
 *
 * <pre>{@code
 * InverseCurveTable table = InverseCurveTable.of(curve);
 * table.logExposures(densities, logExposures);
 * }</pre>
 *
 * <p><b>Flat parts.</b> Where the gradient is G, an error e in density becomes an error e/G in log exposure, without
 * limit where the curve is level. The table therefore covers only the stretch around the steepest point where the
 * gradient is at least {@value #USUAL_LEAST_GRADIENT}, or another limit that you give. It refuses densities beyond that
 * stretch.
 *
 * <p><b>Error.</b> At the log exposure returned, the density of the curve is within {@link #errorBound()} of the
 * density asked for, because both lie between the same two neighbouring densities of the table.
 * {@link #greatestError()} is the error actually found, usually far smaller.
 *
 * <p>Inputs and results are plain numbers: gross density, and log<sub>10</sub> H on the axis of the curve. Immutable
 * and thread safe.
 */
public final class InverseCurveTable {

    /** The usual number of cells; the table then fits into the first cache of a processor. */
    public static final int USUAL_CELLS = 4096;

    /**
     * The usual least gradient. At this gradient an error of 0.01 in density becomes 0.2 in log exposure, two thirds of
     * a stop.
     */
    public static final double USUAL_LEAST_GRADIENT = 0.05;

    private static final int MOST_CELLS = 1 << 20;
    private static final int SCANNED = 2048;
    private static final double[] CHECKED_PARTS = {0.25, 0.5, 0.75};
    /** Rounding allowed at the ends, in density. */
    private static final double ROUNDING = 1e-9;

    private final CharacteristicCurve curve;
    private final Gradient leastGradient;
    private final double lowest;
    private final double highest;
    private final double cellsPerUnit;
    /** Half a cell below the lowest density. */
    private final double start;
    /** The log exposures at the cell ends, with one more at each end for values that rounding moves over the edge. */
    private final double[] ends;

    private final double greatestError;

    private InverseCurveTable(
            CharacteristicCurve curve, Gradient leastGradient, double oneEnd, double otherEnd, int cells) {
        this.curve = curve;
        this.leastGradient = leastGradient;
        double one = curve.density(oneEnd);
        double other = curve.density(otherEnd);
        boolean rising = one < other;
        lowest = Math.min(one, other);
        highest = Math.max(one, other);
        cellsPerUnit = cells / (highest - lowest);
        start = lowest - 0.5 / cellsPerUnit;
        ends = new double[cells + 3];
        ends[1] = rising ? oneEnd : otherEnd;
        ends[cells + 1] = rising ? otherEnd : oneEnd;
        for (int k = 1; k < cells; k++) {
            ends[k + 1] = curve.logExposure(lowest + k / cellsPerUnit);
        }
        ends[0] = ends[1];
        ends[cells + 2] = ends[cells + 1];
        greatestError = greatestError(cells);
    }

    private double greatestError(int cells) {
        double greatest = 0;
        for (int k = 0; k < cells; k++) {
            for (double part : CHECKED_PARTS) {
                double density = lowest + (k + part) / cellsPerUnit;
                greatest = Math.max(greatest, Math.abs(curve.form().density(unguarded(density)) - density));
            }
        }
        return greatest;
    }

    /**
     * Builds the inverse table of a monotone curve with the usual number of cells, where the gradient is at least
     * {@value #USUAL_LEAST_GRADIENT}.
     *
     * @param curve the curve
     * @return the table
     * @throws NotDeterminableException as {@link #of(CharacteristicCurve, Gradient, int)} does
     */
    public static InverseCurveTable of(CharacteristicCurve curve) {
        return of(curve, Gradient.of(USUAL_LEAST_GRADIENT), USUAL_CELLS);
    }

    /**
     * Builds the inverse table of a monotone curve.
     *
     * @param curve the curve, rising or falling
     * @param leastGradient the least gradient that the table covers, above 0, for rising and falling curves alike
     * @param cells the number of cells, from 1 to 1,048,576
     * @return the table
     * @throws IllegalArgumentException if the least gradient is not above 0 or the number of cells is out of range
     * @throws AmbiguousDensityException if the curve reverses
     * @throws NotDeterminableException if the curve is nowhere steep enough
     */
    public static InverseCurveTable of(CharacteristicCurve curve, Gradient leastGradient, int cells) {
        Checks.positive("least gradient of an inverse table", leastGradient.value());
        Checks.within("number of cells", cells, 1, MOST_CELLS, "");
        if (!curve.isMonotone()) {
            throw new AmbiguousDensityException(curve.name() + ": the curve reverses, so some densities have more"
                    + " than one exposure; take the steepest branch with ofSteepestBranch, or fit a monotone curve");
        }
        return steepStretch(curve, leastGradient, cells);
    }

    /**
     * Writes out the inverse of the branch of a curve about its steepest point, with the usual number of cells, where the
     * gradient is at least {@value #USUAL_LEAST_GRADIENT}. This is for a curve drawn through readings, whose noise makes it
     * turn back a little in the toe or the shoulder, and for one branch of a reversing curve: the caller states that the
     * densities asked for lie on that branch.
     *
     * @param curve the curve, rising or falling
     * @return the table
     * @throws NotDeterminableException if the curve is nowhere steep enough
     */
    public static InverseCurveTable ofSteepestBranch(CharacteristicCurve curve) {
        return steepStretch(curve, Gradient.of(USUAL_LEAST_GRADIENT), USUAL_CELLS);
    }

    private static InverseCurveTable steepStretch(CharacteristicCurve curve, Gradient leastGradient, int cells) {
        double from = curve.lowestExposure().value();
        double width = (curve.highestExposure().value() - from) / SCANNED;
        int steepest = 0;
        for (int i = 1; i <= SCANNED; i++) {
            if (steepness(curve, from + i * width) > steepness(curve, from + steepest * width)) {
                steepest = i;
            }
        }
        if (!(steepness(curve, from + steepest * width) > leastGradient.value())) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": the gradient is nowhere above " + leastGradient
                            + "; a curve this flat gives no exposures");
        }
        double low = end(curve, leastGradient.value(), from, width, steepest, -1);
        double high = end(curve, leastGradient.value(), from, width, steepest, 1);
        CharacteristicCurve branch = curve.isMonotone()
                ? curve
                : curve.restrictedTo(new LogExposure(low, curve.axis()), new LogExposure(high, curve.axis()));
        return new InverseCurveTable(branch, leastGradient, low, high, cells);
    }

    private static double steepness(CharacteristicCurve curve, double at) {
        return Math.abs(curve.form().gradient(at));
    }

    /** How far the steep stretch reaches from its steepest point, in one direction. */
    private static double end(
            CharacteristicCurve curve, double least, double from, double width, int steepest, int direction) {
        int i = steepest;
        while (i + direction >= 0
                && i + direction <= SCANNED
                && steepness(curve, from + (i + direction) * width) >= least) {
            i += direction;
        }
        if (i == 0) {
            return from;
        }
        if (i == SCANNED) {
            return curve.highestExposure().value();
        }
        return Roots.boundary(at -> steepness(curve, at) >= least, from + i * width, from + (i + direction) * width);
    }

    /**
     * Returns the curve.
     *
     * @return the curve that was written out
     */
    public CharacteristicCurve curve() {
        return curve;
    }

    /**
     * Returns the least gradient covered.
     *
     * @return the gradient below which the table refuses a density, without its sign
     */
    public Gradient leastGradient() {
        return leastGradient;
    }

    /**
     * Returns the least density that the table covers.
     *
     * @return the gross density
     */
    public Density lowestDensity() {
        return Density.of(lowest);
    }

    /**
     * Returns the greatest density that the table covers.
     *
     * @return the gross density
     */
    public Density highestDensity() {
        return Density.of(highest);
    }

    /**
     * Returns the greatest error that the table can have: the distance between two neighbouring densities.
     *
     * @return the bound on the difference between the density asked for and the density of the curve at the log
     *     exposure returned
     * @units density
     */
    public double errorBound() {
        return 1 / cellsPerUnit;
    }

    /**
     * Returns the greatest error found, at three densities in each cell.
     *
     * @return the greatest difference found between the density asked for and the density of the curve at the log
     *     exposure returned
     * @units density
     */
    public double greatestError() {
        return greatestError;
    }

    /**
     * Returns the log exposure of a density.
     *
     * @param density the gross density
     * @return log<sub>10</sub> H on the axis of the curve
     * @throws OutsideMeasuredRangeException if the curve does not reach the density, or is too flat there
     */
    public double logExposure(double density) {
        if (!covers(density)) {
            throw outside(density, "");
        }
        return unguarded(density);
    }

    /**
     * Writes the log exposures of many densities. Allocates nothing.
     *
     * @param densities the gross density of each sample
     * @param logExposures receives log<sub>10</sub> H on the axis of the curve for each; may be the same array as the
     *     input
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if the curve does not reach a density or is too flat there, or a sample is
     *     NaN; the message gives its index, and no log exposure is written
     */
    public void logExposures(double[] densities, double[] logExposures) {
        if (densities.length != logExposures.length) {
            throw new IllegalArgumentException(curve.name() + ": " + densities.length + " densities but room for "
                    + logExposures.length + " log exposures");
        }
        int outside = SampleRange.firstOutside(densities, lowest - ROUNDING, highest + ROUNDING);
        if (outside >= 0) {
            throw outside(densities[outside], "sample " + outside + ": ");
        }
        for (int i = 0; i < densities.length; i++) {
            logExposures[i] = unguarded(densities[i]);
        }
    }

    /**
     * Returns the table as a conversion of many samples, densities to log exposures: arrays of {@code double} or
     * {@code float} and buffers of {@code float}, in part, on an executor, with densities that the table does not cover refused,
     * marked or taken to the nearest end.
     *
     * @return the conversion, which refuses samples outside
     */
    public SampleConversion conversion() {
        return SampleConversion.of(new SampleMap(lowest - ROUNDING, highest + ROUNDING) {
            @Override
            double value(double sample) {
                return unguarded(sample);
            }

            @Override
            OutsideMeasuredRangeException outside(double sample, String where) {
                return InverseCurveTable.this.outside(sample, where);
            }

            @Override
            public String toString() {
                return InverseCurveTable.this.toString();
            }
        });
    }

    /**
     * Tells whether the table has a log exposure for a density.
     *
     * @param density the gross density
     * @return whether {@link #logExposure} answers
     */
    public boolean covers(double density) {
        return density >= lowest - ROUNDING && density <= highest + ROUNDING;
    }

    private double unguarded(double density) {
        double cells = (density - start) * cellsPerUnit;
        double shifted = cells + UniformCells.ROUNDER;
        double t = cells - (shifted - UniformCells.ROUNDER) + 0.5;
        int k = UniformCells.rounded(shifted);
        return ends[k] + t * (ends[k + 1] - ends[k]);
    }

    private OutsideMeasuredRangeException outside(double density, String sample) {
        return new OutsideMeasuredRangeException(curve.name() + ": " + sample + "density "
                + (Double.isNaN(density) ? "NaN" : Figures.plain(density))
                + " has no exposure in this table, which covers "
                + lowestDensity() + " to " + highestDensity() + ", where the gradient is at least " + leastGradient
                + ": leave such samples out, or build the table with a smaller least gradient");
    }

    /**
     * Returns the table in words.
     *
     * @return the curve, the number of cells and the densities covered
     */
    @Override
    public String toString() {
        return "inverse table of " + (ends.length - 3) + " cells of " + curve.name() + ", " + lowestDensity() + " to "
                + highestDensity();
    }
}
