// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.strip.StripCheck;
import org.tonewedge.core.strip.StripFinding;

/** What is doubtful about the strips of a table, in words. */
public final class StripDoubts {

    private static final double MOST_MINUTES = 120;
    private static final int MOST_NAMED = 10;

    /** What more strips than this have in common is told once. */
    private static final int FEW = 2;

    private StripDoubts() {}

    /**
     * Examines strips by {@link StripCheck}, and their times of development.
     *
     * @param strips strips of negative material
     * @return the doubts; a kind of finding that three or more strips have is told of the first, with the names of the
     *     others
     */
    public static List<String> of(List<Strip> strips) {
        Map<StripFinding.Kind, Map<String, List<StripFinding>>> found = new EnumMap<>(StripFinding.Kind.class);
        for (Strip strip : strips) {
            for (StripFinding finding : StripCheck.withDefaults().check(strip)) {
                found.computeIfAbsent(finding.kind(), any -> new LinkedHashMap<>())
                        .computeIfAbsent(strip.id(), any -> new ArrayList<>())
                        .add(finding);
            }
        }
        List<String> doubts = new ArrayList<>();
        overlong(strips).ifPresent(doubts::add);
        for (Map<String, List<StripFinding>> byStrip : found.values()) {
            if (byStrip.size() <= FEW) {
                byStrip.values().forEach(all -> all.forEach(finding -> doubts.add(finding.message())));
            } else {
                List<String> ids = List.copyOf(byStrip.keySet());
                doubts.add(byStrip.get(ids.get(0)).get(0).message() + ". So in " + (ids.size() - 1) + " more strips: "
                        + named(ids.subList(1, ids.size())));
            }
        }
        return doubts;
    }

    /**
     * Names strips whose stated development is so long that it may be in seconds.
     *
     * @param strips the strips
     * @return the caution; nothing if there are none
     */
    public static Optional<String> overlong(List<Strip> strips) {
        List<String> ids = strips.stream()
                .filter(strip ->
                        strip.processing().time().stream().anyMatch(time -> time.toMillis() > MOST_MINUTES * 60_000))
                .map(Strip::id)
                .toList();
        return ids.isEmpty()
                ? Optional.empty()
                : Optional.of("More than 2 hours of development are stated for " + named(ids)
                        + ": were these seconds? The column is minutes.");
    }

    /**
     * Names strips, ten at most.
     *
     * @param ids the identifiers of the strips
     * @return the names
     */
    public static String named(List<String> ids) {
        return ids.stream().limit(MOST_NAMED).map(Checks::shortened).collect(Collectors.joining(", "))
                + (ids.size() > MOST_NAMED ? ", …" : "");
    }
}
