package org.tonewedge.standards.densitometer;

import java.io.IOException;
import java.io.InputStream;
import java.util.function.Consumer;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;

/**
 * Reads the log of a densitometer, from a file or as it streams over a serial port, by a stated layout:
 *
 * <pre>{@code
 * ReadingsSummary summary = DensitometerLogReader.of(LogLayout.parse("keys step=S density=D"))
 *         .summarise(System.in, tablet);
 * }</pre>
 *
 * <p>Lines end with LF, CR LF or CR. A line that is not a whole reading (a boot message, a blank or half line, one with
 * bytes that are not ASCII, an overrange marker) is counted and never taken as data. A last line without an end is a half
 * line unless the layout states the decimals of a bare density or of one in the last place, since nothing else shows that
 * it is whole.
 *
 * <p>The reader holds one line at a time; a log of any length is read in constant memory. Text is read as ASCII; a byte
 * order mark at the beginning is passed over.
 *
 * <p>Immutable and thread safe.
 */
public final class DensitometerLogReader {

    /** The longest line that is looked at, in bytes. */
    public static final int LONGEST_LINE = 1024;

    private static final int LONGEST_EXAMPLE = 80;

    private final LogLayout layout;

    private DensitometerLogReader(LogLayout layout) {
        this.layout = layout;
    }

    /** Takes the lines of a log in order. */
    interface LineSink {

        void accept(LogReading reading);

        /** Takes a reading whose printed density is outside the limits of a density. */
        void acceptImplausible(LogReading reading);

        /** Tells at the end that the log has numbers the layout does not use. */
        void noteUnusedNumber();

        void refuse(long line, LineKind kind, int step);
    }

    /**
     * Returns a reader for logs of a layout.
     *
     * @param layout where each value stands
     * @return the reader
     * @throws DensitometerInputException if no density can be had by the layout; the message names the field that lacks
     */
    public static DensitometerLogReader of(LogLayout layout) {
        layout.checkComplete();
        return new DensitometerLogReader(layout);
    }

    /**
     * Hands each reading of a log to a consumer as it comes, in constant memory.
     *
     * @param log the bytes of the log; it is read to its end and not closed
     * @param readings takes each reading
     * @return what the lines were; those with {@linkplain LineKind#IMPLAUSIBLE implausible} densities are counted only
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log holds no reading of this layout
     */
    public LogTally read(InputStream log, Consumer<LogReading> readings) throws IOException {
        return read(log, new LineSink() {
            @Override
            public void accept(LogReading reading) {
                readings.accept(reading);
            }

            @Override
            public void acceptImplausible(LogReading reading) {
                // counted in the tally
            }

            @Override
            public void noteUnusedNumber() {
                // of no use to the consumer
            }

            @Override
            public void refuse(long line, LineKind kind, int step) {
                // counted in the tally
            }
        });
    }

    /**
     * Reads a log of readings on the steps of a tablet and sums it up, in constant memory. A log without step numbers
     * must hold one reading of each step in turn, from step 1 upwards.
     *
     * @param log the bytes of the log; it is read to its end and not closed
     * @param tablet the tablet that was read
     * @return the figures of each step
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log holds no reading of this layout, or its steps cannot be told
     */
    public ReadingsSummary summarise(InputStream log, StepTablet tablet) throws IOException {
        return summarise(log, tablet, ReadingOrder.FROM_CLEAR_END, 1);
    }

    /**
     * Reads a log of readings on the steps of a tablet and sums it up, in constant memory.
     *
     * @param log the bytes of the log; it is read to its end and not closed
     * @param tablet the tablet that was read
     * @param order in a log without step numbers, the end of the tablet at which reading began
     * @param readingsPerStep in a log without step numbers, how often each step was read before the next one
     * @return the figures of each step
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the log holds no reading of this layout, or its steps cannot be told
     * @throws IllegalArgumentException if the number of readings is below 1
     */
    public ReadingsSummary summarise(InputStream log, StepTablet tablet, ReadingOrder order, int readingsPerStep)
            throws IOException {
        SummaryBuilder builder = layout.knows(LogField.STEP)
                ? SummaryBuilder.byStepNumber(tablet)
                : SummaryBuilder.inOrder(tablet, order, readingsPerStep);
        LogTally tally = read(log, builder);
        return builder.build(tally);
    }

    private LogTally read(InputStream log, LineSink sink) throws IOException {
        LineSource lines = new LineSource(log);
        LineParser parser = new LineParser(layout);
        LogTally.Counter counter = new LogTally.Counter();
        while (lines.advance()) {
            String text = lines.text();
            ParsedLine parsed = parse(lines, text, parser);
            if (parsed instanceof ParsedLine.Accepted accepted) {
                counter.add(LineKind.READING, text);
                sink.accept(accepted.reading());
            } else if (parsed instanceof ParsedLine.Implausible implausible) {
                counter.add(LineKind.IMPLAUSIBLE, example(text));
                sink.acceptImplausible(implausible.reading());
            } else if (parsed instanceof ParsedLine.Refused refused) {
                long line = counter.add(refused.kind(), example(text));
                sink.refuse(line, refused.kind(), refused.step());
            }
        }
        if (parser.sawUnusedNumber()) {
            sink.noteUnusedNumber();
        }
        LogTally tally = counter.tally();
        if (counter.count(LineKind.READING) + counter.count(LineKind.IMPLAUSIBLE) + counter.count(LineKind.OVERRANGE)
                == 0) {
            throw new DensitometerInputException(
                    "log",
                    0,
                    parser.isWaitingForHeader()
                            ? "there is no header row that names "
                                    + layout.places().values()
                            : "there is no reading of the layout \"" + layout + "\" (" + tally + ")",
                    "look at the lines and state their layout");
        }
        return tally;
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
            return ParsedLine.refused(LineKind.HALF_LINE);
        }
        return parsed;
    }

    /** Whether a whole line can be told from one that was cut short: the decimals are stated and stand last. */
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
}
