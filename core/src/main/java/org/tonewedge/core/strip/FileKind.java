// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;

/** The kind of a file that should be text but is not, recognised by its first bytes. */
enum FileKind {
    UTF_16("in UTF-16", "save the table as UTF-8, or state its encoding where there is an option for it"),
    ZIP("a spreadsheet (XLSX or ODS) or another zip archive", "save its sheet as CSV in UTF-8"),
    OLD_SPREADSHEET("a spreadsheet of the old binary kind (XLS)", "save its sheet as CSV in UTF-8"),
    GZIP("compressed with gzip", "unpack it first"),
    PDF("a PDF document", "give the table that it was made from, as CSV in UTF-8"),
    IMAGE("an image", "give the table of readings, as CSV in UTF-8"),
    HTML("a web page", "give the table of readings, as CSV in UTF-8"),
    BINARY("not text: it has zero bytes", "give the table of readings, as CSV in UTF-8");

    /** The number of bytes that are inspected. */
    static final int NEEDED = 512;

    private final String words;
    private final String remedy;

    FileKind(String words, String remedy) {
        this.words = words;
        this.remedy = remedy;
    }

    String inWords() {
        return words;
    }

    String remedy() {
        return remedy;
    }

    /** The kind of a file that is not text in the encoding; empty if it may be text. */
    static Optional<FileKind> of(byte[] start, Charset encoding) {
        String text = new String(start, StandardCharsets.ISO_8859_1);
        boolean wide = encoding.name().startsWith("UTF-16") || encoding.name().startsWith("UTF-32");
        if (!wide && (text.startsWith("\u00ff\u00fe") || text.startsWith("\u00fe\u00ff"))) {
            return Optional.of(UTF_16);
        }
        if (text.startsWith("PK\u0003\u0004")) {
            return Optional.of(ZIP);
        }
        if (text.startsWith("\u00d0\u00cf\u0011\u00e0")) {
            return Optional.of(OLD_SPREADSHEET);
        }
        if (text.startsWith("\u001f\u008b")) {
            return Optional.of(GZIP);
        }
        if (text.startsWith("%PDF")) {
            return Optional.of(PDF);
        }
        if (text.startsWith("\u0089PNG")
                || text.startsWith("\u00ff\u00d8\u00ff")
                || text.startsWith("II*\0")
                || text.startsWith("MM\0*")) {
            return Optional.of(IMAGE);
        }
        String trimmed = text.stripLeading().toLowerCase(Locale.ROOT);
        if (trimmed.startsWith("<!doctype html") || trimmed.startsWith("<html")) {
            return Optional.of(HTML);
        }
        if (!wide && text.indexOf('\0') >= 0) {
            return Optional.of(zerosEveryOther(start) ? UTF_16 : BINARY);
        }
        return Optional.empty();
    }

    /** UTF-16 text of plain letters without a byte order mark. */
    private static boolean zerosEveryOther(byte[] start) {
        int even = 0;
        int odd = 0;
        for (int i = 0; i < start.length; i++) {
            if (start[i] == 0) {
                even += i % 2 == 0 ? 1 : 0;
                odd += i % 2;
            }
        }
        int half = start.length / 2;
        return Math.max(even, odd) > half * 3 / 4 && Math.min(even, odd) == 0;
    }
}
