package org.tonewedge.standards.densitometer.input;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.strip.StepTablet;

/**
 * Reads the certificate of a step tablet, a table with a header row and one row for each step:
 *
 * <pre>
 * step,density,expanded_uncertainty,coverage_factor
 * 1,0.052,0.006,2
 * 2,0.201,0.006,2
 * </pre>
 *
 * <p>Steps are numbered from 1 at the clear end. The column {@code coverage_factor} may be left out; then it is 2. Lines
 * that begin with {@code #} are remarks. A byte order mark before the first line is passed over.
 */
public final class CertificateTable {

    private static final double USUAL_FACTOR = 2;
    private static final int MOST_BYTES = 1 << 20;
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private CertificateTable() {}

    /**
     * Reads a certificate from its bytes, in UTF-8.
     *
     * @param table the bytes of the table; they are read to their end and not closed
     * @param name the tablet's name or serial number, or the name of the file
     * @return the tablet, with the standard uncertainty U / k of each step
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the bytes are not a certificate in UTF-8; the message says what they seem to be
     *     (UTF-16, gzip, a spreadsheet), or names the line
     */
    public static StepTablet read(InputStream table, String name) throws IOException {
        byte[] bytes = table.readNBytes(MOST_BYTES + 1);
        Optional<ForeignFormat> foreign = ForeignFormat.of(bytes, bytes.length);
        if (foreign.isPresent()) {
            throw foreign.get().refusal(name);
        }
        if (bytes.length > MOST_BYTES) {
            throw new DensitometerInputException(
                    name, 0, "the certificate is longer than " + MOST_BYTES + " bytes", "is it the right file?");
        }
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return read(new StringReader(text), name);
        } catch (CharacterCodingException e) {
            throw new DensitometerInputException(
                    name, 0, "the certificate has bytes that are not UTF-8", "save it as UTF-8");
        }
    }

    /**
     * Reads a certificate.
     *
     * @param table the table; it is read to its end and not closed
     * @param name the tablet's name or serial number, or the name of the file
     * @return the tablet, with the standard uncertainty U / k of each step
     * @throws IOException if the reader fails
     * @throws DensitometerInputException if the table is not a certificate; the message names the line
     * @source U = k u: JCGM 100:2008, 6.2.1
     */
    public static StepTablet read(Reader table, String name) throws IOException {
        BufferedReader lines = new BufferedReader(table);
        List<String> header = List.of();
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
                header = header(line, name, number);
                continue;
            }
            List<String> row = LogForm.COMMA.fields(line);
            if (row.size() != header.size()) {
                throw new DensitometerInputException(
                        name,
                        number,
                        "the row has " + row.size() + " fields, the header " + header.size(),
                        "fill the row");
            }
            double step = number(row, header, "step", name, number);
            if (step != densities.size() + 1) {
                throw new DensitometerInputException(
                        name,
                        number,
                        "step " + (densities.size() + 1) + " is expected here",
                        "list the steps from the clear end, without a gap");
            }
            densities.add(number(row, header, "density", name, number));
            double factor = header.contains("coverage_factor")
                    ? number(row, header, "coverage_factor", name, number)
                    : USUAL_FACTOR;
            double expanded = number(row, header, "expanded_uncertainty", name, number);
            if (!(factor >= 1 && factor <= 10 && expanded >= 0)) {
                throw new DensitometerInputException(
                        name,
                        number,
                        "an expanded uncertainty of " + expanded + " with the factor " + factor + " cannot be",
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
            throw new DensitometerInputException(name, 0, e.getMessage(), "compare the table with the certificate");
        }
    }

    private static List<String> header(String line, String name, long number) {
        List<String> header = LogForm.COMMA.fields(line.toLowerCase(Locale.ROOT));
        String others = otherSeparators(line);
        if (header.size() == 1 && !others.isEmpty()) {
            throw new DensitometerInputException(
                    name,
                    number,
                    "the fields are separated by " + others + ", not by commas",
                    "save the certificate with commas between fields and points in decimals");
        }
        for (String column : List.of("step", "density", "expanded_uncertainty")) {
            if (!header.contains(column)) {
                throw new DensitometerInputException(
                        name,
                        number,
                        "the header lacks the column " + column,
                        "begin with: step,density,expanded_uncertainty,coverage_factor");
            }
        }
        List<String> densities =
                header.stream().filter(CertificateTable::isDensity).toList();
        if (densities.size() > 1) {
            throw new DensitometerInputException(
                    name,
                    number,
                    "there are " + densities.size() + " columns of densities: " + String.join(", ", densities),
                    "leave the one of the kind that the densitometer reads, and call it density");
        }
        return header;
    }

    /** Whether a column has densities, of whatever kind. */
    private static boolean isDensity(String column) {
        return (column.contains("density") && !column.contains("uncertainty"))
                || column.equals("d")
                || column.equals("od")
                || column.startsWith("d_");
    }

    /** What separates fields where no comma does; empty if nothing known. */
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
                name, line, column + " \"" + text + "\" is not a number", "enter a number such as 0.052"));
    }
}
