// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import java.util.AbstractList;
import java.util.Arrays;
import java.util.RandomAccess;

/**
 * Makes a list of the fields of each row. Rows of one strip repeat most of what the row above says; such a field is the
 * same text object again, so that it costs neither time nor memory. What does change, mostly numbers, can be read as
 * characters; a text is made of it only if asked for.
 */
final class RepeatedFields extends AbstractBaseCsvCallbackHandler<RepeatedFields.Line> {

    /** More than any spreadsheet has. */
    private static final int MOST_FIELDS = 1 << 14;

    private Field[] fields = {};
    /** The bits of the fields that differ from those of the row before. */
    private long changed;

    private final Line line = new Line();

    RepeatedFields() {}

    @Override
    protected void handleField(int index, char[] text, int offset, int length, boolean quoted) {
        if (index >= fields.length) {
            addFields(index);
        }
        if (index == 0) {
            changed = 0;
        }
        Field field = fields[index];
        if (!field.is(text, offset, length)) {
            field.become(text, offset, length);
            changed |= bit(index);
        }
    }

    /** The bit of a column, to ask of several at once; every 64th column has the same. */
    static long bit(int column) {
        return 1L << column;
    }

    private void addFields(int index) {
        if (index >= MOST_FIELDS) {
            throw new CsvParseException("a row has more than " + MOST_FIELDS + " fields");
        }
        int before = fields.length;
        fields = Arrays.copyOf(fields, Math.max(16, 2 * before));
        for (int i = before; i < fields.length; i++) {
            fields[i] = new Field();
        }
    }

    @Override
    protected Line buildRecord() {
        line.number = getStartingLineNumber();
        int before = line.size;
        line.size = getFieldCount();
        for (int i = line.size; i < before; i++) {
            fields[i].forget();
        }
        return line;
    }

    /** The field of the last row, if that row reached this column. */
    private static final class Field {

        private char[] characters = new char[16];
        private int length;
        private String text = "";

        private boolean is(char[] other, int offset, int size) {
            if (size != length) {
                return false;
            }
            // From the end: numbers that differ mostly differ there.
            for (int i = size - 1; i >= 0; i--) {
                if (characters[i] != other[offset + i]) {
                    return false;
                }
            }
            return true;
        }

        private boolean has(char one, char another) {
            for (int i = 0; i < length; i++) {
                if (characters[i] == one || characters[i] == another) {
                    return true;
                }
            }
            return false;
        }

        private void forget() {
            length = -1;
        }

        private void become(char[] other, int offset, int size) {
            if (size > characters.length) {
                characters = new char[2 * size];
            }
            System.arraycopy(other, offset, characters, 0, size);
            length = size;
            text = null;
        }

        private boolean isBlank() {
            return length == 0
                    || ((characters[0] <= ' ' || characters[0] > '~')
                            && toString().isBlank());
        }

        @Override
        public String toString() {
            if (text == null) {
                text = new String(characters, 0, length);
            }
            return text;
        }
    }

    /** One row and the number of its first line; both change when the next row is read. */
    final class Line extends AbstractList<String> implements RandomAccess {

        private long number;
        private int size;

        private Line() {}

        long number() {
            return number;
        }

        @Override
        public String get(int index) {
            return field(index).toString();
        }

        private Field field(int index) {
            if (index >= size) {
                throw new IndexOutOfBoundsException(index);
            }
            return fields[index];
        }

        /** The number in a field, as {@link Numerals#digits} finds it. */
        double digits(int index, char decimalMark) {
            Field field = field(index);
            return Numerals.digits(field.characters, field.length, decimalMark);
        }

        boolean isBlank(int index) {
            return field(index).isBlank();
        }

        /** Whether all fields of these bits are those of the row before. */
        boolean areRepeated(long bits) {
            return (changed & bits) == 0;
        }

        /** The first field, from an index on, that differs from the row before and has one of two characters; or −1. */
        int nextWith(char one, char another, int from) {
            for (int i = from; i < size; i++) {
                if ((changed & bit(i)) != 0 && fields[i].has(one, another)) {
                    return i;
                }
            }
            return -1;
        }

        @Override
        public int size() {
            return size;
        }
    }
}
