// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.SpectralResponse;

/**
 * A table of densitometer readings, such as the file {@code strips.csv}, with one row for each reading. Rows with the
 * same strip identifier belong together.
 *
 * <p>The format is CSV (RFC 4180) in UTF-8 with a header row, commas between fields and decimal points. Semicolons,
 * tabs and decimal commas are read too, with a {@linkplain #notices() notice} ({@link CsvDialect}). Columns may be in
 * any order, and have blanks or hyphens in their names for underscores; unknown columns are ignored, with a notice.
 * Implement {@link RowSource} to read other formats.
 *
 * <table>
 * <caption>Columns</caption>
 * <tr><th>column</th><th>meaning</th></tr>
 * <tr><td>{@code strip}</td><td>identifier of the piece of film; required</td></tr>
 * <tr><td>{@code film}, {@code developer}</td><td>labels</td></tr>
 * <tr><td>{@code minutes}, {@code celsius}</td><td>time (8.5 or 8:30) and temperature of development</td></tr>
 * <tr><td>{@code box_speed}</td><td>the speed on the box, such as 100 or 100/21°</td></tr>
 * <tr><td>{@code illuminant}, {@code storage}</td><td>{@linkplain TestConditions conditions} of the test in words: the light,
 * and how the film was kept</td></tr>
 * <tr><td>{@code exposure_seconds}, {@code hold_minutes}</td><td>the exposure time (0.008 or 1/125), and how long the strip
 * waited for its development; a column {@code seconds} tells the exposure time too</td></tr>
 * <tr><td>{@code density_response}, {@code density_geometry}</td><td>by what densities were read: a
 * {@link SpectralResponse} such as visual or status M blue, and a {@link DensityGeometry} such as diffuse</td></tr>
 * <tr><td>{@code log_exposure}</td><td>log<sub>10</sub> of the exposure in lux seconds; empty means unexposed: a
 * base-plus-fog reading</td></tr>
 * <tr><td>{@code relative_log_exposure}</td><td>instead of {@code log_exposure}, if only ratios of exposures are
 * known</td></tr>
 * <tr><td>{@code step}</td><td>instead of {@code log_exposure}: the number of a step of the tablet, which you give to
 * the {@linkplain ReadingsReader#with(StepTablet) reader}</td></tr>
 * <tr><td>{@code stops}</td><td>instead of {@code log_exposure}: the exposure of a frame in stops from the middle
 * frame, such as 0.33 or -1 2/3</td></tr>
 * <tr><td>{@code exposure}</td><td>with steps or stops: log H in lux seconds without the tablet, or of the middle
 * frame. Without this column, exposures are relative</td></tr>
 * <tr><td>{@code lux}, {@code seconds}</td><td>instead of {@code exposure}</td></tr>
 * <tr><td>{@code f_number}, {@code seconds}, {@code luminance}</td><td>instead of {@code exposure}: the settings of a
 * camera that photographed an evenly lit target, and the luminance of the target in cd/m²</td></tr>
 * <tr><td>{@code flare}</td><td>flare added to the exposure, as a fraction of it, such as 0.02</td></tr>
 * <tr><td>{@code exposure_uncertainty}</td><td>the standard uncertainty of the strip's exposure in log units</td></tr>
 * <tr><td>{@code read_from}</td><td>clear (the default) or dense: the end of the tablet where step 1 is</td></tr>
 * <tr><td>{@code density}</td><td>the gross density read; required. Several rows with the same strip and exposure are
 * repeat readings</td></tr>
 * </table>
 *
 * <p>A <strong>grid</strong> contains the same data with steps down and strips across. Its first column contains the
 * words above. The row {@code strip} (or {@code film}) names the columns, rows such as {@code film} and {@code minutes}
 * describe them, and {@code base_plus_fog} may have several rows. A row that begins with {@code log_exposure},
 * {@code relative_log_exposure}, {@code step} or {@code stops} starts the readings: each row below it is one step. A
 * field is empty if its strip was not read there; repeat readings have rows of their own. A grid may also lie on its side,
 * with strips down and steps across. Titles above a table are ignored, with a notice.
 *
 * <p>State labels, processing and box speed in any row of a strip; a table that states them differently in two rows of
 * one strip is refused.
 *
 * <p>Immutable and thread safe.
 *
 * @source RFC 4180 (2005) for the form
 */
public final class ReadingsTable {

    private final String name;
    private final List<Strip> strips;
    private final List<String> notices;

    ReadingsTable(String name, List<Strip> strips, List<String> notices) {
        this.name = name;
        this.strips = List.copyOf(strips);
        this.notices = List.copyOf(notices);
    }

    /**
     * Reads a file.
     *
     * @param file the file
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws ReadingsException if its content is not a valid readings table; the message names file, line, column,
     *     value and remedy
     */
    public static ReadingsTable read(Path file) throws IOException {
        return ReadingsReader.withDefaults().read(file);
    }

    /**
     * Reads characters.
     *
     * @param name a name for the table, used in messages and for the relative exposure axis
     * @param reader where the characters come from; not closed
     * @return the table
     * @throws IOException if the characters cannot be read
     * @throws ReadingsException if they are not a valid readings table; the message names table, line, column, value
     *     and remedy
     */
    public static ReadingsTable read(String name, Reader reader) throws IOException {
        Objects.requireNonNull(reader, "reader");
        return read(CsvDialect.guessed().open(name, reader));
    }

    /**
     * Reads rows of any format.
     *
     * @param source the rows
     * @return the table
     * @throws IOException if the rows cannot be read
     * @throws ReadingsException if they are not a table of readings; the message names the place
     */
    public static ReadingsTable read(RowSource source) throws IOException {
        return ReadingsReader.withDefaults().read(source);
    }

