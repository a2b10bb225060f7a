// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

class InputFilesTest {

    private static final String TABLE = "strip,log_exposure,density\nA,,0.2\n";

    @TempDir
    Path folder;

    /** A table is opened twice, to see what it is and to read it; a pipe gives its bytes once. */
    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aPipeCanBeReadTwice() throws Exception {
        Path pipe = folder.resolve("alder.csv");
        assertEquals(0, new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor());
        CompletableFuture<Path> writer = CompletableFuture.supplyAsync(() -> write(pipe));
        Path copy = InputFiles.rereadable(pipe);
        writer.join();
        assertEquals(TABLE, Files.readString(copy));
        assertEquals(TABLE, Files.readString(copy));
        assertEquals("alder.csv", copy.getFileName().toString(), "messages name the pipe");
    }

    @Test
    void aHyphenIsTheStandardInput() throws Exception {
        InputStream before = System.in;
        System.setIn(new ByteArrayInputStream(TABLE.getBytes(StandardCharsets.UTF_8)));
        try {
            assertEquals(TABLE, Files.readString(InputFiles.rereadable(Path.of("-"))));
        } finally {
            System.setIn(before);
        }
    }

    @Test
    void aFileIsReadWhereItLies() throws Exception {
        Path file = Files.writeString(folder.resolve("birch.csv"), TABLE);
        assertSame(file, InputFiles.rereadable(file));
        assertThrows(NoSuchFileException.class, () -> InputFiles.rereadable(folder.resolve("none.csv")));
        assertTrue(assertThrows(IllegalArgumentException.class, () -> InputFiles.rereadable(folder))
                .getMessage()
                .contains("is a directory"));
    }

    private static Path write(Path pipe) {
        try {
            return Files.writeString(pipe, TABLE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
