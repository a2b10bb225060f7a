// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** How the values of a log line are separated. */
enum LogForm {

    /** A density alone on its line. */
    BARE,

    /** Pairs of key and value, {@code step=3 density=0.42} or {@code step:3, density:0.42}. */
    KEYS,

    /** Columns with a comma between them. */
    COMMA,

    /** Columns with a tabulator between them. */
    TAB,

    /** Columns with a semicolon between them. */
    SEMICOLON,

    /** Columns with any number of blanks or tabulators between them. */
    BLANK,

    /** Words and numbers, {@code Step 3 D 0.42} or {@code 0.42 D}: a number belongs to the word before or after it. */
    WORDS,

    /** An object of JSON on each line, {@code {"step": 3, "density": 0.42}}. */
    JSON;

    /** The word for it in the text form of a {@link LogLayout}, such as {@code keys}. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    boolean hasColumns() {
        return this == COMMA || this == TAB || this == SEMICOLON || this == BLANK;
    }

    boolean hasPairs() {
        return this == KEYS || this == WORDS || this == JSON;
    }

    /** The fields of a line of columns, without blanks and quotation marks around them. */
    List<String> fields(String line) {
        return switch (this) {
            case COMMA -> separated(line, ',');
            case TAB -> separated(line, '\t');
            case SEMICOLON -> separated(line, ';');
            case BLANK -> Arrays.asList(line.strip().split("[ \t]+", -1));
            case BARE, KEYS, WORDS, JSON -> throw new IllegalStateException(this + " has no columns");
        };
    }

    /**
     * A quotation mark that is not closed, or not doubled inside quotation marks, stays and makes its field unreadable.
     */
    private static List<String> separated(String line, char separator) {
        List<String> fields = new ArrayList<>();
        int start = 0;
        if (line.indexOf('"') < 0) {
            for (int end = line.indexOf(separator); end >= 0; end = line.indexOf(separator, start)) {
                fields.add(line.substring(start, end).strip());
                start = end + 1;
            }
            fields.add(line.substring(start).strip());
            return fields;
        }
        boolean quoted = false;
        for (int i = 0; i <= line.length(); i++) {
            if (i == line.length() || (line.charAt(i) == separator && !quoted)) {
                fields.add(unquoted(line.substring(start, i).strip()));
                start = i + 1;
            } else if (line.charAt(i) == '"') {
                quoted = !quoted;
            }
        }
        return fields;
    }

    private static String unquoted(String field) {
        boolean quoted = field.length() > 1 && field.startsWith("\"") && field.endsWith("\"");
        return quoted
                ? field.substring(1, field.length() - 1).replace("\"\"", "\"").strip()
                : field;
    }

    static Optional<LogForm> ofWord(String word) {
        return Arrays.stream(values()).filter(form -> form.word().equals(word)).findFirst();
    }
}
