// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * Tables of the demo data as the programs wrote them when they were last looked at, kept under
 * {@code examples/src/test/resources/golden} and compared byte for byte: no change of the code moves a published figure
 * unseen. They are no evidence that a figure is right; other tests are.
 *
 * <p>After a change that is meant to move figures, write them anew, look at the difference and say its reason in the
 * commit:
 *
 * <pre>{@code
 * mvn test -pl examples -am -Dtest='*ProgramTest' -Dsurefire.failIfNoSpecifiedTests=false -Dtonewedge.golden=write
 * git diff --stat examples/src/test/resources/golden
 * }</pre>
 */
public final class GoldenFiles {

    private static final boolean WRITE = "write".equals(System.getProperty("tonewedge.golden"));

    private GoldenFiles() {}

    /**
     * Compares every table of a directory with the one of its name that is kept.
     *
     * @param run the folder of the kept tables
     * @param results where a program wrote its tables
     */
    public static void assertTablesAsKept(String run, Path results) throws IOException {
        Path kept = ProjectFiles.root().resolve("examples/src/test/resources/golden/" + run);
        if (WRITE) {
            Files.createDirectories(kept);
            for (String stale : tables(kept)) {
                Files.delete(kept.resolve(stale));
            }
            for (String table : tables(results)) {
                Files.copy(results.resolve(table), kept.resolve(table));
            }
        }
        List<String> names = tables(kept);
        assertTrue(!names.isEmpty(), "nothing is kept in " + kept);
        assertEquals(names, tables(results));
        for (String name : names) {
            List<String> was = Files.readAllLines(kept.resolve(name));
            List<String> is = Files.readAllLines(results.resolve(name));
            for (int i = 0; i < Math.min(was.size(), is.size()); i++) {
                assertEquals(was.get(i), is.get(i), run + "/" + name + ", line " + (i + 1));
            }
            assertArrayEquals(
                    Files.readAllBytes(kept.resolve(name)),
                    Files.readAllBytes(results.resolve(name)),
                    run + "/" + name);
        }
    }

    private static List<String> tables(Path directory) throws IOException {
        try (Stream<Path> files = Files.list(directory)) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".csv"))
                    .sorted()
                    .toList();
        }
    }
}
