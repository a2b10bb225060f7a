// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;

/** The answer to a question: figures with their uncertainty, what they hold for, and what to do. Not thread safe. */
final class MethodAnswer {

    static final List<String> COLUMNS = List.of("subject", "figure", "value", "u", "unit", "notes");

    private record Row(String subject, String figure, Optional<Estimate> value, String unit, String notes) {

        private String uncertainty(String format) {
            return value.filter(found -> found.standardUncertainty() > 0)
                    .map(found -> String.format(Locale.ROOT, format, found.standardUncertainty()))
                    .orElse("");
        }

        List<String> shown() {
            if (value.isPresent() && !(value.get().standardUncertainty() > 0)) {
                return List.of(subject, figure, plain(value.get().value(), unit), "", unit, notes);
            }
            String format = value.filter(found -> found.standardUncertainty() > 0)
                    .map(found -> "%." + Math.max(0, decimals(found.standardUncertainty())) + "f")
                    .orElse("%.4g");
            return List.of(
                    subject,
                    figure,
                    value.map(found -> String.format(Locale.ROOT, format, found.value()))
                            .orElse(""),
                    uncertainty(format),
                    unit,
                    notes);
        }

        /** A density to 0.001, stops to 0.01, all else to four significant digits without zeros at the end. */
        private static String plain(double value, String unit) {
            BigDecimal number = BigDecimal.valueOf(value);
            return switch (unit) {
                case "density" -> number.setScale(3, RoundingMode.HALF_EVEN).toPlainString();
                case "stops" -> number.setScale(2, RoundingMode.HALF_EVEN).toPlainString();
                default -> {
                    BigDecimal rounded = number.round(new MathContext(4));
                    yield rounded.signum() == 0
                            ? "0"
                            : rounded.stripTrailingZeros().toPlainString();
                }
            };
        }

        /** Two significant digits of the uncertainty. */
        private static int decimals(double uncertainty) {
            return 1 - (int) Math.floor(Math.log10(uncertainty));
        }

        List<String> written() {
            return List.of(
                    subject,
                    figure,
                    value.map(found -> String.format(Locale.ROOT, "%.6g", found.value()))
                            .orElse(""),
                    uncertainty("%.3g"),
                    unit,
                    notes);
        }
    }

    private final List<Row> rows = new ArrayList<>();
    private final List<String> conditions = new ArrayList<>();
    private final List<String> findings = new ArrayList<>();

    /** Adds a figure; what cannot be determined becomes a row without a value that says why. */
    void add(String subject, String figure, String unit, String notes, Supplier<Estimate> reading) {
        try {
            rows.add(new Row(subject, figure, Optional.of(reading.get()), unit, notes));
        } catch (NotDeterminableException e) {
            addMissing(subject, figure, unit, e.getMessage());
        }
    }

    /** Adds a figure that cannot be determined, with the reason. */
    void addMissing(String subject, String figure, String unit, String reason) {
        rows.add(new Row(subject, figure, Optional.empty(), unit, reason));
    }

    void add(String subject, String figure, String unit, Supplier<Estimate> reading) {
        add(subject, figure, unit, "", reading);
    }

    /** What the figures hold for. */
    void holds(String condition) {
        conditions.add(condition);
    }

    /** What was found, or what to do. */
    void find(String finding) {
        findings.add(finding);
    }

    List<String> conditions() {
        return List.copyOf(conditions);
    }

    List<String> findings() {
        return List.copyOf(findings);
    }

    boolean isComplete() {
        return rows.stream().allMatch(row -> row.value().isPresent());
    }

    List<List<String>> shown() {
        return rows.stream().map(Row::shown).toList();
    }

    void write(Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(COLUMNS);
            rows.forEach(row -> csv.writeRecord(row.written()));
            conditions.forEach(condition -> csv.writeRecord("", "condition", "", "", "", condition));
            findings.forEach(finding -> csv.writeRecord("", "finding", "", "", "", finding));
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
