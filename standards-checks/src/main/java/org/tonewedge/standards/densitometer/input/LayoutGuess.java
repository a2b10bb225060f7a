// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.regex.Pattern;
import org.tonewedge.core.internal.Checks;

/**
 * A layout guessed from the first lines of a log, with the reasons for it. Show it to the user before you rely on its
 * figures.
 *
 * <p>Keys and column names are recognised by the usual words (step, D, density, sample, dark, open, temp, ms …).
 * Columns without a header are identified by their values: small whole numbers are steps, a column that only rises, by
 * much, is the time in milliseconds, three columns of large whole numbers are dark, sample and open-gate counts in
 * order of size, and so on. The rules are the project's own.
 *
 * <p>Immutable and thread safe.
 */
public final class LayoutGuess {

    private static final int SAMPLE_BYTES = 1 << 16;
    private static final int SAMPLE_LINES = 400;
    private static final int READINGS_WANTED = 40;
    private static final int FEWEST_FOR_DECIMALS = 4;

    private static final List<LogForm> COLUMNS = List.of(LogForm.COMMA, LogForm.TAB, LogForm.SEMICOLON, LogForm.BLANK);
    private static final List<LogForm> WITH_DECIMAL_COMMA = List.of(LogForm.TAB, LogForm.SEMICOLON, LogForm.BLANK);
    private static final Pattern DECIMAL_COMMA = Pattern.compile("(?<![\\d.])[+-]?\\d*,\\d+(?![\\d.,])");

    private static final Map<String, LogField> WORDS = words();

    private final LogLayout layout;
    private final int examined;
    private final int matched;
    private final List<String> remarks;

    private LayoutGuess(LogLayout layout, int examined, int matched, List<String> remarks) {
        this.layout = layout;
        this.examined = examined;
        this.matched = matched;
        this.remarks = List.copyOf(remarks);
    }

    private static Map<String, LogField> words() {
        Map<String, LogField> words = new HashMap<>();
        put(words, LogField.STEP, "step", "s", "n", "patch", "step_no", "stepno", "no", "field", "wedge");
        put(words, LogField.RUN, "run", "pass", "series");
        put(words, LogField.TIME, "time", "timestamp", "date", "datetime", "seconds", "sec", "time_s");
        put(
                words,
                LogField.MILLISECONDS,
                "ms",
                "millis",
                "milliseconds",
                "uptime",
                "uptime_ms",
                "time_ms",
                "t_ms",
                "tick");
        put(words, LogField.TEMPERATURE, "temp", "temperature", "celsius", "t_c", "temp_c", "tempc", "degc", "c");
        put(words, LogField.DENSITY, "d", "density", "dens", "od", "log_density", "logd", "dvis");
        put(words, LogField.SAMPLE, "sample", "counts", "raw", "adc", "sample_counts", "scounts", "sig", "signal");
        put(words, LogField.DARK, "dark", "dark_counts", "darkcounts", "black", "offset");
        put(
                words,
                LogField.OPEN,
                "open",
                "open_gate",
                "opengate",
                "gate",
                "ref",
                "reference",
                "clear",
                "white",
                "zero");
        put(words, LogField.GAIN, "gain", "g", "again");
        put(words, LogField.INTEGRATION, "integration", "int", "tint", "itime", "exposure", "integration_ms", "int_ms");
        put(
                words,
                LogField.OPEN_DARK,
                "open_dark",
                "opendark",
                "odark",
                "dark_open",
                "darkopen",
                "ref_dark",
                "refdark");
        put(words, LogField.OPEN_GAIN, "open_gain", "opengain", "ogain", "ref_gain", "refgain");
        put(words, LogField.OPEN_INTEGRATION, "open_integration", "oint", "open_int", "open_int_ms", "ref_int");
        return words;
    }

    private static void put(Map<String, LogField> words, LogField field, String... names) {
        for (String name : names) {
            words.put(name, field);
        }
    }

