// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Analyses of variance against certified figures. */
class VariancesTest {

    private static double[][] columns(String name) throws IOException {
        List<double[]> rows = new ArrayList<>();
        try (BufferedReader reader = new BufferedReader(
                new InputStreamReader(VariancesTest.class.getResourceAsStream(name), StandardCharsets.US_ASCII))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (!line.startsWith("#") && !Character.isLetter(line.charAt(0))) {
                    rows.add(Arrays.stream(line.split(",", -1))
                            .mapToDouble(Double::parseDouble)
                            .toArray());
                }
            }
        }
        double[][] columns = new double[rows.get(0).length][rows.size()];
        for (int i = 0; i < rows.size(); i++) {
            for (int j = 0; j < columns.length; j++) {
                columns[j][i] = rows.get(i)[j];
            }
        }
        return columns;
    }

    private static void assertRelative(double expected, double actual, double tolerance) {
        assertEquals(expected, actual, Math.abs(expected) * tolerance);
    }

    /** NIST StRD one-way analysis of variance, read in SciPy's copy: certified sums of squares and F. */
    @ParameterizedTest
    @CsvSource({
        "sirstv.csv, 5.11462616000000E-02, 4, 2.16636560000000E-01, 20, 1.18046237440255E+00, 1.04076068334656E-01, 1e-12",
        "atmwtag.csv, 3.63834187500000E-09, 1, 1.04951729166667E-08, 46, 1.59467335677930E+01, 1.51048314446410E-05, 2e-9",
    })
    void analysesVariance(
            String name,
            double between,
            int degreesBetween,
            double within,
            int degreesWithin,
            double ratio,
            double deviation,
            double tolerance)
            throws IOException {
        double[][] data = columns(name);
        Variances variances = new Variances();
        for (int i = 0; i < data[0].length; i++) {
            if (i > 0 && data[0][i] != data[0][i - 1]) {
                variances.closeRun();
            }
            variances.add(data[1][i]);
        }
        variances.closeRun();

        assertRelative(between, variances.squaresBetween(), tolerance);
        assertRelative(within, variances.squaresWithin(), tolerance);
        assertEquals(degreesBetween, variances.degreesBetween());
        assertEquals(degreesWithin, variances.degreesWithin());
        assertRelative(deviation, variances.repeatability().orElseThrow(), tolerance);
        assertRelative(
                ratio,
                variances.squaresBetween() / degreesBetween / (variances.squaresWithin() / degreesWithin),
                2 * tolerance);
        double perRun = (double) data[0].length / (degreesBetween + 1);
        assertRelative(
                Math.sqrt((between / degreesBetween - within / degreesWithin) / perRun),
                variances.betweenRuns().orElseThrow(),
                20 * tolerance);
    }
}
