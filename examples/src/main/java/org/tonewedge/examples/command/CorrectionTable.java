// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingCorrection;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The correction that the densitometer check wrote, {@code correction.csv}: on a straight line between its rows. Its columns
 * {@code common_error_1} and so on become errors that all readings share; a column {@code common_error_step 1 of tablet …} is an
 * error of a tablet, shared with other corrections and with films exposed through it.
 */
final class CorrectionTable implements ReadingCorrection {

    private static final List<String> COLUMNS = List.of("reading", "density", "standard_uncertainty");
    private static final String COMMON_ERROR = "common_error_";

    private final String name;
    private final List<Double> readings;
    private final List<Double> densities;
    private final Column uncertainty;
    private final Map<String, DoubleUnaryOperator> errors = new LinkedHashMap<>();

    private CorrectionTable(String name, List<double[]> rows, List<String> sources) {
        this.name = name;
        readings = column(rows, 0);
        densities = column(rows, 1);
        uncertainty = new Column(densities, column(rows, 2));
        for (int i = 0; i < sources.size(); i++) {
            String source = sources.get(i);
            errors.put(
                    source.matches("\\d+") ? "correction " + name + ", error " + source : source,
                    new Column(densities, column(rows, COLUMNS.size() + i)));
        }
    }

    static CorrectionTable read(Path file) throws IOException {
        RowSource source = CsvDialect.guessed().open(InputFiles.rereadable(file));
        List<double[]> rows = new ArrayList<>();
        List<String> header = new ArrayList<>();
        List<String> columns = new ArrayList<>(COLUMNS);
        List<String> sources = new ArrayList<>();
        source.read((line, fields) -> {
            if (fields.get(0).startsWith("#")) {
                return;
            }
            if (header.isEmpty()) {
                fields.forEach(field -> header.add(field.strip().toLowerCase(Locale.ROOT)));
                if (!header.containsAll(COLUMNS)) {
                    throw fault(
                            Fault.WRONG_FORMAT,
                            source,
                            line,
                            "a correction has the columns " + String.join(", ", COLUMNS));
                }
                for (int i = 0; i < header.size(); i++) {
                    if (header.get(i).startsWith(COMMON_ERROR)) {
                        columns.add(header.get(i));
                        sources.add(fields.get(i).strip().substring(COMMON_ERROR.length()));
                    }
                }
                return;
            }
            double[] row = new double[columns.size()];
            for (int i = 0; i < row.length; i++) {
                row[i] = number(fields, header.indexOf(columns.get(i)));
                if (!Double.isFinite(row[i])) {
                    throw fault(
                            Fault.BAD_NUMBER, source, line, "the row lacks a number in the column " + columns.get(i));
                }
            }
            if (!rows.isEmpty() && !(row[0] > rows.get(rows.size() - 1)[0] && row[1] > rows.get(rows.size() - 1)[1])) {
                throw fault(Fault.CONTRADICTION, source, line, "readings and densities must rise from row to row");
            }
            if (!(row[2] >= 0 && row[2] <= 1)) {
                throw fault(Fault.OUT_OF_RANGE, source, line, "the standard uncertainty must be from 0 to 1");
            }
            rows.add(row);
        });
        if (rows.size() < 2) {
            throw fault(Fault.MISSING, source, 0, "a correction needs at least two rows");
        }
        return new CorrectionTable(source.name(), rows, sources);
    }

    /** The number in a field; NaN if there is none. */
    private static double number(List<String> fields, int column) {
        try {
            return column < fields.size() ? Double.parseDouble(fields.get(column)) : Double.NaN;
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    private static ReadingsException fault(Fault kind, RowSource source, long line, String fault) {
        return ReadingsException.at(
                kind,
                source.name(),
                line == 0 ? "" : source.place(line, -1),
                fault,
                "give the correction.csv of the densitometer check as it was written");
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public Density correct(Density reading) {
        double first = readings.get(0);
        double last = readings.get(readings.size() - 1);
        if (!(reading.value() >= first && reading.value() <= last)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT,
                    "the correction %s goes from D %.3f to D %.3f, the reading was D %.3f",
                    name,
                    first,
                    last,
                    reading.value()));
        }
        return Density.of(between(readings, densities, reading.value()));
    }

    @Override
    public double standardUncertainty(Density corrected) {
        return uncertainty.applyAsDouble(corrected.value());
    }

    @Override
    public Map<String, DoubleUnaryOperator> commonErrors() {
        return errors.isEmpty() ? ReadingCorrection.super.commonErrors() : Collections.unmodifiableMap(errors);
    }

    private static List<Double> column(List<double[]> rows, int index) {
        return rows.stream().map(row -> row[index]).toList();
    }

    /** Values at corrected densities; beyond the last densities those there. */
    private record Column(List<Double> densities, List<Double> values) implements DoubleUnaryOperator, Serializable {

        @Override
        public double applyAsDouble(double density) {
            double last = densities.get(densities.size() - 1);
            return between(densities, values, Math.max(densities.get(0), Math.min(last, density)));
        }
    }

    /** A column at a place of another, which rises. */
    private static double between(List<Double> of, List<Double> wanted, double at) {
        int i = 1;
        while (i + 1 < of.size() && of.get(i) < at) {
            i++;
        }
        double low = wanted.get(i - 1);
        return low + (wanted.get(i) - low) * (at - of.get(i - 1)) / (of.get(i) - of.get(i - 1));
    }
}
