// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.function.BiConsumer;

/** Reads the strings, numbers and literals of one JSON object (RFC 8259); arrays are skipped. */
final class JsonLine {

    private static final int DEEPEST = 8;
    private static final int HEXADECIMAL = 16;
    private static final int HEX_DIGITS = 4;

    private final String text;
    private final BiConsumer<String, String> values;
    private int at;
    private final boolean read;

    JsonLine(String text, BiConsumer<String, String> values) {
        this.text = text;
        this.values = values;
        boolean whole = object("", DEEPEST);
        skipBlanks();
        read = whole && at == text.length();
    }

    /** Whether the text is an object and nothing else. */
    boolean isRead() {
        return read;
    }

    /** Whether the end of the text was reached. */
    boolean isAtEnd() {
        return at >= text.length();
    }

    private boolean object(String outer, int depth) {
        if (depth == 0 || !take('{')) {
            return false;
        }
        if (take('}')) {
            return true;
        }
        do {
            skipBlanks();
            String name = string();
            if (name == null || !take(':') || !value(outer + name, depth)) {
                return false;
            }
        } while (take(','));
        return take('}');
    }

    private boolean value(String name, int depth) {
        skipBlanks();
        if (at >= text.length()) {
            return false;
        }
        char first = text.charAt(at);
        if (first == '{') {
            return object(name + ".", depth - 1);
        }
        if (first == '[') {
            return array(name, depth - 1);
        }
        if (first == '"') {
            String string = string();
            if (string != null) {
                values.accept(name, string);
            }
            return string != null;
        }
        int start = at;
        while (at < text.length()
                && (Character.isLetterOrDigit(text.charAt(at)) || "+-.".indexOf(text.charAt(at)) >= 0)) {
            at++;
        }
        if (at > start && at < text.length()) {
            values.accept(name, text.substring(start, at));
            return true;
        }
        return false;
    }

    private boolean array(String name, int depth) {
        if (depth == 0 || !take('[')) {
            return false;
        }
        if (take(']')) {
            return true;
        }
        int element = 0;
        do {
            element++;
            if (!value(name + "." + element, depth)) {
                return false;
            }
        } while (take(','));
        return take(']');
    }

    /** The string that begins here; null if there is none. */
    private String string() {
        if (at >= text.length() || text.charAt(at) != '"') {
            return null;
        }
        StringBuilder string = new StringBuilder();
        for (at++; at < text.length(); at++) {
            char c = text.charAt(at);
            if (c == '"') {
                at++;
                return string.toString();
            }
            if (c == '\\') {
                at++;
                if (at >= text.length() || !escape(string)) {
                    return null;
                }
            } else {
                string.append(c);
            }
        }
        return null;
    }

    private boolean escape(StringBuilder string) {
        char c = text.charAt(at);
        int plain = "\"\\/bfnrt".indexOf(c);
        if (plain >= 0) {
            string.append("\"\\/\b\f\n\r\t".charAt(plain));
            return true;
        }
        int end = at + 1 + HEX_DIGITS;
        if (c != 'u' || end > text.length()) {
            return false;
        }
        try {
            string.append((char) Integer.parseUnsignedInt(text.substring(at + 1, end), HEXADECIMAL));
        } catch (NumberFormatException e) {
            return false;
        }
        at = end - 1;
        return true;
    }

    private boolean take(char wanted) {
        skipBlanks();
        if (at < text.length() && text.charAt(at) == wanted) {
            at++;
            return true;
        }
        return false;
    }

    private void skipBlanks() {
        while (at < text.length() && (text.charAt(at) == ' ' || text.charAt(at) == '\t')) {
            at++;
        }
    }
}
