// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.StringTokenizer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The names and values of one line, however they are written. */
final class LinePairs {

    private static final Pattern LOOSE_SEPARATOR = Pattern.compile("[ \t]*([=:])[ \t]*");
    private static final Pattern WORD = Pattern.compile("[A-Za-z_%]+(?:[0-9]+[A-Za-z_%]+)*");
    private static final Pattern BEFORE_NUMBER = Pattern.compile("([A-Za-z_%]+)([+-]?[0-9.].*)");
    private static final Pattern BEHIND_NUMBER = Pattern.compile("([+-]?[0-9.]+(?:[eE][+-]?[0-9]+)?)([A-Za-z_%]+)");

    private final Map<String, String> values = new LinkedHashMap<>();
    private final Map<String, String> view = Collections.unmodifiableMap(values);
    private boolean contradictory;
    private boolean unreadable;
    private boolean cut;

    private LinePairs() {}

    /** The values by their names in lower case, in the order of the line. */
    Map<String, String> values() {
        return view;
    }

    /** Whether a name has two values. */
    boolean isContradictory() {
        return contradictory;
    }

    /** Whether a part of the line is not understood. */
    boolean isUnreadable() {
        return unreadable;
    }

    /** Whether the line ends before it is complete. */
    boolean isCut() {
        return cut;
    }

    static LinePairs of(LogForm form, String line, boolean decimalComma) {
        return switch (form) {
            case KEYS -> ofKeys(line, decimalComma);
            case WORDS -> ofWords(line, decimalComma);
            case JSON -> ofJson(line);
            case BARE, COMMA, TAB, SEMICOLON, BLANK -> throw new IllegalStateException(form + " has no pairs");
        };
    }

    private void put(String name, String value) {
        contradictory |= values.put(name.toLowerCase(Locale.ROOT), value) != null;
    }

    private static LinePairs ofKeys(String line, boolean decimalComma) {
        LinePairs pairs = new LinePairs();
        String tight = tightened(line);
        int start = 0;
        for (int i = 0; i <= tight.length(); i++) {
            if (i == tight.length() || isBetweenPairs(tight.charAt(i), decimalComma)) {
                if (i > start) {
                    pairs.putPair(tight.substring(start, i), decimalComma);
                }
                start = i + 1;
            }
        }
        return pairs;
    }

    private static boolean isBetweenPairs(char c, boolean decimalComma) {
        return c == ' ' || c == ';' || c == '\t' || (c == ',' && !decimalComma);
    }

    private void putPair(String written, boolean decimalComma) {
        String pair = decimalComma && written.endsWith(",") ? written.substring(0, written.length() - 1) : written;
        int separator = separator(pair);
        if (separator < 1) {
            unreadable |= !pair.isEmpty();
        } else {
            put(pair.substring(0, separator), pair.substring(separator + 1));
        }
    }

    /** The line without white space around its separators. */
    private static String tightened(String line) {
        for (int i = 1; i < line.length() - 1; i++) {
            char c = line.charAt(i);
            if ((c == '=' || c == ':') && (line.charAt(i - 1) <= ' ' || line.charAt(i + 1) <= ' ')) {
                return LOOSE_SEPARATOR.matcher(line).replaceAll("$1");
            }
        }
        return line;
    }

    private static int separator(String token) {
        int equals = token.indexOf('=');
        return equals >= 0 ? equals : token.indexOf(':');
    }

    /**
     * A number belongs to the word before it, or otherwise to the word after it: {@code Step 1 D 0.04} or {@code 0.04
     * D}. A number without a word makes the line unreadable.
     */
    private static LinePairs ofWords(String line, boolean decimalComma) {
        LinePairs pairs = new LinePairs();
        List<String> tokens = pairs.wordsAndNumbers(line, decimalComma);
        boolean[] spent = new boolean[tokens.size()];
        for (int i = 0; i < tokens.size(); i++) {
            if (isWord(tokens.get(i))) {
                continue;
            }
            int word = i > 0 && isWord(tokens.get(i - 1)) && !spent[i - 1] ? i - 1 : i + 1;
            if (word >= tokens.size() || !isWord(tokens.get(word))) {
                pairs.unreadable = true;
                continue;
            }
            spent[word] = true;
            pairs.put(tokens.get(word), tokens.get(i));
        }
        return pairs;
    }

    private List<String> wordsAndNumbers(String line, boolean decimalComma) {
        List<String> parts = new ArrayList<>();
        StringTokenizer tokens = new StringTokenizer(line, decimalComma ? " ;\t=:|()" : " ,;\t=:|()");
        while (tokens.hasMoreTokens()) {
            String token = tokens.nextToken();
            token = decimalComma && token.endsWith(",") ? token.substring(0, token.length() - 1) : token;
            String number = decimalComma ? token.replace(',', '.') : token;
            Matcher behind = BEHIND_NUMBER.matcher(number);
            Matcher before = BEFORE_NUMBER.matcher(number);
            if (isWord(token) || isNumber(number)) {
                parts.add(token);
            } else if (behind.matches() && isNumber(behind.group(1))) {
                parts.add(token.substring(0, behind.end(1)));
                parts.add(behind.group(2));
            } else if (before.matches() && isNumber(before.group(2))) {
                parts.add(before.group(1));
                parts.add(token.substring(before.start(2)));
            } else {
                unreadable |= token.chars().anyMatch(c -> Character.isLetterOrDigit(c));
            }
        }
        return parts;
    }

    private static boolean isNumber(String text) {
        return Numerals.number(text).isPresent() || Numerals.isOverrange(text);
    }

    private static boolean isWord(String text) {
        return WORD.matcher(text).matches() && !Numerals.isOverrange(text);
    }

    /** A flat object of JSON; objects inside it are named {@code outer.inner}. */
    private static LinePairs ofJson(String line) {
        LinePairs pairs = new LinePairs();
        if (!line.startsWith("{")) {
            return pairs;
        }
        JsonLine json = new JsonLine(line, pairs::put);
        boolean whole = json.isRead();
        pairs.cut = !whole && json.isAtEnd();
        pairs.unreadable = !whole && !json.isAtEnd();
        return pairs;
    }
}
