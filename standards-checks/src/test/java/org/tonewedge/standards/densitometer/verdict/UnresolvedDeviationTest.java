// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class UnresolvedDeviationTest {

    private static double[] numbers(String list) {
        return Arrays.stream(list.split(" ")).mapToDouble(Double::parseDouble).toArray();
    }

    private static double[] line(double density) {
        return new double[] {1, density};
    }

    /** The derivatives of a − b log (10^−D + l) for b = 1.02 and l = 0.0004. */
    private static double[] leak(double density) {
        double seen = Math.pow(10, -density) + 0.0004;
        return new double[] {1, -Math.log10(seen), -1.02 / (Math.log(10) * seen)};
    }

    /**
     * The limit of the amplitude, then the second moments at D 0.2, 1.3 and 2.6 and that of 0.2 with 2.6: {@code
     * unresolved_deviation.py} in the test resources, which takes what the form explains out of the residuals first.
     */
    @ParameterizedTest
    @CsvSource({
        "line, 0.05 0.8 1.55 2.3 3.05, -0.003 0.007 0.001 -0.008 0.003, 0.005 0.005 0.005 0.005 0.005,"
                + " 0.02543225526115926, 1.166229340642259e-05 3.936066018746239e-05 3.741726072806205e-05"
                + " 5.356947703875433e-06",
        "line, 0.1 1.1 2.9, 0.001 -0.002 0.001, 0.002 0.003 0.004, 0.03518984080148268,"
                + " 1.702533892117611e-06 1.711212695355936e-05 2.990512257328434e-05 -4.885533038414824e-06",
        "line, 0.05 0.2 0.5 1.1 2.0 3.0, 0.001 0 -0.002 0.004 -0.001 -0.001, 0.003 0.003 0.003 0.004 0.005 0.006,"
                + " 0.009949703360388683, 5.824026922826569e-07 1.6347708355041823e-05 1.3943731926967758e-05"
                + " 1.6008278866024212e-06",
        "line, 0 0.375 0.75 1.125 1.5 1.875 2.25 2.625 3, 0 0 0 0 0 0 0 0 0,"
                + " 0.004 0.004 0.004 0.004 0.004 0.004 0.004 0.004 0.004, 0.0059656486787180085,"
                + " 1.8400215403745232e-06 3.4876849988576756e-06 1.5059699422789357e-06 1.005972258562309e-06",
        "leak, 0.1 0.6 1.1 1.6 2.1 2.6 3.1, 0.002 -0.005 0.004 0.002 -0.004 0.001 0,"
                + " 0.003 0.003 0.003 0.003 0.003 0.003 0.003, 0.024905050991483508,"
                + " 3.371309330043304e-06 2.0766882768548375e-05 5.0571974320855694e-06 6.227236651952544e-07"
    })
    void isWhatAGaussianProcessLeavesOpen(
            String form, String densities, String residuals, String uncertainties, double amplitude, String moments) {
        DoubleFunction<double[]> gradient =
                form.equals("line") ? UnresolvedDeviationTest::line : UnresolvedDeviationTest::leak;
        UnresolvedDeviation deviation = UnresolvedDeviation.of(
                numbers(densities),
                numbers(residuals),
                Arrays.stream(numbers(uncertainties)).map(u -> u * u).toArray(),
                gradient);
        double[] expected = numbers(moments);
        double[][] found = deviation.momentsAt(new double[] {0.2, 1.3, 2.6});

        assertEquals(amplitude, deviation.amplitude(), 1e-7 * amplitude);
        for (int i = 0; i < 3; i++) {
            assertEquals(expected[i], found[i][i], 1e-6 * expected[i], "moment " + i);
        }
        assertEquals(expected[3], found[0][2], 1e-6 * expected[1]);
        assertEquals(found[0][2], found[2][0], 1e-12 * expected[1]);
    }

    /** The errors have the moments between their knots, too, to a hundredth; readings become densities by the slope. */
    @Test
    void fewErrorsMakeUpTheMoments() {
        double[] densities = numbers("0.05 0.8 1.55 2.3 3.05");
        UnresolvedDeviation deviation = UnresolvedDeviation.of(
                densities,
                numbers("-0.003 0.007 0.001 -0.008 0.003"),
                numbers("2.5e-5 2.5e-5 2.5e-5 2.5e-5 2.5e-5"),
                UnresolvedDeviationTest::line);
        List<PiecewiseError> errors = deviation.errors(density -> 0.5);

        assertTrue(errors.size() < 8, errors.size() + " errors");
        for (double density = 0.11; density < 3; density += 0.27) {
            double expected = deviation.momentsAt(new double[] {density})[0][0] / 0.25;
            double at = density;
            double sum = errors.stream()
                    .mapToDouble(error -> error.applyAsDouble(at))
                    .map(error -> error * error)
                    .sum();
            assertEquals(expected, sum, 0.02 * expected);
        }
    }
}
