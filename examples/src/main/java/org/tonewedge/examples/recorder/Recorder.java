// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.recorder;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Asks for one reading after the other and judges what comes. A value that runs against its neighbours by more than the
 * scatter of readings, or that repeats the step before to the last digit where the curve is steep, is asked for again; it
 * counts when two readings of the step agree. Not thread safe.
 */
final class Recorder {

    /** Readings of one step that differ by no more agree; common practice, no source. */
    private static final double AGREE = 0.02;
    /** Where neighbours differ by more than this, an equal value is taken for one that the device sent twice. */
    private static final double STEEP = 0.05;

    private static final double LEAST = -0.2;
    private static final double GREATEST = 10;
    private static final int BAR = 12;
    private static final Pattern KEYED = Pattern.compile(
            "(?:^|[^a-z])(?:d|dens|density)\\s*[=:]\\s*([+-]?\\d*[.,]?\\d+)(?![\\d.,])", Pattern.CASE_INSENSITIVE);
    private static final Pattern DECIMAL = Pattern.compile("(?<![\\w.,])[+-]?\\d*[.,]\\d+(?![\\d.,])");

    private final RecorderPlan plan;
    private final ReadingsRecord record;
    private final List<Integer> order;
    private final int repeats;
    private final Optional<Pattern> pattern;
    private final PrintWriter out;
    /** Readings of the step asked for that do not agree yet. */
    private final List<String> pending = new ArrayList<>();

    private final Set<String> skipped = new HashSet<>();
    private int strip;
    private int place;
    private boolean finished;

    /**
     * Makes a recorder.
     *
     * @param order the steps of each strip in the order of reading, {@link ReadingsRecord#BASE_PLUS_FOG} among them
     * @param repeats how many readings of each step are wanted
     * @param pattern finds the density in a line of the device, in its first group
     */
    Recorder(
            RecorderPlan plan,
            ReadingsRecord record,
            List<Integer> order,
            int repeats,
            Optional<Pattern> pattern,
            PrintWriter out) {
        this.plan = plan;
        this.record = record;
        this.order = List.copyOf(order);
        this.repeats = repeats;
        this.pattern = pattern;
        this.out = out;
        advance();
    }

    /** Whether nothing is left to ask for in this session. */
    boolean isFinished() {
        return finished;
    }

    /** How many steps lack a reading because they were skipped or not reached. */
    int missing() {
        int missing = 0;
        for (int each = 0; each < plan.strips().size(); each++) {
            for (int step : order) {
                missing += record.readings(each, step).size() < repeats ? 1 : 0;
            }
        }
        return missing;
    }

    /** Says what is to be read now. */
    void ask() {
        if (finished) {
            return;
        }
        out.printf(
                "strip %d of %d, %s, %s, next %s > ",
                strip + 1,
                plan.strips().size(),
                plan.film(strip),
                name(order.get(place)) + (pending.isEmpty() ? "" : " again"),
                place + 1 < order.size()
                        ? name(order.get(place + 1))
                        : strip + 1 < plan.strips().size() ? plan.film(strip + 1) : "the end");
        out.flush();
    }

    private String name(int step) {
        int steps = order.stream().mapToInt(Integer::intValue).max().orElse(0);
        return step == ReadingsRecord.BASE_PLUS_FOG ? "base plus fog" : "step " + step + " of " + steps;
    }

    /** Takes a line of the device or the keyboard; false when the user ends the session. */
    boolean take(String line) throws IOException {
        String text = line.strip();
        switch (text.toLowerCase(Locale.ROOT)) {
            case "" -> {}
            case "q" -> {
                return false;
            }
            case "u" -> undo();
            case "s" -> skip();
            case "n" -> nextStrip();
            case "p" -> plot();
            case "a" -> acceptPending();
            case "?" ->
                out.println("a density, or: u undo, s skip this step, n next strip, a accept the last value as it"
                        + " is, p plot, q quit and continue later");
            default -> reading(text);
        }
        return !finished;
    }

    private void reading(String text) throws IOException {
        Optional<String> found = density(text);
        if (found.isEmpty()) {
            out.println("no density in \"" + shortened(text) + "\"; ? lists the commands");
            return;
        }
        String density = found.get();
        double value = Double.parseDouble(density);
        if (!(value >= LEAST && value <= GREATEST)) {
            out.println("D " + density + " is impossible: a density lies between -0.2 and 10; read again");
            return;
        }
        out.println(bar(order.get(place), density));
        Optional<String> agreed = pending.stream()
                .filter(before -> Math.abs(Double.parseDouble(before) - value) <= AGREE + 1e-9)
                .findFirst();
        if (agreed.isPresent()) {
            accept(List.of(agreed.get(), density));
            return;
        }
        Optional<String> doubt = doubt(value, density);
        if (pending.isEmpty() && doubt.isEmpty()) {
            accept(List.of(density));
            return;
        }
        pending.add(density);
        out.println(doubt.orElse("the readings of this step differ by more than " + AGREE)
                + "; read it again (a accepts it)");
    }

