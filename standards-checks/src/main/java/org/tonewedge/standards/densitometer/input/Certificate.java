// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The certificate of a step tablet, with its other statements: the {@link StatedKind kind} of density, and
 * remarks such as date, laboratory and number.
 *
 * <pre>
 * # kind: reflection
 * # geometry: annular 45/0
 * # date: 2026-01-31
 * step,density_red,density_green,density_blue,expanded_uncertainty
 * 1,0.052,0.054,0.061,0.006
 * 2,0.201,0.205,0.212,0.006
 * </pre>
 *
 * <p>With one column {@code density} it is a table as {@link CertificateTable} reads it. With columns {@code density_NAME} it
 * has a channel for each, with the column {@code expanded_uncertainty_NAME}, or {@code expanded_uncertainty} for all.
 *
 * <p>Immutable and thread safe.
 */
public final class Certificate {

    private static final int MOST_BYTES = 1 << 20;
    private static final String CHANNEL = "density_";

    private final String name;
    private final Map<String, StepTablet> channels;
    private final Map<String, String> remarks;
    private final StatedKind kind;

    private Certificate(String name, Map<String, StepTablet> channels, Map<String, String> remarks, StatedKind kind) {
        this.name = name;
        this.channels = channels;
        this.remarks = remarks;
        this.kind = kind;
    }

    /**
     * Reads a certificate from its bytes, in UTF-8.
     *
     * @param name the tablet's name or serial number, or the name of the file
     * @param table the bytes of the table; they are read to their end and not closed
     * @return the certificate
     * @throws IOException if the stream fails
     * @throws DensitometerInputException if the bytes are not a certificate in UTF-8; the message says what they appear to be
     *     (UTF-16, gzip, a spreadsheet), or names the line
     */
    public static Certificate read(String name, InputStream table) throws IOException {
        Objects.requireNonNull(name, "name");
        byte[] bytes = table.readNBytes(MOST_BYTES + 1);
        Optional<ForeignFormat> foreign = ForeignFormat.of(bytes, bytes.length);
        if (foreign.isPresent()) {
            throw foreign.get().refusal(name);
        }
        if (bytes.length > MOST_BYTES) {
            throw new DensitometerInputException(
                    Fault.TOO_LARGE,
                    name,
                    0,
                    "the certificate is longer than " + MOST_BYTES + " bytes",
                    "is it the right file?");
        }
        try {
            return of(
                    StandardCharsets.UTF_8
                            .newDecoder()
                            .decode(ByteBuffer.wrap(bytes))
                            .toString(),
                    name);
        } catch (CharacterCodingException e) {
            throw new DensitometerInputException(
                    Fault.UNREADABLE, name, 0, "the certificate has bytes that are not UTF-8", "save it as UTF-8");
        }
    }

    private static Certificate of(String text, String name) throws IOException {
        List<String> lines = text.lines().toList();
        Map<String, String> remarks = new LinkedHashMap<>();
        for (String line : lines) {
            String remark = line.startsWith("#") ? line.substring(1).strip() : "";
            int colon = remark.indexOf(':');
            if (colon > 0) {
                remarks.putIfAbsent(
                        remark.substring(0, colon).strip(),
                        remark.substring(colon + 1).strip());
            }
        }
        StatedKind kind = StatedKind.ofRemarks(
                lines.stream().filter(line -> line.startsWith("#")).toList(), name);
        Map<String, StepTablet> channels = new LinkedHashMap<>();
        for (String channel : CertificateTable.channels(text)) {
            channels.put(channel, CertificateTable.readChannel(name, text, channel));
        }
        return new Certificate(name, channels, remarks, kind);
    }

    /**
     * Returns the names of the channels.
     *
     * @return the names in the order of the columns; none for a certificate of one density
     */
    public List<String> channels() {
        List<String> names = new ArrayList<>(channels.keySet());
        names.remove("");
        return List.copyOf(names);
    }

    /**
     * Returns the tablet of a certificate with one density.
     *
     * @return the tablet
     * @throws DensitometerInputException if the certificate has several channels
     */
    public StepTablet tablet() {
        StepTablet tablet = channels.get("");
        if (tablet == null) {
            throw new DensitometerInputException(
                    Fault.AMBIGUOUS,
                    name,
                    0,
                    "there are " + channels.size() + " columns of densities: "
                            + String.join(
                                    ", ",
                                    channels.keySet().stream()
                                            .map(CHANNEL::concat)
                                            .toList()),
                    "judge channel by channel, or keep the one that the densitometer reads and call it density");
        }
        return tablet;
    }

    /**
     * Returns the tablet in one channel.
     *
     * @param channel the name, as in the column {@code density_NAME}
     * @return the tablet
     * @throws DensitometerInputException if there is no such channel
     */
    public StepTablet tablet(String channel) {
        Objects.requireNonNull(channel, "channel");
        StepTablet tablet = channels.get(channel);
        if (tablet == null || channel.isEmpty()) {
            throw new DensitometerInputException(
                    Fault.UNKNOWN_NAME,
                    name,
                    0,
                    "there is no channel " + channel,
                    channels().isEmpty()
                            ? "add a column " + CHANNEL + channel
                            : "the channels are " + String.join(", ", channels()));
        }
        return tablet;
    }

    /**
     * Returns what the remarks say about the kind of density.
     *
     * @return the kind, possibly empty
     */
    public StatedKind kind() {
        return kind;
    }

    /**
     * Refuses readings of another kind of density.
     *
     * @param stated what the log or the user states
     * @throws DensitometerInputException if a part is stated by both and differs
     */
    public void checkKind(StatedKind stated) {
        Optional<String> difference = stated.differenceFrom(kind);
        if (difference.isPresent()) {
            throw new DensitometerInputException(
                    Fault.CONTRADICTION,
                    name,
                    0,
                    "the readings are of " + difference.get() + " as certified",
                    "read the tablet with the geometry and response of its certificate, or take the tablet for this one");
        }
    }

    /**
     * Returns the remarks of the form {@code # name: text}.
     *
     * @return the texts by their names, in their order
     */
    public Map<String, String> remarks() {
        return Collections.unmodifiableMap(remarks);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and the channels
     */
    @Override
    public String toString() {
        return name + ": certificate of " + channels.size() + (channels.size() == 1 ? " channel" : " channels");
    }
}
