// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.ReadingsGrid;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.TestConditions;

/** Strips of any readings come back exactly from a table, a grid in a file of any format, and a table again. */
class SheetRoundTripTest {

    /** Labels that a spreadsheet, or a guess at the dialect, could take for something else. */
    private static final List<String> LABELS = List.of(
            "Alder 50",
            "8.0",
            "007",
            "1e3",
            "a,b;c",
            "\"quoted\"",
            "=1+1",
            "-3",
            "3,5",
            "Ö 東 🙂",
            "step",
            "100/21°",
            "TRUE",
            "2026-05-01",
            "1/2",
            "<&>'",
            "#N/A",
            "'0",
            "+1",
            "film",
            "base_plus_fog");

    private static final int TABLES = 40;

    @TempDir
    Path folder;

    private static String label(Random random) {
        return LABELS.get(random.nextInt(LABELS.size()));
    }

    /** A number with up to as many decimals as a person types, or all that a double has. */
    private static double number(Random random, double from, double to) {
        double value = from + (to - from) * random.nextDouble();
        double places = Math.pow(10, random.nextInt(7));
        return random.nextInt(3) == 0 ? value : Math.rint(value * places) / places;
    }

    private static <T> T anyOf(T[] of, Random random) {
        return Arrays.asList(of).get(random.nextInt(of.length));
    }

    private static Strip strip(int index, Random random) {
        Strip.Builder strip = Strip.builder(random.nextBoolean() ? "S" + index : label(random) + " " + index)
                .film(label(random))
                .boxSpeed(1 + random.nextInt(6400))
                .processing(Processing.unknown()
                        .withDeveloper(label(random))
                        .withMinutes(number(random, 1, 30))
                        .withTemperature(Temperature.ofCelsius(number(random, 15, 30))));
        TestConditions conditions = TestConditions.notStated();
        conditions = random.nextBoolean() ? conditions.withIlluminant(label(random)) : conditions;
        conditions = random.nextBoolean()
                ? conditions.withExposureTime(Duration.ofNanos(1 + random.nextInt(2_000_000_000)))
                : conditions;
        strip.testConditions(conditions);
        if (random.nextBoolean()) {
            strip.densityResponse(anyOf(SpectralResponse.values(), random));
            strip.densityGeometry(anyOf(TransmissionGeometry.values(), random));
        }
        for (int i = random.nextInt(3); i >= 0; i--) {
            strip.basePlusFog(number(random, 0, 0.5));
        }
        TreeSet<Double> exposures = new TreeSet<>();
        for (int i = random.nextInt(21); i >= 0; i--) {
            exposures.add(number(random, -4, 1));
        }
        for (double exposure : exposures) {
            for (int i = random.nextInt(3); i >= 0; i--) {
                strip.reading(LogExposure.ofLogLuxSeconds(exposure), Density.of(number(random, 0, 4)));
            }
        }
        return strip.build();
    }

    @ParameterizedTest
    @EnumSource(SheetWriter.class)
    void tableToGridToTable(SheetWriter format) throws IOException {
        Random random = new Random(12);
        for (int i = 0; i < TABLES; i++) {
            List<Strip> strips = new ArrayList<>();
            for (int k = random.nextInt(5); k >= 0; k--) {
                strips.add(strip(k, random));
            }
            String table = written(strips);
            List<Strip> read =
                    ReadingsTable.read("table.csv", new StringReader(table)).strips();
            Path file = folder.resolve(i + "." + format);
            format.write(ReadingsGrid.of("grid", read), file);
            ReadingsTable back = ReadingsTable.read(Spreadsheets.open(file, Optional.empty(), CsvDialect.guessed()));
            assertEquals(table, written(back.strips()), () -> file + " " + strips);
        }
    }

    private static String written(List<Strip> strips) throws IOException {
        StringWriter table = new StringWriter();
        ReadingsTable.write(strips, table);
        return table.toString();
    }
}
