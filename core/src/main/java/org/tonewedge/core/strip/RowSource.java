package org.tonewedge.core.strip;

import java.io.IOException;
import java.util.List;

/**
 * Rows of fields as a file has them, before anyone asks what they mean: the seam at which a format of files joins. A
 * format of one's own is one class that hands over its rows in turn and names the place of a field.
 *
 * <p>CSV is built in ({@link CsvDialect#open(java.nio.file.Path)}); {@link ReadingsTable#read(RowSource)} makes strips of
 * any source.
 */
public interface RowSource {

    /**
     * Returns the name of the source.
     *
     * @return for messages: the name of a file, with the sheet if the file has several
     */
    String name();

    /**
     * Hands over every row that is not empty.
     *
     * @param rows takes the rows in turn
     * @throws IOException if the source cannot be read
     * @throws ReadingsException if the source is not of its format; the message names the place
     */
    void read(RowHandler rows) throws IOException;

    /**
     * Returns the place of a field in the words of the format.
     *
     * @param row the number of the row, from 1
     * @param column the number of the column, from 0; −1 for the whole row
     * @return for example {@code line 17}, or {@code cell C17}
     */
    default String place(long row, int column) {
        return "line " + row;
    }

    /**
     * Returns the sign between whole numbers and decimals; known from the first row on.
     *
     * @return a point or a comma
     */
    default char decimalMark() {
        return '.';
    }

    /**
     * Returns what a reader of the table should know of the format; known after reading.
     *
     * @return the notices in words
     */
    default List<String> notices() {
        return List.of();
    }

    /** Takes rows. */
    @FunctionalInterface
    interface RowHandler {

        /**
         * Takes one row.
         *
         * @param row its number, from 1
         * @param fields its fields, valid during the call; fields that are left out at the end are empty
         */
        void accept(long row, List<String> fields);
    }
}
