// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Cuts a stream of bytes into lines at LF, CR LF or CR; keeps no more than one line and one block. */
final class LineSource {

    private static final int BLOCK = 1 << 13;
    private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

    private final InputStream bytes;
    private final byte[] block = new byte[BLOCK];
    private final byte[] line = new byte[DensitometerLogReader.LONGEST_LINE];
    private int position;
    private int filled;
    private long length;
    private boolean ascii;
    private boolean terminated;
    private boolean afterCarriageReturn;
    private boolean first = true;
    private boolean begun;

    LineSource(InputStream bytes) {
        this.bytes = bytes;
    }

    /** Moves to the next line; false at the end of the stream. A stream that does not begin like text is refused. */
    boolean advance() throws IOException {
        length = 0;
        ascii = true;
        terminated = false;
        while (true) {
            if (position == filled) {
                filled = bytes.read(block);
                position = 0;
                if (filled <= 0) {
                    filled = 0;
                    return length > 0;
                }
                refuseForeign();
            }
            if (!first) {
                appendUpToLineEnd();
                if (position == filled) {
                    continue;
                }
            }
            byte next = block[position++];
            if (next == '\n' && afterCarriageReturn && length == 0) {
                afterCarriageReturn = false;
                continue;
            }
            afterCarriageReturn = next == '\r';
            if (next == '\n' || next == '\r') {
                terminated = true;
                return true;
            }
            append(next);
        }
    }

    /** Takes what the block still has of a line. */
    private void appendUpToLineEnd() {
        int end = position;
        boolean plain = ascii;
        while (end < filled) {
            byte next = block[end];
            if (next < 0x20 || next == 0x7F) {
                if (next == '\n' || next == '\r') {
                    break;
                }
                plain &= next == '\t';
            }
            end++;
        }
        int count = end - position;
        if (count > 0) {
            int room = (int) Math.max(0, Math.min(count, line.length - length));
            System.arraycopy(block, position, line, (int) Math.min(length, line.length), room);
            length += count;
            afterCarriageReturn = false;
            position = end;
        }
        ascii = plain;
    }

    private void refuseForeign() {
        Optional<ForeignFormat> foreign = begun ? Optional.empty() : ForeignFormat.of(block, filled);
        begun = true;
        if (foreign.isPresent()) {
            throw foreign.get().refusal("log");
        }
    }

    private void append(byte next) {
        if (length < line.length) {
            line[(int) length] = next;
        }
        length++;
        ascii &= (next >= 0x20 && next < 0x7F) || next == '\t';
        if (first && length == BYTE_ORDER_MARK.length) {
            first = false;
            if (startsWithByteOrderMark()) {
                length = 0;
                ascii = true;
            }
        }
    }

    private boolean startsWithByteOrderMark() {
        for (int i = 0; i < BYTE_ORDER_MARK.length; i++) {
            if (line[i] != BYTE_ORDER_MARK[i]) {
                return false;
            }
        }
        return true;
    }

    boolean isTooLong() {
        return length > line.length;
    }

    boolean isAscii() {
        return ascii;
    }

    /** Whether the line ended with a line end, not with the end of the stream. */
    boolean isTerminated() {
        return terminated;
    }

    /** The text of the line, or its first part if it is too long. */
    String text() {
        return new String(line, 0, (int) Math.min(length, line.length), StandardCharsets.ISO_8859_1);
    }
}
