// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

/**
 * What a page was made of, so that it can be made again: when, by which version, from which files, with which options.
 *
 * @param date the day
 * @param version the program and its version
 * @param command the command line, files by their names alone
 * @param inputs the files read, with their digests
 * @param instruments what the user states of the instruments, or that it is not stated
 */
public record Provenance(
        LocalDate date, String version, String command, List<Input> inputs, List<Instrument> instruments) {

    private static final int BLOCK = 1 << 16;

    /**
     * A file that was read.
     *
     * @param name its name
     * @param sha256 the SHA-256 digest of its bytes, in hexadecimal digits
     */
    public record Input(String name, String sha256) {}

    /**
     * An instrument.
     *
     * @param role what it served for, such as densitometer
     * @param name what the user calls it; empty if it is not stated
     */
    public record Instrument(String role, String name) {}

    /**
     * Copies the lists.
     *
     * @param date the day
     * @param version the program and its version
     * @param command the command line
     * @param inputs the files read
     * @param instruments the instruments
     */
    public Provenance {
        inputs = List.copyOf(inputs);
        instruments = List.copyOf(instruments);
    }

    /**
     * Returns a copy with one instrument more.
     *
     * @param role what it served for, such as densitometer
     * @param name what the user calls it; empty if it is not stated
     * @return the copy
     */
    public Provenance with(String role, String name) {
        List<Instrument> more = new ArrayList<>(instruments);
        more.add(new Instrument(role, name));
        return new Provenance(date, version, command, inputs, more);
    }

    /**
     * Returns the provenance of a run of today.
     *
     * @param program the name of the program
     * @param version the program and its version
     * @param arguments the command line; an argument that names a file is stated by the file's name, and its digest given
     * @return the provenance
     * @throws IOException if a file cannot be read
     */
    public static Provenance of(String program, String version, List<String> arguments) throws IOException {
        StringBuilder command = new StringBuilder(program);
        List<Input> inputs = new ArrayList<>();
        for (String argument : arguments) {
            int equals = argument.indexOf('=');
            String before = equals < 0 ? "" : argument.substring(0, equals + 1);
            String value = argument.substring(equals + 1);
            String shown = argument;
            Path file = path(value);
            if (file != null && Files.isRegularFile(file)) {
                inputs.add(new Input(file.getFileName().toString(), digest(file)));
                shown = before + file.getFileName();
            } else if (file != null && Files.isDirectory(file)) {
                shown = before + file.getFileName();
            }
            command.append(' ').append(shown.matches("[\\w.,:=+/-]+") ? shown : "'" + shown + "'");
        }
        return new Provenance(
                LocalDate.now(java.time.ZoneId.systemDefault()), version, command.toString(), inputs, List.of());
    }

    private static Path path(String text) {
        try {
            return text.isBlank() ? null : Path.of(text);
        } catch (java.nio.file.InvalidPathException e) {
            return null;
        }
    }

    private static String digest(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            byte[] block = new byte[BLOCK];
            for (int read = in.read(block); read > 0; read = in.read(block)) {
                digest.update(block, 0, read);
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
