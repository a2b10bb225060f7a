// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exchange;

import java.time.Duration;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.MultichannelStrip;

/**
 * One table of a file of density data: its keywords, its fields, its rows, and the strip that they describe.
 *
 * <p>Immutable and thread safe.
 */
public final class ExchangeTable {

    static final String LOG_EXPOSURE = "LOG_H";
    static final String UNEXPOSED = "UNEXPOSED";
    static final String UNIT = "LOG_H_UNIT";
    static final String LUX_SECONDS = "lux second";
    static final String RELATIVE = "relative to ";
    static final String STRIP = "TABLE_NAME";
    static final String FILM = "MATERIAL";
    static final String DEVELOPER = "DEVELOPER";
    static final String MINUTES = "DEVELOPMENT_MINUTES";
    static final String CELSIUS = "DEVELOPMENT_CELSIUS";
    static final String AGITATION = "AGITATION";
    static final String ILLUMINANT = "ILLUMINANT";
    static final String EXPOSURE_SECONDS = "EXPOSURE_SECONDS";
    static final String HOLD_MINUTES = "HOLD_MINUTES";
    static final String STORAGE = "STORAGE";
    static final String BOX_SPEED = "BOX_SPEED";
    static final String GEOMETRY = "DENSITY_GEOMETRY";
    /** After the name of a density field: by which response it was read. */
    static final String RESPONSE = "_RESPONSE";

    static final Map<Channel, String> DENSITY_FIELDS = densityFields();

    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?");

    private final String file;
    private final int line;
    private final Map<String, String> keywords;
    private final List<String> fields;
    private final List<Row> rows;

    /** The values of one sample, with the line on which they begin. */
    record Row(int line, List<String> values) {}

    ExchangeTable(String file, int line, Map<String, String> keywords, List<String> fields, List<Row> rows) {
        this.file = file;
        this.line = line;
        this.keywords = Collections.unmodifiableMap(new LinkedHashMap<>(keywords));
        this.fields = List.copyOf(fields);
        this.rows = List.copyOf(rows);
    }

    private static Map<Channel, String> densityFields() {
        Map<Channel, String> names = new EnumMap<>(Channel.class);
        names.put(Channel.RED, "D_RED");
        names.put(Channel.GREEN, "D_GREEN");
        names.put(Channel.BLUE, "D_BLUE");
        names.put(Channel.VISUAL, "D_VIS");
        return Collections.unmodifiableMap(names);
    }

    /**
     * Returns the keywords before this table and after the previous one.
     *
     * @return keyword and value as written, in their order
     */
    public Map<String, String> keywords() {
        return keywords;
    }

    /**
     * Returns the fields of a row.
     *
     * @return their names, in their order
     */
    public List<String> fields() {
        return fields;
    }

    /**
     * Returns the rows as written.
     *
     * @return the values of each sample, in the order of the fields
     */
    public List<List<String>> rows() {
        return rows.stream().map(Row::values).toList();
    }

    /**
     * Returns the numbers of a field.
     *
     * @param field the name of the field, such as {@code D_VIS}
     * @return one number for each row
     * @throws ExchangeException if the table has no such field or a value is not a number
     */
    public List<Double> numbers(String field) {
        int column = column(field);
        return rows.stream().map(row -> number(row, column)).toList();
    }

    /**
     * Returns the strip that the table describes. Exposures are in the field {@code LOG_H}; the keyword
     * {@code LOG_H_UNIT} states their unit as {@code lux second} or {@code relative to …}, and {@code UNEXPOSED} marks
     * base plus fog. Densities are in those of {@code D_RED}, {@code D_GREEN}, {@code D_BLUE} and {@code D_VIS} that
     * are present.
     *
     * @return the strip, with one channel for each density field
     * @throws ExchangeException if a field or the unit is missing, or a value is not a number or out of range; the
     *     message says where
     */
    public MultichannelStrip strip() {
        int exposures = column(LOG_EXPOSURE);
        ExposureAxis axis = axis();
        String id = keywords.getOrDefault(STRIP, file);
        Map<Channel, Strip> strips = new EnumMap<>(Channel.class);
        DENSITY_FIELDS.forEach((channel, field) -> {
            if (fields.contains(field)) {
                strips.put(channel, strip(id, axis, exposures, field));
            }
        });
        if (strips.isEmpty()) {
            throw fault(
                    Fault.MISSING, line, "the table has no density field", "name one of " + DENSITY_FIELDS.values());
        }
        try {
            return MultichannelStrip.of(id, strips);
        } catch (IllegalArgumentException e) {
            throw fault(Fault.CONTRADICTION, line, e.getMessage(), "correct the table");
        }
    }

