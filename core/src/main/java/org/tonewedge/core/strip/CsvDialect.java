// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;

/**
 * How a CSV file is written: its encoding, the separator between fields, and its decimal mark. What you do not state is
 * found from the file. The first row shows the separator. If that is not a comma, all numbers together show the decimal
 * mark, and must agree.
 *
 * <p>Immutable and thread safe.
 *
 * @source RFC 4180 (2005) for quotation marks and line ends
 */
public final class CsvDialect {

    private static final CsvDialect GUESSED = new CsvDialect(StandardCharsets.UTF_8, null, null);

    private final Charset encoding;
    private final Character separator;
    private final Character decimalMark;

    private CsvDialect(Charset encoding, Character separator, Character decimalMark) {
        this.encoding = encoding;
        this.separator = separator;
        this.decimalMark = decimalMark;
    }

    /**
     * Returns a dialect whose separator and decimal mark are found from the file; the encoding is UTF-8.
     *
     * @return the dialect
     */
    public static CsvDialect guessed() {
        return GUESSED;
    }

    /**
     * Returns a copy with an encoding.
     *
     * @param charset the encoding of the file, such as windows-1252
     * @return the copy
     */
    public CsvDialect withEncoding(Charset charset) {
        return new CsvDialect(Objects.requireNonNull(charset, "charset"), separator, decimalMark);
    }

    /**
     * Returns a copy with a stated separator.
     *
     * @param mark the separator between fields: a comma, semicolon, tab or vertical bar
     * @return the copy
     * @throws IllegalArgumentException if it is another character
     */
    public CsvDialect withSeparator(char mark) {
        if (CsvRows.SEPARATORS.indexOf(mark) < 0) {
            throw new IllegalArgumentException("fields are separated by a comma, semicolon, tab or bar, was '"
                    + Checks.shortened(String.valueOf(mark)) + "'");
        }
        return new CsvDialect(encoding, mark, decimalMark);
    }

    /**
     * Returns a copy with a stated decimal mark.
     *
     * @param mark a point or a comma
     * @return the copy
     * @throws IllegalArgumentException if it is another character
     */
    public CsvDialect withDecimalMark(char mark) {
        if (mark != '.' && mark != ',') {
            throw new IllegalArgumentException(
                    "the decimal mark is a point or a comma, was '" + Checks.shortened(String.valueOf(mark)) + "'");
        }
        return new CsvDialect(encoding, separator, mark);
    }

    /**
     * Returns the rows of a file, which is read when the rows are asked for.
     *
     * @param file the file
     * @return its rows
     */
    public RowSource open(Path file) {
        return new CsvRows(this, file);
    }

    /**
     * Returns the rows in a stream of characters; they can be read once.
     *
     * @param name a name for messages
     * @param characters the source of the characters; not closed
     * @return the rows
     */
    public RowSource open(String name, Reader characters) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(characters, "characters");
        return new CsvRows(this, name, characters);
    }

    Charset encoding() {
        return encoding;
    }

    /** The stated separator, or null. */
    Character separator() {
        return separator;
    }

    /** The stated decimal mark, or null. */
    Character statedDecimalMark() {
        return decimalMark;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof CsvDialect that
                && Objects.equals(encoding, that.encoding)
                && Objects.equals(separator, that.separator)
                && Objects.equals(decimalMark, that.decimalMark);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(encoding, separator, decimalMark);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return what was stated
     */
    @Override
    public String toString() {
        return "encoding " + (encoding == null ? "guessed" : encoding) + ", separator "
                + (separator == null ? "guessed" : "'" + separator + "'") + ", decimal mark "
                + (decimalMark == null ? "guessed" : "'" + decimalMark + "'");
    }
}
