// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.StepReadings;

/**
 * Lines of a log with bytes changed, lost, added, repeated and run together. The measure of a corrupt value is an
 * independent grammar of the line: a line is taken if and only if the grammar takes it, with exactly its values.
 */
class LogFuzzTest {

    private static final int LINES = 60_000;
    private static final long SEED = 20_261_125;

    private static final Pattern KEYED =
            Pattern.compile("[ \t]*step=(\\d{1,9}) D=([+-]?\\d*\\.\\d{2}) T=([+-]?\\d*\\.\\d)[ \t]*");

    private static final Pattern PAIR = Pattern.compile("([^=]+)=(.*)|([^:=]+):([^=]*)");

    /** What a terminal or a logging routine puts before a line, here with nothing behind it, too. */
    private static final String[] STAMPS = {
        "[10:15:30]",
        "10:15:30 ->",
        "10:15:30",
        "[   12.345678]",
        "I (7500) dens:",
        "2026-01-31T10:15:30Z",
        "INFO",
        "dens:"
    };

    private final Random random = new Random(SEED);

    private String line() {
        return String.format(
                Locale.ROOT,
                "step=%d D=%.2f T=%.1f",
                1 + random.nextInt(21),
                random.nextDouble() * 3,
                20 + random.nextDouble() * 5);
    }

    private String mutated(String line) {
        StringBuilder text = new StringBuilder(line);
        int changes = 1 + random.nextInt(3);
        for (int i = 0; i < changes && text.length() > 0; i++) {
            int at = random.nextInt(text.length());
            switch (random.nextInt(8)) {
                case 0 -> text.setCharAt(at, (char) random.nextInt(256));
                case 1 -> text.deleteCharAt(at);
                case 2 -> text.insert(at, (char) random.nextInt(256));
                case 3 -> text.setLength(at);
                case 4 -> text.insert(at, line());
                case 5 -> text.insert(at, text.substring(at));
                case 6 -> text.setCharAt(at, (char) (text.charAt(at) ^ (1 << random.nextInt(8))));
                default -> text.setCharAt(at, "0123456789.-+eE =:,;\t".charAt(random.nextInt(21)));
            }
        }
        return text.toString().replace('\n', ' ').replace('\r', ' ');
    }

    /** Whether the grammar takes a line in the one spelling the firmware has; other spellings are left to the parser. */
    private static boolean isCanonical(String line, double[] values) {
        Matcher matcher = KEYED.matcher(line);
        if (!matcher.matches()) {
            return false;
        }
        BigDecimal step = new BigDecimal(matcher.group(1));
        BigDecimal density = new BigDecimal(matcher.group(2));
        BigDecimal celsius = new BigDecimal(matcher.group(3));
        values[0] = step.doubleValue();
        values[1] = density.doubleValue();
        values[2] = celsius.doubleValue();
        return values[0] >= 1
                && values[0] <= 1000
                && values[1] >= -0.2
                && values[1] <= 10
                && values[2] >= -40
                && values[2] <= 125;
    }

    /** A tag that is not one of the layout's words, before another word, is no part of the reading. */
    private static String behindPrefix(String line) {
        return line.replaceFirst("^(?!(?i:step|d|t):)[A-Za-z_][A-Za-z0-9_.-]*: +(?=[A-Za-z_])", "");
    }

    /** All the spellings the layout allows: pairs in any order, either separator, surplus keys. */
    private static boolean isAllowed(String line, LogReading reading) {
        String pairs = behindPrefix(line.strip())
                .replaceAll("[ \t]*([=:])[ \t]*", "$1")
                .toLowerCase(Locale.ROOT);
        if (!pairs.chars().allMatch(c -> c == '\t' || (c >= 32 && c < 127))) {
            return false;
        }
        String step = null;
        String density = null;
        String celsius = null;
        for (String pair : pairs.split("[ ,;\t]+", -1)) {
            if (pair.isEmpty()) {
                continue;
            }
            Matcher matcher = PAIR.matcher(pair);
            if (!matcher.matches()) {
                return false;
            }
            String key = matcher.group(1) == null ? matcher.group(3) : matcher.group(1);
            String value = matcher.group(1) == null ? matcher.group(4) : matcher.group(2);
            switch (key) {
                case "step" -> step = step == null ? value : "twice";
                case "d" -> density = density == null ? value : "twice";
                case "t" -> celsius = celsius == null ? value : "twice";
                default -> {}
            }
        }
        String number = "[+-]?\\d*(\\.\\d+)?(e[+-]?\\d+)?";
        return step != null
                && density != null
                && celsius != null
                && step.matches("\\d+")
                && density.matches("[+-]?\\d*\\.\\d{2}(e[+-]?\\d+)?")
                && celsius.matches(number)
                && new BigDecimal(step).intValueExact() == reading.step().orElseThrow()
                && new BigDecimal(density).doubleValue()
                        == reading.density().orElseThrow().value()
                && new BigDecimal(celsius).doubleValue() == reading.celsius().orElseThrow();
    }