    private Strip strip(String id, ExposureAxis axis, int exposures, String field) {
        int densities = column(field);
        try {
            Strip.Builder builder = Strip.builder(id)
                    .processing(processing())
                    .testConditions(testConditions())
                    .origin(file + ", line " + line);
            if (keywords.containsKey(FILM)) {
                builder.film(keywords.get(FILM));
            }
            if (keywords.containsKey(BOX_SPEED)) {
                builder.boxSpeed(number(BOX_SPEED));
            }
            if (keywords.containsKey(field + RESPONSE)) {
                builder.densityResponse(SpectralResponse.of(keywords.get(field + RESPONSE)));
            }
            if (keywords.containsKey(GEOMETRY)) {
                builder.densityGeometry(DensityGeometry.of(keywords.get(GEOMETRY)));
            }
            for (Row row : rows) {
                double density = number(row, densities);
                if (row.values().get(exposures).equals(UNEXPOSED)) {
                    within(row, () -> builder.basePlusFog(density));
                } else {
                    double exposure = number(row, exposures);
                    within(row, () -> builder.reading(new LogExposure(exposure, axis), Density.of(density)));
                }
            }
            return builder.build();
        } catch (IllegalArgumentException e) {
            throw fault(Fault.OUT_OF_RANGE, line, e.getMessage(), "correct the table");
        }
    }

    private void within(Row row, Runnable reading) {
        try {
            reading.run();
        } catch (IllegalArgumentException e) {
            throw fault(Fault.OUT_OF_RANGE, row.line(), e.getMessage(), "correct the value");
        }
    }

    private Processing processing() {
        Processing processing = Processing.unknown();
        if (keywords.containsKey(DEVELOPER)) {
            processing = processing.withDeveloper(keywords.get(DEVELOPER));
        }
        if (keywords.containsKey(MINUTES)) {
            processing = processing.withMinutes(number(MINUTES));
        }
        if (keywords.containsKey(CELSIUS)) {
            processing = processing.withTemperature(Temperature.ofCelsius(number(CELSIUS)));
        }
        if (keywords.containsKey(AGITATION)) {
            processing = processing.withAgitation(keywords.get(AGITATION));
        }
        return processing;
    }

    private TestConditions testConditions() {
        TestConditions conditions = TestConditions.notStated();
        if (keywords.containsKey(ILLUMINANT)) {
            conditions = conditions.withIlluminant(keywords.get(ILLUMINANT));
        }
        if (keywords.containsKey(EXPOSURE_SECONDS)) {
            conditions = conditions.withExposureTime(Duration.ofNanos(Math.round(1e9 * number(EXPOSURE_SECONDS))));
        }
        if (keywords.containsKey(HOLD_MINUTES)) {
            conditions = conditions.withHold(Duration.ofMillis(Math.round(60_000 * number(HOLD_MINUTES))));
        }
        if (keywords.containsKey(STORAGE)) {
            conditions = conditions.withStorage(keywords.get(STORAGE));
        }
        return conditions;
    }

    private ExposureAxis axis() {
        String unit = keywords.getOrDefault(UNIT, "");
        if (unit.equals(LUX_SECONDS)) {
            return ExposureAxis.LUX_SECONDS;
        }
        if (unit.startsWith(RELATIVE) && unit.length() > RELATIVE.length()) {
            return ExposureAxis.relativeTo(unit.substring(RELATIVE.length()));
        }
        throw fault(
                Fault.MISSING,
                line,
                "the unit of the exposures is " + (unit.isEmpty() ? "not stated" : "\"" + unit + '"'),
                "state " + UNIT + " as \"" + LUX_SECONDS + "\" or \"" + RELATIVE + "…\"");
    }

    private int column(String field) {
        int column = fields.indexOf(field);
        if (column < 0) {
            throw fault(Fault.MISSING, line, "the table has no field " + field + ", only " + fields, "add the field");
        }
        return column;
    }

    private double number(Row row, int column) {
        return number(row.line(), "field " + fields.get(column), row.values().get(column));
    }

    private double number(String keyword) {
        return number(line, "keyword " + keyword, keywords.get(keyword));
    }

    private double number(int where, String what, String value) {
        double number = NUMBER.matcher(value).matches() ? Double.parseDouble(value) : Double.NaN;
        if (!Double.isFinite(number)) {
            throw fault(
                    Fault.BAD_NUMBER,
                    where,
                    what + ": \"" + value + "\" is not a number",
                    "write decimals with a point");
        }
        return number;
    }

    private ExchangeException fault(Fault kind, int where, String fault, String remedy) {
        return new ExchangeException(kind, file, where, fault, remedy);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the file and the size
     */
    @Override
    public String toString() {
        return file + ": " + rows.size() + " rows of " + fields.size() + " fields";
    }
}
