// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Turns the lines of one log into readings by a layout; it remembers the header and the clock. */
final class LineParser {

    static final int MOST_STEPS = 1000;

    private static final double LATEST_SECOND = 1e12;

    private final LogLayout layout;
    private final Map<LogField, String> places;
    private final Collection<String> names;
    private final boolean timed;
    private final boolean headed;
    private final Map<LogField, Integer> columns = new EnumMap<>(LogField.class);
    /** How many columns a line must have at least. */
    private int leastColumns;

    private final TimeStamps stamps = new TimeStamps();
    private int width;
    private boolean sawUnusedNumber;

    LineParser(LogLayout layout) {
        this.layout = layout;
        places = layout.places();
        names = places.values();
        timed = layout.knows(LogField.TIME) || layout.knows(LogField.MILLISECONDS);
        headed = layout.hasHeader();
        width = layout.width().orElse(0);
        if (layout.form().hasColumns() && !headed) {
            places.forEach((field, place) -> put(field, Integer.parseInt(place) - 1));
        }
    }

    private void put(LogField field, int column) {
        columns.put(field, column);
        leastColumns = Math.max(leastColumns, column + 1);
    }

    boolean isWaitingForHeader() {
        return headed && columns.isEmpty();
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
        if (timed && layout.form().hasColumns()) {
            return columns(raw, OptionalDouble.empty());
        }
        LinePrefix prefix = LinePrefix.of(line, names, timed ? new TimeStamps() : stamps);
        OptionalDouble stamp = timed ? OptionalDouble.empty() : prefix.seconds();
        String rest = prefix.rest();
        if (rest.isEmpty()) {
            return ParsedLine.refused(LineKind.BLANK);
        }
        return switch (layout.form()) {
            case BARE -> bare(rest, stamp);
            case KEYS, WORDS, JSON -> paired(LinePairs.of(layout.form(), rest, layout.hasDecimalComma()), stamp);
            // a first field may be empty, so that white space before it counts
            case COMMA, TAB, SEMICOLON, BLANK -> columns(rest.equals(line) ? raw : rest, stamp);
        };
    }

    private ParsedLine bare(String line, OptionalDouble stamp) {
        boolean looksLikeNumber = Numerals.isOverrange(line) || "+-.,0123456789".indexOf(line.charAt(0)) >= 0;
        return looksLikeNumber ? interpret(field -> line, stamp) : ParsedLine.refused(LineKind.MESSAGE);
    }

    private ParsedLine paired(LinePairs line, OptionalDouble stamp) {
        Map<String, String> pairs = line.values();
        int known = 0;
        for (String name : names) {
            known += pairs.containsKey(name) ? 1 : 0;
        }
        if (known == 0) {
            return ParsedLine.refused(LineKind.MESSAGE);
        }
        if (line.isContradictory()) {
            return ParsedLine.refused(LineKind.CONTRADICTORY);
        }
        if (line.isUnreadable() || (width > 0 && pairs.size() > width)) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        if (line.isCut() || (width > 0 && pairs.size() < width) || known < names.size()) {
            return ParsedLine.refused(LineKind.INCOMPLETE_LINE);
        }
        if (!sawUnusedNumber && pairs.size() > names.size()) {
            noteUnused(pairs.entrySet().stream()
                    .filter(pair -> !names.contains(pair.getKey()))
                    .map(Map.Entry::getValue));
        }
        return interpret(field -> pairs.get(places.get(field)), stamp);
    }

    private ParsedLine columns(String line, OptionalDouble stamp) {
        List<String> fields = layout.form().fields(line);
        if (headed && isHeader(fields)) {
            return ParsedLine.refused(LineKind.HEADER);
        }
        // prose, too, has blanks between its words
        int needed = layout.form() == LogForm.BLANK ? (fields.size() + 1) / 2 : 1;
        if (!hasNumbers(fields, needed)) {
            return ParsedLine.refused(LineKind.MESSAGE);
        }
        if (isWaitingForHeader()) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        if (fields.size() < (width > 0 ? width : leastColumns)) {
            return ParsedLine.refused(LineKind.INCOMPLETE_LINE);
        }
        if (width > 0 && fields.size() > width) {
            return ParsedLine.refused(LineKind.UNREADABLE);
        }
        if (!sawUnusedNumber && fields.size() > columns.size()) {
            noteUnused(IntStream.range(0, fields.size())
                    .filter(column -> !columns.containsValue(column))
                    .mapToObj(fields::get));
        }
        return interpret(field -> fields.get(columns.get(field)), stamp);
    }

    private boolean hasNumbers(List<String> fields, int needed) {
        int numbers = 0;
        for (int i = 0; i < fields.size() && numbers < needed; i++) {
            String text = fields.get(i);
            numbers += Numerals.isNumber(layout.pointed(text)) || Numerals.isOverrange(text) ? 1 : 0;
        }
        return numbers >= needed;
    }

    private void noteUnused(Stream<String> values) {
        sawUnusedNumber = values.anyMatch(text -> Numerals.isNumber(layout.pointed(text)));
    }

    private boolean isHeader(List<String> fields) {
        List<String> header =
                fields.stream().map(name -> name.toLowerCase(Locale.ROOT)).toList();
        if (!header.containsAll(names)) {
            return false;
        }
        leastColumns = 0;
        places.forEach((field, name) -> put(field, header.indexOf(name)));
        width = layout.width().orElse(header.size());
        return true;
    }

    private ParsedLine interpret(Function<LogField, String> text, OptionalDouble stamp) {
        return new Interpretation(text).read(stamp);
    }

    /** The values of one line. The first fault found is kept, except that damage replaces an overrange marker. */
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
                    fail(LineKind.INCOMPLETE_LINE);
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

        /** The text of a number, with a point for the decimals. */
        private String pointed(LogField field) {
            return layout.pointed(text.apply(field));
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
            String written = pointed(LogField.DENSITY);
            int decimals = Numerals.decimals(written);
            if (decimals > LogReading.MOST_DECIMALS) {
                fail(LineKind.UNREADABLE);
                return 0;
            }
            OptionalInt stated = layout.decimals();
            if (stated.isPresent() && Numerals.isNumber(written) && decimals != stated.getAsInt()) {
                fail(decimals < stated.getAsInt() ? LineKind.INCOMPLETE_LINE : LineKind.UNREADABLE);
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
            String written = pointed(field);
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
