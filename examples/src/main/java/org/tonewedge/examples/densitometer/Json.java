// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Collection;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * Writes nested maps, lists, numbers and texts as JSON (RFC 8259). Numbers have nine significant figures, so that the last
 * digits do not depend on the machine.
 */
final class Json {

    private static final MathContext FIGURES = new MathContext(9);

    private Json() {}

    static String of(Object value) {
        StringBuilder text = new StringBuilder();
        write(text, value, "\n");
        return text.append('\n').toString();
    }

    private static void write(StringBuilder text, Object value, String newLine) {
        if (value instanceof Map<?, ?> map) {
            String inner = newLine + "  ";
            String separator = "{" + inner;
            for (Map.Entry<?, ?> entry : map.entrySet()) {
                text.append(separator);
                quote(text, entry.getKey().toString());
                text.append(": ");
                write(text, entry.getValue(), inner);
                separator = "," + inner;
            }
            text.append(map.isEmpty() ? "{}" : newLine + "}");
        } else if (value instanceof Collection<?> list) {
            String inner = newLine + "  ";
            String separator = "[" + inner;
            for (Object item : list) {
                text.append(separator);
                write(text, item, inner);
                separator = "," + inner;
            }
            text.append(list.isEmpty() ? "[]" : newLine + "]");
        } else if (value instanceof OptionalDouble number) {
            write(text, number.isPresent() ? (Object) number.getAsDouble() : null, newLine);
        } else if (value instanceof Double number && !Double.isFinite(number)) {
            text.append("null");
        } else if (value instanceof Double number) {
            text.append(BigDecimal.valueOf(number).round(FIGURES).doubleValue());
        } else if (value == null || value instanceof Number || value instanceof Boolean) {
            text.append(value);
        } else {
            quote(text, value.toString());
        }
    }

    private static void quote(StringBuilder text, String value) {
        text.append('"');
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                text.append('\\').append(c);
            } else if (c < 0x20) {
                text.append(String.format("\\u%04x", (int) c));
            } else {
                text.append(c);
            }
        }
        text.append('"');
    }
}
