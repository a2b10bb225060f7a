// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.examples.Programs.Run;
import org.tonewedge.examples.comparison.FilmComparisonProgram;
import org.tonewedge.examples.input.ReadingsTemplateProgram;
import org.tonewedge.examples.spreadsheet.SheetWriter;
import org.tonewedge.examples.spreadsheet.Spreadsheets;

/**
 * From an empty folder to a report on 12 films, by the two commands of the README: the template is written, filled in as
 * a grid, and compared; in every format the report is the same.
 */
class EmptyFolderTest {

    private static final int FILMS = 12;
    private static final int STEPS = 21;

    @TempDir
    Path folder;

    /** What a person types into a cell of the template. */
    private static String typed(String row, int film, Random random) {
        return switch (row) {
            case "strip" -> "S" + film;
            case "film" -> film == 1 ? "Alder, 50" : "Invented " + film;
            case "developer" -> "own brew 1+1";
            case "minutes" -> film % 2 == 0 ? "8:30" : "8.5";
            case "celsius" -> "20";
            case "box_speed" -> film % 2 == 0 ? "100/21°" : "100";
            case "exposure" -> "0.3";
            case "base_plus_fog" -> density(-9, film, random);
            case "step" -> "";
            default -> row.matches("\\d+") ? density(0.25 - 0.15 * (Integer.parseInt(row) - 1), film, random) : "";
        };
    }

    /** A toe, then a straight line of 0.62; the films lie a tenth of a log unit apart. */
    private static String density(double exposure, int film, Random random) {
        double above = (exposure + 2.3 - 0.1 * (film - 6)) / 0.15;
        double density = 0.22 + 0.62 * 0.15 * Math.log1p(Math.exp(above)) + 0.008 * random.nextGaussian();
        return String.format(Locale.ROOT, "%.2f", density);
    }

    private static List<List<String>> filled(Path template) throws IOException {
        Random random = new Random(50);
        List<List<String>> rows = new ArrayList<>();
        Spreadsheets.open(template, Optional.empty(), CsvDialect.guessed()).read((number, fields) -> {
            assertEquals(1 + FILMS, fields.size());
            List<String> row = new ArrayList<>(List.of(fields.get(0)));
            for (int film = 1; film <= FILMS; film++) {
                row.add(typed(fields.get(0), film, random));
            }
            rows.add(row);
        });
        return rows;
    }

    private static RowSource source(List<List<String>> rows) {
        return new RowSource() {
            @Override
            public String name() {
                return "filled";
            }

            @Override
            public void read(RowHandler handler) {
                for (int i = 0; i < rows.size(); i++) {
                    handler.accept(i + 1L, rows.get(i));
                }
            }
        };
    }

    private Path compared(Path file, String name) throws IOException {
        Path out = folder.resolve(name);
        Run run = Programs.run(
                FilmComparisonProgram.class,
                file.toString(),
                "--tablet",
                "21x0.15",
                "--reference",
                "S1",
                "--no-plots",
                "--out",
                out.toString());
        assertEquals(0, run.status(), run.messages());
        assertEquals(FILMS, Files.readAllLines(out.resolve("comparison.csv")).size() - 1);
        try (var files = Files.list(out)) {
            assertEquals(
                    FILMS,
                    files.filter(page -> page.getFileName().toString().matches("strip-.*\\.html"))
                            .count());
        }
        assertTrue(Files.readString(out.resolve("report.html")).contains("12 strips; reference Alder, 50 (S1)."));
        return out.resolve("uncertainty.csv");
    }

    /** The films lie a tenth of a log unit apart, which is 0.332 stop, and the first is the reference. */
    private static void stopsAreThoseOfTheFilms(String report) {
        for (int film = 2; film <= FILMS; film++) {
            String start = "S" + film + ",stops_vs_reference,";
            String row = report.lines()
                    .filter(line -> line.startsWith(start))
                    .findFirst()
                    .orElseThrow();
            String[] cells = row.split(",", -1);
            double u = Double.parseDouble(cells[3]);
            assertTrue(u < 0.15, row);
            assertEquals(-0.1 * (film - 1) / Math.log10(2), Double.parseDouble(cells[2]), 3 * u, row);
        }
    }

    @Test
    void fromAnEmptyFolderToAReport() throws IOException {
        Path my = folder.resolve("my-films");
        Run template = Programs.run(
                ReadingsTemplateProgram.class,
                "--strips",
                Integer.toString(FILMS),
                "--tablet",
                STEPS + "x0.15",
                "--out",
                my.toString());
        assertEquals(0, template.status(), template.messages());

        List<String> reports = new ArrayList<>();
        for (SheetWriter format : SheetWriter.values()) {
            Path file = my.resolve("readings." + format.name().toLowerCase(Locale.ROOT));
            List<List<String>> rows = filled(file);
            assertEquals(
                    STEPS,
                    rows.stream().filter(row -> row.get(0).matches("\\d+")).count());
            format.write(source(rows), file);
            reports.add(Files.readString(compared(file, "report-" + format)));
        }
        // The same grid as a spreadsheet program of another country saves it.
        Path semicolons = my.resolve("semicolons.csv");
        List<List<String>> rows = filled(my.resolve("readings.csv"));
        Files.writeString(
                semicolons,
                rows.stream()
                        .map(row -> row.stream()
                                .map(cell -> cell.matches("-?\\d+\\.\\d+") ? cell.replace('.', ',') : cell)
                                .reduce((one, other) -> one + ";" + other)
                                .orElseThrow())
                        .reduce("", (one, other) -> one + other + "\r\n"));
        reports.add(Files.readString(compared(semicolons, "report-semicolons")));
        for (String report : reports) {
            assertEquals(reports.get(0), report);
        }
        stopsAreThoseOfTheFilms(reports.get(0));
    }
}
