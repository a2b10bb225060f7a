package org.tonewedge.standards.densitometer.input;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How the values of a log line are set apart. */
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
    SEMICOLON;

    /** The word for it in the text form of a {@link LogLayout}, such as {@code keys}. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    boolean hasColumns() {
        return this == COMMA || this == TAB || this == SEMICOLON;
    }

    char separator() {
        return switch (this) {
            case COMMA -> ',';
            case TAB -> '\t';
            case SEMICOLON -> ';';
            case BARE, KEYS -> throw new IllegalStateException(this + " has no columns");
        };
    }

    static Optional<LogForm> ofWord(String word) {
        return Arrays.stream(values()).filter(form -> form.word().equals(word)).findFirst();
    }
}
