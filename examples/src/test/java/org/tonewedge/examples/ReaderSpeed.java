// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LogLayout;

/**
 * The time to read tables and logs, beside the least that anybody would do with the same text. Both read each text in
 * turn, and each pass has a text of its own; of the ratios of all passes the median counts.
 *
 * <p>The command of the benchmarks (DEVELOPERS.md) runs it after the table of the library's speed, and adds its rows to
 * that page.
 */
final class ReaderSpeed {

    private static final int STRIPS = 2000;
    private static final int STEPS = 50;
    private static final int LINES = STRIPS * STEPS;
    private static final int WARMUP = 25;
    private static final int PASSES = 41;
    private static final String BEGIN = "<!-- readers -->\n";
    private static final String END = "</body>\n</html>\n";

    private final List<String> rows = new ArrayList<>();
    private double sink;

    private ReaderSpeed() {}

    /** Reads a text and returns something that depends on all of it. */
    @FunctionalInterface
    private interface Reading {
        double of(String text) throws IOException;
    }

    /** Makes the text of a pass. */
    @FunctionalInterface
    private interface Text {
        String of(Random random);
    }

    /**
     * Prints the table, and adds it to a page.
     *
     * @param arguments the page, if its name ends with .html
     */
    public static void main(String[] arguments) throws IOException {
        ReaderSpeed speed = new ReaderSpeed();
        speed.tables();
        speed.logs();
        if (arguments.length > 0 && arguments[0].endsWith(".html")) {
            Path page = Path.of(arguments[0]);
            String html = Files.readString(page);
            int end = html.contains(BEGIN) ? html.indexOf(BEGIN) : html.indexOf(END);
            Files.writeString(page, html.substring(0, end) + speed.table() + END);
        }
        System.out.println(speed.sink == 0 ? "nothing was read" : "");
    }

    private void tables() throws IOException {
        compare(
                "readings table, commas, a row",
                random -> table(random, ',', '.'),
                text -> ReadingsTable.read("table.csv", new StringReader(text))
                        .strips()
                        .size(),
                "the CSV library alone",
                text -> lengths(text, ','));
        compare(
                "readings table, semicolons and decimal commas, a row",
                random -> table(random, ';', ','),
                text -> ReadingsTable.read("table.csv", new StringReader(text))
                        .strips()
                        .size(),
                "the CSV library alone",
                text -> lengths(text, ';'));
    }

    private void logs() throws IOException {
        DensitometerLogReader columns = DensitometerLogReader.of(LogLayout.parse("comma step=1 density=3 width=4"));
        compare(
                "densitometer log, columns, a line",
                random -> log(random, "%d,%d,%.3f,%.1f%n"),
                text -> densities(columns, text),
                "readLine, split, parseDouble",
                ReaderSpeed::plainColumns);
        DensitometerLogReader keys = DensitometerLogReader.of(LogLayout.parse("keys step=s density=d"));
        compare(
                "densitometer log, keys, a line",
                random -> log(random, "S=%d N=%d D=%.3f T=%.1f%n"),
                text -> densities(keys, text),
                "readLine, split, parseDouble",
                ReaderSpeed::plainKeys);
    }

    private static double lengths(String text, char separator) throws IOException {
        double sum = 0;
        try (CsvReader<CsvRecord> csv =
                CsvReader.builder().fieldSeparator(separator).ofCsvRecord(new StringReader(text))) {
            for (CsvRecord row : csv) {
                for (int i = 0; i < row.getFieldCount(); i++) {
                    sum += row.getField(i).length();
                }
            }
        }
        return sum;
    }

    private static double densities(DensitometerLogReader reader, String text) throws IOException {
        double[] sum = new double[1];
        reader.read(
                bytes(text),
                reading -> sum[0] +=
                        reading.printed().getAsDouble() + reading.step().getAsInt());
        return sum[0];
    }

