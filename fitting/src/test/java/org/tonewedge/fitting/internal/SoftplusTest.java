// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/** Against the definitions, ln(1 + e^z) and 1/(1 + e^−z), by the exponential and logarithm of the Java library. */
class SoftplusTest {

    /** Places of the table, the middles between them where the series are longest, both tails, and places at random. */
    private static DoubleStream places() {
        return DoubleStream.concat(
                DoubleStream.iterate(-45, z -> z < 45, z -> z + 1.0 / 128),
                DoubleStream.concat(
                        DoubleStream.iterate(-45, z -> z < 45, z -> z + 0.00137),
                        DoubleStream.of(-1e300, -745, -0.0, 1e-300, 745, 1e300)));
    }

    @Test
    void rampIsThatOfItsDefinition() {
        places().forEach(z -> assertEquals(ramp(z), Softplus.value(z), 1e-15 * Math.max(1, Math.abs(z)), () -> "" + z));
    }

    @Test
    void slopeIsThatOfItsDefinition() {
        places().forEach(z -> assertEquals(slope(z), Softplus.logistic(z), 2e-14, () -> "" + z));
    }

    @Test
    void manyAreFilledAsOne() {
        double[] z = places().filter(place -> Math.abs(place) < 1e200).toArray();
        double[] x = DoubleStream.of(z).map(place -> -1.5 + 0.25 * place).toArray();
        double[] ramps = new double[x.length];
        double[] slopes = new double[x.length];
        Softplus.fill(x, x.length, -1.5, 0.25, ramps, slopes);
        for (int i = 0; i < x.length; i++) {
            assertEquals(0.25 * ramp(z[i]), ramps[i], 1e-15 * Math.max(1, Math.abs(z[i])));
            assertEquals(slope(z[i]), slopes[i], 2e-14);
        }
        Softplus.fill(x, x.length, -1.5, -0.25, ramps, slopes);
        for (int i = 0; i < x.length; i++) {
            assertEquals(-0.25 * ramp(-z[i]), ramps[i], 1e-15 * Math.max(1, Math.abs(z[i])));
            assertEquals(slope(-z[i]), slopes[i], 2e-14);
        }
    }

    /** Toe at −1.5 of softness 0.25, shoulder 1.25 further of softness 0.5; derivatives by hand from the definition. */
    @Test
    void theDifferenceOfTwoRampsIsFilledWithItsDerivatives() {
        double[] z = places().filter(place -> Math.abs(place) < 1e200).toArray();
        double[] x = DoubleStream.of(z).map(place -> -1.5 + 0.25 * place).toArray();
        double[] values = new double[x.length];
        double[][] partials = new double[4][x.length];
        Softplus.fillDifference(x, x.length, -1.5, 0.25, 1.25, 0.5, values, partials);
        for (int i = 0; i < x.length; i++) {
            double y = (x[i] + 0.25) / 0.5;
            double toe = 0.25 * ramp(z[i]);
            double shoulder = 0.5 * ramp(y);
            double error = 2e-14 * Math.max(1, Math.abs(z[i]));
            assertEquals(toe - shoulder, values[i], error);
            assertEquals(slope(y) - slope(z[i]), partials[0][i], error);
            assertEquals(toe - 0.25 * z[i] * slope(z[i]), partials[1][i], error);
            assertEquals(slope(y), partials[2][i], error);
            assertEquals(0.5 * y * slope(y) - shoulder, partials[3][i], error);
        }
    }

    @Test
    void inverseLeadsBack() {
        DoubleStream.iterate(-30, z -> z < 45, z -> z + 0.01)
                .forEach(z -> assertEquals(z, Softplus.inverse(ramp(z)), 1e-13 * Math.max(1, Math.abs(z))));
        assertTrue(Double.isNaN(Softplus.inverse(0)));
        assertTrue(Double.isNaN(Softplus.inverse(-1)));
    }

    @Test
    void notANumberStaysOne() {
        assertTrue(Double.isNaN(Softplus.value(Double.NaN)));
        assertTrue(Double.isNaN(Softplus.logistic(Double.NaN)));
    }

    private static double ramp(double z) {
        return Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z)));
    }

    private static double slope(double z) {
        return z > 0 ? 1 / (1 + Math.exp(-z)) : Math.exp(z) / (1 + Math.exp(z));
    }
}
