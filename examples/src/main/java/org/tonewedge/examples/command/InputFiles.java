// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;

/** What is asked of a file before it is read, so that a message can name it. */
public final class InputFiles {

    private InputFiles() {}

    /**
     * Returns a file that is there; the streams of Java tell of a directory without its name.
     *
     * @param file the file, as the user gave it
     * @return the file
     * @throws NoSuchFileException if there is none
     * @throws IllegalArgumentException if it is a directory
     */
    public static Path existing(Path file) throws NoSuchFileException {
        if (Files.isDirectory(file)) {
            throw new IllegalArgumentException(file + " is a directory; give the path of a file in it");
        }
        if (!Files.exists(file)) {
            throw new NoSuchFileException(file.toString());
        }
        return file;
    }
}
