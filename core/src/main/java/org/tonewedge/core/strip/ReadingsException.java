package org.tonewedge.core.strip;

import java.util.Optional;
import java.util.OptionalLong;

/**
 * A readings table that cannot be used, with the place and the remedy, such as {@code strips.csv, line 17, column
 * density: "0,42" is not a number; write decimals with a point}.
 *
 * <p>The parts of the message are also there one by one.
 */
public final class ReadingsException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** The name of the table. */
    private final String file;

    /** The line, 0 for the whole table. */
    private final long line;

    /** The column, or null. */
    private final String column;

    /** The text of the field, or null. */
    private final String value;

    /** What to do about it. */
    private final String remedy;

    ReadingsException(String file, long line, String column, String value, String fault, String remedy) {
        super(message(file, line, column, fault, remedy));
        this.file = file;
        this.line = line;
        this.column = column;
        this.value = value;
        this.remedy = remedy;
    }

    private static String message(String file, long line, String column, String fault, String remedy) {
        StringBuilder text = new StringBuilder(file);
        if (line > 0) {
            text.append(", line ").append(line);
        }
        if (column != null) {
            text.append(", column ").append(column);
        }
        return text.append(": ").append(fault).append("; ").append(remedy).toString();
    }

    /**
     * Returns the name of the table.
     *
     * @return the file name, or the name given for a reader
     */
    public String file() {
        return file;
    }

    /**
     * Returns the line at fault.
     *
     * @return the line number, 1 being the header; nothing if the whole table is at fault
     */
    public OptionalLong line() {
        return line > 0 ? OptionalLong.of(line) : OptionalLong.empty();
    }

    /**
     * Returns the column at fault.
     *
     * @return the column's name; nothing if the row or the table is at fault
     */
    public Optional<String> column() {
        return Optional.ofNullable(column);
    }

    /**
     * Returns the value at fault.
     *
     * @return the text of the field; nothing if there is none
     */
    public Optional<String> value() {
        return Optional.ofNullable(value);
    }

    /**
     * Returns what to do about it.
     *
     * @return the remedy in words
     */
    public String remedy() {
        return remedy;
    }
}
