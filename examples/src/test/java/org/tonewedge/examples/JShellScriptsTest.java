// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.examples.guide.FirstLook;

/** JShell carries on after an error and exits with 0, so what it says decides. */
class JShellScriptsTest {

    @TempDir
    Path scratch;

    /**
     * S12 was made 0.4 stop faster than 12, which is 15.8: 16/13° (ISO 6:1993); of contrast 2.2, too much for an ISO speed. The
     * terminal has neither the degree sign nor the minus sign.
     */
    @Test
    void firstLook() throws Exception {
        Processes.Result result =
                Processes.jshell(scratch, "US-ASCII", withExamples(), "examples/src/main/jshell/first-look.jsh");
        assertEquals("", result.errors());
        assertEquals(0, result.status());
        assertEquals(4, result.output().lines().count(), result.output());
        assertTrue(
                result.output().startsWith("speed 16/13 deg, not an ISO speed (density 0.80 +/- 0.05 above"),
                result.output());
        assertTrue(result.output().contains("gamma G 2."), result.output());
    }

    /**
     * The prompt of the README, with three sessions typed into it one after the other. R00 was made with a speed of 116.6; the
     * contrast condition takes 9.311 minutes (559 s) by {@code demo_truth.py}.
     */
    @Test
    void promptAndThreeSessions() throws Exception {
        Processes.Result result = Processes.jshell(
                scratch,
                "UTF-8",
                withExamples(),
                "examples/src/main/jshell/tonewedge.jsh",
                "examples/src/main/jshell/speed.jsh",
                "examples/src/main/jshell/plan.jsh",
                "examples/src/main/jshell/densitometer.jsh",
                scriptThatEnds().toString());
        assertEquals("", result.errors());
        assertEquals(0, result.status());
        String out = result.output();
        assertTrue(out.startsWith("strips.csv: 39 strips"), out);
        assertTrue(out.contains("      +-----"), out);
        assertTrue(out.contains("nominal_speed"), out);
        assertTrue(out.lines().anyMatch(line -> line.matches("speed +1\\d\\d\\.?\\d* \\+/- \\d.*")), out);
        assertTrue(out.lines().anyMatch(line -> line.matches("time +5\\d\\d\\.?\\d* \\+/- \\d.* s")), out);
        assertTrue(out.contains("STRAY_LIGHT at step 21"), out);
        assertTrue(!out.contains("Error") && !out.contains("Exception"), out);
    }

    @Test
    void theFirstProgramOfTheGuideOnATerminalWithoutAMinusSign() throws Exception {
        Processes.Result result = Processes.run(
                ProjectFiles.root(),
                scratch,
                "java",
                "-Dfile.encoding=US-ASCII",
                "-cp",
                withExamples(),
                FirstLook.class.getName(),
                ProjectFiles.demoStrips().getParent().toString());
        assertEquals("", result.errors());
        assertTrue(result.output().startsWith("ISO 125/22 deg"), result.output());
        assertTrue(result.output().contains("(log H -2.1"), result.output());
        assertTrue(result.output().contains(" +/- 0.0"), result.output());
        assertTrue(result.output().indexOf('?') < 0, result.output());
    }

    private static String withExamples() throws Exception {
        return Processes.modulePath() + File.pathSeparator + ProjectFiles.root().resolve("examples/target/classes");
    }

    private Path scriptThatEnds() throws Exception {
        return Files.writeString(scratch.resolve("end.jsh"), "/exit\n");
    }
}
