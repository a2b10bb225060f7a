// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.SpectralResponse;

/**
 * A table of densities read on bracketed camera frames, such as the file {@code frames.csv}, with one row for each
 * reading.
 *
 * <p>The format is that of {@link ReadingsTable}: CSV (RFC 4180) in UTF-8 with a header row, commas between fields and
 * decimal points. Columns may be in any order; unknown columns are ignored, with a {@linkplain #notices() notice}.
 *
 * <table>
 * <caption>Columns</caption>
 * <tr><th>column</th><th>meaning</th></tr>
 * <tr><td>{@code film}</td><td>the film; rows with the same film make one series; required</td></tr>
 * <tr><td>{@code frame}</td><td>label of the frame; required, except in a base-plus-fog row</td></tr>
 * <tr><td>{@code stops}</td><td>exposure of the frame in stops from the metered exposure, such as {@code -0.3333};
 * stated in at least one row of the frame</td></tr>
 * <tr><td>{@code patch}</td><td>label of the patch; <strong>empty means unexposed film: a base-plus-fog
 * reading</strong></td></tr>
 * <tr><td>{@code group}</td><td>neutral, red, green, blue, cyan, magenta, yellow, skin or other; stated in at least one
 * row of the patch; {@code other} if never stated</td></tr>
 * <tr><td>{@code reflectance}</td><td>luminous reflectance factor of the patch, such as {@code 0.18}; stated in at
 * least one row of the patch; required to judge how a colour is rendered</td></tr>
 * <tr><td>{@code density}</td><td>the gross density read; required. Several rows with the same film, frame and patch
 * are repeat readings</td></tr>
 * <tr><td>{@code density_response}, {@code density_geometry}</td><td>by what the film was read: a {@link SpectralResponse}
 * such as visual, and a {@link DensityGeometry} such as diffuse; in any row. Base plus fog may be read by other responses
 * too, such as status M blue, in rows of its own</td></tr>
 * </table>
 *
 * <p>A patch is the same throughout the table: its group and reflectance may not differ between rows. A film without a
 * base-plus-fog reading, or without a frame, is {@linkplain #leftOut() left out}; the others are read.
 *
 * <p>Immutable and thread safe.
 *
 * @source RFC 4180 (2005) for the form
 */
public final class BracketTable {

    private final String name;
    private final List<Bracket> brackets;
    private final Map<String, String> leftOut;
    private final List<String> notices;

    BracketTable(String name, List<Bracket> brackets, Map<String, String> leftOut, List<String> notices) {
        this.name = name;
        this.brackets = List.copyOf(brackets);
        this.leftOut = Collections.unmodifiableMap(new LinkedHashMap<>(leftOut));
        this.notices = List.copyOf(notices);
    }

    /**
     * Reads a file.
     *
     * @param file the file
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws ReadingsException if its content is not a valid table, or no film makes a series; the message names file,
     *     line, column, value and remedy
     */
    public static BracketTable read(Path file) throws IOException {
        return read(CsvDialect.guessed().open(file));
    }

    /**
     * Reads characters.
     *
     * @param name a name for the table, used in messages
     * @param reader the source of the characters; not closed
     * @return the table
     * @throws IOException if the characters cannot be read
     * @throws ReadingsException if they are not a valid table; the message names table, line, column, value and remedy
     */
    public static BracketTable read(String name, Reader reader) throws IOException {
        Objects.requireNonNull(reader, "reader");
        return read(CsvDialect.guessed().open(name, reader));
    }

    /**
     * Reads rows from a source in any format.
     *
     * @param source the rows
     * @return the table
     * @throws IOException if the rows cannot be read
     * @throws ReadingsException if they are not a table of frames; the message names the place of the fault
     */
    public static BracketTable read(RowSource source) throws IOException {
        return new BracketParser(source).parse();
    }

