// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;

/** What is asked of a file before it is read, so that a message can name it. */
public final class InputFiles {

    private static final int BUFFER = 1 << 16;

    private static final long MOST_STREAMED = 1L << 30;

    private InputFiles() {}

    /**
     * Returns a file that is there; the streams of Java tell of a directory without its name.
     *
     * @param file the file, as the user gave it
     * @return the file
     * @throws NoSuchFileException if there is none
     * @throws IllegalArgumentException if it is a directory, or the name is empty
     */
    public static Path existing(Path file) throws NoSuchFileException {
        if (file.toString().isEmpty()) {
            throw new IllegalArgumentException("an input has no name; give the path of a file");
        }
        if (Files.isDirectory(file)) {
            throw new IllegalArgumentException(file + " is a directory; give the path of a file in it");
        }
        if (!Files.exists(file)) {
            throw new NoSuchFileException(file.toString());
        }
        return file;
    }

    /**
     * Returns an input that can be read more than once. A pipe, a device or {@code -}, the standard input, is read to its end
     * into a temporary file of the same name, which is deleted when the program ends.
     *
     * @param file the file, as the user gave it
     * @return the file itself, or the temporary one
     * @throws NoSuchFileException if there is none
     * @throws IOException if it cannot be read
     * @throws IllegalArgumentException if it is a directory, or a stream of more than a gigabyte
     */
    public static Path rereadable(Path file) throws IOException {
        boolean standardInput = file.toString().equals("-") && !Files.exists(file);
        if (!standardInput && Files.isRegularFile(existing(file))) {
            return file;
        }
        Path folder = Files.createTempDirectory("tonewedge");
        Path copy = folder.resolve(standardInput ? "standard input" : String.valueOf(file.getFileName()));
        folder.toFile().deleteOnExit();
        copy.toFile().deleteOnExit();
        try (InputStream stream = standardInput ? System.in : new FileInputStream(file.toFile());
                OutputStream out = Files.newOutputStream(copy)) {
            byte[] buffer = new byte[BUFFER];
            long length = 0;
            for (int n = stream.read(buffer); n >= 0; n = stream.read(buffer)) {
                length += n;
                if (length > MOST_STREAMED) {
                    throw new IllegalArgumentException(file + " streams more than a gigabyte; is it the right input?");
                }
                out.write(buffer, 0, n);
            }
        }
        return copy;
    }
}
