// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.strip.ReadingsTable;

/**
 * A table of strips of 21 steps is read within three times the size of its file, besides {@value #BASE_MEGABYTES} MB for the
 * virtual machine, which reads a table of one strip in 2 MB. The strips that were read are part of that.
 *
 * <p>Measured with files of 9 to 12 MB, in steps of half the size (JDK 17, {@code -XX:+UseSerialGC}): films, developer, time,
 * temperature and box speed stated, with commas or with semicolons and decimal commas, 1.0 times the file; identifier,
 * exposure and density alone, 2.5 times. Strips of five steps and nothing else, 18 bytes a row, need 8 times the file.
 */
@Tag("slow")
class ReadingMemoryTest {

    private static final int BASE_MEGABYTES = 6;
    private static final int STEPS = 21;

    @TempDir
    Path folder;

    /** Reads a table, in a process of its own. */
    public static final class Read {

        private Read() {}

        /**
         * Reads and counts.
         *
         * @param arguments the file
         */
        public static void main(String[] arguments) throws IOException {
            System.out.print(ReadingsTable.read(Path.of(arguments[0])).strips().size());
        }
    }

    private void reads(int strips, String header, IntFunction<String> start) throws IOException, InterruptedException {
        Path table = folder.resolve("table.csv");
        Random random = new Random(1);
        try (Writer writer = Files.newBufferedWriter(table)) {
            writer.write(header + ",log_exposure,density\n");
            for (int strip = 0; strip < strips; strip++) {
                for (int i = 0; i < STEPS; i++) {
                    writer.write(String.format(
                            Locale.ROOT,
                            "%s,%.2f,%.2f%n",
                            start.apply(strip),
                            -3 + 0.15 * i,
                            0.2 + 0.04 * i + 0.03 * random.nextDouble()));
                }
            }
        }
        long limit = 3 * Files.size(table) / 1024 + BASE_MEGABYTES * 1024L;
        Processes.Result ended = Processes.run(
                folder,
                folder,
                "java",
                "-Xmx" + limit + "k",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                Processes.testPath(),
                Read.class.getName(),
                table.toString());
        assertEquals(0, ended.status(), ended.errors());
        assertEquals(Integer.toString(strips), ended.output());
    }

    @Test
    void identifierExposureAndDensityAlone() throws IOException, InterruptedException {
        reads(10_000, "strip", strip -> "S" + strip);
    }

    @Test
    void everyRowDescribesItsStrip() throws IOException, InterruptedException {
        reads(
                2_500,
                "strip,film,developer,minutes,celsius,box_speed",
                strip -> "S" + strip + ",Invented " + strip + ",bath 1+1,8.5,20,125");
    }
}