    /**
     * Guesses from the beginning of a stream, which stays readable from its beginning.
     *
     * @param log the log; it is marked and reset, and needs a buffer of no particular size
     * @return the guess
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(BufferedInputStream log) throws IOException {
        return from(log, READINGS_WANTED);
    }

    /**
     * Guesses from the first readings of a stream, which stays readable from its beginning. The number of decimals is
     * stated only if enough readings share it.
     *
     * @param log the log; it is marked and reset, and needs a buffer of no particular size
     * @param readings how many readings to wait for, 1 or more; 40 are waited for by default
     * @return the guess
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(BufferedInputStream log, int readings) throws IOException {
        Checks.within("readings to wait for", readings, 1, SAMPLE_LINES, "");
        return from(log, (lines, guess) -> guess.isPresent() && guess.get().matched() >= readings);
    }

    /**
     * Guesses anew whenever lines arrive, until the guess is good enough, so that a device that prints a line only now and
     * then is understood from its first line on. The stream stays readable from its beginning.
     *
     * @param log the log; it is marked and reset, and needs a buffer of no particular size
     * @param enough receives all whole lines so far and the guess from them, which is empty if no layout fits; it returns
     *     true to end the guessing. At most 400 lines or 65,536 bytes are read
     * @return the guess from the lines so far
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(BufferedInputStream log, BiPredicate<List<String>, Optional<LayoutGuess>> enough)
            throws IOException {
        Objects.requireNonNull(log, "log");
        Objects.requireNonNull(enough, "enough");
        log.mark(SAMPLE_BYTES + 1);
        byte[] sample = new byte[SAMPLE_BYTES];
        int filled = 0;
        List<String> lines = List.of();
        while (filled < SAMPLE_BYTES) {
            int count = log.read(sample, filled, Math.min(2048, SAMPLE_BYTES - filled));
            if (count < 0) {
                break;
            }
            filled += count;
            Optional<ForeignFormat> foreign = ForeignFormat.of(sample, filled);
            if (foreign.isPresent()) {
                throw foreign.get().refusal("log");
            }
            List<String> now = textLines(sample, filled);
            boolean more = now.size() > lines.size();
            lines = now;
            if (lines.size() >= SAMPLE_LINES || (more && enough.test(lines, best(lines)))) {
                break;
            }
        }
        log.reset();
        return from(lines);
    }

    private static Optional<LayoutGuess> best(List<String> all) {
        List<String> lines = ascii(all);
        return candidates(lines).stream()
                .max(Comparator.comparingInt(LayoutGuess::matched)
                        .thenComparing(guess -> guess.layout.places().size()))
                .filter(guess -> guess.matched > 0)
                .map(guess -> guess.withDecimals(lines));
    }

    private static List<String> textLines(byte[] sample, int filled) throws IOException {
        List<String> lines = new ArrayList<>();
        LineSource source = new LineSource(new ByteArrayInputStream(sample, 0, filled));
        while (source.advance()) {
            if (!source.isTooLong() && source.isTerminated()) {
                lines.add(source.text());
            }
        }
        return lines;
    }

    private static List<String> ascii(List<String> lines) {
        return lines.stream().filter(Numerals::isAscii).toList();
    }

    /** Whether a name is known as that of a density or of a sample's counts. */
    static boolean isOfDensity(String name) {
        LogField field = WORDS.get(lastPart(name));
        return field == LogField.DENSITY || field == LogField.SAMPLE;
    }

