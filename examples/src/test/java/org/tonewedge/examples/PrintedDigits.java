// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Finds figures that are not rounded to their uncertainty: {@code 61.6616 ± 1.7064}, {@code 0.0001 ± 0.00}. The rule is JCGM
 * 100:2008, 7.2.6: an uncertainty has at most two significant digits, and the figure ends at the same place.
 */
public final class PrintedDigits {

    private static final Pattern PAIR =
            Pattern.compile("([-\u2212]?\\d+)(\\.\\d+)? ?(?:\u00b1|\\+/-) ?(\\d+)(\\.\\d+)?(?!\\d|\\.\\d|[eE][-+\\d])");

    private PrintedDigits() {}

    /** The figures of a text, with or without markup, that break the rule. */
    public static List<String> faults(String text) {
        return PAIR.matcher(text.replaceAll("</(td|th|p|li|text|div|option)>", "|")
                        .replaceAll("<[^>]*>", "")
                        .replace("&#177;", "\u00b1")
                        .replace("&plusmn;", "\u00b1"))
                .results()
                .filter(pair -> !isRounded(pair))
                .map(MatchResult::group)
                .toList();
    }

    private static boolean isRounded(MatchResult pair) {
        String decimals = pair.group(4) == null ? "" : pair.group(4);
        if (pair.group(3).equals("0") && decimals.isEmpty()) {
            return true; // exact
        }
        String digits = (pair.group(3) + decimals.replace(".", "")).replaceFirst("^0+", "");
        if (decimals.isEmpty()) {
            digits = digits.replaceFirst("0+$", "");
        }
        int places = pair.group(2) == null ? 0 : pair.group(2).length();
        return !digits.isEmpty() && digits.length() <= 2 && places == decimals.length();
    }

    /** The faults of all texts and pages of a folder, each with its file. */
    public static List<String> faultsOf(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(
                            file -> Files.isRegularFile(file) && file.toString().matches(".*\\.(txt|html|md|svg)"))
                    .sorted()
                    .flatMap(file -> faults(read(file)).stream().map(fault -> folder.relativize(file) + ": " + fault))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
