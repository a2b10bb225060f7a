// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** Says why no layout fits, using the first line of the most frequent kind among lines with digits. */
final class RefusedGuess {

    private static final int LONGEST_SHOWN = 80;
    private static final int MOST_NAMES = 8;
    private static final String REMEDY =
            "state the layout, such as \"keys step=S density=D\" or \"comma step=1 density=2\"";

    private RefusedGuess() {}

    static DensitometerInputException of(List<String> lines) {
        String fault = "no layout can be guessed from the first " + lines.size() + " lines";
        Optional<Integer> usual = usual(lines);
        if (usual.isEmpty()) {
            return new DensitometerInputException(
                    Fault.WRONG_FORMAT,
                    "log",
                    0,
                    fault + ", none of which has a number",
                    "send the readings, then " + REMEDY);
        }
        String line = lines.get(usual.get()).strip();
        String remedy = Numerals.isAscii(line)
                ? REMEDY
                : "print ASCII text alone, such as C in place of a degree sign, at the right baud rate";
        return new DensitometerInputException(
                Fault.WRONG_FORMAT,
                "log",
                0,
                fault + ": line " + (usual.get() + 1) + " \"" + shown(line) + "\" " + why(line),
                remedy);
    }

    private static Optional<Integer> usual(List<String> lines) {
        Map<String, List<Integer>> shapes = new LinkedHashMap<>();
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i).strip();
            if (line.chars().anyMatch(Character::isDigit) && !line.startsWith("#") && !line.startsWith("//")) {
                String shape = line.replaceAll("[0-9]+", "0");
                shapes.computeIfAbsent(shape, key -> new ArrayList<>()).add(i);
            }
        }
        List<Integer> best = List.of();
        for (List<Integer> places : shapes.values()) {
            best = places.size() > best.size() ? places : best;
        }
        return best.stream().findFirst();
    }

    private static String shown(String line) {
        String ascii = line.replaceAll("[^ -~]", "?");
        return ascii.length() > LONGEST_SHOWN ? ascii.substring(0, LONGEST_SHOWN) + "..." : ascii;
    }

    private static String why(String line) {
        if (!Numerals.isAscii(line)) {
            return "has bytes that are not ASCII text";
        }
        String rest = LinePrefix.of(line, List.of(), new TimeStamps()).rest();
        if (rest.startsWith("{")) {
            LinePairs pairs = LinePairs.of(LogForm.JSON, rest, false);
            return pairs.isUnreadable() || pairs.isCut() ? "is not a whole object of JSON" : names(pairs);
        }
        for (LogForm form : List.of(LogForm.COMMA, LogForm.TAB, LogForm.SEMICOLON, LogForm.BLANK)) {
            List<String> fields = form.fields(rest);
            long numbers = fields.stream()
                    .filter(text -> Numerals.number(text.replace(',', '.')).isPresent())
                    .count();
            if (fields.size() > 1 && numbers == fields.size()) {
                return "has " + fields.size() + " columns in the form " + form.word()
                        + ", but no header names them, and none of them alone looks like densities: numbers with"
                        + " decimals from -0.2 to 6, in two lines or more";
            }
            if (fields.size() > 1 && numbers > 0 && form != LogForm.BLANK) {
                return "has " + fields.size() + " fields in the form " + form.word()
                        + ", but no header with a known name of a density or of a sample count came before it";
            }
        }
        LinePairs keys = LinePairs.of(LogForm.KEYS, rest, false);
        if (!keys.values().isEmpty() && !keys.isUnreadable()) {
            return names(keys);
        }
        LinePairs words = LinePairs.of(LogForm.WORDS, rest, false);
        if (words.isUnreadable()) {
            return "has a number that goes with no word, or a word that is neither a name nor a number";
        }
        return words.values().isEmpty() ? "has no number in a known form" : names(words);
    }

    private static String names(LinePairs pairs) {
        Collection<String> names = pairs.values().keySet();
        boolean known = names.stream().anyMatch(LayoutGuess::isOfDensity);
        String all = String.join(", ", names.stream().limit(MOST_NAMES).toList())
                + (names.size() > MOST_NAMES ? ", ..." : "");
        return known
                ? "has the names " + all + ", but no number of a density, or counts without those of the open gate"
                : "has the names " + all + ", none of which is known as a density or as a sample count";
    }
}
