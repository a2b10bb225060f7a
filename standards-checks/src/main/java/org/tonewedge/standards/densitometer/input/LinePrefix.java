// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Collection;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a terminal or a logging routine prints before the values of a line, such as {@code [10:15:30]}, {@code 10:15:30
 * ->}, {@code [ 12.345678]}, {@code I (7500) dens:}, {@code INFO}, or {@code dens:} before a pair.
 */
final class LinePrefix {

    private static final int MOST_PARTS = 4;
    private static final double MILLISECONDS = 1000;

    private static final Pattern BRACKET = Pattern.compile("\\[[ \t]*([^\\]]*?)[ \t]*\\](.*)");
    private static final Pattern SECONDS = Pattern.compile("\\d{1,10}\\.\\d+");
    private static final Pattern ARROW = Pattern.compile("(\\S+(?: \\S+)?) -> ?(.*)");
    private static final Pattern CLOCK =
            Pattern.compile("((?:\\d{4}-\\d\\d-\\d\\d[T ])?\\d\\d:\\d\\d:\\d\\d[^ \t,;]*) +(.*)");
    private static final Pattern UPTIME =
            Pattern.compile("[A-Z] ?\\((\\d{1,12})\\)(?: ?[A-Za-z_][\\w.-]*(?:: ?(?=\\S)|:$)| )(.*)");
    private static final Pattern LEVEL =
            Pattern.compile("\\[?(?i:TRACE|DEBUG|INFO|NOTICE|WARN|WARNING|ERROR)\\]?[ \t:]+(.*)");
    /** What a level may begin with. */
    private static final String LEVEL_INITIALS = "[TDINWEtdinwe";

    private static final Pattern TAG = Pattern.compile("([A-Za-z_][\\w.-]*)(?:\\[\\d+\\])?: +((?:[A-Za-z_]|\\{).*)");

    private final String rest;
    private final OptionalDouble seconds;

    private LinePrefix(String rest, OptionalDouble seconds) {
        this.rest = rest;
        this.seconds = seconds;
    }

    /** The line after its prefix. */
    String rest() {
        return rest;
    }

    /** The time stated in the prefix. */
    OptionalDouble seconds() {
        return seconds;
    }

    /** Cuts the prefix off a line that has no white space around it; a word that the layout expects is not a prefix. */
    static LinePrefix of(String line, Collection<String> keys, TimeStamps stamps) {
        LinePrefix cut = new LinePrefix(line, OptionalDouble.empty());
        for (int part = 0; part < MOST_PARTS && mayHavePrefix(cut.rest); part++) {
            LinePrefix next = cut.cutOnce(keys, stamps);
            if (next.rest.equals(cut.rest)) {
                break;
            }
            cut = next;
        }
        return cut;
    }

    /** A quick test, because few lines have a prefix. */
    private static boolean mayHavePrefix(String line) {
        if (line.isEmpty()) {
            return false;
        }
        char first = line.charAt(0);
        return first == '['
                || Character.isLetter(first)
                || first == '_'
                || (Character.isDigit(first) && line.indexOf(':') > 0);
    }

    private LinePrefix cutOnce(Collection<String> keys, TimeStamps stamps) {
        char first = rest.charAt(0);
        if (first == '[') {
            Matcher bracket = BRACKET.matcher(rest);
            if (bracket.matches()) {
                String inside = bracket.group(1);
                OptionalDouble stamp = SECONDS.matcher(inside).matches()
                        ? OptionalDouble.of(Double.parseDouble(inside))
                        : stamps.seconds(inside);
                if (stamp.isPresent()) {
                    return behind(bracket.group(2), stamp);
                }
            }
        }
        if (Character.isDigit(first)) {
            for (Pattern stamped : new Pattern[] {ARROW, CLOCK}) {
                Matcher clock = stamped.matcher(rest);
                OptionalDouble stamp = clock.matches() ? stamps.seconds(clock.group(1)) : OptionalDouble.empty();
                if (stamp.isPresent()) {
                    return behind(clock.group(2), stamp);
                }
            }
            return this;
        }
        int bracket = rest.indexOf('(');
        Matcher uptime = bracket == 1 || bracket == 2 ? UPTIME.matcher(rest) : null;
        if (uptime != null && uptime.matches()) {
            return behind(uptime.group(2), OptionalDouble.of(Double.parseDouble(uptime.group(1)) / MILLISECONDS));
        }
        Matcher level = LEVEL_INITIALS.indexOf(first) >= 0 ? LEVEL.matcher(rest) : null;
        if (level != null && level.matches()) {
            return behind(level.group(1), OptionalDouble.empty());
        }
        Matcher tag = rest.indexOf(": ") > 0 ? TAG.matcher(rest) : null;
        if (tag != null && tag.matches() && !keys.contains(tag.group(1).toLowerCase(Locale.ROOT))) {
            return behind(tag.group(2), OptionalDouble.empty());
        }
        return this;
    }

    private LinePrefix behind(String text, OptionalDouble stamp) {
        return new LinePrefix(text.strip(), seconds.isPresent() ? seconds : stamp);
    }
}