    /**
     * Guesses from the first lines of a log.
     *
     * @param all some lines, including a few dozen readings
     * @return the guess by which most lines are readings
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(List<String> all) {
        Objects.requireNonNull(all, "all");
        return best(all).orElseThrow(() -> RefusedGuess.of(all));
    }

    private static List<LayoutGuess> candidates(List<String> lines) {
        List<LayoutGuess> candidates = candidates(lines, false);
        if (lines.stream().anyMatch(line -> DECIMAL_COMMA.matcher(line).find())) {
            candidates.addAll(candidates(lines, true));
        }
        return candidates;
    }

    private static List<LayoutGuess> candidates(List<String> lines, boolean decimalComma) {
        List<LayoutGuess> candidates = new ArrayList<>();
        named(LogForm.KEYS, keys(LogForm.KEYS, lines, decimalComma), lines, decimalComma)
                .ifPresent(candidates::add);
        if (!decimalComma) {
            named(LogForm.JSON, keys(LogForm.JSON, lines, false), lines, false).ifPresent(candidates::add);
        }
        for (LogForm form : decimalComma ? WITH_DECIMAL_COMMA : COLUMNS) {
            Optional<LayoutGuess> named = named(form, header(form, lines), lines, decimalComma);
            named.ifPresent(candidates::add);
            if (named.filter(guess -> guess.matched > 0 && guess.layout.knows(LogField.DENSITY))
                    .isPresent()) {
                // a density that is named is used, whatever its values
                continue;
            }
            new ColumnGuess(form, lines, decimalComma)
                    .layout()
                    .ifPresent(layout -> candidates.add(assess(
                            layout,
                            lines,
                            List.of("there is no header; the columns were identified by their values"))));
        }
        LogLayout bare = LogLayout.of(LogForm.BARE);
        candidates.add(
                assess(decimalComma ? bare.withDecimalComma() : bare, lines, List.of("a density alone on each line")));
        // the loosest form: it must explain clearly more than all others
        int others = candidates.stream().mapToInt(LayoutGuess::matched).max().orElse(0);
        named(LogForm.WORDS, keys(LogForm.WORDS, lines, decimalComma), lines, decimalComma)
                .filter(guess -> guess.matched > 2 * others)
                .ifPresent(candidates::add);
        return candidates;
    }

    private static LayoutGuess assess(LogLayout layout, List<String> lines, List<String> remarks) {
        List<String> notes = new ArrayList<>(remarks);
        LogLayout complete = completed(layout, lines, notes);
        try {
            complete.checkComplete();
        } catch (DensitometerInputException e) {
            return new LayoutGuess(complete, lines.size(), 0, List.of());
        }
        return new LayoutGuess(complete, lines.size(), readings(complete, lines).size(), notes);
    }

    /** Adds what the counts need but the log does not print. */
    private static LogLayout completed(LogLayout layout, List<String> lines, List<String> notes) {
        LogLayout complete = layout;
        if (layout.knows(LogField.GAIN) && !layout.knows(LogField.OPEN_GAIN)) {
            complete = complete.withFixed(LogField.OPEN_GAIN, 1);
            notes.add("the open gate was assumed to be counted at gain 1");
        }
        if (layout.knows(LogField.INTEGRATION) && !layout.knows(LogField.OPEN_INTEGRATION)) {
            double least = leastIntegration(layout, lines);
            complete = complete.withFixed(LogField.OPEN_INTEGRATION, least);
            notes.add("the open gate was assumed to be counted at integration time " + least + ", the least seen");
        }
        if (layout.hasCounts() && !layout.knows(LogField.DARK) && layout.knows(LogField.DENSITY)) {
            notes.add("no dark counts were found, so the densities cannot be compared with the counts");
            return withoutCounts(layout);
        }
        if (layout.hasCounts() && !layout.knows(LogField.DARK)) {
            complete = complete.withFixed(LogField.DARK, 0);
            notes.add("no dark counts were found; they were assumed to be 0");
        }
        return complete;
    }

    private static LogLayout withoutCounts(LogLayout layout) {
        LogLayout made = unplaced(layout);
        for (Map.Entry<LogField, String> place : layout.places().entrySet()) {
            if (!place.getKey().isOfCounts()) {
                made = made.with(place.getKey(), place.getValue());
            }
        }
        return layout.width().isPresent() ? made.withWidth(layout.width().getAsInt()) : made;
    }

    private static LogLayout unplaced(LogLayout layout) {
        LogLayout made = LogLayout.of(layout.form());
        return layout.hasDecimalComma() ? made.withDecimalComma() : made;
    }

    private static double leastIntegration(LogLayout layout, List<String> lines) {
        LogLayout probe = unplaced(layout);
        for (Map.Entry<LogField, String> place : layout.places().entrySet()) {
            if (place.getKey() == LogField.INTEGRATION) {
                probe = probe.with(LogField.SAMPLE, place.getValue());
            }
        }
        return readings(probe.withFixed(LogField.DARK, 0).withFixed(LogField.OPEN, 1), lines).stream()
                .mapToDouble(reading -> reading.counts().orElseThrow().sample())
                .filter(time -> time > 0)
                .min()
                .orElse(1);
    }

    private static List<LogReading> readings(LogLayout layout, List<String> lines) {
        LineParser parser = new LineParser(layout);
        List<LogReading> readings = new ArrayList<>();
        for (String line : lines) {
            ParsedLine parsed = parser.parse(line);
            if (parsed instanceof ParsedLine.Accepted accepted) {
                readings.add(accepted.reading());
            } else if (parsed instanceof ParsedLine.Implausible implausible) {
                readings.add(implausible.reading());
            }
        }
        return readings;
    }

