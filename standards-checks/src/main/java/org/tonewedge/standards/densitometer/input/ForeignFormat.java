// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Optional;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Recognises, by its first bytes, a file that is not ASCII or UTF-8 text. */
enum ForeignFormat {

    /** Text with two bytes for each character, as some terminals and editors save it. */
    UTF_16("it is text in UTF-16, two bytes a character", "save it as UTF-8 or plain text"),

    /** A file compressed with gzip (RFC 1952, 2.3.1). */
    GZIP("it is compressed with gzip", "unpack it first, with gunzip"),

    /** A zip archive; an office spreadsheet is one. */
    ZIP("it is a zip archive, as a spreadsheet saves itself", "export the table as CSV, or unpack the archive"),

    /** A compound file, the format of older spreadsheets. */
    COMPOUND("it is a spreadsheet or document in a binary form", "export the table as CSV"),

    /** A page description. */
    PDF("it is a PDF document", "copy its numbers into a table of text");

    private static final int LOOKED_AT = 64;
    private static final int BYTE = 0xFF;

    private final String fault;
    private final String remedy;

    ForeignFormat(String fault, String remedy) {
        this.fault = fault;
        this.remedy = remedy;
    }

    DensitometerInputException refusal(String source) {
        return new DensitometerInputException(Fault.UNREADABLE, source, 0, fault, remedy);
    }

    static Optional<ForeignFormat> of(byte[] head, int length) {
        if (starts(head, length, 0x1F, 0x8B)) {
            return Optional.of(GZIP);
        }
        if (starts(head, length, 'P', 'K', 3, 4)) {
            return Optional.of(ZIP);
        }
        if (starts(head, length, 0xD0, 0xCF, 0x11, 0xE0)) {
            return Optional.of(COMPOUND);
        }
        if (starts(head, length, '%', 'P', 'D', 'F', '-')) {
            return Optional.of(PDF);
        }
        if (starts(head, length, 0xFF, 0xFE) || starts(head, length, 0xFE, 0xFF) || alternates(head, length)) {
            return Optional.of(UTF_16);
        }
        return Optional.empty();
    }

    private static boolean starts(byte[] head, int length, int... magic) {
        for (int i = 0; i < magic.length; i++) {
            if (i >= length || (head[i] & BYTE) != magic[i]) {
                return false;
            }
        }
        return true;
    }

    /** Whether every second byte is 0 and no other. */
    private static boolean alternates(byte[] head, int length) {
        int looked = Math.min(length, LOOKED_AT) / 2 * 2;
        int[] zeros = new int[2];
        for (int i = 0; i < looked; i++) {
            zeros[i % 2] += head[i] == 0 ? 1 : 0;
        }
        return looked >= 8 && Math.max(zeros[0], zeros[1]) == looked / 2 && Math.min(zeros[0], zeros[1]) == 0;
    }
}
