// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collection;
import java.util.Comparator;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * Reads the log of a densitometer, from a file or as it streams over a serial port, by a stated layout:
 *
 * <pre>{@code
 * LogTally tally = DensitometerLogReader.of(LogLayout.parse("keys step=S density=D")).
 *         read(System.in, reading -> System.out.println(reading));
 * }</pre>
 *
 * <p>Lines end with LF, CR LF or CR. A line that is not a complete reading (a boot message, a blank or half line, one
 * with bytes that are not ASCII, an overrange marker) is counted but never taken as data. A last line without a line
 * end counts as a half line, unless the layout states the number of decimals and the density is bare or in the last
 * place; nothing else shows that the line is complete.
 *
 * <p>The reader keeps one line at a time, so a log of any length is read in constant memory. Text is read as ASCII; a
 * byte order mark at the beginning is skipped.
 *
 * <p>Immutable and thread safe.
 */
public final class DensitometerLogReader {

    /** The longest line that is read, in bytes. */
    public static final int LONGEST_LINE = 1024;

    private static final int LONGEST_EXAMPLE = 80;

    private final LogLayout layout;

    private DensitometerLogReader(LogLayout layout) {
        this.layout = layout;
    }

    /**
     * Returns a reader for logs of a layout.
     *
     * @param layout where each value stands
     * @return the reader
     * @throws DensitometerInputException if the layout gives no density; the message names the missing field
     */
    public static DensitometerLogReader of(LogLayout layout) {
        layout.checkComplete();
        return new DensitometerLogReader(layout);
    }

    /**
     * Passes each line of a log to a listener as it arrives, in constant memory, until the stream ends or the listener
     * has enough.
     *
     * @param log the bytes of the log; it is not closed
     * @param listener receives the lines; a lambda receives only the readings
     * @return what the lines were
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log has no reading of this layout
     */
    public LogTally read(InputStream log, LogListener listener) throws IOException {
        Objects.requireNonNull(log, "log");
        LineSource lines = new LineSource(log);
        LineParser parser = new LineParser(layout);
        LogTally.Counter counter = new LogTally.Counter();
        while (listener.wantsMore() && lines.advance()) {
            String text = lines.text();
            ParsedLine parsed = parse(lines, text, parser);
            if (parsed instanceof ParsedLine.Accepted accepted) {
                counter.add(LineKind.READING, text);
                listener.accept(accepted.reading());
            } else if (parsed instanceof ParsedLine.Implausible implausible) {
                counter.add(LineKind.IMPLAUSIBLE, example(text));
                listener.acceptImplausible(implausible.reading());
            } else if (parsed instanceof ParsedLine.Refused refused) {
                long line = counter.add(refused.kind(), example(text));
                listener.refuse(line, refused.kind(), refused.step());
            }
        }
        LogTally tally = counter.tally(parser.sawUnusedNumber());
        if (counter.count(LineKind.READING) + counter.count(LineKind.IMPLAUSIBLE) + counter.count(LineKind.OVERRANGE)
                == 0) {
            throw new DensitometerInputException(
                    tally.lines() == 0 ? Fault.MISSING : Fault.WRONG_FORMAT,
                    "log",
                    0,
                    parser.isWaitingForHeader()
                            ? "there is no header row that names "
                                    + layout.places().values()
                            : "there is no reading of the layout \"" + layout + "\" (" + tally + ")"
                                    + refusedLine(tally),
                    layout.form().hasPairs()
                            ? "look at the lines and state their layout, with the names that they print: step=s where a line"
                                    + " has s=3"
                            : "look at the lines and state their layout");
        }
        return tally;
    }

    /** A line that was refused, with what it has and what the layout needs; nothing if the log has none. */
    private String refusedLine(LogTally tally) {
        Optional<LogTally.Example> refused = Stream.of(LineKind.values())
                .filter(kind -> kind != LineKind.COMMENT && kind != LineKind.HEADER)
                .sorted(Comparator.comparing(LineKind::mayHideReading).reversed())
                .flatMap(kind -> tally.examples(kind).stream())
                .findFirst();
        return refused.map(line -> "; line " + line.line() + " is \"" + line.text() + '"' + contents(line.text()))
                .orElse("");
    }

    private String contents(String line) {
        if (!layout.form().hasPairs()) {
            return "";
        }
        Collection<String> names = layout.places().values();
        String rest = LinePrefix.of(line.strip(), names, new TimeStamps()).rest();
        Set<String> has = LinePairs.of(layout.form(), rest, layout.hasDecimalComma())
                .values()
                .keySet();
        if (has.containsAll(names)) {
            return "";
        }
        return " and has " + (has.isEmpty() ? "no name with a value" : "the names " + String.join(", ", has))
                + ", but the layout needs " + String.join(", ", names);
    }

    private ParsedLine parse(LineSource lines, String text, LineParser parser) {
        if (lines.isTooLong()) {
            return ParsedLine.refused(LineKind.TOO_LONG);
        }
        if (!lines.isAscii()) {
            return ParsedLine.refused(LineKind.NOT_ASCII);
        }
        ParsedLine parsed = parser.parse(text);
        if (!lines.isTerminated() && !(parsed instanceof ParsedLine.Refused) && !showsItsEnd()) {
            return ParsedLine.refused(LineKind.INCOMPLETE_LINE);
        }
        return parsed;
    }

    /**
     * Whether a complete line can be distinguished from one that was cut short: the number of decimals is stated and
     * the density is last.
     */
    private boolean showsItsEnd() {
        if (layout.decimals().isEmpty()) {
            return false;
        }
        String place = layout.places().get(LogField.DENSITY);
        return layout.form() == LogForm.BARE
                || (layout.form().hasColumns()
                        && layout.width().isPresent()
                        && place != null
                        && place.equals(Integer.toString(layout.width().getAsInt())));
    }

    private static String example(String text) {
        StringBuilder shown = new StringBuilder();
        text.chars()
                .limit(LONGEST_EXAMPLE)
                .forEach(c -> shown.append(c == '\t' ? ' ' : c >= 0x20 && c < 0x7F ? (char) c : '?'));
        return text.length() > LONGEST_EXAMPLE ? shown.append("...").toString() : shown.toString();
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the layout
     */
    @Override
    public String toString() {
        return "reader of logs: " + layout;
    }
}