    @Test
    @Tag("slow")
    void takesAMutatedLineOnlyWithTheValuesItsGrammarGives() throws Exception {
        DensitometerLogReader reader =
                DensitometerLogReader.of(LogLayout.parse("keys step=step density=d temperature=t decimals=2"));
        double[] values = new double[3];
        int taken = 0;
        int refused = 0;
        for (int i = 0; i < LINES; i++) {
            String line = mutated(line());
            List<LogReading> readings = new ArrayList<>();
            LogTally tally = reader.read(Logs.stream("step=1 D=0.05 T=20.0\n" + line + "\n"), readings::add);
            assertEquals(2, tally.lines());
            if (readings.size() == 2) {
                taken++;
                LogReading reading = readings.get(1);
                assertTrue(isAllowed(line, reading), () -> "taken: " + line + " as " + reading);
            } else {
                refused++;
                assertFalse(isCanonical(line, values), () -> "refused: " + line);
            }
        }
        assertTrue(taken > LINES / 50 && refused > LINES / 2, taken + " taken, " + refused + " refused");
    }

    @Test
    @Tag("slow")
    void readsALogOfMutatedLinesToItsEndInEveryLayout() throws Exception {
        StepTablet tablet = Logs.TABLET;
        for (String layout : new String[] {
            "keys step=step density=d temperature=t",
            "bare",
            "comma step=1 density=2",
            "semicolon density=d step=step",
            "tab time=1 density=2",
            "keys sample=d dark=t open=step",
            "keys time=step density=d run=t",
            "words step=step density=d",
            "json step=step density=d",
            "blank step=1 density=2",
            "semicolon step=1 density=2 decimal=comma"
        }) {
            StringBuilder log = new StringBuilder("d;step\n");
            for (int i = 0; i < LINES / 10; i++) {
                String line = line();
                if (i % 7 == 0) {
                    String stamp = STAMPS[i / 7 % STAMPS.length];
                    log.append(stamp).append(" ".repeat(i % 3)).append('\n');
                    log.append(mutated(stamp)).append('\n');
                    log.append(stamp).append(' ').append(mutated(line)).append('\n');
                }
                if (i % 11 == 0) {
                    log.append(mutated(line.replaceAll("([A-Za-z]+)=([0-9.]+) ?", "\"$1\":$2,")
                                    .replaceFirst("(.*),", "{$1}")))
                            .append('\n');
                }
                log.append(mutated(
                                i % 2 == 0
                                        ? line
                                        : line.replaceAll("[A-Za-z]+=", "").replace(' ', ",;\t".charAt(i % 3))))
                        .append(i % 5 == 0 ? "\r\n" : "\n");
            }
            byte[] bytes = log.toString().getBytes(StandardCharsets.ISO_8859_1);
            DensitometerLogReader reader = DensitometerLogReader.of(LogLayout.parse(layout));
            long[] readings = new long[1];
            LogTally tally = reader.read(new ByteArrayInputStream(bytes), reading -> readings[0]++);
            assertEquals(readings[0], tally.count(LineKind.READING), layout);
            assertTrue(tally.lines() >= LINES / 10, layout);
            assertFiguresAreFinite(LogLayout.parse(layout), bytes, tablet);
        }
    }

    private static void assertFiguresAreFinite(LogLayout layout, byte[] bytes, StepTablet tablet) throws Exception {
        try {
            ReadingsSummary summary = ReadingsSummary.read(new ByteArrayInputStream(bytes), layout, tablet);
            for (StepReadings step : summary.densities()) {
                assertTrue(Double.isFinite(step.mean() + step.lowest() + step.highest()));
            }
        } catch (DensitometerInputException e) {
            assertFalse(e.remedy().isBlank());
        } catch (IllegalArgumentException e) {
            assertTrue(e.getMessage().contains("must name its step"), e.getMessage());
        }
    }
}
