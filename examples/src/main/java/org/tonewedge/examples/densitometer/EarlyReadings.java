// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.BiPredicate;
import java.util.function.Consumer;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.input.LogLayout;

/**
 * Shows the first readings of a live log at once, by a layout guessed from the first line and revised as more lines come.
 * A revised layout reads all lines anew, and says so.
 */
final class EarlyReadings implements BiPredicate<List<String>, Optional<LayoutGuess>> {

    private static final int FEWEST = 8;
    private static final int MOST = 40;
    private static final int LONGEST_SHOWN = 60;

    private final BiFunction<LogLayout, Consumer<String>, TabletGuide> guides;
    private final Consumer<String> line;
    private LogLayout layout;
    private int told;
    private int seen;

    /** Guides are made for a layout and for where their lines go. */
    EarlyReadings(BiFunction<LogLayout, Consumer<String>, TabletGuide> guides, Consumer<String> line) {
        this.guides = guides;
        this.line = line;
    }

    @Override
    public boolean test(List<String> lines, Optional<LayoutGuess> guess) {
        if (guess.isPresent() && isClear(guess.get().layout())) {
            follow(guess.get(), lines);
        } else {
            for (String text : lines.subList(seen, lines.size())) {
                if (text.chars().anyMatch(Character::isDigit)) {
                    line.accept("received " + shown(text) + ": not clear yet "
                            + (guess.isPresent() ? "which step it is" : "where the density stands"));
                }
            }
        }
        seen = lines.size();
        return guess.isPresent()
                && (guess.get().matched() >= MOST
                        || (guess.get().matched() >= FEWEST
                                && isClear(guess.get().layout())));
    }

    /** Columns without a header show only after some lines which of them is the step. */
    private static boolean isClear(LogLayout layout) {
        return layout.namesSteps() || layout.isBare();
    }

    private void follow(LayoutGuess guess, List<String> lines) {
        if (layout == null) {
            line.accept("the layout is guessed from the first lines: \"" + guess.layout()
                    + "\"; it is revised if later lines do not fit");
        } else if (!layout.readsAs(guess.layout())) {
            line.accept("the layout is revised to \"" + guess.layout() + "\"; all lines so far are read anew");
            told = 0;
        }
        layout = guess.layout();
        List<String> words = new ArrayList<>();
        byte[] text = (String.join("\n", lines) + "\n").getBytes(StandardCharsets.ISO_8859_1);
        try {
            DensitometerLogReader.of(layout).read(new ByteArrayInputStream(text), guides.apply(layout, words::add));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (DensitometerInputException e) {
            // the guide itself stops at such a line, and says why
        }
        words.subList(Math.min(told, words.size()), words.size()).forEach(line);
        told = Math.max(told, words.size());
    }

    /** Where the lines of the guide go after the guess, without those that were shown already. */
    Consumer<String> after(LogLayout guessed) {
        if (layout == null || !layout.readsAs(guessed)) {
            return line;
        }
        int[] left = {told};
        return words -> {
            if (left[0] > 0) {
                left[0]--;
            } else {
                line.accept(words);
            }
        };
    }

    private static String shown(String text) {
        String ascii = text.strip().replaceAll("[^ -~]", "?");
        return '"' + (ascii.length() > LONGEST_SHOWN ? ascii.substring(0, LONGEST_SHOWN) + "..." : ascii) + '"';
    }
}
