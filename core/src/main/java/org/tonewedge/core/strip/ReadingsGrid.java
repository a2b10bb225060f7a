// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;

/**
 * Strips as a grid, with steps down and strips across, to be written as CSV or a spreadsheet.
 * {@link ReadingsTable#read(RowSource)} reads it back to equal readings.
 *
 * <p>Immutable and thread safe.
 */
public final class ReadingsGrid implements RowSource {

    private final String name;
    private final List<List<String>> rows;

    private ReadingsGrid(String name, List<List<String>> rows) {
        this.name = name;
        this.rows = List.copyOf(rows);
    }

    /**
     * Returns the grid of some strips. Its steps are all exposures of all strips; a cell stays empty if its strip was
     * not read at that exposure.
     *
     * @param name a name for messages
     * @param strips the strips, all on one exposure axis
     * @return the grid
     * @throws IllegalArgumentException if there is no strip, their axes differ, or two have the same identifier
     */
    public static ReadingsGrid of(String name, List<Strip> strips) {
        Objects.requireNonNull(name, "name");
        if (strips.isEmpty()) {
            throw new IllegalArgumentException("a grid of readings needs at least one strip, had none");
        }
        ExposureAxis axis = strips.get(0).axis();
        Set<String> ids = new HashSet<>();
        for (Strip strip : strips) {
            axis.requireSame(strip.axis(), "write strips into one grid");
            if (!ids.add(strip.id())) {
                throw new IllegalArgumentException("a grid has one strip for each identifier, had two of '"
                        + Checks.shortened(strip.id()) + "'; give them different identifiers");
            }
        }
        List<List<String>> rows = new ArrayList<>();
        rows.add(row(ReadingsParser.STRIP, strips, Strip::id));
        StripField.of(strips)
                .forEach(field ->
                        rows.add(row(field.word(), strips, strip -> asInSpreadsheets(field, field.of(strip)))));
        repeats(rows, GridParser.BASE_PLUS_FOG, strips, Strip::basePlusFogReadings);
        rows.add(row(
                (axis.isAbsolute() ? ExposureScale.LOG_EXPOSURE : ExposureScale.RELATIVE).word(), strips, strip -> ""));
        TreeMap<Double, List<Density>[]> steps = new TreeMap<>();
        for (int i = 0; i < strips.size(); i++) {
            for (ExposedStep step : strips.get(i).steps()) {
                readings(steps, step.exposure().value(), strips.size())[i] = step.readings();
            }
        }
        steps.forEach((exposure, readings) -> repeats(rows, number(exposure), strips, strip -> {
            List<Density> own = readings[strips.indexOf(strip)];
            return own == null ? List.of() : own;
        }));
        return new ReadingsGrid(name, rows);
    }

    @SuppressWarnings("unchecked") // an array of lists has no other way
    private static List<Density>[] readings(Map<Double, List<Density>[]> steps, double exposure, int strips) {
        return steps.computeIfAbsent(exposure, key -> (List<Density>[]) new List<?>[strips]);
    }

    /**
     * Returns an empty grid to fill in.
     *
     * @param name a name for messages
     * @param strips how many columns for strips
     * @param tablet the tablet whose steps are its rows
     * @return the grid, with a row for each description and for the exposure of each strip
     * @throws IllegalArgumentException if the number of strips is not from 1 to 1000
     */
    public static ReadingsGrid blank(String name, int strips, StepTablet tablet) {
        Objects.requireNonNull(name, "name");
        Checks.within("number of strips", strips, 1, 1000, "");
        List<List<String>> rows = new ArrayList<>();
        String[] ids = new String[strips + 1];
        Arrays.setAll(ids, i -> i == 0 ? ReadingsParser.STRIP : "S" + i);
        rows.add(List.of(ids));
        for (String word : List.of(
                StripAssembly.FILM,
                StripAssembly.DEVELOPER,
                StripAssembly.MINUTES,
                StripAssembly.CELSIUS,
                StripAssembly.BOX_SPEED,
                StripAssembly.EXPOSURE,
                GridParser.BASE_PLUS_FOG,
                GridParser.BASE_PLUS_FOG,
                ExposureScale.STEP.word())) {
            rows.add(blank(word, strips));
        }
        for (StepTablet.Step step : tablet.steps()) {
            rows.add(blank(String.valueOf(step.number()), strips));
        }
        return new ReadingsGrid(name, rows);
    }

    private static List<String> blank(String word, int strips) {
        String[] row = new String[strips + 1];
        Arrays.fill(row, "");
        row[0] = word;
        return List.of(row);
    }

    private static List<String> row(String word, List<Strip> strips, Function<Strip, String> text) {
        List<String> row = new ArrayList<>();
        row.add(word);
        strips.forEach(strip -> row.add(text.apply(strip)));
        return List.copyOf(row);
    }

    private static String asInSpreadsheets(StripField field, String text) {
        return field.isNumber() && !text.isEmpty() ? number(Double.parseDouble(text)) : text;
    }

    /**
     * As a spreadsheet shows it: whole numbers without a decimal point, others with the fewest digits that read back to
     * the same number.
     */
    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    /** As many rows as the strip with the most readings needs. */
    private static void repeats(
            List<List<String>> rows, String word, List<Strip> strips, Function<Strip, List<Density>> readings) {
        List<List<Density>> all = strips.stream().map(readings).toList();
        int most = all.stream().mapToInt(List::size).max().orElse(0);
        for (int i = 0; i < most; i++) {
            List<String> row = new ArrayList<>();
            row.add(word);
            for (List<Density> own : all) {
                row.add(i < own.size() ? number(own.get(i).value()) : "");
            }
            rows.add(List.copyOf(row));
        }
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public void read(RowHandler handler) {
        for (int i = 0; i < rows.size(); i++) {
            handler.accept(i + 1L, rows.get(i));
        }
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and size
     */
    @Override
    public String toString() {
        return name + ": a grid of " + Figures.counted(rows.size(), "row");
    }
}
