// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The kind of density that a certificate or a log states, such as transmission, diffuse, visual; each part may be left out.
 *
 * <p>Certificates and logs state it in remarks: {@code # kind: transmission}, {@code # geometry: diffuse}, {@code # response:
 * visual}. The kind is transmission or reflection. Geometry and response are compared as they are written, letters of either
 * case being the same.
 *
 * <p>Immutable and thread safe.
 *
 * @source the three parts of a density's name: ISO 5-1, functional notation, from memory
 */
public final class StatedKind {

    private enum Part {
        KIND,
        GEOMETRY,
        RESPONSE;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static final List<String> KINDS = List.of("transmission", "reflection");

    private final Map<Part, String> parts;

    private StatedKind(Map<Part, String> parts) {
        this.parts = parts;
    }

    /**
     * Reads what remarks state.
     *
     * @param remarks the remarks, with or without the {@code #} before them; remarks on anything else are ignored
     * @param source the source of the remarks, for messages
     * @return the statement; empty if there is no such remark
     * @throws DensitometerInputException if the kind is neither transmission nor reflection, or one part is stated twice
     *     differently
     */
    public static StatedKind ofRemarks(List<String> remarks, String source) {
        Objects.requireNonNull(source, "source");
        Map<Part, String> parts = new EnumMap<>(Part.class);
        for (String remark : remarks) {
            String text = remark.replaceFirst("^[#/ \t]+", "");
            int colon = text.indexOf(':');
            for (Part part : Part.values()) {
                if (colon > 0 && text.substring(0, colon).strip().equalsIgnoreCase(part.word())) {
                    String value = text.substring(colon + 1).strip().toLowerCase(Locale.ROOT);
                    String before = parts.putIfAbsent(part, value);
                    if (before != null && !before.equals(value)) {
                        throw new DensitometerInputException(
                                Fault.CONTRADICTION,
                                source,
                                0,
                                "the " + part.word() + " is stated as " + before + " and as " + value,
                                "keep one of them");
                    }
                }
            }
        }
        String kind = parts.get(Part.KIND);
        if (kind != null && !KINDS.contains(kind)) {
            throw new DensitometerInputException(
                    Fault.UNKNOWN_NAME,
                    source,
                    0,
                    "the kind \"" + kind + "\" is not known",
                    "state transmission or reflection");
        }
        return new StatedKind(parts);
    }

    /**
     * Tells whether nothing is stated.
     *
     * @return true if there is no part
     */
    public boolean isEmpty() {
        return parts.isEmpty();
    }

    /**
     * Returns the first part in which two statements differ.
     *
     * @param other another statement
     * @return the difference in words, such as {@code kind reflection, not transmission}; nothing if no part that both state
     *     differs
     */
    public Optional<String> differenceFrom(StatedKind other) {
        Objects.requireNonNull(other, "other");
        return parts.entrySet().stream()
                .filter(part -> other.parts.containsKey(part.getKey())
                        && !other.parts.get(part.getKey()).equals(part.getValue()))
                .findFirst()
                .map(part -> part.getKey().word() + ' ' + part.getValue() + ", not " + other.parts.get(part.getKey()));
    }

    /**
     * Returns this statement, with the parts it lacks from another.
     *
     * @param other the other statement
     * @return both together
     */
    public StatedKind orElse(StatedKind other) {
        Map<Part, String> both = new EnumMap<>(Part.class);
        both.putAll(other.parts);
        both.putAll(parts);
        return new StatedKind(both);
    }

    /**
     * Returns the statement in words.
     *
     * @return for example {@code transmission, diffuse, visual}; empty if nothing is stated
     */
    @Override
    public String toString() {
        return parts.values().stream().collect(Collectors.joining(", "));
    }
}
