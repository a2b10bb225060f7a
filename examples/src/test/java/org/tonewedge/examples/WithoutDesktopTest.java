// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The comparison on a Java without the module that draws charts, as in small run-time images. */
class WithoutDesktopTest {

    @TempDir
    Path scratch;

    private Processes.Result compare(String... more) throws Exception {
        List<String> arguments = new ArrayList<>(List.of(
                "--limit-modules",
                "java.base,java.logging,java.sql,java.xml",
                "-cp",
                Processes.testPath(),
                "org.tonewedge.examples.comparison.FilmComparisonProgram",
                ProjectFiles.root().resolve("examples/demo/development.csv").toString(),
                "--reference",
                "D2",
                "--out",
                scratch.resolve("out").toString()));
        arguments.addAll(List.of(more));
        return Processes.run(scratch, scratch, "java", arguments.toArray(String[]::new));
    }

    @Test
    void chartsAreRefusedInOneLine() throws Exception {
        Processes.Result result = compare();
        assertTrue(
                result.errors()
                        .contains("film-comparison: charts need the module java.desktop, which this Java lacks; use a"
                                + " whole JDK, or add --no-plots"),
                result::errors);
        assertTrue(result.errors().lines().noneMatch(line -> line.startsWith("\tat ")), result::errors);
        assertEquals(2, result.status());
    }

    @Test
    void theRestIsWrittenWithoutPlots() throws Exception {
        Processes.Result result = compare("--no-plots");
        assertTrue(Files.exists(scratch.resolve("out/report.html")), result::errors);
    }
}
