package org.tonewedge.standards.densitometer.input;

import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.StringTokenizer;
import org.tonewedge.core.internal.Checks;

/**
 * A layout that was guessed from the first lines of a log, with what it rests on; show it to the user before its figures
 * are believed.
 *
 * <p>Keys and names of columns are known by the usual words (step, D, density, sample, dark, open, temp, ms …). Columns
 * without a header are told by their values: small whole numbers are steps, a column that only rises by much is the time
 * in milliseconds, three columns of large whole numbers are dark, sample and open-gate counts in the order of their size,
 * and so on. The rules are the project's own.
 *
 * <p>Immutable and thread safe.
 */
public final class LayoutGuess {

    private static final int SAMPLE_BYTES = 1 << 16;
    private static final int SAMPLE_LINES = 400;
    private static final int READINGS_WANTED = 40;
    private static final int FEWEST_FOR_DECIMALS = 4;

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
        put(words, LogField.STEP, "step", "s", "n", "patch", "step_no", "stepno");
        put(words, LogField.RUN, "run", "pass", "series");
        put(words, LogField.TIME, "time", "timestamp", "date", "datetime", "seconds", "sec", "time_s");
        put(words, LogField.MILLISECONDS, "ms", "millis", "milliseconds", "uptime", "time_ms", "tick");
        put(words, LogField.TEMPERATURE, "temp", "temperature", "celsius", "t_c", "temp_c", "degc");
        put(words, LogField.DENSITY, "d", "density", "dens", "od", "log_density");
        put(words, LogField.SAMPLE, "sample", "counts", "raw", "adc", "sample_counts", "sig", "signal");
        put(words, LogField.DARK, "dark", "dark_counts", "black", "offset");
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
        put(words, LogField.OPEN_DARK, "open_dark");
        put(words, LogField.OPEN_GAIN, "open_gain");
        put(words, LogField.OPEN_INTEGRATION, "open_integration");
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
     * Guesses from the first readings of a stream, such as a device that prints one line now and then. The stream stays
     * readable from its beginning. The number of decimals is stated only where enough readings share it.
     *
     * @param log the log; it is marked and reset, and needs a buffer of no particular size
     * @param readings how many readings to wait for, 1 or more; 40 are waited for by default
     * @return the guess
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(BufferedInputStream log, int readings) throws IOException {
        Checks.within("readings to wait for", readings, 1, SAMPLE_LINES, "");
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
            lines = asciiLines(sample, filled);
            if (lines.size() >= SAMPLE_LINES || mostReadings(lines) >= readings) {
                break;
            }
        }
        log.reset();
        return from(lines);
    }

    private static List<String> asciiLines(byte[] sample, int filled) throws IOException {
        List<String> lines = new ArrayList<>();
        LineSource source = new LineSource(new ByteArrayInputStream(sample, 0, filled));
        while (source.advance()) {
            if (source.isAscii() && !source.isTooLong() && source.isTerminated()) {
                lines.add(source.text());
            }
        }
        return lines;
    }

    private static int mostReadings(List<String> lines) {
        return candidates(lines).stream().mapToInt(LayoutGuess::matched).max().orElse(0);
    }

    /**
     * Guesses from the first lines of a log.
     *
     * @param lines some lines, a few dozen readings among them
     * @return the guess that makes a reading of the most lines
     * @throws DensitometerInputException if no layout fits
     */
    public static LayoutGuess from(List<String> lines) {
        LayoutGuess best = candidates(lines).stream()
                .max(Comparator.comparingInt(LayoutGuess::matched)
                        .thenComparing(guess -> guess.layout.places().size()))
                .filter(guess -> guess.matched > 0)
                .orElseThrow(() -> new DensitometerInputException(
                        "log",
                        0,
                        "no layout can be guessed from the first " + lines.size() + " lines",
                        "state the layout, such as \"keys step=S density=D\" or \"comma step=1 density=2\""));
        return best.withDecimals(lines);
    }

    private static List<LayoutGuess> candidates(List<String> lines) {
        List<LayoutGuess> candidates = new ArrayList<>();
        named(LogForm.KEYS, keys(lines), lines).ifPresent(candidates::add);
        for (LogForm form : List.of(LogForm.COMMA, LogForm.TAB, LogForm.SEMICOLON)) {
            Optional<LayoutGuess> named = named(form, header(form, lines), lines);
            named.ifPresent(candidates::add);
            if (named.filter(guess -> guess.layout.knows(LogField.DENSITY)).isPresent()) {
                // a density that is named is used, whatever its values
                continue;
            }
            new ColumnGuess(form, lines)
                    .layout()
                    .ifPresent(layout -> candidates.add(assess(
                            layout, lines, List.of("there is no header; the columns were told by their values"))));
        }
        candidates.add(assess(LogLayout.of(LogForm.BARE), lines, List.of("a density alone on each line")));
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

    /** Adds what the counts need and the log does not print. */
    private static LogLayout completed(LogLayout layout, List<String> lines, List<String> notes) {
        LogLayout complete = layout;
        if (layout.knows(LogField.GAIN) && !layout.knows(LogField.OPEN_GAIN)) {
            complete = complete.withFixed(LogField.OPEN_GAIN, 1);
            notes.add("the open gate was taken to be counted at gain 1");
        }
        if (layout.knows(LogField.INTEGRATION) && !layout.knows(LogField.OPEN_INTEGRATION)) {
            double least = leastIntegration(layout, lines);
            complete = complete.withFixed(LogField.OPEN_INTEGRATION, least);
            notes.add("the open gate was taken to be counted at integration time " + least + ", the least seen");
        }
        if (layout.hasCounts() && !layout.knows(LogField.DARK) && layout.knows(LogField.DENSITY)) {
            notes.add("no dark counts were found, so that the densities cannot be held against the counts");
            return withoutCounts(layout);
        }
        if (layout.hasCounts() && !layout.knows(LogField.DARK)) {
            complete = complete.withFixed(LogField.DARK, 0);
            notes.add("no dark counts were found; they were taken as 0");
        }
        return complete;
    }

    private static LogLayout withoutCounts(LogLayout layout) {
        LogLayout made = LogLayout.of(layout.form());
        for (Map.Entry<LogField, String> place : layout.places().entrySet()) {
            if (!place.getKey().isOfCounts()) {
                made = made.with(place.getKey(), place.getValue());
            }
        }
        return layout.width().isPresent() ? made.withWidth(layout.width().getAsInt()) : made;
    }

    private static double leastIntegration(LogLayout layout, List<String> lines) {
        LogLayout probe = LogLayout.of(layout.form());
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

    private static List<String> keys(List<String> lines) {
        Set<String> keys = new LinkedHashSet<>();
        Map<String, Integer> uses = new HashMap<>();
        for (String line : lines) {
            StringTokenizer tokens = new StringTokenizer(LineParser.tightened(line.strip()), " ,;\t");
            while (tokens.hasMoreTokens()) {
                String token = tokens.nextToken();
                int separator = Math.max(token.indexOf('='), token.indexOf(':'));
                if (separator > 0) {
                    String key = token.substring(0, separator).toLowerCase(Locale.ROOT);
                    keys.add(key);
                    uses.merge(key, 1, Integer::sum);
                }
            }
        }
        int most = uses.values().stream().reduce(0, Math::max);
        keys.removeIf(key -> uses.get(key) * 2 < most);
        return List.copyOf(keys);
    }

    private static List<String> header(LogForm form, List<String> lines) {
        for (String line : lines) {
            List<String> fields = LineParser.fields(line.toLowerCase(Locale.ROOT), form.separator());
            boolean noNumber =
                    fields.stream().noneMatch(text -> Numerals.number(text).isPresent());
            if (noNumber && fields.size() > 1 && placed(form, fields).isPresent()) {
                return fields;
            }
        }
        return List.of();
    }

    private static Optional<LayoutGuess> named(LogForm form, List<String> names, List<String> lines) {
        return placed(form, names).map(layout -> {
            List<String> aside = names.stream()
                    .filter(name -> !layout.places().containsValue(name))
                    .toList();
            return assess(
                    layout, lines, aside.isEmpty() ? List.of() : List.of("left aside: " + String.join(", ", aside)));
        });
    }

    private static Optional<LogLayout> placed(LogForm form, List<String> names) {
        Map<LogField, String> places = new LinkedHashMap<>();
        for (String name : names) {
            LogField field = WORDS.get(name);
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
        LogLayout layout = LogLayout.of(form);
        for (Map.Entry<LogField, String> place : places.entrySet()) {
            layout = layout.with(place.getKey(), place.getValue());
        }
        return Optional.of(layout);
    }

    /** States the decimals where all densities have the same number of them, which then shows half lines. */
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
     * Returns how many lines were looked at.
     *
     * @return the number of lines
     */
    public int examined() {
        return examined;
    }

    /**
     * Returns how many of them are readings by this layout.
     *
     * @return the number of lines
     */
    public int matched() {
        return matched;
    }

    /**
     * Returns what was assumed.
     *
     * @return the assumptions in words
     */
    public List<String> remarks() {
        return remarks;
    }

    /**
     * Returns the guess in words.
     *
     * @return the layout, what it rests on and what was assumed
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("guessed layout \"" + layout + "\": " + matched + " of the first "
                + examined + " lines are readings by it");
        remarks.forEach(remark -> text.append("; ").append(remark));
        return text.toString();
    }
}