    private static String shortened(String text) {
        return text.substring(0, Math.min(80, text.length())).replaceAll("\\p{Cntrl}", "?");
    }

    private Optional<String> density(String text) {
        if (pattern.isPresent()) {
            Matcher stated = pattern.get().matcher(text);
            return stated.find() ? number(stated.group(1)) : Optional.empty();
        }
        if (number(text).isPresent()) {
            return number(text);
        }
        Matcher keyed = KEYED.matcher(text);
        if (keyed.find()) {
            return number(keyed.group(1));
        }
        List<String> decimals =
                DECIMAL.matcher(text).results().map(hit -> hit.group()).toList();
        return decimals.size() == 1 ? number(decimals.get(0)) : Optional.empty();
    }

    private static Optional<String> number(String text) {
        String plain = text == null ? "" : text.replace(',', '.');
        return plain.matches("[+-]?(\\d+|\\d*\\.\\d+)") ? Optional.of(plain) : Optional.empty();
    }

    /** Why a value is asked for again; empty if it agrees with its neighbours. */
    private Optional<String> doubt(double value, String density) {
        int step = order.get(place);
        if (step == ReadingsRecord.BASE_PLUS_FOG) {
            return Optional.empty();
        }
        OptionalDouble base = mean(ReadingsRecord.BASE_PLUS_FOG);
        if (base.isPresent() && value < base.getAsDouble() - STEEP) {
            return Optional.of(
                    String.format(Locale.ROOT, "D %s is below base plus fog, D %.3f", density, base.getAsDouble()));
        }
        // Step 1 lies under the clear end and is the densest.
        OptionalDouble denser = mean(step - 1);
        OptionalDouble thinner = mean(step + 1);
        if (step > 1 && denser.isPresent() && value > denser.getAsDouble() + AGREE) {
            return Optional.of(against(density, step - 1, "above", denser.getAsDouble()));
        }
        if (thinner.isPresent() && value < thinner.getAsDouble() - AGREE) {
            return Optional.of(against(density, step + 1, "below", thinner.getAsDouble()));
        }
        int direction = place > 0 && order.get(place - 1) > step ? 1 : -1;
        OptionalDouble last = step + direction > 0 ? mean(step + direction) : OptionalDouble.empty();
        OptionalDouble before = step + 2 * direction > 0 ? mean(step + 2 * direction) : OptionalDouble.empty();
        if (last.isPresent()
                && before.isPresent()
                && value == last.getAsDouble()
                && Math.abs(last.getAsDouble() - before.getAsDouble()) > STEEP) {
            return Optional.of("D " + density + " repeats the step before it to the last digit");
        }
        return Optional.empty();
    }

    private static String against(String density, int step, String where, double neighbour) {
        return String.format(Locale.ROOT, "D %s is %s that of step %d, D %.3f", density, where, step, neighbour);
    }

    private OptionalDouble mean(int step) {
        return record.readings(strip, step).stream()
                .mapToDouble(Double::parseDouble)
                .average();
    }

    private void accept(List<String> densities) throws IOException {
        for (String density : densities) {
            record.add(strip, order.get(place), density);
        }
        pending.clear();
        advance();
    }

    private void acceptPending() throws IOException {
        if (pending.isEmpty()) {
            out.println("there is no value to accept");
        } else {
            accept(List.of(pending.get(pending.size() - 1)));
        }
    }

    private void undo() throws IOException {
        if (!pending.isEmpty()) {
            out.println("forgotten: D " + pending.remove(pending.size() - 1));
            return;
        }
        if (!record.undo()) {
            out.println("nothing to undo");
            return;
        }
        out.println("the last reading is removed");
        skipped.clear();
        advance();
    }

    private void skip() {
        skipped.add(strip + "/" + order.get(place));
        pending.clear();
        advance();
    }

    private void nextStrip() {
        order.forEach(step -> skipped.add(strip + "/" + step));
        pending.clear();
        advance();
    }

    /** Goes to the first step that still lacks a reading. */
    private void advance() {
        int from = strip;
        for (strip = 0; strip < plan.strips().size(); strip++) {
            for (place = 0; place < order.size(); place++) {
                int step = order.get(place);
                if (!skipped.contains(strip + "/" + step)
                        && record.readings(strip, step).size() < repeats) {
                    if (from < strip) {
                        out.println();
                    }
                    return;
                }
            }
        }
        finished = true;
    }

    private void plot() {
        out.println(plan.film(strip));
        for (int step : order) {
            for (String density : record.readings(strip, step)) {
                out.println(bar(step, density));
            }
        }
    }

    /** One line of the plot: a star, one column to the right for each twelfth of density. */
    private static String bar(int step, String density) {
        int stars = (int) Math.round(Math.max(0, Math.min(5, Double.parseDouble(density))) * BAR);
        return String.format(
                Locale.ROOT,
                "%4s  D %-6s %s",
                step == ReadingsRecord.BASE_PLUS_FOG ? "b+f" : step,
                density,
                " ".repeat(stars) + "*");
    }
}