    private static InputStream bytes(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.US_ASCII));
    }

    private static double plainColumns(String text) throws IOException {
        double sum = 0;
        BufferedReader lines = new BufferedReader(new InputStreamReader(bytes(text), StandardCharsets.US_ASCII));
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            String[] fields = line.split(",", -1);
            sum += Double.parseDouble(fields[2]) + Integer.parseInt(fields[0]);
        }
        return sum;
    }

    private static double plainKeys(String text) throws IOException {
        double sum = 0;
        BufferedReader lines = new BufferedReader(new InputStreamReader(bytes(text), StandardCharsets.US_ASCII));
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            for (String pair : line.split(" ", -1)) {
                String[] parts = pair.split("=", -1);
                if (parts[0].equals("S")) {
                    sum += Integer.parseInt(parts[1]);
                } else if (parts[0].equals("D")) {
                    sum += Double.parseDouble(parts[1]);
                }
            }
        }
        return sum;
    }

    /** A table of invented strips. */
    private static String table(Random random, char separator, char mark) {
        StringBuilder table = new StringBuilder(
                "strip,film,developer,minutes,celsius,box_speed,log_exposure,density\n".replace(',', separator));
        for (int s = 0; s < STRIPS; s++) {
            String strip = "S" + s + separator + "Invented " + s + separator + "bath 1+1" + separator + (5 + s % 10)
                    + mark + '5' + separator + "20" + mark + '0' + separator + "125" + separator;
            for (int i = 0; i < STEPS; i++) {
                table.append(strip).append('-');
                decimal(table, 3800 - 70 * i + random.nextInt(10), mark).append(separator);
                decimal(table, 200 + 40 * i + random.nextInt(30), mark).append('\n');
            }
        }
        return table.toString();
    }

    /** A number of thousandths with three decimals. */
    private static StringBuilder decimal(StringBuilder text, int thousandths, char mark) {
        text.append(thousandths / 1000).append(mark);
        int rest = thousandths % 1000;
        return text.append(rest < 100 ? "0" : "").append(rest < 10 ? "0" : "").append(rest);
    }

    private static String log(Random random, String form) {
        StringBuilder log = new StringBuilder();
        for (int i = 0; i < LINES; i++) {
            log.append(String.format(
                    Locale.ROOT,
                    form,
                    1 + i % 21,
                    random.nextInt(100_000),
                    3 * random.nextDouble(),
                    20 + 5 * random.nextDouble()));
        }
        return log.toString();
    }

    private void compare(String what, Text text, Reading own, String peerName, Reading peer) throws IOException {
        double[] ratios = new double[PASSES];
        double[] times = new double[PASSES];
        Random random = new Random(1);
        for (int pass = -WARMUP; pass < PASSES; pass++) {
            String read = text.of(random);
            // Who begins changes from pass to pass.
            boolean ownFirst = pass % 2 == 0;
            double first = nanoseconds(ownFirst ? own : peer, read);
            double second = nanoseconds(ownFirst ? peer : own, read);
            if (pass >= 0) {
                times[pass] = ownFirst ? first : second;
                ratios[pass] = ownFirst ? first / second : second / first;
            }
        }
        Arrays.sort(ratios);
        Arrays.sort(times);
        String time = String.format(Locale.ROOT, "%.2f µs", times[PASSES / 2] / 1e3 / LINES);
        String ratio = String.format(Locale.ROOT, "%.2f", ratios[PASSES / 2]);
        System.out.printf(Locale.ROOT, "%-54s %10s   %-30s %6s times%n", what, time, peerName, ratio);
        rows.add("<tr><th scope=\"row\">" + what + "</th><td>" + time + "</td><td>" + peerName + "</td><td>" + ratio
                + "</td></tr>\n");
    }

    private double nanoseconds(Reading reading, String text) throws IOException {
        long start = System.nanoTime();
        sink += reading.of(text);
        return System.nanoTime() - start;
    }

    private String table() {
        return BEGIN + """
                <table>
                <caption>Reading, 100,000 lines each: the median time, and how many times that of the peer</caption>
                <thead>
                <tr><th scope="col">Job</th><th scope="col">Time</th><th scope="col">Peer</th><th scope="col">Times the peer</th></tr>
                </thead>
                <tbody>
                """ + String.join("", rows) + "</tbody>\n</table>\n";
    }
}