    /**
     * Puts tables together, such as one for each session of readings. Tables of relative exposures keep their own axes.
     *
     * @param tables the tables, in the order of their strips
     * @return one table with the strips and notices of all
     * @throws IllegalArgumentException if there is no table, or an identifier stands in two of them; the message names both
     *     with the lines, and says whether the readings are the same
     */
    public static ReadingsTable of(List<ReadingsTable> tables) {
        if (tables.size() == 1) {
            return tables.get(0);
        }
        if (tables.isEmpty()) {
            throw new IllegalArgumentException("tables to put together must be one or more, had none");
        }
        Map<String, ReadingsTable> places = new HashMap<>();
        List<Strip> strips = new ArrayList<>();
        List<String> notices = new ArrayList<>();
        for (ReadingsTable table : tables) {
            for (Strip strip : table.strips) {
                ReadingsTable before = places.putIfAbsent(strip.id(), table);
                if (before != null) {
                    Strip other = before.strip(strip.id());
                    throw new IllegalArgumentException("strip '" + Checks.shortened(strip.id()) + "' stands in "
                            + other.origin().orElse(before.name) + ", and in "
                            + strip.origin().orElse(table.name)
                            + (before.name.equals(table.name) ? ", the second table of this name" : "")
                            + ", with " + (readings(strip).equals(readings(other)) ? "the same" : "different")
                            + " readings; take one out, or give each piece of film an identifier of its own");
                }
                strips.add(strip);
            }
            notices.addAll(table.notices);
        }
        return new ReadingsTable(
                String.join(", ", tables.stream().map(ReadingsTable::name).toList()), strips, notices);
    }

    /** All readings, by rising exposure; relative exposures of two tables compare as numbers. */
    private static List<Object> readings(Strip strip) {
        List<Object> readings = new ArrayList<>(strip.basePlusFogReadings());
        for (ExposedStep step : strip.steps()) {
            readings.add(step.exposure().value());
            readings.addAll(step.readings());
        }
        return readings;
    }

    /**
     * Writes strips as a readings table, which {@link #read(Path)} reads back to equal readings.
     *
     * @param strips the strips, all on one exposure axis, in the order in which they are written
     * @param writer where the characters go; not closed
     * @throws IllegalArgumentException if there is no strip, their axes differ, or two have the same identifier (they
     *     would be read back as one strip)
     * @throws IOException if the characters cannot be written
     */
    public static void write(List<Strip> strips, Writer writer) throws IOException {
        if (strips.isEmpty()) {
            throw new IllegalArgumentException("a readings table needs at least one strip, had none");
        }
        ExposureAxis axis = strips.get(0).axis();
        strips.forEach(strip -> axis.requireSame(strip.axis(), "write strips into one table"));
        Set<String> ids = new HashSet<>();
        for (Strip strip : strips) {
            if (!ids.add(strip.id())) {
                throw new IllegalArgumentException("a readings table has one strip for each identifier, had two of '"
                        + Checks.shortened(strip.id()) + "'; give them different identifiers");
            }
        }
        List<StripField> fields = StripField.of(strips);
        CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(writer);
        List<String> header = new ArrayList<>();
        header.add(ReadingsParser.STRIP);
        fields.forEach(field -> header.add(field.word()));
        header.add((axis.isAbsolute() ? ExposureScale.LOG_EXPOSURE : ExposureScale.RELATIVE).word());
        header.add(ReadingsParser.DENSITY);
        csv.writeRecord(header);
        for (Strip strip : strips) {
            List<String> row = new ArrayList<>();
            row.add(strip.id());
            fields.forEach(field -> row.add(field.of(strip)));
            row.add("");
            row.add("");
            for (Density density : strip.basePlusFogReadings()) {
                writeRow(csv, row, "", density);
            }
            for (ExposedStep step : strip.steps()) {
                for (Density density : step.readings()) {
                    writeRow(csv, row, Double.toString(step.exposure().value()), density);
                }
            }
        }
        csv.flush();
    }

    private static void writeRow(CsvWriter csv, List<String> row, String exposure, Density density) {
        row.set(row.size() - 2, exposure);
        row.set(row.size() - 1, Double.toString(density.value()));
        csv.writeRecord(row);
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
     * Returns the strips in the order in which they first appear.
     *
     * @return the strips, at least one
     */
    public List<Strip> strips() {
        return strips;
    }

    /**
     * Returns one strip.
     *
     * @param id its identifier
     * @return the strip
     * @throws IllegalArgumentException if there is no such strip; the message lists the strips there are
     */
    public Strip strip(String id) {
        Objects.requireNonNull(id, "id");
        for (Strip strip : strips) {
            if (strip.id().equals(id)) {
                return strip;
            }
        }
        List<String> known = strips.stream()
                .map(strip -> Checks.shortened(strip.id()))
                .limit(50)
                .toList();
        throw new IllegalArgumentException(name + " has no strip '" + Checks.shortened(id) + "'; it has "
                + String.join(", ", known) + (strips.size() > 50 ? ", …" : ""));
    }

    /**
     * Returns what a reader of the table should know, such as columns that were left aside.
     *
     * @return the notices in words; empty if there is nothing to say
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
        return other instanceof ReadingsTable that
                && Objects.equals(name, that.name)
                && Objects.equals(strips, that.strips)
                && Objects.equals(notices, that.notices);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, strips, notices);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and the number of strips
     */
    @Override
    public String toString() {
        return name + ": " + Figures.counted(strips.size(), "strip");
    }
}
