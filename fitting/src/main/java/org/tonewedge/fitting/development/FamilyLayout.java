// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.fitting.internal.Shape;
import org.tonewedge.fitting.internal.Shapes;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.ParametricForm;

/**
 * How the parameters of a curve depend on time. With z = ln(t/t̄), base plus fog, toe position, the logarithm of the
 * toe softness and the distance from toe to shoulder are polynomials in z of the degrees given here. The softness of
 * the shoulder is constant. The gradient is g = g̅ E(t)/E(t̄), E(t) = 1 − exp(−k (t − t₀)), with t₀ = 0 if induction is
 * 0.
 *
 * <p>The parameters are, in this order: base plus fog; g̅, ln k, t₀; toe; softness; distance; ln of the shoulder's.
 */
record FamilyLayout(CurveFamily family, int base, int toe, int softness, int run, int induction) {

    /**
     * The layouts that this many different times can distinguish, simplest first. With three times, an induction time
     * would leave nothing from which to estimate the scatter of development.
     */
    static List<FamilyLayout> candidates(CurveFamily family, int times) {
        List<FamilyLayout> layouts = new ArrayList<>();
        layouts.add(new FamilyLayout(family, 1, 1, 0, 0, 0));
        layouts.add(new FamilyLayout(family, 1, 1, 1, 1, 0));
        if (times > 3) {
            layouts.add(new FamilyLayout(family, 1, 1, 0, 0, 1));
            layouts.add(new FamilyLayout(family, 1, 1, 1, 1, 1));
        }
        if (times > 2) {
            layouts.add(new FamilyLayout(family, 2, 2, 1, 1, 0));
        }
        if (times > 3) {
            layouts.add(new FamilyLayout(family, 2, 2, 1, 1, 1));
        }
        return layouts;
    }

    boolean hasShoulder() {
        return family == CurveFamily.TOE_SHOULDER;
    }

    Shape shape() {
        return hasShoulder() ? Shapes.TOE_SHOULDER : Shapes.TOE;
    }

    int gradientAt() {
        return base + 1;
    }

    int toeAt() {
        return gradientAt() + 2 + induction;
    }

    int softnessAt() {
        return toeAt() + toe + 1;
    }

    int runAt() {
        return softnessAt() + softness + 1;
    }

    int size() {
        return runAt() + (hasShoulder() ? run + 2 : 0);
    }

    /** Base plus fog. */
    double base(double[] p, double z) {
        return polynomial(p, 0, base, z);
    }

    double gradient(double[] p, double z, double centre) {
        double rate = Math.exp(p[gradientAt() + 1]);
        double start = induction == 0 ? 0 : p[gradientAt() + 2];
        return p[gradientAt()]
                * Math.expm1(-rate * (centre * Math.exp(z) - start))
                / Math.expm1(-rate * (centre - start));
    }

    /** The derivatives of the gradient with respect to g̅, ln k and, if present, t₀, from index {@code at} on. */
    void gradientPartials(double[] p, double z, double centre, double factor, double[][] columns, int row) {
        int at = gradientAt();
        double rate = Math.exp(p[at + 1]);
        double start = induction == 0 ? 0 : p[at + 2];
        double time = centre * Math.exp(z) - start;
        double middle = centre - start;
        double rise = -Math.expm1(-rate * time);
        double middleRise = -Math.expm1(-rate * middle);
        double slope = rate * Math.exp(-rate * time);
        double middleSlope = rate * Math.exp(-rate * middle);
        columns[at][row] = factor * rise / middleRise;
        columns[at + 1][row] = factor * p[at] * (time * slope - rise * middle * middleSlope / middleRise) / middleRise;
        if (induction != 0) {
            columns[at + 2][row] = factor * p[at] * (rise * middleSlope / middleRise - slope) / middleRise;
        }
    }

    /** The parameters of the {@link #shape()}. */
    double[] shapeParameters(double[] p, double z) {
        double toePosition = polynomial(p, toeAt(), toe, z);
        double toeSoftness = polynomial(p, softnessAt(), softness, z);
        return hasShoulder()
                ? new double[] {toePosition, toeSoftness, polynomial(p, runAt(), run, z), p[runAt() + run + 1]}
                : new double[] {toePosition, toeSoftness};
    }

    /** The first index and the degree of each shape parameter. */
    int[][] shapeColumns() {
        return hasShoulder()
                ? new int[][] {{toeAt(), toe}, {softnessAt(), softness}, {runAt(), run}, {runAt() + run + 1, 0}}
                : new int[][] {{toeAt(), toe}, {softnessAt(), softness}};
    }

    ParametricForm form(double[] p, double z, double centre) {
        double[] q = shapeParameters(p, z);
        return hasShoulder()
                ? family.form(base(p, z), gradient(p, z, centre), q[0], Math.exp(q[1]), q[0] + q[2], Math.exp(q[3]))
                : family.form(base(p, z), gradient(p, z, centre), q[0], Math.exp(q[1]));
    }

    private static double polynomial(double[] p, int first, int degree, double z) {
        double value = 0;
        for (int j = degree; j >= 0; j--) {
            value = value * z + p[first + j];
        }
        return value;
    }
}
