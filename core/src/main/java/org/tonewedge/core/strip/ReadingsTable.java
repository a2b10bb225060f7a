package org.tonewedge.core.strip;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.Temperature;

/**
 * A table of densitometer readings, such as the file {@code strips.csv}: one row for each reading, rows of one strip
 * belonging together by its identifier.
 *
 * <p>The form is CSV (RFC 4180) in UTF-8 with a header row, commas between fields and points in decimals. Columns may
 * stand in any order; unknown ones are left aside with a {@linkplain #notices() notice}.
 *
 * <table>
 * <caption>Columns</caption>
 * <tr><th>column</th><th>meaning</th></tr>
 * <tr><td>{@code strip}</td><td>identifier of the piece of film; needed</td></tr>
 * <tr><td>{@code film}, {@code developer}</td><td>labels</td></tr>
 * <tr><td>{@code minutes}, {@code celsius}</td><td>time and temperature of development</td></tr>
 * <tr><td>{@code box_speed}</td><td>the arithmetic speed on the box</td></tr>
 * <tr><td>{@code log_exposure}</td><td>log<sub>10</sub> of the exposure in lux seconds; empty means unexposed: a
 * base-plus-fog reading</td></tr>
 * <tr><td>{@code relative_log_exposure}</td><td>instead of {@code log_exposure} where only ratios are known; a table has
 * one of the two</td></tr>
 * <tr><td>{@code density}</td><td>the gross density read; needed. Several rows with the same strip and exposure are
 * repeat readings</td></tr>
 * </table>
 *
 * <p>Labels, processing and box speed are stated in any row of a strip; rows that state them differently are refused.
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
     * @throws ReadingsException if its content is not a readings table; the message names file, line, column, value and
     *     remedy
     */
    public static ReadingsTable read(Path file) throws IOException {
        return CsvTable.read(file, ReadingsTable::read);
    }

    /**
     * Reads characters.
     *
     * @param name a name for the table, used in messages and for the relative exposure axis
     * @param reader where the characters come from; not closed
     * @return the table
     * @throws IOException if the characters cannot be read
     * @throws ReadingsException if they are not a readings table; the message names table, line, column, value and
     *     remedy
     */
    public static ReadingsTable read(String name, Reader reader) throws IOException {
        return new ReadingsParser(name).parse(reader);
    }

    /**
     * Writes strips as a readings table that {@link #read(Path)} reads back to equal readings.
     *
     * @param strips the strips, all on one exposure axis, in the order of writing
     * @param writer where the characters go; not closed
     * @throws IllegalArgumentException if there is no strip, their axes differ, or two have one identifier, which would
     *     make them one strip when read
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
                throw new IllegalArgumentException("a readings table has one strip of an identifier, had two of '"
                        + Checks.shortened(strip.id()) + "'; give them different identifiers");
            }
        }
        CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(writer);
        csv.writeRecord(
                "strip",
                "film",
                "developer",
                "minutes",
                "celsius",
                "box_speed",
                axis.isAbsolute() ? "log_exposure" : "relative_log_exposure",
                "density");
        for (Strip strip : strips) {
            for (Density density : strip.basePlusFogReadings()) {
                writeRow(csv, strip, "", density);
            }
            for (ExposedStep step : strip.steps()) {
                for (Density density : step.readings()) {
                    writeRow(csv, strip, Double.toString(step.exposure().value()), density);
                }
            }
        }
        csv.flush();
    }

    private static void writeRow(CsvWriter csv, Strip strip, String exposure, Density density) {
        Processing how = strip.processing();
        csv.writeRecord(
                strip.id(),
                strip.film(),
                how.developer().orElse(""),
                how.time().map(Processing::minutes).map(String::valueOf).orElse(""),
                how.temperature().map(Temperature::celsius).map(String::valueOf).orElse(""),
                strip.boxSpeed().isPresent() ? String.valueOf(strip.boxSpeed().getAsDouble()) : "",
                exposure,
                Double.toString(density.value()));
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
     * @throws IllegalArgumentException if there is no such strip; the message lists those there are
     */
    public Strip strip(String id) {
        return strips.stream()
                .filter(strip -> strip.id().equals(id))
                .findFirst()
                .orElseThrow(() ->
                        new IllegalArgumentException(name + " has no strip '" + Checks.shortened(id) + "'; it has "
                                + String.join(
                                        ", ",
                                        strips.stream()
                                                .map(strip -> Checks.shortened(strip.id()))
                                                .limit(50)
                                                .toList())
                                + (strips.size() > 50 ? ", …" : "")));
    }

    /**
     * Returns what a reader of the table should know, such as columns that were left aside.
     *
     * @return the notices in words; empty if there is nothing to say
     */
    public List<String> notices() {
        return notices;
    }
}
