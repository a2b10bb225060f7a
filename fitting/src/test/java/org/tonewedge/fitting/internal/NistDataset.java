// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * A data set of NIST's Statistical Reference Datasets for nonlinear regression, with certified parameters and standard
 * deviations.
 */
final class NistDataset {

    private final String name;
    private final double[] observed;
    private final double[][] predictors;
    private final double[][] starts;
    private final double[] certified;
    private final double[] deviations;

    private NistDataset(String name, List<double[]> parameters, List<double[]> data) {
        this.name = name;
        observed = column(data, 0);
        predictors =
                data.stream().map(row -> Arrays.copyOfRange(row, 1, row.length)).toArray(double[][]::new);
        starts = new double[][] {column(parameters, 0), column(parameters, 1)};
        certified = column(parameters, 2);
        deviations = column(parameters, 3);
    }

    private static double[] column(List<double[]> rows, int at) {
        return rows.stream().mapToDouble(row -> row[at]).toArray();
    }

    /** The problem of fitting a model to this set; the response of Nelson is the logarithm of what was observed. */
    LeastSquaresProblem problem(NistModel model) {
        double[] response =
                name.equals("Nelson") ? Arrays.stream(observed).map(Math::log).toArray() : observed;
        return new LeastSquaresProblem() {
            @Override
            public int parameterCount() {
                return certified.length;
            }

            @Override
            public int residualCount() {
                return response.length;
            }

            @Override
            public void residuals(double[] parameters, double[] residuals) {
                for (int i = 0; i < residuals.length; i++) {
                    residuals[i] = model.value(parameters, predictors[i]) - response[i];
                }
            }
        };
    }

    String name() {
        return name;
    }

    /** Start 1 or 2. */
    double[] start(int number) {
        return starts[number - 1];
    }

    double[] certified() {
        return certified;
    }

    double[] deviations() {
        return deviations;
    }

    /** The set from the resources beside this class. */
    static NistDataset read(String name) throws IOException {
        try (InputStream own = NistDataset.class.getResourceAsStream(name + ".csv")) {
            List<String> lines = lines(Objects.requireNonNull(own, name));
            return read(name, lines.stream(), lines.stream());
        }
    }

    private static List<String> lines(InputStream stream) throws IOException {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            return reader.lines().toList();
        }
    }

    private static NistDataset read(String name, Stream<String> parameterLines, Stream<String> dataLines) {
        List<double[]> parameters = parameterLines
                .filter(line -> line.matches("#?\\| b\\d.*"))
                .map(line -> numbers(line.substring(line.indexOf("b")), "\\|", 1))
                .toList();
        List<double[]> data = dataLines
                .filter(line -> line.matches("[-+.0-9].*"))
                .map(line -> numbers(line, ",", 0))
                .toList();
        return new NistDataset(name, parameters, data);
    }

    private static double[] numbers(String line, String separator, int skip) {
        return Arrays.stream(line.split(separator, -1))
                .skip(skip)
                .map(String::strip)
                .filter(text -> !text.isEmpty())
                .mapToDouble(Double::parseDouble)
                .toArray();
    }
}
