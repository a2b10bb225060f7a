// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exchange;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.MultichannelStrip;

/**
 * Reads and writes density data in the text format of ISO 28178, one table for each strip:
 *
 * <pre>{@code
 * CGATS.17
 * ORIGINATOR "test bench"
 * FILE_DESCRIPTOR "two strips"
 * CREATED "2026-01-31"
 * TABLE_NAME "S07"
 * KEYWORD "LOG_H_UNIT"
 * LOG_H_UNIT "lux second"
 * DATA_FORMAT_IDENTIFIER "LOG_H"
 * NUMBER_OF_FIELDS 3
 * BEGIN_DATA_FORMAT
 * SAMPLE_ID LOG_H D_VIS
 * END_DATA_FORMAT
 * NUMBER_OF_SETS 2
 * BEGIN_DATA
 * 1 UNEXPOSED 0.24
 * 2 -2.85 0.27
 * END_DATA
 * }</pre>
 *
 * <p>Predefined elements of the standard are used unchanged: the preamble and its order, {@code MATERIAL},
 * {@code TABLE_NAME}, {@code SAMPLE_ID} and the density fields. Exposure and development have no predefined names; they
 * are declared in the way that the standard provides; so are the response by which a field was read
 * ({@code D_VIS_RESPONSE "visual"}) and the geometry ({@code DENSITY_GEOMETRY "diffuse"}), where they are stated. Strings
 * have no escape sequences, so a text with a quotation mark cannot be written and is refused.
 *
 * <p>Reading is as lenient as other readers are: it accepts any sheet identifier, undeclared names, and any order. The
 * {@link ExchangeTable} keeps keywords and fields that this library does not use.
 *
 * @source grammar, keywords and field names as general-purpose colour-management libraries implement them (verified);
 *     order of the preamble: table of contents of BS ISO 28178:2009 (verified). The clauses themselves were not read.
 */
public final class DensityExchange {

    private DensityExchange() {}

    /**
     * Reads a file in UTF-8.
     *
     * @param file the file
     * @return its tables
     * @throws IOException if the file cannot be read
     * @throws ExchangeException if its content does not have the format; the message names file, line and remedy
     */
    public static List<ExchangeTable> read(Path file) throws IOException {
        try (Reader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            return read(String.valueOf(file.getFileName()), reader);
        }
    }

    /**
     * Reads a text.
     *
     * @param name the name of the text, for messages
     * @param reader the text
     * @return its tables
     * @throws IOException if the reader fails
     * @throws ExchangeException if the content does not have the format; the message names the line and the remedy
     */
    public static List<ExchangeTable> read(String name, Reader reader) throws IOException {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(reader, "reader");
        return ExchangeParser.parse(name, reader);
    }

    /**
     * Writes strips.
     *
     * @param originator who made the file
     * @param descriptor what the file is about
     * @param created when it was made
     * @param strips the strips, one or more; each gets its own table
     * @param writer receives the text, with line feeds
     * @throws IOException if the writer fails
     * @throws IllegalArgumentException if there is no strip, a text contains a quotation mark, a tab or a line break,
     *     or the channels of a strip have different numbers of readings
     */
    public static void write(
            String originator, String descriptor, LocalDate created, List<MultichannelStrip> strips, Writer writer)
            throws IOException {
        Objects.requireNonNull(originator, "originator");
        Objects.requireNonNull(descriptor, "descriptor");
        if (strips.isEmpty()) {
            throw new IllegalArgumentException("a file of density data needs at least one strip, had none");
        }
        StringBuilder text = new StringBuilder("CGATS.17\n");
        statement(text, "ORIGINATOR", originator);
        statement(text, "FILE_DESCRIPTOR", descriptor);
        statement(text, "CREATED", created.toString());
        strips.forEach(strip -> table(text, strip));
        writer.write(text.toString());
        writer.flush();
    }

