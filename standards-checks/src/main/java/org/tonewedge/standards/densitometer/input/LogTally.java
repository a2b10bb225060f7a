// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * The counts of lines of a log by kind, such as 63 readings, 4 messages, 1 half line: every line is counted once.
 *
 * <p>Immutable and thread safe.
 */
public final class LogTally {

    private static final int MOST_EXAMPLES = 3;

    private final Map<LineKind, Long> counts;
    private final Map<LineKind, List<Example>> examples;
    private final boolean unusedNumbers;

    /**
     * A line that was not a reading.
     *
     * @param line its number, from 1
     * @param text its text, shortened if it is long, with every character that is not printable ASCII shown as
     *     {@code ?}
     */
    public record Example(long line, String text) {
        /**
         * Checks that nothing is missing.
         *
         * @param line its number, from 1
         * @param text its text, shortened if it is long, with every character that is not printable ASCII shown as
         *     {@code ?}
         */
        public Example {
            Objects.requireNonNull(text, "text");
        }
    }

    private LogTally(Map<LineKind, Long> counts, Map<LineKind, List<Example>> examples, boolean unusedNumbers) {
        this.counts = counts;
        this.examples = examples;
        this.unusedNumbers = unusedNumbers;
    }

    /** Counts lines as they come. */
    @SuppressWarnings("EnumOrdinal") // the counts are in the order of the kinds
    static final class Counter {

        private final long[] counts = new long[LineKind.values().length];
        private final Map<LineKind, List<Example>> examples = new EnumMap<>(LineKind.class);
        private long lines;

        long add(LineKind kind, String text) {
            lines++;
            long count = ++counts[kind.ordinal()];
            if (kind != LineKind.READING && kind != LineKind.BLANK && count <= MOST_EXAMPLES) {
                examples.computeIfAbsent(kind, key -> new ArrayList<>()).add(new Example(lines, text));
            }
            return lines;
        }

        long count(LineKind kind) {
            return counts[kind.ordinal()];
        }

        LogTally tally(boolean unused) {
            Map<LineKind, Long> counted = new EnumMap<>(LineKind.class);
            for (LineKind kind : LineKind.values()) {
                counted.put(kind, count(kind));
            }
            Map<LineKind, List<Example>> shown = new EnumMap<>(LineKind.class);
            examples.forEach((kind, lines) -> shown.put(kind, List.copyOf(lines)));
            return new LogTally(counted, shown, unused);
        }
    }

    /**
     * Returns the tally of readings that did not come from a log.
     *
     * @param count how many there are
     * @return the tally of that many lines, all of them readings
     */
    @SuppressWarnings("EnumOrdinal") // the counts are in the order of the kinds
    public static LogTally ofReadings(long count) {
        Counter counter = new Counter();
        counter.counts[LineKind.READING.ordinal()] = count;
        return counter.tally(false);
    }

    /**
     * Returns the number of lines of a kind.
     *
     * @param kind the kind
     * @return the number of lines
     */
    public long count(LineKind kind) {
        return counts.get(Objects.requireNonNull(kind, "kind"));
    }

    /**
     * Returns the number of lines in the log.
     *
     * @return the number of all lines
     */
    public long lines() {
        return counts.values().stream().mapToLong(Long::longValue).sum();
    }

    /**
     * Returns the number of lines that may be readings damaged in transmission.
     *
     * @return the number of lines whose kind {@linkplain LineKind#mayHideReading may hide a reading}
     */
    public long damaged() {
        return counts.entrySet().stream()
                .filter(entry -> entry.getKey().mayHideReading())
                .mapToLong(Map.Entry::getValue)
                .sum();
    }

    /**
     * Tells whether the log has numbers that the layout does not use.
     *
     * @return true if a line had such a number
     */
    public boolean hasUnusedNumbers() {
        return unusedNumbers;
    }

    /**
     * Returns the first lines of a kind.
     *
     * @param kind the kind
     * @return up to three lines; none for readings and blank lines
     */
    public List<Example> examples(LineKind kind) {
        Objects.requireNonNull(kind, "kind");
        return examples.getOrDefault(kind, Collections.emptyList());
    }

    /**
     * Returns the counts in words.
     *
     * @return for example {@code 68 lines: 63 readings, 4 messages, 1 incomplete line}
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(
                lines() + (lines() == 1 ? " line: " : " lines: ") + LineKind.READING.counted(count(LineKind.READING)));
        counts.forEach((kind, count) -> {
            if (count > 0 && kind != LineKind.READING) {
                text.append(", ").append(kind.counted(count));
            }
        });
        return text.toString();
    }
}
