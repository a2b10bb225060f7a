// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.tonewedge.examples.page.Table;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;

/**
 * The notes of a comparison in plain words: what many films share is said once for all of them, the rest at its film.
 */
final class PlainNotes {

    /** A note of as many films is no remark on one of them. */
    private static final int SHARED = 3;

    private final Map<StripComparison, List<String>> ofRow = new LinkedHashMap<>();
    /** The notes that differ in their numbers alone, by row. */
    private final Map<String, Map<StripComparison, String>> rowsOf = new LinkedHashMap<>();

    PlainNotes(Map<StripComparison, List<String>> notes) {
        Map<String, String> headings = new TreeMap<>(java.util.Comparator.comparing(String::length)
                .reversed()
                .thenComparing(java.util.Comparator.naturalOrder()));
        headings.put("speed_iso", "Rounded speed");
        headings.put("speed_degrees", "");
        headings.put("contrast_condition", "");
        for (FilmFigure figure : FilmFigure.values()) {
            headings.put(figure.id(), figure.heading());
        }
        notes.forEach((row, list) -> {
            List<String> plain = list.stream()
                    .map(note -> inWords(note, headings, row))
                    .distinct()
                    .toList();
            ofRow.put(row, plain);
            plain.forEach(note -> rowsOf.computeIfAbsent(pattern(note), any -> new LinkedHashMap<>())
                    .put(row, note));
        });
    }

    /** The notes of a table. */
    static PlainNotes of(Table<StripComparison> table) {
        Map<StripComparison, List<String>> all = new LinkedHashMap<>();
        table.rows().forEach(row -> all.put(row, table.notes(row)));
        return new PlainNotes(all);
    }

    /** All that concerns a film. */
    List<String> all(StripComparison row) {
        return ofRow.get(row);
    }

    /** A note without the names of columns and of the strip that it stands at. */
    private static String inWords(String note, Map<String, String> headings, StripComparison row) {
        String text = note;
        for (Map.Entry<String, String> name : headings.entrySet()) {
            text = text.replaceAll(
                    "\\b" + name.getKey() + "\\b(, )?",
                    name.getValue() + (name.getValue().isEmpty() ? "" : "$1"));
        }
        String id = java.util.regex.Pattern.quote(row.figures().strip().id());
        String strip = "strip '?" + id + "'?( \\([^)]*\\))?";
        text = text.replaceAll("(?<!\\w)" + strip + ": ", "")
                .replaceAll("(?<!\\w)" + strip, "the strip")
                .replaceFirst("^fit: ", "")
                .replaceFirst("^: ", "");
        return text.isEmpty() ? note : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    /** What concerns one film, or a few. */
    List<String> of(StripComparison row) {
        return ofRow.get(row).stream()
                .filter(note -> rowsOf.get(pattern(note)).size() <= SHARED)
                .toList();
    }

    /** What concerns many films, with how many they are; an ellipsis for numbers that differ among them. */
    List<String> shared() {
        return rowsOf.values().stream()
                .filter(notes -> notes.size() > SHARED)
                .map(notes ->
                        inCommon(List.copyOf(notes.values())) + " (" + notes.size() + " of " + ofRow.size() + " films)")
                .toList();
    }

    private static String pattern(String note) {
        return note.replaceAll("[-+\u2212]?\\d+(\\.\\d+)?", "#");
    }

    private static String inCommon(List<String> notes) {
        String[] words = notes.get(0).split(" ", -1);
        for (String note : notes) {
            String[] others = note.split(" ", -1);
            for (int i = 0; i < words.length; i++) {
                words[i] = words[i].equals(others[i]) ? words[i] : "\u2026";
            }
        }
        return String.join(" ", words);
    }
}