    private static void table(StringBuilder text, MultichannelStrip strip) {
        List<Strip> channels = strip.channels().stream().map(strip::strip).toList();
        Strip first = channels.get(0);
        statement(text, ExchangeTable.STRIP, strip.id());
        statement(text, ExchangeTable.FILM, first.film());
        Map<String, String> declared = declared(first);
        strip.channels()
                .forEach(channel -> strip.strip(channel)
                        .densityResponse()
                        .ifPresent(response -> declared.put(
                                ExchangeTable.DENSITY_FIELDS.get(channel) + ExchangeTable.RESPONSE,
                                response.description())));
        declared.forEach((keyword, value) -> {
            statement(text, "KEYWORD", keyword);
            statement(text, keyword, value);
        });
        statement(text, "DATA_FORMAT_IDENTIFIER", ExchangeTable.LOG_EXPOSURE);
        text.append("NUMBER_OF_FIELDS ").append(2 + channels.size()).append("\nBEGIN_DATA_FORMAT\nSAMPLE_ID ");
        text.append(ExchangeTable.LOG_EXPOSURE);
        for (Channel channel : strip.channels()) {
            text.append(' ').append(ExchangeTable.DENSITY_FIELDS.get(channel));
        }
        List<String> rows = rows(strip, channels);
        text.append("\nEND_DATA_FORMAT\nNUMBER_OF_SETS ").append(rows.size()).append("\nBEGIN_DATA\n");
        for (int i = 0; i < rows.size(); i++) {
            text.append(i + 1).append(' ').append(rows.get(i)).append('\n');
        }
        text.append("END_DATA\n");
    }

    private static Map<String, String> declared(Strip strip) {
        Processing how = strip.processing();
        Map<String, String> declared = new LinkedHashMap<>();
        declared.put(
                ExchangeTable.UNIT,
                strip.axis().isAbsolute()
                        ? ExchangeTable.LUX_SECONDS
                        : ExchangeTable.RELATIVE + strip.axis().reference());
        how.developer().ifPresent(developer -> declared.put(ExchangeTable.DEVELOPER, developer));
        how.time().ifPresent(time -> declared.put(ExchangeTable.MINUTES, Double.toString(time.toMillis() / 60_000.0)));
        how.temperature()
                .map(Temperature::celsius)
                .ifPresent(celsius -> declared.put(ExchangeTable.CELSIUS, celsius.toString()));
        how.agitation().ifPresent(agitation -> declared.put(ExchangeTable.AGITATION, agitation));
        TestConditions test = strip.testConditions();
        test.illuminant().ifPresent(light -> declared.put(ExchangeTable.ILLUMINANT, light));
        test.exposureTime()
                .map(time -> BigDecimal.valueOf(time.getSeconds()).add(BigDecimal.valueOf(time.getNano(), 9)))
                .ifPresent(seconds -> declared.put(
                        ExchangeTable.EXPOSURE_SECONDS,
                        seconds.stripTrailingZeros().toPlainString()));
        test.hold()
                .ifPresent(
                        time -> declared.put(ExchangeTable.HOLD_MINUTES, Double.toString(time.toMillis() / 60_000.0)));
        test.storage().ifPresent(kept -> declared.put(ExchangeTable.STORAGE, kept));
        strip.densityGeometry().ifPresent(geometry -> declared.put(ExchangeTable.GEOMETRY, geometry.description()));
        strip.boxSpeed().ifPresent(speed -> declared.put(ExchangeTable.BOX_SPEED, Double.toString(speed)));
        return declared;
    }

    private static List<String> rows(MultichannelStrip strip, List<Strip> channels) {
        List<String> rows = new ArrayList<>();
        addRows(
                rows,
                strip,
                ExchangeTable.UNEXPOSED,
                channels.stream().map(Strip::basePlusFogReadings).toList());
        for (int i = 0; i < channels.get(0).steps().size(); i++) {
            int step = i;
            List<ExposedStep> steps =
                    channels.stream().map(channel -> channel.steps().get(step)).toList();
            addRows(
                    rows,
                    strip,
                    Double.toString(steps.get(0).exposure().value()),
                    steps.stream().map(ExposedStep::readings).toList());
        }
        return rows;
    }

    private static void addRows(
            List<String> rows, MultichannelStrip strip, String exposure, List<List<Density>> readings) {
        int repeats = readings.get(0).size();
        if (readings.stream().anyMatch(channel -> channel.size() != repeats)) {
            throw new IllegalArgumentException(
                    strip + ": at " + exposure
                            + " the channels have different numbers of readings; read every step equally often through every filter");
        }
        for (int repeat = 0; repeat < repeats; repeat++) {
            StringBuilder row = new StringBuilder(exposure);
            for (List<Density> channel : readings) {
                row.append(' ').append(channel.get(repeat).value());
            }
            rows.add(row.toString());
        }
    }

    private static void statement(StringBuilder text, String keyword, String value) {
        if (value.chars().anyMatch(c -> c == '"' || Character.isISOControl(c))) {
            throw new IllegalArgumentException(
                    keyword + " must not contain a quotation mark, tab or line break, was \"" + value + '"');
        }
        text.append(keyword).append(" \"").append(value).append("\"\n");
    }
}
