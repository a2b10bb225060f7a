// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Finds where a table of readings begins, and in which form: titles above it are passed over, with a notice. */
final class TableStart implements RowSource.RowHandler {

    /** A header lower than this is not looked for. */
    private static final int MOST_TITLES = 20;

    private final ReadingsReader reader;
    private final RowSource source;
    private final List<Title> titles = new ArrayList<>();
    private ReadingsReader.Form form;
    private int width;

    private record Title(long row, List<String> fields) {}

    TableStart(ReadingsReader reader, RowSource source) {
        this.reader = reader;
        this.source = source;
    }

    @Override
    public void accept(long row, List<String> fields) {
        if (form != null) {
            form.row(row, titles.isEmpty() ? fields : widened(fields));
            return;
        }
        List<String> words = new ArrayList<>(fields.size());
        boolean isBlank = true;
        int known = 0;
        for (String field : fields) {
            String word = field.strip().toLowerCase(Locale.ROOT);
            words.add(word);
            isBlank &= word.isEmpty();
            known += ReadingsParser.COLUMNS.contains(word) ? 1 : 0;
        }
        if (isBlank) {
            return;
        }
        if (known > (titles.isEmpty() ? 0 : 1) || isGrid(words) || SidewaysGrid.begins(words)) {
            width = fields.size();
            form = form(words);
            form.row(row, fields);
            return;
        }
        titles.add(new Title(row, List.copyOf(fields)));
        if (titles.size() > MOST_TITLES) {
            startAtFirst();
        }
    }

    /** Sheets fill rows up to the width of their first row, which here is that of a title. */
    private List<String> widened(List<String> fields) {
        if (fields.size() >= width) {
            return fields;
        }
        List<String> wide = new ArrayList<>(fields);
        while (wide.size() < width) {
            wide.add("");
        }
        return wide;
    }

    private ReadingsReader.Form form(List<String> words) {
        if (SidewaysGrid.begins(words)) {
            return new SidewaysGrid(reader, source);
        }
        return isGrid(words) ? new GridParser(reader, source) : new ReadingsParser(reader, source);
    }

    /** A grid begins with a description or a strip row whose other fields are values, not column names. */
    private static boolean isGrid(List<String> words) {
        return !words.contains(ReadingsParser.DENSITY) && GridParser.begins(words);
    }

    /** No header was found: the first row is read as one, so that the exception says what it lacks. */
    private void startAtFirst() {
        List<Title> rows = List.copyOf(titles);
        titles.clear();
        form = new ReadingsParser(reader, source);
        rows.forEach(title -> form.row(title.row(), title.fields()));
    }

    ReadingsTable finish() {
        if (form == null && titles.isEmpty()) {
            throw new ReadingsException(
                    Fault.MISSING,
                    source.name(),
                    0,
                    "",
                    null,
                    null,
                    "the table is empty",
                    "give it a header row and one row for each reading, or a grid with one column for each strip");
        }
        if (form == null) {
            startAtFirst();
        }
        ReadingsTable table = form.finish();
        if (titles.isEmpty()) {
            return table;
        }
        List<String> notices = new ArrayList<>(table.notices());
        notices.add(source.name() + ": ignored above the table: "
                + String.join(
                        ", ",
                        titles.stream()
                                .map(title -> '"' + Checks.shortened(inWords(title.fields())) + '"')
                                .toList()));
        return new ReadingsTable(table.name(), table.strips(), notices);
    }

    /** A title, whose own commas may have made fields of its parts. */
    private static String inWords(List<String> fields) {
        return fields.stream()
                .map(String::strip)
                .filter(field -> !field.isEmpty())
                .collect(Collectors.joining(", "));
    }
}
