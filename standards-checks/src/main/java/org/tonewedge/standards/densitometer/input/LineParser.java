package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.StringTokenizer;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Turns the lines of one log into readings by a layout; it remembers the header and the clock. */
final class LineParser {

    static final int MOST_STEPS = 1000;

    private static final Pattern LOOSE_SEPARATOR = Pattern.compile("[ \t]*([=:])[ \t]*");
    private static final double LATEST_SECOND = 1e12;

    private final LogLayout layout;
    private final Map<LogField, Integer> columns = new EnumMap<>(LogField.class);
    private final TimeStamps stamps = new TimeStamps();
    private int width;
    private boolean sawUnusedNumber;

    LineParser(LogLayout layout) {
        this.layout = layout;
        this.width = layout.width().orElse(0);
        if (layout.form().hasColumns() && !layout.hasHeader()) {
            layout.places().forEach((field, place) -> columns.put(field, Integer.parseInt(place) - 1));
        }
    }

    boolean isWaitingForHeader() {
        return layout.hasHeader() && columns.isEmpty();
    }

    /** Whether a line so far had a number that the layout does not use. */
    boolean sawUnusedNumber() {
        return sawUnusedNumber;
    }

    ParsedLine parse(String raw) {
        String line = raw.strip();
        if (line.isEmpty()) {
            return ParsedLine.refused(LineKind.BLANK);
        }
        if (line.startsWith("#") || line.startsWith("//")) {
            return ParsedLine.refused(LineKind.COMMENT);
        }
        OptionalDouble stamp = OptionalDouble.empty();
        if (!layout.knows(LogField.TIME) && !layout.knows(LogField.MILLISECONDS)) {
            int end = stampEnd(line);
            stamp = end > 0 ? stamps.seconds(stampText(line, end)) : stamp;
            line = stamp.isPresent() ? line.substring(end).strip() : line;
            if (line.isEmpty()) {
                return ParsedLine.refused(LineKind.BLANK);
            }
        }
        return switch (layout.form()) {
            case BARE -> bare(line, stamp);
            case KEYS -> keyed(line, stamp);
            case COMMA, TAB, SEMICOLON -> columns(stamp.isPresent() ? line : raw, stamp);
        };
    }

    /** The end of a stamp that a terminal program put before the line, {@code [10:15:30]} or {@code 10:15:30 ->}. */
    private static int stampEnd(String line) {
        if (line.charAt(0) == '[') {
            return line.indexOf(']') + 1;
        }
        int arrow = line.indexOf(" -> ");
        return arrow < 0 ? 0 : arrow + 4;
    }

    private static String stampText(String line, int end) {
        return line.charAt(0) == '['
                ? line.substring(1, end - 1).strip()
                : line.substring(0, end - 4).strip();
    }

    private ParsedLine bare(String line, OptionalDouble stamp) {
        boolean looksLikeNumber = Numerals.isOverrange(line) || "+-.0123456789".indexOf(line.charAt(0)) >= 0;
        return looksLikeNumber ? interpret(field -> line, stamp) : ParsedLine.refused(LineKind.MESSAGE);
    }

    private ParsedLine keyed(String line, OptionalDouble stamp) {
        Map<String, String> pairs = new HashMap<>();
        boolean contradictory = false;
        boolean unreadable = false;
        StringTokenizer tokens = new StringTokenizer(tightened(line), " ,;\t");
        while (tokens.hasMoreTokens()) {
            String token = tokens.nextToken();
            int separator = separator(token);
            if (separator < 1) {
                unreadable = true;
                continue;
            }
            String key = token.substring(0, separator).toLowerCase(Locale.ROOT);
            contradictory |= pairs.put(key, token.substring(separator + 1)) != null;
        }
        if (layout.places().values().stream().noneMatch(pairs::containsKey)) {
            return ParsedLine.refused(LineKind.MESSAGE);
        }
        if (contradictory) {
            return ParsedLine.refused(LineKind.CONTRADICTORY);
        }
        if (unreadable || (width > 0 && pairs.size() > width)) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        if ((width > 0 && pairs.size() < width)
                || !pairs.keySet().containsAll(layout.places().values())) {
            return ParsedLine.refused(LineKind.HALF_LINE);
        }
        if (pairs.size() > layout.places().size()) {
            noteUnused(pairs.entrySet().stream()
                    .filter(pair -> !layout.places().containsValue(pair.getKey()))
                    .map(Map.Entry::getValue));
        }
        return interpret(field -> pairs.get(layout.places().get(field)), stamp);
    }

