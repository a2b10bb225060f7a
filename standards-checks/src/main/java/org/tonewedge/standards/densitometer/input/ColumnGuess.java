// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;

/** Identifies the columns of a log without a header by their values. */
final class ColumnGuess {

    private static final int FEWEST_ROWS = 2;
    private static final int MOST_TABLET_STEPS = 64;
    private static final double DENSEST = 6;
    private static final double LEAST_COUNTS = 1000;
    /** The densest reading as a logarithm to base 2. */
    private static final double FURTHEST_PRINTED = 20;

    private final LogForm form;
    private final List<double[]> rows;
    private final List<Integer> free = new ArrayList<>();
    private final boolean decimalComma;
    private final int[] decimals;
    private final boolean[] dated;

    ColumnGuess(LogForm form, List<String> lines, boolean decimalComma) {
        this.form = form;
        this.decimalComma = decimalComma;
        TimeStamps stamps = new TimeStamps();
        List<List<String>> texts = lines.stream()
                .map(line -> form.fields(
                        LinePrefix.of(line.strip(), List.of(), stamps).rest()))
                .filter(fields -> fields.size() > 1 && fields.stream().allMatch(this::hasValue))
                .toList();
        Map<Integer, Integer> widths = new HashMap<>();
        texts.forEach(fields -> widths.merge(fields.size(), 1, Integer::sum));
        int width = widths.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse(0);
        decimals = new int[width];
        dated = new boolean[width];
        rows = new ArrayList<>();
        for (List<String> fields : texts) {
            if (fields.size() == width) {
                rows.add(row(fields, stamps));
            }
        }
        for (int i = 0; i < width; i++) {
            free.add(i);
        }
    }

    private boolean hasValue(String text) {
        return Numerals.number(pointed(text)).isPresent()
                || new TimeStamps().seconds(text).isPresent();
    }

    private double[] row(List<String> fields, TimeStamps stamps) {
        double[] row = new double[fields.size()];
        for (int i = 0; i < row.length; i++) {
            String text = pointed(fields.get(i));
            OptionalDouble number = Numerals.number(text);
            dated[i] |= number.isEmpty();
            row[i] = number.orElseGet(() -> stamps.seconds(text).orElse(0));
            decimals[i] = Math.max(decimals[i], Numerals.decimals(text));
        }
        return row;
    }

    private String pointed(String text) {
        return decimalComma && text.indexOf(':') < 0 ? text.replace(',', '.') : text;
    }

    Optional<LogLayout> layout() {
        if (rows.size() < FEWEST_ROWS) {
            return Optional.empty();
        }
        LogLayout layout = LogLayout.of(form).withWidth(decimals.length);
        layout = decimalComma ? layout.withDecimalComma() : layout;
        layout = place(layout, LogField.TIME, first(column -> dated[column]));
        layout = place(
                layout,
                LogField.STEP,
                first(column -> isWhole(column)
                        && least(column) >= 1
                        && most(column) <= MOST_TABLET_STEPS
                        && most(column) > least(column)));
        boolean timed = layout.knows(LogField.TIME);
        layout = place(
                layout,
                LogField.MILLISECONDS,
                first(column -> !timed
                        && isWhole(column)
                        && rises(column)
                        && most(column) - least(column) > 50.0 * rows.size()));
        layout = place(
                layout,
                LogField.TIME,
                first(column -> !timed
                        && decimals[column] > 0
                        && rises(column)
                        && most(column) - least(column) > FURTHEST_PRINTED));
        layout = place(
                layout,
                LogField.DENSITY,
                densest(column -> decimals[column] > 0 && least(column) >= -0.2 && most(column) <= DENSEST));
        layout = place(
                layout,
                LogField.TEMPERATURE,
                first(column -> decimals[column] > 0 && least(column) >= 5 && most(column) <= 60));
        List<Integer> counts = free.stream()
                .filter(this::isWhole)
                .sorted(Comparator.comparingDouble(this::mean))
                .toList();
        if (counts.size() == 3 && most(counts.get(2)) >= LEAST_COUNTS) {
            layout = place(layout, LogField.DARK, Optional.of(counts.get(0)));
            layout = place(layout, LogField.SAMPLE, Optional.of(counts.get(1)));
            layout = place(layout, LogField.OPEN, Optional.of(counts.get(2)));
        }
        if (layout.hasCounts() && !layout.knows(LogField.DENSITY)) {
            // beside counts, faulty arithmetic may have printed densities that no sample has
            layout = place(
                    layout,
                    LogField.DENSITY,
                    densest(column -> decimals[column] > 0
                            && least(column) >= -FURTHEST_PRINTED
                            && most(column) <= FURTHEST_PRINTED));
        }
        return layout.knows(LogField.DENSITY) || layout.hasCounts() ? Optional.of(layout) : Optional.empty();
    }

    private LogLayout place(LogLayout layout, LogField field, Optional<Integer> column) {
        if (column.isEmpty() || layout.knows(field)) {
            return layout;
        }
        free.remove(column.get());
        return layout.with(field, Integer.toString(column.get() + 1));
    }

    private Optional<Integer> first(Predicate<Integer> rule) {
        return free.stream().filter(rule).findFirst();
    }

    private Optional<Integer> densest(Predicate<Integer> rule) {
        return free.stream().filter(rule).max(Comparator.comparingDouble(column -> most(column) - least(column)));
    }

    private boolean isWhole(int column) {
        return decimals[column] == 0 && rows.stream().allMatch(row -> row[column] == Math.rint(row[column]));
    }

    private boolean rises(int column) {
        OptionalDouble before = OptionalDouble.empty();
        for (double[] row : rows) {
            if (before.isPresent() && !(row[column] >= before.getAsDouble())) {
                return false;
            }
            before = OptionalDouble.of(row[column]);
        }
        return true;
    }

    private double least(int column) {
        return rows.stream().mapToDouble(row -> row[column]).min().orElseThrow();
    }

    private double most(int column) {
        return rows.stream().mapToDouble(row -> row[column]).max().orElseThrow();
    }

    private double mean(int column) {
        return rows.stream().mapToDouble(row -> row[column]).average().orElseThrow();
    }
}
