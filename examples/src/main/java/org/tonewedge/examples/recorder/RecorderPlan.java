// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.recorder;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.exposure.FocalPlaneExposure;

/**
 * The strips to be read, and what is known of each: a table with one row for each strip.
 *
 * @param columns the names of the columns, strip among them
 * @param strips the fields of each strip, in the order of reading
 */
record RecorderPlan(List<String> columns, List<List<String>> strips) {

    private static final String STRIP = "strip";
    private static final String FILM = "film";

    /** Columns of words, which are kept as they are. */
    private static final Set<String> LABELS = Set.of(STRIP, FILM, "developer");

    private static final int TRIAL_STEPS = 3;

    /** What a record itself writes. */
    private static final Set<String> RECORDED =
            Set.of("step", "density", "log_exposure", "relative_log_exposure", "stops");

    /** Copies the lists. */
    RecorderPlan {
        columns = List.copyOf(columns);
        strips = List.copyOf(strips);
    }

    /** Reads a plan. */
    static RecorderPlan read(RowSource plan) throws IOException {
        RowSource source = new Points(plan);
        List<String> columns = new ArrayList<>();
        List<List<String>> strips = new ArrayList<>();
        Set<String> ids = new HashSet<>();
        source.read((row, fields) -> {
            if (columns.isEmpty()) {
                fields.forEach(field -> columns.add(field.strip().toLowerCase(Locale.ROOT)));
                if (!columns.contains(STRIP)) {
                    throw ReadingsException.at(
                            Fault.MISSING,
                            source.name(),
                            source.place(row, -1),
                            "a plan has one row for each strip and a column strip; it has "
                                    + String.join(", ", columns),
                            "begin with: strip,film,developer,minutes,celsius,box_speed,exposure");
                }
                columns.stream().filter(RECORDED::contains).findFirst().ifPresent(column -> {
                    throw ReadingsException.at(
                            Fault.CONTRADICTION,
                            source.name(),
                            source.place(row, columns.indexOf(column)),
                            "a plan has no column " + column + ": the recorder adds it",
                            "take the column out");
                });
                return;
            }
            if (fields.stream().allMatch(String::isBlank)) {
                return;
            }
            if (fields.size() != columns.size()) {
                throw ReadingsException.at(
                        Fault.WRONG_FORMAT,
                        source.name(),
                        source.place(row, -1),
                        "the row has " + fields.size() + " fields, the header " + columns.size(),
                        "give every row as many fields as the header");
            }
            String id = fields.get(columns.indexOf(STRIP)).strip();
            if (id.isEmpty() || !ids.add(id)) {
                throw ReadingsException.at(
                        Fault.DUPLICATE,
                        source.name(),
                        source.place(row, columns.indexOf(STRIP)),
                        id.isEmpty() ? "the strip has no name" : "strip '" + id + "' is in the plan twice",
                        "give each piece of film its own identifier");
            }
            strips.add(fields.stream().map(String::strip).toList());
        });
        if (strips.isEmpty()) {
            throw ReadingsException.at(
                    Fault.MISSING, source.name(), "", "the plan has no strip", "give it one row for each strip");
        }
        ReadingsReader.withDefaults()
                .with(StepTablet.nominal(TRIAL_STEPS, Density.of(0), 1))
                .with(FocalPlaneExposure.withDefaults()::exposure)
                .read(new Trial(source));
        return new RecorderPlan(columns, strips);
    }

    /** A plan whose numbers have points, as those of a record; one that may have thousands stays, to be refused. */
    private record Points(RowSource plan) implements RowSource {

        private static final Pattern COMMA = Pattern.compile("([+-]?\\d*),(\\d{1,2}|\\d{4,})");

        @Override
        public String name() {
            return plan.name();
        }

        @Override
        public void read(RowHandler rows) throws IOException {
            List<String> header = new ArrayList<>();
            plan.read((row, fields) -> {
                if (header.isEmpty()) {
                    fields.forEach(field -> header.add(field.strip().toLowerCase(Locale.ROOT)));
                    rows.accept(row, fields);
                    return;
                }
                List<String> points = new ArrayList<>();
                for (int i = 0; i < fields.size(); i++) {
                    boolean label = i < header.size() && LABELS.contains(header.get(i));
                    Matcher number = COMMA.matcher(fields.get(i).strip());
                    points.add(!label && number.matches() ? number.group(1) + "." + number.group(2) : fields.get(i));
                }
                rows.accept(row, points);
            });
        }

        @Override
        public String place(long row, int column) {
            return plan.place(row, column);
        }
    }

    /** The record that a plan will lead to, with invented densities, so that what no reader takes is refused at once. */
    private record Trial(RowSource plan) implements RowSource {

        @Override
        public String name() {
            return plan.name();
        }

        @Override
        public void read(RowHandler rows) throws IOException {
            boolean[] begun = new boolean[1];
            plan.read((row, fields) -> {
                if (!begun[0]) {
                    begun[0] = true;
                    rows.accept(row, with(fields, "step", "density"));
                } else if (!fields.stream().allMatch(String::isBlank)) {
                    rows.accept(row, with(fields, "", "0.1"));
                    for (int step = 1; step <= TRIAL_STEPS; step++) {
                        rows.accept(row, with(fields, String.valueOf(step), "1"));
                    }
                }
            });
        }

        private static List<String> with(List<String> fields, String step, String density) {
            List<String> all = new ArrayList<>(fields);
            all.add(step);
            all.add(density);
            return all;
        }

        @Override
        public String place(long row, int column) {
            return plan.place(row, column);
        }
    }

    /** The identifier of a strip. */
    String id(int strip) {
        return strips.get(strip).get(columns.indexOf(STRIP));
    }

    /** The film of a strip, or its identifier. */
    String film(int strip) {
        int column = columns.indexOf(FILM);
        String film = column < 0 ? "" : strips.get(strip).get(column);
        return film.isEmpty() ? id(strip) : film;
    }
}
