// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import org.tonewedge.core.internal.Checks;

/**
 * A readings table cannot be used. The message gives the place and the remedy, such as {@code strips.csv, line 17,
 * column density: "0,42" is not a number; write decimals with a point}.
 *
 * <p>Methods return the parts of the message one by one.
 */
public final class ReadingsException extends UnusableInputException {

    private static final long serialVersionUID = 1L;

    /** The name of the table. */
    private final String file;

    /** The line, 0 for the whole table. */
    private final long line;

    /** The place in words; empty for the whole table. */
    private final String place;

    /** The column, or null. */
    private final String column;

    /** The text of the field, or null. */
    private final String value;

    /** What to do about it. */
    private final String remedy;

    ReadingsException(
            Fault kind,
            String file,
            long line,
            String place,
            String column,
            String value,
            String fault,
            String remedy) {
        super(kind, message(file, place, column, fault, remedy));
        this.file = file;
        this.line = line;
        this.place = place;
        this.column = column;
        this.value = value;
        this.remedy = remedy;
    }

    private ReadingsException(Fault kind, ReadingsException same, String words, String remedy) {
        super(kind, words + "; " + remedy);
        file = same.file;
        line = same.line;
        place = same.place;
        column = same.column;
        value = same.value;
        this.remedy = remedy;
    }

    /**
     * Returns an exception for a format that you add yourself.
     *
     * @param fault the kind of fault
     * @param source the name of the {@linkplain RowSource source}
     * @param place the place of the fault, such as {@code cell C17}; empty for the whole source
     * @param words what is wrong
     * @param remedy what to do about it
     * @return the exception
     */
    public static ReadingsException at(Fault fault, String source, String place, String words, String remedy) {
        Objects.requireNonNull(fault, "fault");
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(words, "words");
        Objects.requireNonNull(remedy, "remedy");
        return new ReadingsException(fault, source, 0, place, null, null, words, remedy);
    }

    /** This fault, with others of the same table told after it. */
    ReadingsException followedBy(String others) {
        String words = getMessage().substring(0, getMessage().length() - remedy.length() - 2);
        return new ReadingsException(fault(), this, words, remedy + "; " + others);
    }

    /** The place of the fault, with its column if that is asked for, and the text there. */
    String placeAndValue(boolean withColumn) {
        return (place.isEmpty() ? file : place)
                + (withColumn && column != null ? ", column " + Checks.shortened(column) : "")
                + (value == null ? "" : " (\"" + Checks.shortened(value) + "\")");
    }

    private static String message(String file, String place, String column, String fault, String remedy) {
        StringBuilder text = new StringBuilder(Checks.shortened(file));
        if (!place.isEmpty()) {
            text.append(", ").append(place);
        }
        if (column != null) {
            text.append(", column ").append(Checks.shortened(column));
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
     * Returns the number of the faulty line or row.
     *
     * @return the line number, where 1 is the header; empty if the whole table is at fault
     */
    public OptionalLong line() {
        return line > 0 ? OptionalLong.of(line) : OptionalLong.empty();
    }

    /**
     * Returns the faulty column.
     *
     * @return the name of the column; empty if the row or the table is at fault
     */
    public Optional<String> column() {
        return Optional.ofNullable(column);
    }

    /**
     * Returns the faulty value.
     *
     * @return the text of the field; empty if there is none
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
