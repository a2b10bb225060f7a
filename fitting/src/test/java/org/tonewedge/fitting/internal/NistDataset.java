package org.tonewedge.fitting.internal;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A data set of NIST's Statistical Reference Datasets for nonlinear regression, with certified parameters and standard
 * deviations.
 */
final class NistDataset {

    /** Where the build unpacks them; tests run in the folder of the module. */
    private static final Path COMMONS_MATH =
            Path.of("target", "certified-data", "org", "apache", "commons", "math3", "fitting", "leastsquares");

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

    /** The set from this module's resources, the test archive of Commons Math or the shared folder, if it is there. */
    static Optional<NistDataset> find(String name) throws IOException {
        try (InputStream own = NistDataset.class.getResourceAsStream(name + ".csv")) {
            if (own != null) {
                List<String> lines = lines(own);
                return Optional.of(read(name, lines.stream(), lines.stream()));
            }
        }
        Path archived = COMMONS_MATH.resolve(name + ".dat");
        if (Files.exists(archived)) {
            return Optional.of(readNistFormat(name, Files.readAllLines(archived)));
        }
        Path folder = SharedData.find("nist-strd");
        if (folder == null) {
            return Optional.empty();
        }
        List<String> certified = Files.readAllLines(folder.resolve("certified.md"));
        Stream<String> section = certified.stream()
                .skip(certified.indexOf("## " + name) + 1L)
                .takeWhile(line -> !line.startsWith("## "));
        return Optional.of(read(name, section, Files.readAllLines(folder.resolve(name + ".csv")).stream()));
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

    /** NIST's own layout: parameters as "b1 = start start value deviation", data after the line "Data:". */
    private static NistDataset readNistFormat(String name, List<String> lines) {
        List<double[]> parameters = lines.stream()
                .filter(line -> line.matches("\\s*b\\d\\s*=.*"))
                .map(line -> numbers(line.substring(line.indexOf('=') + 1).strip(), "\\s+", 0))
                .toList();
        int data = 0;
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).startsWith("Data:")) {
                data = i;
            }
        }
        List<double[]> rows = new ArrayList<>();
        for (String line : lines.subList(data + 1, lines.size())) {
            if (!line.isBlank()) {
                rows.add(numbers(line.strip(), "\\s+", 0));
            }
        }
        return new NistDataset(name, parameters, rows);
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
