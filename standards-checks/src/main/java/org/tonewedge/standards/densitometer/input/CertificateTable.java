// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalDouble;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * Reads the certificate of a step tablet: a table with a header row and one row for each step:
 *
 * <pre>
 * step,density,expanded_uncertainty,coverage_factor
 * 1,0.052,0.006,2
 * 2,0.201,0.006,2
 * </pre>
 *
 * <p>Steps are numbered from 1 at the clear end. Without the column {@code coverage_factor} the factor is 2. Lines that
 * begin with {@code #} are remarks. A byte order mark before the first line is skipped.
 */
public final class CertificateTable {

    private static final double USUAL_FACTOR = 2;
    private static final String CHANNEL = "density_";
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private CertificateTable() {}

    /**
     * Reads a certificate.
     *
     * @param name the tablet's name or serial number, or the name of the file
     * @param table the table; it is read to its end and not closed
     * @return the tablet, with the standard uncertainty U / k of each step
     * @throws IOException if the reader fails
     * @throws DensitometerInputException if the table is not a certificate; the message names the line
     * @source U = k u: JCGM 100:2008, 6.2.1
     */
    public static StepTablet read(String name, Reader table) throws IOException {
        Objects.requireNonNull(table, "table");
        return read(name, table, "density", List.of("expanded_uncertainty"));
    }

    /** Reads one channel of a certificate; the channel without a name is that of the column {@code density}. */
    static StepTablet readChannel(String name, String text, String channel) throws IOException {
        return channel.isEmpty()
                ? read(name, new StringReader(text))
                : read(
                        name,
                        new StringReader(text),
                        CHANNEL + channel,
                        List.of("expanded_uncertainty_" + channel, "expanded_uncertainty"));
    }

    /** The channels that the header names; one without a name if it names none. */
    static List<String> channels(String text) {
        List<String> header = text.lines()
                .map(line -> line.replace(BYTE_ORDER_MARK, ""))
                .filter(line -> !line.isBlank() && !line.startsWith("#"))
                .findFirst()
                .map(line -> LogForm.COMMA.fields(line.toLowerCase(Locale.ROOT)))
                .orElse(List.of());
        List<String> channels = header.stream()
                .filter(column -> column.startsWith(CHANNEL) && column.length() > CHANNEL.length())
                .map(column -> column.substring(CHANNEL.length()))
                .toList();
        return channels.isEmpty() || header.contains("density") ? List.of("") : channels;
    }

    /** Reads one column of densities; of the columns of the uncertainty the first that is there counts. */
    private static StepTablet read(String name, Reader table, String column, List<String> uncertaintyColumns)
            throws IOException {
        BufferedReader lines = new BufferedReader(table);
        List<String> header = List.of();
        String uncertaintyColumn = "";
        List<Double> densities = new ArrayList<>();
        List<Double> uncertainties = new ArrayList<>();
        long number = 0;
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            number++;
            if (number == 1 && line.startsWith(BYTE_ORDER_MARK)) {
                line = line.substring(BYTE_ORDER_MARK.length());
            }
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            if (header.isEmpty()) {
                header = header(line, name, number, column, uncertaintyColumns);
                uncertaintyColumn = uncertaintyColumns.stream()
                        .filter(header::contains)
                        .findFirst()
                        .orElseThrow();
                continue;
            }
            List<String> row = LogForm.COMMA.fields(line);
            if (row.size() != header.size()) {
                throw new DensitometerInputException(
                        Fault.WRONG_FORMAT,
                        name,
                        number,
                        "the row has " + row.size() + " fields, the header " + header.size(),
                        "fill the row");
            }
            double step = number(row, header, "step", name, number);
            if (step != densities.size() + 1) {
                throw new DensitometerInputException(
                        Fault.WRONG_FORMAT,
                        name,
                        number,
                        "step " + (densities.size() + 1) + " is expected here",
                        "list the steps from the clear end, without a gap");
            }
            densities.add(number(row, header, column, name, number));
            double factor = header.contains("coverage_factor")
                    ? number(row, header, "coverage_factor", name, number)
                    : USUAL_FACTOR;
            double expanded = number(row, header, uncertaintyColumn, name, number);
            if (!(factor >= 1 && factor <= 10 && expanded >= 0)) {
                throw new DensitometerInputException(
                        Fault.OUT_OF_RANGE,
                        name,
                        number,
                        "an expanded uncertainty of " + expanded + " with the factor " + factor + " is impossible",
                        "enter U and k as on the certificate");
            }
            uncertainties.add(expanded / factor);
        }
        try {
            return StepTablet.calibrated(
                    name,
                    densities.stream().mapToDouble(Double::doubleValue).toArray(),
                    uncertainties.stream().mapToDouble(Double::doubleValue).toArray());
        } catch (IllegalArgumentException e) {
            throw new DensitometerInputException(
                    densities.size() < 2 ? Fault.MISSING : Fault.OUT_OF_RANGE,
                    name,
                    0,
                    e.getMessage(),
                    "compare the table with the certificate");
        }
    }

    private static List<String> header(
            String line, String name, long number, String wanted, List<String> uncertaintyColumns) {
        List<String> header = LogForm.COMMA.fields(line.toLowerCase(Locale.ROOT));
        String others = otherSeparators(line);
        if (header.size() == 1 && !others.isEmpty()) {
            throw new DensitometerInputException(
                    Fault.WRONG_FORMAT,
                    name,
                    number,
                    "the fields are separated by " + others + ", not by commas",
                    "save the certificate with commas between fields and points in decimals");
        }
        List<String> densities = header.stream()
                .filter(column -> column.equals(wanted) || (wanted.equals("density") && isDensity(column)))
                .toList();
        if (densities.size() > 1) {
            throw new DensitometerInputException(
                    Fault.AMBIGUOUS,
                    name,
                    number,
                    "there are " + densities.size() + " columns of densities: " + String.join(", ", densities),
                    "keep the one of the kind that the densitometer reads, and call it density");
        }
        for (String column : List.of("step", wanted)) {
            if (!header.contains(column)) {
                throw lacking(column, name, number);
            }
        }
        if (uncertaintyColumns.stream().noneMatch(header::contains)) {
            throw lacking("expanded_uncertainty", name, number);
        }
        return header;
    }

    private static DensitometerInputException lacking(String column, String name, long number) {
        return new DensitometerInputException(
                Fault.MISSING,
                name,
                number,
                "the header lacks the column " + column,
                "begin with: step,density,expanded_uncertainty,coverage_factor");
    }

    /** Whether a column has densities, of whatever kind. */
    private static boolean isDensity(String column) {
        return (column.contains("density") && !column.contains("uncertainty"))
                || column.equals("d")
                || column.equals("od")
                || column.startsWith("d_");
    }

    /** The separator of fields if it is not a comma; empty if it is not a known one. */
    private static String otherSeparators(String line) {
        if (line.contains(";")) {
            return "semicolons (;)";
        }
        return line.contains("\t") ? "tabs" : line.contains("|") ? "bars (|)" : "";
    }

    private static double number(List<String> row, List<String> header, String column, String name, long line) {
        String text = row.get(header.indexOf(column));
        OptionalDouble value = Numerals.number(text);
        return value.orElseThrow(() -> new DensitometerInputException(
                Fault.BAD_NUMBER,
                name,
                line,
                column + " \"" + text + "\" is not a number",
                "enter a number such as 0.052"));
    }
}
