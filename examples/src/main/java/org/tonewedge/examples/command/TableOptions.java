// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;
import java.nio.charset.UnsupportedCharsetException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.examples.spreadsheet.Spreadsheets;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.exposure.FocalPlaneExposure;
import picocli.CommandLine.Option;

/** How tables of readings are read, for every program that reads one: CSV of any dialect, XLSX or ODS. */
public final class TableOptions {

    /** The option that names a file or steps. */
    static final String TABLET = "--tablet";

    /** The option that names the sheet of the readings. */
    public static final String SHEET = "--sheet";

    /** The option that names the sheet of bracketed frames, in programs that read them. */
    public static final String FRAMES_SHEET = "--frames-sheet";

    /** What that option does. */
    public static final String FRAMES_SHEET_HELP =
            "the sheet of the frames in an XLSX or ODS file (default: the first)";

    /** The usual base of a tablet, as {@link StepTablet#nominal} has it. */
    private static final Density NOMINAL_BASE = Density.of(0.05);

    private static final Pattern NOMINAL = Pattern.compile("(\\d{1,3})x(\\d*\\.\\d+)");

    @Option(
            names = SHEET,
            paramLabel = "NAME",
            description = "the sheet of the readings in an XLSX or ODS file (default: the first)")
    private Optional<String> sheet = Optional.empty();

    @Option(names = "--encoding", paramLabel = "NAME", description = "the encoding of CSV files (default: UTF-8)")
    private Optional<String> encoding = Optional.empty();

    @Option(
            names = "--decimal",
            paramLabel = "MARK",
            description = "point or comma, if a CSV file leaves it open (default: found from the file)")
    private Optional<String> decimal = Optional.empty();

    @Option(
            names = TABLET,
            paramLabel = "TABLET",
            description =
                    "the tablet of readings that have step numbers: the file of its certificate (CSV with the columns"
                            + " step, density, expanded_uncertainty), or nominal steps such as 21x0.15")
    private Optional<String> tablet = Optional.empty();

    @Option(
            names = "--correction",
            paramLabel = "FILE",
            description = "the correction.csv of the densitometer check, applied to every density of the readings")
    private Optional<Path> correction = Optional.empty();

    /** Leaves the options to the command line. */
    public TableOptions() {}

    /**
     * Reads strips, from one file or several, such as one for each session.
     *
     * @param files the files of the readings
     * @return the strips of all
     * @throws IOException if a file cannot be read
     * @throws IllegalArgumentException if an option is not usable, or a strip stands in two files
     */
    public ReadingsTable readings(List<Path> files) throws IOException {
        ReadingsReader reader = reader();
        Set<String> names = new HashSet<>();
        List<ReadingsTable> tables = new ArrayList<>();
        for (Path file : files) {
            RowSource rows = open(file);
            // Two files of one name in different folders are told apart by their paths.
            tables.add(reader.read(names.add(rows.name()) ? rows : new NamedRows(rows, file.toString())));
        }
        return ReadingsTable.of(tables);
    }

    /** Rows under another name. */
    private record NamedRows(RowSource rows, String name) implements RowSource {

        @Override
        public void read(RowHandler handler) throws IOException {
            rows.read(handler);
        }

        @Override
        public String place(long row, int column) {
            return rows.place(row, column);
        }

        @Override
        public char decimalMark() {
            return rows.decimalMark();
        }

        @Override
        public List<String> notices() {
            return rows.notices();
        }
    }

    /**
     * Returns the tablet of readings that have step numbers.
     *
     * @return its file or steps; nothing where none is stated
     */
    Optional<String> tablet() {
        return tablet.map(text -> NOMINAL.matcher(text).matches()
                ? text
                : String.valueOf(Path.of(text).getFileName()));
    }

    /**
     * Returns the tablet of {@code --tablet} with its densities.
     *
     * @return the tablet, or nothing if none was named
     * @throws IOException if its file cannot be read
     */
    public Optional<StepTablet> certifiedTablet() throws IOException {
        return tablet.isPresent() ? Optional.of(tablet(tablet.get())) : Optional.empty();
    }

    /**
     * Returns what the reader of a report should know of how readings were made into strips.
     *
     * @return the remarks in words; empty if there is nothing to say
     */
    public List<String> remarks() {
        List<String> remarks = new ArrayList<>();
        tablet.ifPresent(text -> remarks.add("Exposures were computed from the step numbers of the tablet " + text
                + ". Its errors are common to all films exposed through it: they change all speeds together, and stops"
                + " from the reference are hardly affected."));
        correction.ifPresent(file -> remarks.add(
                "Densities were corrected by " + file.getFileName() + ", from the check of the densitometer."));
        return remarks;
    }

    /**
     * Reads bracketed frames.
     *
     * @param file the file of the frames
     * @param framesSheet the sheet of a spreadsheet; its first if nothing is stated
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if an option is not usable
     */
    public BracketTable frames(Path file, Optional<String> framesSheet) throws IOException {
        return BracketTable.read(Spreadsheets.open(InputFiles.rereadable(file), framesSheet, dialect()));
    }

    private RowSource open(Path file) throws IOException {
        return Spreadsheets.open(InputFiles.rereadable(file), sheet, dialect());
    }

    private ReadingsReader reader() throws IOException {
        ReadingsReader reader = ReadingsReader.withDefaults().with(FocalPlaneExposure.withDefaults()::exposure);
        if (tablet.isPresent()) {
            reader = reader.with(tablet(tablet.get()));
        }
        return correction.isPresent() ? reader.with(CorrectionTable.read(correction.get())) : reader;
    }

    private CsvDialect dialect() {
        CsvDialect dialect = CsvDialect.guessed();
        if (encoding.isPresent()) {
            try {
                dialect = dialect.withEncoding(Charset.forName(encoding.get()));
            } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
                throw new IllegalArgumentException(
                        "--encoding: this Java does not know the encoding " + encoding.get() + "; UTF-8, UTF-16,"
                                + " ISO-8859-1 and windows-1252 are usual",
                        e);
            }
        }
        if (decimal.isPresent()) {
            dialect = switch (decimal.get()) {
                case "point" -> dialect.withDecimalMark('.');
                case "comma" -> dialect.withDecimalMark(',');
                default -> throw new IllegalArgumentException("--decimal must be point or comma, was " + decimal.get());
            };
        }
        return dialect;
    }

    /**
     * Returns the tablet that a text names.
     *
     * @param text the file of a certificate, or nominal steps such as 21x0.15
     * @return the tablet
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if the steps cannot be
     */
    public static StepTablet tablet(String text) throws IOException {
        Matcher nominal = NOMINAL.matcher(text);
        if (nominal.matches()) {
            return StepTablet.nominal(
                    Integer.parseInt(nominal.group(1)), NOMINAL_BASE, Double.parseDouble(nominal.group(2)));
        }
        Path file = InputFiles.rereadable(Path.of(text));
        try (Reader certificate = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            return CertificateTable.read(String.valueOf(file.getFileName()), certificate);
        } catch (CharacterCodingException e) {
            throw new IllegalArgumentException(
                    file + ": the certificate has bytes that are not UTF-8; save it as CSV in UTF-8", e);
        }
    }
}
