package org.tonewedge.examples.tone;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.quantity.Estimate;

/** A row of a table for programs: plain numbers in full precision, and why the empty fields are empty. Not thread safe. */
final class DataRow {

    private final Map<String, String> fields = new LinkedHashMap<>();
    private final Map<String, List<String>> columnsByReason = new LinkedHashMap<>();

    /** Adds a text. */
    DataRow text(String column, String value) {
        fields.put(column, value);
        return this;
    }

    /** Adds a text, or the reason why there is none. */
    DataRow text(String column, Optional<String> value, String reason) {
        if (value.isEmpty()) {
            columnsByReason.computeIfAbsent(reason, any -> new ArrayList<>()).add(column);
        }
        return text(column, value.orElse(""));
    }

    /** Adds a number. */
    DataRow number(String column, double value) {
        return text(column, Double.toString(value + 0.0));
    }

    /** Adds a number, or the reason why there is none. */
    DataRow number(String column, Optional<Double> value, String reason) {
        return text(column, value.map(found -> Double.toString(found + 0.0)), reason);
    }

    /** Adds a number and behind it, in the column {@code …_u}, its standard uncertainty. */
    DataRow estimate(String column, Optional<Estimate> value, String reason) {
        return number(column, value.map(Estimate::value), reason)
                .number(column + "_u", value.map(Estimate::standardUncertainty), reason);
    }

    /** The fields by column; the last, {@code notes}, names every empty one with its reason. */
    Map<String, String> fields() {
        List<String> notes = new ArrayList<>();
        columnsByReason.forEach((reason, columns) -> notes.add(String.join(", ", columns) + ": " + reason));
        Map<String, String> all = new LinkedHashMap<>(fields);
        all.put("notes", String.join(" | ", notes));
        return all;
    }
}