    private static List<String> keys(LogForm form, List<String> lines, boolean decimalComma) {
        TimeStamps stamps = new TimeStamps();
        Map<String, Integer> uses = new LinkedHashMap<>();
        for (String line : lines) {
            String rest = LinePrefix.of(line.strip(), List.of(), stamps).rest();
            LinePairs.of(form, rest, decimalComma).values().keySet().forEach(key -> uses.merge(key, 1, Integer::sum));
        }
        int most = uses.values().stream().reduce(0, Math::max);
        return uses.keySet().stream().filter(key -> uses.get(key) * 2 >= most).toList();
    }

    private static List<String> header(LogForm form, List<String> lines) {
        for (String line : lines) {
            List<String> fields = form.fields(line.toLowerCase(Locale.ROOT));
            boolean noNumber =
                    fields.stream().noneMatch(text -> Numerals.number(text).isPresent());
            if (noNumber && fields.size() > 1 && placed(form, fields, false).isPresent()) {
                return fields;
            }
        }
        return List.of();
    }

    private static Optional<LayoutGuess> named(
            LogForm form, List<String> names, List<String> lines, boolean decimalComma) {
        return placed(form, names, decimalComma).map(layout -> {
            List<String> aside = names.stream()
                    .filter(name -> !layout.places().containsValue(name))
                    .toList();
            List<String> remarks = new ArrayList<>();
            if (!aside.isEmpty()) {
                remarks.add("ignored: " + String.join(", ", aside));
            }
            names.stream()
                    .filter(name -> Collections.frequency(names, name) > 1)
                    .distinct()
                    .forEach(name -> remarks.add("there is more than one " + name + "; the first is used"));
            return assess(layout, lines, remarks);
        });
    }

    /** The name without those of the objects around it: {@code density} for {@code reading.density}. */
    private static String lastPart(String name) {
        return name.substring(name.lastIndexOf('.') + 1);
    }

    private static Optional<LogLayout> placed(LogForm form, List<String> names, boolean decimalComma) {
        Map<LogField, String> places = new LinkedHashMap<>();
        for (String name : names) {
            LogField field = WORDS.get(lastPart(name));
            if (field != null) {
                places.putIfAbsent(field, name);
            }
        }
        if (places.containsKey(LogField.TIME)) {
            places.remove(LogField.MILLISECONDS);
        }
        if (!places.containsKey(LogField.DENSITY) && !places.containsKey(LogField.SAMPLE)) {
            return Optional.empty();
        }
        LogLayout layout = decimalComma ? LogLayout.of(form).withDecimalComma() : LogLayout.of(form);
        for (Map.Entry<LogField, String> place : places.entrySet()) {
            layout = layout.with(place.getKey(), place.getValue());
        }
        return Optional.of(layout);
    }

    /** States the number of decimals if all densities have the same number; incomplete lines are then recognised. */
    private LayoutGuess withDecimals(List<String> lines) {
        List<LogReading> readings = readings(layout, lines);
        int[] decimals = readings.stream()
                .flatMapToInt(reading -> reading.decimals().stream())
                .toArray();
        Map<Integer, Integer> uses = new HashMap<>();
        for (int number : decimals) {
            uses.merge(number, 1, Integer::sum);
        }
        Optional<Map.Entry<Integer, Integer>> usual = uses.entrySet().stream().max(Map.Entry.comparingByValue());
        // A float printed in its shortest form ends in 0 one time in ten; a fixed form does not vary at all.
        if (decimals.length < FEWEST_FOR_DECIMALS
                || usual.isEmpty()
                || usual.get().getKey() == 0
                || usual.get().getValue() * 20 < decimals.length * 19) {
            return this;
        }
        return new LayoutGuess(layout.withDecimals(usual.get().getKey()), examined, matched, remarks);
    }

    /**
     * Returns the layout.
     *
     * @return the layout that was guessed
     */
    public LogLayout layout() {
        return layout;
    }

    /**
     * Returns the number of lines examined.
     *
     * @return the number of lines
     */
    public int examined() {
        return examined;
    }

    /**
     * Returns how many of these are readings by this layout.
     *
     * @return the number of lines
     */
    public int matched() {
        return matched;
    }

    /**
     * Returns the assumptions that were made.
     *
     * @return the assumptions in words
     */
    public List<String> remarks() {
        return remarks;
    }

    /**
     * Returns the guess in words.
     *
     * @return the layout, the evidence for it and the assumptions made
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("guessed layout \"" + layout + "\": " + matched + " of the first "
                + examined + " lines are readings by it");
        remarks.forEach(remark -> text.append("; ").append(remark));
        return text.toString();
    }
}