    /** The line without white space around its separators. */
    static String tightened(String line) {
        for (int i = 1; i < line.length() - 1; i++) {
            char c = line.charAt(i);
            boolean blankBeside = line.charAt(i - 1) <= ' ' || line.charAt(i + 1) <= ' ';
            if ((c == '=' || c == ':') && blankBeside) {
                return LOOSE_SEPARATOR.matcher(line).replaceAll("$1");
            }
        }
        return line;
    }

    private static int separator(String token) {
        int equals = token.indexOf('=');
        return equals >= 0 ? equals : token.indexOf(':');
    }

    private ParsedLine columns(String line, OptionalDouble stamp) {
        List<String> fields = fields(line, layout.form().separator());
        if (layout.hasHeader() && isHeader(fields)) {
            return ParsedLine.refused(LineKind.HEADER);
        }
        boolean anyNumber =
                fields.stream().anyMatch(text -> Numerals.number(text).isPresent() || Numerals.isOverrange(text));
        if (!anyNumber) {
            return ParsedLine.refused(LineKind.MESSAGE);
        }
        if (isWaitingForHeader()) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        int least = width > 0 ? width : 1 + columns.values().stream().reduce(0, Math::max);
        if (fields.size() < least) {
            return ParsedLine.refused(LineKind.HALF_LINE);
        }
        if (width > 0 && fields.size() > width) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        if (fields.size() > columns.size()) {
            noteUnused(IntStream.range(0, fields.size())
                    .filter(column -> !columns.containsValue(column))
                    .mapToObj(fields::get));
        }
        return interpret(field -> fields.get(columns.get(field)), stamp);
    }

    private void noteUnused(Stream<String> values) {
        sawUnusedNumber =
                sawUnusedNumber || values.anyMatch(text -> Numerals.number(text).isPresent());
    }

    static List<String> fields(String line, char separator) {
        List<String> fields = new ArrayList<>();
        int start = 0;
        for (int end = line.indexOf(separator); end >= 0; end = line.indexOf(separator, start)) {
            fields.add(line.substring(start, end).strip());
            start = end + 1;
        }
        fields.add(line.substring(start).strip());
        return fields;
    }

    private boolean isHeader(List<String> fields) {
        List<String> names =
                fields.stream().map(name -> name.toLowerCase(Locale.ROOT)).toList();
        if (!names.containsAll(layout.places().values())) {
            return false;
        }
        layout.places().forEach((field, name) -> columns.put(field, names.indexOf(name)));
        width = layout.width().orElse(names.size());
        return true;
    }

    private ParsedLine interpret(Function<LogField, String> text, OptionalDouble stamp) {
        return new Interpretation(text).read(stamp);
    }

    /** The values of one line; the first fault found stays, except that an overrange marker yields to damage. */
    private final class Interpretation {

        private final Function<LogField, String> text;
        private LineKind fault;

        Interpretation(Function<LogField, String> text) {
            this.text = text;
        }

        ParsedLine read(OptionalDouble stamp) {
            int step = layout.knows(LogField.STEP) ? step() : 0;
            LogReading reading = null;
            if (layout.knows(LogField.DENSITY)) {
                int decimals = decimals();
                double printed = number(LogField.DENSITY);
                if (fault == null && !LogReading.isPrintable(printed)) {
                    fail(LineKind.OUT_OF_DOMAIN);
                }
                reading = fault == null ? LogReading.ofPrinted(printed, decimals) : null;
            }
            if (layout.hasCounts()) {
                RawCounts counts = counts();
                if (fault == null) {
                    reading = reading == null ? LogReading.of(counts) : reading.withCounts(counts);
                    boolean elsewhere = counts.gainRatio() != 1 || counts.timeRatio() != 1;
                    reading = elsewhere && !layout.knows(LogField.OPEN_DARK) ? reading.withOpenDarkAssumed() : reading;
                }
            }
            if (reading != null) {
                reading = step > 0 ? reading.withStep(step) : reading;
                reading = withCircumstances(reading, stamp);
            } else {
                withCircumstances(LogReading.ofPrinted(0, 0), stamp);
            }
            if (fault != null) {
                return new ParsedLine.Refused(fault, step);
            }
            return reading.isPlausible() ? new ParsedLine.Accepted(reading) : new ParsedLine.Implausible(reading);
        }

