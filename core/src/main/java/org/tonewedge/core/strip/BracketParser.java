// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Reads one table of bracketed frames. */
final class BracketParser {

    private static final String FILM = "film";
    private static final String FRAME = "frame";
    private static final String STOPS = "stops";
    private static final String PATCH = "patch";
    private static final String GROUP = "group";
    private static final String REFLECTANCE = "reflectance";
    private static final String DENSITY = "density";

    static final List<String> COLUMNS = List.of(FILM, FRAME, STOPS, PATCH, GROUP, REFLECTANCE, DENSITY);
    /** Columns that are written only where something is stated in them. */
    static final List<String> KIND = List.of(StripAssembly.DENSITY_RESPONSE, StripAssembly.DENSITY_GEOMETRY);

    private final String name;
    private final HeadedTable table;
    private final Map<String, FilmRows> films = new LinkedHashMap<>();
    private final Map<String, PatchRows> patches = new LinkedHashMap<>();

    BracketParser(RowSource source) {
        name = source.name();
        table = new HeadedTable(
                source, Stream.concat(COLUMNS.stream(), KIND.stream()).toList());
    }

    /** A text stated once or more, always with the same meaning, and the line where it first stands. */
    private static final class Stated {
        private final Function<String, ?> meaning;
        private String text;
        private long line;

        Stated() {
            this(Function.identity());
        }

        /** For a text that may be written in several ways. */
        Stated(Function<String, ?> meaning) {
            this.meaning = meaning;
        }

        private boolean isKnown(String value) {
            try {
                return value.equals(text)
                        || (text != null && meaning.apply(value).equals(meaning.apply(text)));
            } catch (IllegalArgumentException e) {
                return false; // told as a contradiction
            }
        }

        void add(HeadedTable.Row row, String column, String owner) {
            String value = row.text(column);
            if (value.isEmpty() || isKnown(value)) {
                return;
            }
            if (text != null) {
                throw row.fault(
                        Fault.CONTRADICTION,
                        column,
                        owner + " has \"" + Checks.shortened(value) + "\" here but \"" + Checks.shortened(text)
                                + "\" in line " + line,
                        "make them agree, or give the second a different label");
            }
            text = value;
            line = row.line();
        }
    }

    private static final class FilmRows {
        final List<Density> basePlusFog = new ArrayList<>();
        final Map<SpectralResponse, List<Density>> basePlusFogBy = new EnumMap<>(SpectralResponse.class);
        final Stated response = new Stated(SpectralResponse::of);
        final Stated geometry = new Stated(DensityGeometry::of);
        final Map<String, FrameRows> frames = new LinkedHashMap<>();
        long lastLine;
    }

    private static final class FrameRows {
        final Stated stops = new Stated();
        final Map<String, List<Density>> densities = new LinkedHashMap<>();
        long lastLine;
    }

    private static final class PatchRows {
        final Stated group = new Stated();
        final Stated reflectance = new Stated();
    }

    BracketTable parse() throws IOException {
        table.read(this::checkHeader, this::readRow);
        Map<String, Patch> known = new LinkedHashMap<>();
        patches.forEach((label, rows) -> known.put(label, patch(label, rows)));
        List<Bracket> brackets = new ArrayList<>();
        Map<String, String> leftOut = new LinkedHashMap<>();
        ReadingsException first = null;
        for (Map.Entry<String, FilmRows> film : films.entrySet()) {
            FilmRows rows = film.getValue();
            List<Frame> frames = new ArrayList<>();
            rows.frames.forEach((label, frame) -> frames.add(frame(film.getKey(), label, frame, known)));
            try {
                brackets.add(bracket(film.getKey(), rows, frames));
            } catch (IllegalArgumentException e) {
                ReadingsException fault = incomplete(rows, e);
                first = first == null ? fault : first;
                leftOut.put(film.getKey(), fault.getMessage());
            }
        }
        if (brackets.isEmpty() && first != null) {
            throw first;
        }
        return new BracketTable(name, brackets, leftOut, table.notices());
    }

    /** Base plus fog by the response of the frames is that of the series; by others it is kept beside. */
    private Bracket bracket(String film, FilmRows rows, List<Frame> frames) {
        Optional<SpectralResponse> response =
                named(rows.response, StripAssembly.DENSITY_RESPONSE, SpectralResponse::of);
        Map<SpectralResponse, List<Density>> others = new EnumMap<>(rows.basePlusFogBy);
        if (response.isEmpty() && rows.basePlusFog.isEmpty() && others.size() == 1) {
            response = Optional.of(others.keySet().iterator().next());
        }
        List<Density> own = new ArrayList<>(rows.basePlusFog);
        response.map(others::remove).ifPresent(own::addAll);
        if (own.isEmpty() && !others.isEmpty()) {
            throw new IllegalArgumentException("film '" + Checks.shortened(film) + "' has base plus fog by "
                    + others.keySet().stream()
                            .map(SpectralResponse::description)
                            .collect(Collectors.joining(", "))
                    + ", but not by the response of its frames; state " + StripAssembly.DENSITY_RESPONSE
                    + " in a row of a frame, and read base plus fog by it");
        }
        Bracket bracket = Bracket.of(film, own, frames);
        if (response.isPresent()) {
            bracket = bracket.with(response.get());
        }
        Optional<DensityGeometry> geometry = named(rows.geometry, StripAssembly.DENSITY_GEOMETRY, DensityGeometry::of);
        if (geometry.isPresent()) {
            bracket = bracket.with(geometry.get());
        }
        for (Map.Entry<SpectralResponse, List<Density>> other : others.entrySet()) {
            bracket = bracket.withBasePlusFog(other.getKey(), other.getValue());
        }
        return bracket;
    }

