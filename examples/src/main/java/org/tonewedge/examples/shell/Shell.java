// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.shell;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.examples.command.Terminal;

/** What a prompt prints: results as small tables, curves as sketches. Signs that the console lacks are spelt in ASCII. */
public final class Shell {

    private static final int COLUMNS = 60;
    private static final int ROWS = 16;
    private static final int LONGEST_TEXT = 60;
    private static final EstimateFormat FORMAT = EstimateFormat.withDefaults().withAscii();

    private Shell() {}

    /**
     * Returns a file of the demo, wherever in the project the prompt was opened.
     *
     * @param name the name within the demo
     * @return the file
     * @throws IllegalArgumentException if no folder above the prompt's has it
     */
    public static Path demo(String name) {
        for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
            Path file = at.resolve("examples/demo").resolve(name);
            if (Files.exists(file)) {
                return file;
            }
        }
        throw new IllegalArgumentException(
                "there is no demo file " + name + " here: open JShell in the project's folder");
    }

    /**
     * Returns a result as a table of names, values and units.
     *
     * @param result the result
     * @return one line for each record
     */
    public static String table(Recorded result) {
        List<ResultRecord> records = result.records();
        int width =
                records.stream().mapToInt(each -> each.name().length()).max().orElse(0);
        StringBuilder text = new StringBuilder();
        for (ResultRecord each : records) {
            String value = each.estimate()
                    .map(FORMAT::format)
                    .orElseGet(() ->
                            each.value().isPresent() ? plain(each.value().getAsDouble()) : shortened(each.text()));
            text.append(String.format(Locale.ROOT, "%-" + width + "s  %s %s", each.name(), value, each.unit())
                            .stripTrailing())
                    .append('\n');
        }
        return text.toString();
    }

    private static String plain(double value) {
        return FORMAT.format(Estimate.of(Math.rint(value * 1e4) / 1e4, 0)).replaceFirst(" .*", "");
    }

    private static String shortened(String text) {
        String line = text.replaceAll("\\p{Cntrl}", " ");
        return line.length() <= LONGEST_TEXT ? line : line.substring(0, LONGEST_TEXT - 3) + "...";
    }

    /**
     * Returns a curve drawn in characters: density upwards, log exposure to the right.
     *
     * @param curve the curve
     * @return the drawing with its two axes
     */
    public static String sketch(CharacteristicCurve curve) {
        double from = curve.lowestExposure().value();
        double to = curve.highestExposure().value();
        double least =
                Math.min(curve.basePlusFog().value(), curve.minimumDensity().value());
        double most = curve.maximumDensity().value();
        char[][] drawing = new char[ROWS][COLUMNS];
        for (char[] row : drawing) {
            Arrays.fill(row, ' ');
        }
        for (int x = 0; x < COLUMNS; x++) {
            double density = curve.density(Math.min(to, from + x * (to - from) / (COLUMNS - 1)));
            int y = (int) Math.round((ROWS - 1) * (density - least) / (most - least));
            drawing[ROWS - 1 - y][x] = '*';
        }
        StringBuilder text = new StringBuilder();
        for (int y = 0; y < ROWS; y++) {
            double density = most - y * (most - least) / (ROWS - 1);
            String label = y % 5 == 0 ? String.format(Locale.ROOT, "%5.2f", density) : "     ";
            text.append(label)
                    .append(" |")
                    .append(new String(drawing[y]).stripTrailing())
                    .append('\n');
        }
        text.append("      +").append("-".repeat(COLUMNS)).append('\n');
        String right = String.format(Locale.ROOT, "%.2f", to);
        text.append(
                String.format(Locale.ROOT, "      %-" + (COLUMNS + 1 - right.length()) + ".2f%s log H\n", from, right));
        return text.toString();
    }

    /**
     * Prints a table of a result.
     *
     * @param result the result
     */
    public static void show(Recorded result) {
        print(table(result));
    }

    /**
     * Prints a sketch of a curve.
     *
     * @param curve the curve
     */
    public static void draw(CharacteristicCurve curve) {
        print(sketch(curve));
    }

    /** Lets {@link System#out} spell the signs that the terminal lacks, so that no minus sign becomes a question mark. */
    public static void spellOut() {
        Terminal.spellOut();
    }

    private static void print(String text) {
        Terminal console = new Terminal(System.out, Terminal.charset());
        console.print(text);
        console.flush();
    }
}