        private LogReading withCircumstances(LogReading bare, OptionalDouble stamp) {
            LogReading reading = stamp.isPresent() ? bare.withSeconds(stamp.getAsDouble()) : bare;
            if (layout.knows(LogField.RUN)) {
                String label = text.apply(LogField.RUN);
                if (label.isEmpty()) {
                    fail(LineKind.HALF_LINE);
                } else {
                    reading = reading.withRun(label);
                }
            }
            if (layout.knows(LogField.TIME)) {
                reading = reading.withSeconds(time());
            } else if (layout.knows(LogField.MILLISECONDS)) {
                reading = reading.withSeconds(timeInDomain(number(LogField.MILLISECONDS) / 1000));
            }
            if (layout.knows(LogField.TEMPERATURE)) {
                LogReading before = reading;
                LogReading after = made(number(LogField.TEMPERATURE), before::withCelsius);
                reading = after == null ? before : after;
            }
            return reading;
        }

        private double time() {
            String written = text.apply(LogField.TIME);
            OptionalDouble date = stamps.seconds(written);
            return timeInDomain(date.isPresent() ? date.getAsDouble() : number(LogField.TIME));
        }

        private double timeInDomain(double seconds) {
            if (Math.abs(seconds) <= LATEST_SECOND) {
                return seconds;
            }
            fail(LineKind.OUT_OF_DOMAIN);
            return 0;
        }

        private int step() {
            OptionalInt step = Numerals.wholeNumber(text.apply(LogField.STEP));
            if (step.isEmpty()) {
                fail(LineKind.UNREADABLE);
                return 0;
            }
            if (step.getAsInt() < 1 || step.getAsInt() > MOST_STEPS) {
                fail(LineKind.OUT_OF_DOMAIN);
                return 0;
            }
            return step.getAsInt();
        }

        private int decimals() {
            String written = text.apply(LogField.DENSITY);
            int decimals = Numerals.decimals(written);
            if (decimals > LogReading.MOST_DECIMALS) {
                fail(LineKind.UNREADABLE);
                return 0;
            }
            OptionalInt stated = layout.decimals();
            if (stated.isPresent() && Numerals.number(written).isPresent() && decimals != stated.getAsInt()) {
                fail(decimals < stated.getAsInt() ? LineKind.HALF_LINE : LineKind.UNREADABLE);
            }
            return decimals;
        }

        private RawCounts counts() {
            double sample = number(LogField.SAMPLE);
            double dark = number(LogField.DARK);
            double open = number(LogField.OPEN);
            double openDark = layout.knows(LogField.OPEN_DARK) ? number(LogField.OPEN_DARK) : dark;
            double gain = ratio(LogField.GAIN, LogField.OPEN_GAIN);
            double time = ratio(LogField.INTEGRATION, LogField.OPEN_INTEGRATION);
            return made(sample, value -> new RawCounts(value, dark, open, openDark, gain, time));
        }

        private double ratio(LogField sample, LogField open) {
            return layout.knows(sample) ? number(sample) / number(open) : 1;
        }

        private double number(LogField field) {
            if (layout.fixed(field).isPresent()) {
                return layout.fixed(field).get();
            }
            String written = text.apply(field);
            OptionalDouble value = Numerals.number(written);
            if (value.isEmpty()) {
                fail(Numerals.isOverrange(written) ? LineKind.OVERRANGE : LineKind.UNREADABLE);
            }
            return value.orElse(0);
        }

        private <T> T made(double value, DoubleFunction<T> quantity) {
            if (fault != null) {
                return null;
            }
            try {
                return quantity.apply(value);
            } catch (IllegalArgumentException e) {
                fail(LineKind.OUT_OF_DOMAIN);
                return null;
            }
        }

        private void fail(LineKind kind) {
            if (fault == null || fault == LineKind.OVERRANGE) {
                fault = kind;
            }
        }
    }
}
