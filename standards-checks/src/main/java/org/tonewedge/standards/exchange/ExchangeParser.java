// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exchange;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * Reads the text format: lines of tokens separated by blanks, {@code #} comments, and quoted strings without escapes; a
 * sheet identifier, then keywords with values, and tables.
 */
final class ExchangeParser {

    private static final char END_OF_FILE = 0x1A;

    private final String name;
    private final List<Token> tokens;
    private int next;

    /** A word or a quoted string, with its line. */
    private record Token(String text, int line, boolean quoted) {

        boolean is(String keyword) {
            return !quoted && text.equals(keyword);
        }
    }

    private ExchangeParser(String name, List<Token> tokens) {
        this.name = name;
        this.tokens = tokens;
    }

    static List<ExchangeTable> parse(String name, Reader reader) throws IOException {
        return new ExchangeParser(name, tokens(name, reader)).tables();
    }

    private static List<Token> tokens(String name, Reader reader) throws IOException {
        List<Token> tokens = new ArrayList<>();
        BufferedReader lines = new BufferedReader(reader);
        int number = 0;
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            number++;
            int end = line.indexOf(END_OF_FILE);
            tokenize(name, end < 0 ? line : line.substring(0, end), number, tokens);
            if (end >= 0) {
                break;
            }
        }
        return tokens;
    }

    private static void tokenize(String name, String line, int number, List<Token> tokens) {
        int i = 0;
        while (i < line.length()) {
            char c = line.charAt(i);
            if (c == '#') {
                return;
            }
            if (Character.isWhitespace(c) || c == '\uFEFF') {
                i++;
            } else if (c == '"' || c == '\'') {
                int end = line.indexOf(c, i + 1);
                if (end < 0) {
                    throw new ExchangeException(
                            Fault.WRONG_FORMAT,
                            name,
                            number,
                            "the string " + line.substring(i) + " does not end",
                            "add a quotation mark");
                }
                tokens.add(new Token(line.substring(i + 1, end), number, true));
                i = end + 1;
            } else {
                int start = i;
                while (i < line.length() && !Character.isWhitespace(line.charAt(i)) && line.charAt(i) != '#') {
                    i++;
                }
                tokens.add(new Token(line.substring(start, i), number, false));
            }
        }
    }

    private List<ExchangeTable> tables() {
        if (tokens.isEmpty()) {
            throw new ExchangeException(
                    Fault.MISSING, name, 1, "the file is empty", "begin it with an identifier such as CGATS.17");
        }
        next = 1; // the sheet identifier, whatever its edition
        List<ExchangeTable> tables = new ArrayList<>();
        Map<String, String> keywords = new LinkedHashMap<>();
        List<String> fields = List.of();
        while (next < tokens.size()) {
            Token token = tokens.get(next++);
            if (token.is("BEGIN_DATA_FORMAT")) {
                fields = until("END_DATA_FORMAT", token).stream()
                        .map(Token::text)
                        .toList();
                requireCount("NUMBER_OF_FIELDS", keywords, fields.size(), token);
            } else if (token.is("BEGIN_DATA")) {
                tables.add(table(keywords, fields, token));
                keywords = new LinkedHashMap<>();
                fields = List.of();
            } else {
                keyword(token, keywords);
            }
        }
        if (tables.isEmpty()) {
            throw new ExchangeException(
                    Fault.MISSING,
                    name,
                    tokens.get(tokens.size() - 1).line(),
                    "the file has no table",
                    "add BEGIN_DATA … END_DATA");
        }
        return List.copyOf(tables);
    }

    private void keyword(Token token, Map<String, String> keywords) {
        if (next == tokens.size() || tokens.get(next).line() != token.line()) {
            throw new ExchangeException(
                    Fault.MISSING,
                    name,
                    token.line(),
                    "keyword " + token.text() + " has no value",
                    "write the value on its line");
        }
        String value = tokens.get(next++).text();
        // These two declare names; they are no statements about the data.
        if (!token.is("KEYWORD") && !token.is("DATA_FORMAT_IDENTIFIER")) {
            keywords.put(token.text(), value);
        }
    }

    private ExchangeTable table(Map<String, String> keywords, List<String> fields, Token begin) {
        if (fields.isEmpty()) {
            throw new ExchangeException(
                    Fault.MISSING,
                    name,
                    begin.line(),
                    "the table has no data format",
                    "put BEGIN_DATA_FORMAT … END_DATA_FORMAT first");
        }
        List<Token> data = until("END_DATA", begin);
        if (data.isEmpty() || data.size() % fields.size() != 0) {
            throw new ExchangeException(
                    Fault.WRONG_FORMAT,
                    name,
                    begin.line(),
                    "the table has " + data.size() + " values for rows of " + fields.size() + " fields " + fields,
                    "look for a missing or an extra value");
        }
        List<ExchangeTable.Row> rows = new ArrayList<>();
        for (int i = 0; i < data.size(); i += fields.size()) {
            rows.add(new ExchangeTable.Row(
                    data.get(i).line(),
                    data.subList(i, i + fields.size()).stream().map(Token::text).toList()));
        }
        requireCount("NUMBER_OF_SETS", keywords, rows.size(), begin);
        return new ExchangeTable(name, begin.line(), keywords, fields, rows);
    }

    private List<Token> until(String end, Token begin) {
        int from = next;
        while (next < tokens.size() && !tokens.get(next).is(end)) {
            next++;
        }
        if (next == tokens.size()) {
            throw new ExchangeException(
                    Fault.WRONG_FORMAT, name, begin.line(), begin.text() + " without " + end, "add " + end);
        }
        return tokens.subList(from, next++);
    }

    private void requireCount(String keyword, Map<String, String> keywords, int found, Token at) {
        String stated = keywords.get(keyword);
        if (stated != null && !stated.equals(Integer.toString(found))) {
            throw new ExchangeException(
                    Fault.CONTRADICTION,
                    name,
                    at.line(),
                    keyword + " says " + stated + " but there are " + found,
                    "correct the number, or look for a missing or an extra value");
        }
    }
}