    /**
     * Writes series as a table, which {@link #read(Path)} reads back to equal readings.
     *
     * @param brackets the series, in the order in which they are written
     * @param writer the destination; not closed
     * @throws IllegalArgumentException if there is no series, two series have the same film (they would be read back as
     *     one), a patch differs in group or reflectance between series, or a label contains a line break
     * @throws IOException if the characters cannot be written
     */
    public static void write(List<Bracket> brackets, Writer writer) throws IOException {
        if (brackets.isEmpty()) {
            throw new IllegalArgumentException("a table of frames needs at least one series, had none");
        }
        requireReadable(brackets);
        CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(writer);
        boolean states = brackets.stream()
                .anyMatch(bracket -> !bracket.basePlusFogByResponse().isEmpty()
                        || bracket.densityGeometry().isPresent());
        List<String> header = new ArrayList<>(BracketParser.COLUMNS);
        if (states) {
            header.addAll(BracketParser.KIND);
        }
        csv.writeRecord(header);
        for (Bracket bracket : brackets) {
            for (Density density : bracket.basePlusFogReadings()) {
                writeRow(csv, bracket, List.of("", "", "", "", ""), density, states, bracket.densityResponse());
            }
            bracket.otherBasePlusFog()
                    .forEach((response, readings) -> readings.forEach(density -> writeRow(
                            csv, bracket, List.of("", "", "", "", ""), density, states, Optional.of(response))));
            for (Frame frame : bracket.frames()) {
                for (PatchReading reading : frame.readings()) {
                    for (Density density : reading.readings()) {
                        writeRow(
                                csv,
                                bracket,
                                fields(frame, reading.patch()),
                                density,
                                states,
                                bracket.densityResponse());
                    }
                }
            }
        }
        csv.flush();
    }

    private static void requireReadable(List<Bracket> brackets) {
        Set<String> films = new HashSet<>();
        Map<String, Patch> patches = new HashMap<>();
        for (Bracket bracket : brackets) {
            if (!films.add(bracket.film())) {
                throw new IllegalArgumentException(
                        "a table of frames has at most one series for each film, had two of '" + bracket.film()
                                + "'; give them different labels");
            }
            for (Frame frame : bracket.frames()) {
                for (PatchReading reading : frame.readings()) {
                    Patch patch = reading.patch();
                    Patch before = patches.putIfAbsent(patch.label(), patch);
                    if (before != null && !before.equals(patch)) {
                        throw new IllegalArgumentException("a patch must be the same throughout a table of frames, '"
                                + patch.label() + "' was " + before + " and " + patch
                                + "; give the second a different label");
                    }
                }
            }
        }
    }

    private static void writeRow(
            CsvWriter csv,
            Bracket bracket,
            List<String> fields,
            Density density,
            boolean states,
            Optional<SpectralResponse> response) {
        List<String> row = new ArrayList<>();
        row.add(bracket.film());
        row.addAll(fields);
        row.add(Double.toString(density.value()));
        if (states) {
            row.add(response.map(SpectralResponse::description).orElse(""));
            row.add(bracket.densityGeometry().map(DensityGeometry::description).orElse(""));
        }
        csv.writeRecord(row);
    }

    private static List<String> fields(Frame frame, Patch patch) {
        return List.of(
                frame.label(),
                Double.toString(frame.exposure().stops()),
                patch.label(),
                patch.group().label(),
                patch.reflectance().isPresent()
                        ? Double.toString(patch.reflectance().getAsDouble())
                        : "");
    }

    /**
     * Returns the name of the table.
     *
     * @return the file name, or the name given for a reader
     */
    public String name() {
        return name;
    }

    /**
     * Returns the series in the order in which their films first appear.
     *
     * @return the series, at least one
     */
    public List<Bracket> brackets() {
        return brackets;
    }

    /**
     * Returns the series of one film.
     *
     * @param film its label
     * @return the series
     * @throws IllegalArgumentException if there is no such film, or it was left out; the message lists the films there
     *     are, or says why
     */
    public Bracket bracket(String film) {
        Objects.requireNonNull(film, "film");
        return brackets.stream()
                .filter(bracket -> bracket.film().equals(film))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        leftOut.containsKey(film)
                                ? leftOut.get(film)
                                : name + " has no film '" + film + "'; it has "
                                        + String.join(
                                                ", ",
                                                brackets.stream()
                                                        .map(Bracket::film)
                                                        .toList())));
    }

    /**
     * Returns the films of the table that make no series, because base plus fog or frames are missing.
     *
     * @return why each is left out and what to do, by the label of the film; empty if all films make a series
     */
    public Map<String, String> leftOut() {
        return leftOut;
    }

    /**
     * Returns notes for the user of the table, such as columns that were ignored.
     *
     * @return the notices in words; empty if there are none
     */
    public List<String> notices() {
        return notices;
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof BracketTable that
                && Objects.equals(name, that.name)
                && Objects.equals(brackets, that.brackets)
                && Objects.equals(leftOut, that.leftOut)
                && Objects.equals(notices, that.notices);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, brackets, leftOut, notices);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and the number of brackets
     */
    @Override
    public String toString() {
        return name + ": " + Figures.counted(brackets.size(), "bracket");
    }
}
