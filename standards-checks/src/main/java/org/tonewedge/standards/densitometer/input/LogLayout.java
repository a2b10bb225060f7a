// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.StringTokenizer;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The position of each value in the lines that a densitometer prints. Before each {@code =} stands Tonewedge's name of
 * the field, behind it the name or number of the column that the line has:
 *
 * <table>
 * <caption>Layouts and a line that each reads as step 7, density 0.953</caption>
 * <tr><th>layout</th><th>line</th></tr>
 * <tr><td>{@code bare}</td><td>{@code 0.953}, the steps in their order</td></tr>
 * <tr><td>{@code keys step=S density=D}</td><td>{@code S=7 D=0.953}</td></tr>
 * <tr><td>{@code keys step=step density=D}</td><td>{@code step=7 D=0.953}</td></tr>
 * <tr><td>{@code words step=step density=d}</td><td>{@code Step 7 D 0.953}</td></tr>
 * <tr><td>{@code json step=patch.nr density=od}</td><td><code>{"patch": {"nr": 7}, "od": 0.953}</code></td></tr>
 * <tr><td>{@code comma step=1 density=3 width=4}</td><td>{@code 7,1032,0.953,21.5}</td></tr>
 * </table>
 *
 * <p>In a layout of columns, every field has either the number of its column (from 1) or its name in the header row;
 * all fields of one layout use the same way. In a layout of keys, of words or of JSON, a field has its name. Upper and
 * lower case are the same, and an object inside a JSON object gives {@code outer.inner}. A word belongs to the number
 * after it ({@code Step 3 D 0.42}), or otherwise to the one before it ({@code 0.42 D}). A field that the log does not
 * print because it never changes, such as the gain of the open gate, is {@linkplain #withFixed fixed}.
 *
 * <p>The more a layout states, the more damage is noticed. With the number of decimals, {@code 0.4} cut from
 * {@code 0.42} is recognised as a half line; with the width, so is a row that lost a column. No layout can notice a
 * digit that changed to another digit.
 *
 * <p>Immutable and thread safe.
 */
public final class LogLayout {

    private static final String DECIMALS = "decimals";
    private static final String WIDTH = "width";
    private static final String DECIMAL = "decimal";
    private static final String COMMA = "comma";
    private static final String POINT = "point";
    private static final String FIXED = "fixed:";
    private static final int MOST_COLUMNS = 100;

    private final LogForm form;
    private final Map<LogField, String> places;
    private final Map<LogField, Double> fixed;
    private final int decimals;
    private final int width;
    private final boolean decimalComma;

    private LogLayout(
            LogForm form,
            Map<LogField, String> places,
            Map<LogField, Double> fixed,
            int decimals,
            int width,
            boolean decimalComma) {
        this.form = form;
        this.places = places;
        this.fixed = fixed;
        this.decimals = decimals;
        this.width = width;
        this.decimalComma = decimalComma;
    }

    /** Returns a layout of a form with no field placed yet. The bare form contains a density and needs nothing more. */
    static LogLayout of(LogForm form) {
        EnumMap<LogField, String> places = new EnumMap<>(LogField.class);
        if (form == LogForm.BARE) {
            places.put(LogField.DENSITY, "1");
        }
        return new LogLayout(form, places, new EnumMap<>(LogField.class), -1, 0, false);
    }

    /**
     * Returns a layout from its text form: the word of the form, then {@code field=place} for every field, {@code
     * field=fixed:value} for a fixed one, and optionally {@code decimals=n}, {@code width=n} and {@code decimal=comma}.
     * The forms are bare, keys, words, json, comma, tab, semicolon and blank.
     *
     * @param text for example {@code keys step=S density=D} for lines such as {@code S=7 D=0.953}, or {@code comma step=1
     *     sample=2 dark=3 open=4 gain=5 open_gain=fixed:1} for {@code 7,11233,212,98304,16}
     * @return the layout
     * @throws DensitometerInputException if the text is not of this form; the message names the word at fault
     */
    public static LogLayout parse(String text) {
        Objects.requireNonNull(text, "text");
        StringTokenizer words = new StringTokenizer(text);
        String first = words.hasMoreTokens() ? words.nextToken() : "";
        LogLayout layout = of(LogForm.ofWord(first)
                .orElseThrow(() -> refused(
                        text, first, "begin with one of bare, keys, words, json, comma, tab, semicolon, blank")));
        while (words.hasMoreTokens()) {
            String word = words.nextToken();
            int equals = word.indexOf('=');
            if (equals < 1 || equals == word.length() - 1) {
                throw refused(text, word, "write field=place, such as density=3");
            }
            try {
                layout = layout.with(word.substring(0, equals), word.substring(equals + 1));
            } catch (IllegalArgumentException e) {
                throw refused(text, word, e.getMessage());
            }
        }
        return layout;
    }

    private LogLayout with(String name, String value) {
        if (name.equals(DECIMALS)) {
            return withDecimals(integer(name, value));
        }
        if (name.equals(WIDTH)) {
            return withWidth(integer(name, value));
        }
        if (name.equals(DECIMAL)) {
            if (!value.equals(COMMA) && !value.equals(POINT)) {
                throw new IllegalArgumentException("the decimal mark is comma or point");
            }
            return value.equals(COMMA) ? withDecimalComma() : this;
        }
        LogField field = LogField.ofWord(name)
                .orElseThrow(
                        () -> new IllegalArgumentException(
                                "the fields are step, run, time, milliseconds, temperature, density, sample, dark, open, gain,"
                                        + " integration, open_dark, open_gain, open_integration; besides decimals, width and decimal"));
        if (!value.startsWith(FIXED)) {
            return with(field, value);
        }
        OptionalDouble number = Numerals.number(value.substring(FIXED.length()));
        return withFixed(
                field, number.orElseThrow(() -> new IllegalArgumentException("write a number after " + FIXED)));
    }

    private static int integer(String name, String value) {
        return Numerals.wholeNumber(value)
                .orElseThrow(() -> new IllegalArgumentException(name + " takes a whole number"));
    }

    private static DensitometerInputException refused(String text, String word, String remedy) {
        return new DensitometerInputException(
                Fault.UNKNOWN_NAME, "layout \"" + text + '"', 0, '"' + word + "\" is not understood", remedy);
    }

    /** Returns this layout with the place of a field. */
    LogLayout with(LogField field, String place) {
        String key = Checks.notBlank("place of " + field.word(), place).toLowerCase(Locale.ROOT);
        if (form == LogForm.BARE) {
            throw new IllegalArgumentException("a bare layout contains only a density, was given " + field.word());
        }
        Map<LogField, String> changed = new EnumMap<>(LogField.class);
        changed.putAll(places);
        changed.remove(field);
        if (changed.containsValue(key)) {
            throw new IllegalArgumentException("place \"" + key + "\" is given to two fields");
        }
        if (form.hasColumns()) {
            OptionalInt column = Numerals.wholeNumber(key);
            column.ifPresent(number -> Checks.within("column of " + field.word(), number, 1, MOST_COLUMNS, ""));
            if (changed.values().stream()
                    .anyMatch(other -> Numerals.wholeNumber(other).isPresent() != column.isPresent())) {
                throw new IllegalArgumentException("name all columns by number or all by name; " + field.word() + "="
                        + key + " differs from the others");
            }
        }
        changed.put(field, key);
        Map<LogField, Double> others = new EnumMap<>(fixed);
        others.remove(field);
        return new LogLayout(form, changed, others, decimals, width, decimalComma);
    }

    /** Returns this layout with a value that the log does not print because it never changes. */
    LogLayout withFixed(LogField field, double value) {
        switch (field) {
            case DARK, OPEN, OPEN_DARK, GAIN, INTEGRATION, OPEN_GAIN, OPEN_INTEGRATION ->
                Checks.finite("fixed " + field.word(), value);
            default ->
                throw new IllegalArgumentException(field.word() + " cannot be fixed, because it changes in every log");
        }
        Map<LogField, String> others = new EnumMap<>(LogField.class);
        others.putAll(places);
        others.remove(field);
        Map<LogField, Double> changed = new EnumMap<>(LogField.class);
        changed.putAll(fixed);
        changed.put(field, value);
        return new LogLayout(form, others, changed, decimals, width, decimalComma);
    }

    /** Returns this layout with the number of decimals of every printed density; another number makes a half line. */
    LogLayout withDecimals(int number) {
        Checks.within(DECIMALS, number, 0, LogReading.MOST_DECIMALS, "");
        return new LogLayout(form, places, fixed, number, width, decimalComma);
    }

    /**
     * Returns this layout with the number of columns of every row (or of pairs in every line); fewer make a half line.
     */
    LogLayout withWidth(int number) {
        Checks.within(WIDTH, number, 1, MOST_COLUMNS, "");
        return new LogLayout(form, places, fixed, decimals, number, decimalComma);
    }

    /** Returns this layout with decimal commas, {@code 0,42}; a number with a decimal point is then unreadable. */
    LogLayout withDecimalComma() {
        if (form == LogForm.COMMA || form == LogForm.JSON) {
            throw new IllegalArgumentException("a comma cannot be a decimal mark in the form " + form.word());
        }
        return new LogLayout(form, places, fixed, decimals, width, true);
    }

    boolean hasDecimalComma() {
        return decimalComma;
    }

    /** The text of a number with a decimal point; unreadable if it has the other mark. */
    String pointed(String number) {
        if (!decimalComma) {
            return number;
        }
        return number.indexOf('.') >= 0 ? "" : number.replace(',', '.');
    }

    /** Returns how the values are separated. */
    LogForm form() {
        return form;
    }

    /** Returns the position of each printed field. */
    Map<LogField, String> places() {
        return Collections.unmodifiableMap(places);
    }

    /** Returns the value of a fixed field. */
    Optional<Double> fixed(LogField field) {
        return Optional.ofNullable(fixed.get(field));
    }

    /** Returns the number of decimals of every density. */
    OptionalInt decimals() {
        return decimals < 0 ? OptionalInt.empty() : OptionalInt.of(decimals);
    }

    /** Returns the number of columns of every row, or pairs of every line. */
    OptionalInt width() {
        return width == 0 ? OptionalInt.empty() : OptionalInt.of(width);
    }

    boolean knows(LogField field) {
        return places.containsKey(field) || fixed.containsKey(field);
    }

    boolean hasHeader() {
        return form.hasColumns()
                && places.values().stream()
                        .noneMatch(place -> Numerals.wholeNumber(place).isPresent());
    }

    /**
     * Returns this layout with the density in another place, such as that of one channel of a log with several.
     *
     * @param place the number or name of the column, or the key
     * @return a changed copy, without the places of counts
     * @throws IllegalArgumentException if another field has this place, or the form has no places
     */
    public LogLayout withDensity(String place) {
        LogLayout made = this;
        for (LogField field : LogField.values()) {
            if (field.isOfCounts() && knows(field)) {
                made = made.without(field);
            }
        }
        return made.with(LogField.DENSITY, place);
    }

    private LogLayout without(LogField field) {
        Map<LogField, String> others = new EnumMap<>(LogField.class);
        others.putAll(places);
        others.remove(field);
        Map<LogField, Double> values = new EnumMap<>(LogField.class);
        values.putAll(fixed);
        values.remove(field);
        return new LogLayout(form, others, values, decimals, width, decimalComma);
    }

    /**
     * Tells whether another layout reads the same values from each line, whatever it says about decimals and width.
     *
     * @param other another layout
     * @return true if form, places, fixed values and decimal mark are the same
     */
    public boolean readsAs(LogLayout other) {
        Objects.requireNonNull(other, "other");
        return form == other.form
                && decimalComma == other.decimalComma
                && places.equals(other.places)
                && fixed.equals(other.fixed);
    }

    /**
     * Tells whether each line is a density alone.
     *
     * @return true for the form {@code bare}
     */
    public boolean isBare() {
        return form == LogForm.BARE;
    }

    /**
     * Tells whether each line names the step of its reading.
     *
     * @return false for a log whose readings follow the order of the steps
     */
    public boolean namesSteps() {
        return knows(LogField.STEP);
    }

    boolean hasCounts() {
        return places.containsKey(LogField.SAMPLE);
    }

    /** Refuses a layout that gives no density. */
    void checkComplete() {
        String name = "layout \"" + this + '"';
        if (!places.containsKey(LogField.DENSITY) && !hasCounts()) {
            throw new DensitometerInputException(
                    Fault.MISSING,
                    name,
                    0,
                    "there is neither a density nor a sample count",
                    "add density=… or sample=…");
        }
        if (hasCounts() && !(knows(LogField.DARK) && knows(LogField.OPEN))) {
            throw new DensitometerInputException(
                    Fault.MISSING,
                    name,
                    0,
                    "density cannot be computed from the sample count alone",
                    "add dark=… and open=… (dark=fixed:0 if the dark counts are already subtracted)");
        }
        checkPaired(name, LogField.GAIN, LogField.OPEN_GAIN);
        checkPaired(name, LogField.INTEGRATION, LogField.OPEN_INTEGRATION);
        if (places.containsKey(LogField.TIME) && places.containsKey(LogField.MILLISECONDS)) {
            throw new DensitometerInputException(
                    Fault.DUPLICATE, name, 0, "there are two time stamps", "keep one of them");
        }
    }

    private void checkPaired(String name, LogField sample, LogField open) {
        if (knows(sample) != knows(open)) {
            throw new DensitometerInputException(
                    Fault.MISSING,
                    name,
                    0,
                    "only one of " + sample.word() + " and " + open.word() + " is stated",
                    "state both, for instance " + open.word() + "=fixed:1, or none if they are always the same");
        }
    }

    /**
     * Returns the text form, which {@link #parse parse} reads.
     *
     * @return for example {@code keys step=s density=d decimals=2}
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(form.word());
        if (form != LogForm.BARE) {
            places.forEach((field, place) ->
                    text.append(' ').append(field.word()).append('=').append(place));
        }
        fixed.forEach((field, value) ->
                text.append(' ').append(field.word()).append('=').append(FIXED).append(value));
        decimals()
                .ifPresent(
                        number -> text.append(' ').append(DECIMALS).append('=').append(number));
        width().ifPresent(number -> text.append(' ').append(WIDTH).append('=').append(number));
        if (decimalComma) {
            text.append(' ').append(DECIMAL).append('=').append(COMMA);
        }
        return text.toString();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof LogLayout that
                && Objects.equals(form, that.form)
                && Objects.equals(places, that.places)
                && Objects.equals(fixed, that.fixed)
                && decimals == that.decimals
                && width == that.width
                && decimalComma == that.decimalComma;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(form, places, fixed, decimals, width, decimalComma);
    }
}
