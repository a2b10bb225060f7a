// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.File;
import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** A device, pipe or file that the log is read from; a terminal's own settings are left to the tool {@code stty}. */
final class SerialDevice {

    /** The bits of a Unix file mode that tell its type: POSIX sys/stat.h. */
    private static final int FILE_TYPE = 0170000;

    private static final int CHARACTER_DEVICE = 0020000;

    private SerialDevice() {}

    /** Opens anything that can be read, and never seeks. */
    static InputStream open(Path path) throws IOException {
        return new FileInputStream(path.toFile()) {
            @Override
            public int available() {
                return 0;
            }
        };
    }

    /**
     * Sets the speed of a terminal and switches its echo off, which would send each line back to the instrument; says what
     * it is set to.
     */
    static void prepare(Path device, Optional<Integer> baud, Consumer<String> say) throws IOException {
        if (baud.isPresent() && !isCharacterDevice(device)) {
            throw new IllegalArgumentException("--baud is for a serial device; " + device + " is not one");
        }
        if (baud.isPresent()) {
            String speed = Integer.toString(baud.get());
            String fault = stty(device, speed, "raw", "-echo");
            if (!fault.isEmpty()) {
                throw new IllegalArgumentException("--baud " + speed + " could not be set (" + fault
                        + "); set it by: stty -F " + device + " " + speed + " raw -echo");
            }
            say.accept(device + ": " + speed + " baud, echo off");
        } else if (isCharacterDevice(device)) {
            String speed = stty(device, "speed");
            if (speed.matches("[0-9]+")) {
                say.accept(device + ": a terminal at " + speed
                        + " baud, with its settings unchanged; --baud N sets the speed and switches off the echo");
            }
        }
    }

    /** A pipe must not be asked: opening it to ask would cut off whoever writes to it. */
    private static boolean isCharacterDevice(Path path) throws IOException {
        return path.getFileSystem().supportedFileAttributeViews().contains("unix")
                && ((int) Files.getAttribute(path, "unix:mode") & FILE_TYPE) == CHARACTER_DEVICE;
    }

    /** What the tool says, empty if it said nothing; it is not a fault of the check if the tool is absent. */
    private static String stty(Path device, String... settings) throws IOException {
        List<String> command = new ArrayList<>(List.of("stty", "-F", device.toString()));
        command.addAll(List.of(settings));
        try {
            Process process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectInput(ProcessBuilder.Redirect.from(new File("/dev/null")))
                    .start();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
            process.waitFor();
            return said;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return "interrupted";
        } catch (IOException e) {
            return "no tool stty";
        }
    }
}
