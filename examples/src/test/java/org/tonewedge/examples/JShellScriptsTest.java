package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** JShell carries on after an error and exits with 0, so what it says decides. */
class JShellScriptsTest {

    @TempDir
    Path scratch;

    @Test
    void firstLook() throws Exception {
        // On its first run JShell tells on the error stream that it made this directory.
        Files.createDirectories(scratch.resolve(".java/.userPrefs"));
        Processes.Result result = Processes.run(
                ProjectFiles.root(),
                scratch,
                "jshell",
                "-J-Dfile.encoding=UTF-8",
                "-J-Djava.util.prefs.userRoot=" + scratch,
                "-R-Dfile.encoding=UTF-8",
                "--class-path",
                Processes.modulePath(),
                "examples/src/main/jshell/first-look.jsh");
        assertEquals("", result.errors());
        assertEquals(0, result.status());
        assertEquals(4, result.output().lines().count(), result.output());
        assertTrue(result.output().startsWith("speed 16/13°, not an ISO speed"), result.output());
        assertTrue(result.output().contains("gamma G 2."), result.output());
    }
}
