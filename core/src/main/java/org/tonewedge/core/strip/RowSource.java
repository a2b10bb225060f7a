// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.IOException;
import java.util.List;

/**
 * Rows of fields as they stand in a file, before they are interpreted. To add a file format, write one class that
 * delivers its rows in order and names the place of a field.
 *
 * <p>CSV is built in ({@link CsvDialect#open(java.nio.file.Path) CsvDialect.open}). {@link ReadingsTable#read(RowSource)} makes strips
 * from any source.
 */
public interface RowSource {

    /**
     * Returns the name of the source.
     *
     * @return the name for messages: the file name, with the sheet if the file has several
     */
    String name();

    /**
     * Delivers every row that is not empty.
     *
     * @param rows takes the rows in turn
     * @throws IOException if the source cannot be read
     * @throws ReadingsException if the source does not have the expected format; the message names the place of the
     *     fault
     */
    void read(RowHandler rows) throws IOException;

    /**
     * Returns the place of a field, in the words of the format.
     *
     * @param row the number of the row, from 1
     * @param column the number of the column, from 0; −1 for the whole row
     * @return for example {@code line 17}, or {@code cell C17}
     */
    default String place(long row, int column) {
        return "line " + row;
    }

    /**
     * Returns the decimal mark; known once the first row was delivered.
     *
     * @return a point or a comma
     */
    default char decimalMark() {
        return '.';
    }

    /**
     * Returns notes about the format for the user of the table; complete once all rows were read.
     *
     * @return the notices in words
     */
    default List<String> notices() {
        return List.of();
    }

    /** Receives rows. */
    @FunctionalInterface
    interface RowHandler {

        /**
         * Receives one row.
         *
         * @param row its number, from 1
         * @param fields its fields, valid during the call; fields missing at the end are empty
         */
        void accept(long row, List<String> fields);
    }
}
