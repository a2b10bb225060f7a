// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Opens tables of every format the programs read; a file is known by what is in it, not by its name. */
public final class Spreadsheets {

    private Spreadsheets() {}

    /**
     * Returns the rows of a file: of a sheet of an XLSX or ODS file, else of CSV.
     *
     * @param file the file
     * @param sheet the sheet of a spreadsheet; its first if nothing is stated
     * @param dialect the dialect of CSV
     * @return the rows
     * @throws IOException if the file cannot be read
     * @throws ReadingsException if the file is of another kind, or has no such sheet
     */
    public static RowSource open(Path file, Optional<String> sheet, CsvDialect dialect) throws IOException {
        if (!isZip(file)) {
            if (sheet.isPresent()) {
                throw ReadingsException.at(
                        Fault.UNKNOWN_NAME,
                        String.valueOf(file.getFileName()),
                        "",
                        "the file has no sheets",
                        "leave --sheet out");
            }
            return dialect.open(file);
        }
        boolean ods;
        try (SheetArchive archive = SheetArchive.open(file)) {
            ods = OdsRows.isOds(archive);
            if (!ods && archive.text("xl/workbook.xml").isEmpty()) {
                throw ReadingsException.at(
                        Fault.UNREADABLE,
                        archive.name(),
                        "",
                        "the file is a zip archive, but not an XLSX or ODS spreadsheet",
                        "save the table as XLSX, ODS or CSV");
            }
        }
        return ods ? OdsRows.open(file, sheet) : XlsxRows.open(file, sheet);
    }

    private static boolean isZip(Path file) throws IOException {
        try (InputStream bytes = Files.newInputStream(file)) {
            byte[] start = bytes.readNBytes(4);
            return start.length == 4 && start[0] == 'P' && start[1] == 'K' && start[2] == 3 && start[3] == 4;
        }
    }

    /** The sheet that is wanted, or the first. */
    static String choose(String file, List<String> sheets, Optional<String> wanted) {
        if (sheets.isEmpty()) {
            throw ReadingsException.at(
                    Fault.MISSING, file, "", "the file has no sheet", "save it again in the spreadsheet program");
        }
        String sheet = wanted.orElse(sheets.get(0));
        if (!sheets.contains(sheet)) {
            throw ReadingsException.at(
                    Fault.UNKNOWN_NAME,
                    file,
                    "",
                    "there is no sheet '" + sheet + "'; there are "
                            + String.join(", ", sheets.subList(0, Math.min(20, sheets.size()))),
                    "name one of them");
        }
        return sheet;
    }
}