    private <T> Optional<T> named(Stated stated, String column, Function<String, T> of) {
        return Optional.ofNullable(stated.text).map(text -> named(text, stated.line, column, of));
    }

    private <T> T named(String text, long line, String column, Function<String, T> of) {
        try {
            return of.apply(text);
        } catch (IllegalArgumentException e) {
            throw table.fault(Fault.UNKNOWN_NAME, line, column, text, e.getMessage(), StripAssembly.CORRECT_THE_NAME);
        }
    }

    private void checkHeader() {
        table.requireColumn(FILM, "the film of the series");
        table.requireColumn(FRAME, "the label of the frame");
        table.requireColumn(STOPS, "the exposure of the frame in stops from the metered one");
        table.requireColumn(PATCH, "the label of the patch, empty for base plus fog");
        table.requireColumn(DENSITY, "the density read");
    }

    private void readRow(HeadedTable.Row row) {
        String film = row.required(FILM, "", "name the film");
        FilmRows rows = films.computeIfAbsent(film, key -> new FilmRows());
        row.label(FILM);
        rows.lastLine = row.line();
        row.required(
                DENSITY,
                "film '" + Checks.shortened(film) + "'",
                "enter the density, or leave out the row of a patch that was not read");
        Density[] density = new Density[1];
        row.accept(DENSITY, value -> density[0] = Density.of(value));
        rows.geometry.add(row, StripAssembly.DENSITY_GEOMETRY, "film '" + Checks.shortened(film) + "'");
        if (row.text(PATCH).isEmpty()) {
            for (String column : List.of(FRAME, STOPS, GROUP, REFLECTANCE)) {
                if (!row.text(column).isEmpty()) {
                    throw row.fault(
                            Fault.CONTRADICTION,
                            column,
                            "the row names no patch, so it is a base-plus-fog reading, but it has a " + column,
                            "name the patch, or leave the field empty");
                }
            }
            String response = row.text(StripAssembly.DENSITY_RESPONSE);
            (response.isEmpty()
                            ? rows.basePlusFog
                            : rows.basePlusFogBy.computeIfAbsent(
                                    named(response, row.line(), StripAssembly.DENSITY_RESPONSE, SpectralResponse::of),
                                    key -> new ArrayList<>()))
                    .add(density[0]);
            return;
        }
        readPatch(row, film, rows, density[0]);
    }

    private void readPatch(HeadedTable.Row row, String film, FilmRows rows, Density density) {
        String patch = row.text(PATCH);
        rows.response.add(row, StripAssembly.DENSITY_RESPONSE, "a frame of film '" + Checks.shortened(film) + "'");
        String frame = row.required(
                FRAME, "patch '" + Checks.shortened(patch) + "'", "name the frame on which the patch was read");
        FrameRows frameRows = rows.frames.computeIfAbsent(frame, key -> new FrameRows());
        row.label(FRAME);
        frameRows.lastLine = row.line();
        frameRows.stops.add(
                row, STOPS, "frame '" + Checks.shortened(frame) + "' of film '" + Checks.shortened(film) + "'");
        frameRows.densities.computeIfAbsent(patch, key -> new ArrayList<>()).add(density);
        row.label(PATCH);
        PatchRows patchRows = patches.computeIfAbsent(patch, key -> new PatchRows());
        patchRows.group.add(row, GROUP, "patch '" + Checks.shortened(patch) + "'");
        patchRows.reflectance.add(row, REFLECTANCE, "patch '" + Checks.shortened(patch) + "'");
    }

    private Patch patch(String label, PatchRows rows) {
        PatchGroup group = rows.group.text == null ? PatchGroup.OTHER : group(rows.group);
        if (rows.reflectance.text == null) {
            return Patch.of(label, group);
        }
        Patch[] patch = new Patch[1];
        table.accept(
                REFLECTANCE,
                rows.reflectance.text,
                rows.reflectance.line,
                value -> patch[0] = new Patch(label, group, OptionalDouble.of(value)));
        return patch[0];
    }

    private PatchGroup group(Stated stated) {
        return Arrays.stream(PatchGroup.values())
                .filter(group -> group.label().equalsIgnoreCase(stated.text))
                .findFirst()
                .orElseThrow(() -> table.fault(
                        Fault.UNKNOWN_NAME,
                        stated.line,
                        GROUP,
                        stated.text,
                        '"' + Checks.shortened(stated.text) + "\" is not a group of patches",
                        "use one of "
                                + String.join(
                                        ", ",
                                        Arrays.stream(PatchGroup.values())
                                                .map(PatchGroup::label)
                                                .toList())));
    }

    private ReadingsException incomplete(FilmRows rows, IllegalArgumentException e) {
        return table.fault(
                Fault.MISSING,
                rows.lastLine,
                PATCH,
                "",
                e.getMessage(),
                "a row with an empty patch is a base-plus-fog reading; every other row belongs to a frame");
    }

    private Frame frame(String film, String label, FrameRows rows, Map<String, Patch> known) {
        if (rows.stops.text == null) {
            throw table.fault(
                    Fault.MISSING,
                    rows.lastLine,
                    STOPS,
                    "",
                    "no row of frame '" + label + "' of film '" + film + "' states its exposure",
                    "enter the stops from the metered exposure, 0 for the metered one");
        }
        ExposureInterval[] exposure = new ExposureInterval[1];
        table.accept(STOPS, rows.stops.text, rows.stops.line, value -> exposure[0] = ExposureInterval.ofStops(value));
        return new Frame(
                label,
                exposure[0],
                rows.densities.entrySet().stream()
                        .map(read -> new PatchReading(known.get(read.getKey()), read.getValue()))
                        .toList());
    }
}
