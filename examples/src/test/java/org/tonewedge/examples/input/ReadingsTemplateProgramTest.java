// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.RowSource;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.spreadsheet.SheetWriter;
import org.tonewedge.examples.spreadsheet.Spreadsheets;

/** From an empty folder to strips: the template is written, filled in, and read. */
class ReadingsTemplateProgramTest {

    private static final StepTablet TABLET = StepTablet.nominal(21, Density.of(0.05), 0.15);

    @TempDir
    Path scratch;

    private final StringWriter messages = new StringWriter();

    private int run(String... args) {
        return ReadingsTemplateProgram.run(args, new PrintWriter(new StringWriter()), new PrintWriter(messages));
    }

    /** What a person types into the template, for 10 of its 12 columns: a straight line, a stop apart from film to film. */
    private static RowSource filled(RowSource template) throws IOException {
        List<List<String>> rows = new ArrayList<>();
        template.read((row, fields) -> {
            List<String> filled = new ArrayList<>(fields);
            for (int i = 1; i <= 10; i++) {
                filled.set(
                        i,
                        switch (fields.get(0)) {
                            case "strip" -> "A" + i;
                            case "film" -> "Invented " + i;
                            case "minutes" -> "8:30";
                            case "celsius" -> "20";
                            case "box_speed" -> "100/21°";
                            case "exposure" -> "-0.1";
                            case "developer" -> "";
                            case "base_plus_fog" -> "0.2";
                            case "step" -> "";
                            default -> density(Integer.parseInt(fields.get(0)), i);
                        });
            }
            rows.add(filled);
        });
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

    private static String density(int step, int film) {
        double exposure = -0.1 - (0.05 + 0.15 * (step - 1));
        double density = 0.2 + Math.max(0, 0.6 * (exposure + 2.6 - 0.05 * film));
        return Double.toString(Math.rint(density * 100) / 100);
    }

    @ParameterizedTest
    @EnumSource(SheetWriter.class)
    void aTemplateIsFilledInAndRead(SheetWriter format) throws IOException {
        Path out = scratch.resolve("template");
        assertEquals(0, run("--out", out.toString()), messages.toString());
        Path file = out.resolve("readings." + format.name().toLowerCase(Locale.ROOT));
        Path mine = scratch.resolve("mine");
        format.write(filled(Spreadsheets.open(file, Optional.empty(), CsvDialect.guessed())), mine);
        var table = ReadingsReader.withDefaults()
                .with(TABLET)
                .read(Spreadsheets.open(mine, Optional.empty(), CsvDialect.guessed()));
        assertEquals(10, table.strips().size());
        assertTrue(table.notices().toString().contains("columns without readings ignored: S11, S12"));
        Strip strip = table.strip("A3");
        assertEquals(100, strip.boxSpeed().orElseThrow());
        assertEquals(21, strip.steps().size());
        assertEquals(-0.1 - 3.05, strip.steps().get(0).exposure().value(), 1e-12);
        assertEquals(
                density(1, 3), Double.toString(strip.steps().get(20).density().value()));
    }

    @Test
    void aFilledTemplateIsNeverReplaced() throws IOException {
        assertEquals(0, run("--out", scratch.toString(), "--strips", "3"));
        Path file = scratch.resolve("readings.csv");
        String mine = Files.readString(file).replace("S1", "mine");
        Files.writeString(file, mine);
        assertEquals(2, run("--out", scratch.toString()));
        assertTrue(messages.toString().contains("it was changed since"), messages.toString());
        assertEquals(mine, Files.readString(file));
    }
}
