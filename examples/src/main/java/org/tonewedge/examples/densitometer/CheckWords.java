// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.tonewedge.examples.page.Page.escape;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.Finding;
import org.tonewedge.standards.densitometer.verdict.Severity;
import org.tonewedge.standards.densitometer.verdict.StepOutcome;

/** A verdict in words for the page: its title, which says what the table of steps and the findings say. */
final class CheckWords {

    /** A hyphen before a number, a logarithm or a bracket, or between blanks; not that of an option, a word or a date. */
    private static final Pattern MINUS = Pattern.compile("(?<![\\w-])-(?=[\\d(]|log10| )");

    private static final Pattern POWER = Pattern.compile("(?<![\\w.])(\\d(?:\\.\\d+)?)e([+-])0*(\\d+)(?!\\w|\\.\\w)");
    private static final String SUPERSCRIPTS = "\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079";

    private CheckWords() {}

    /** A value with its sign and so many decimals; what rounds to zero has no sign. */
    static String signed(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%+." + decimals + "f", value);
        return text.matches("[+-][0.]+") ? text.substring(1) : text;
    }

    /** Text of a terminal as a page shows it: with true minus signs, and powers of ten written out. */
    static String typeset(String text) {
        return POWER.matcher(MINUS.matcher(text).replaceAll("\u2212"))
                .replaceAll(found -> found.group(1) + " \u00d7 10"
                        + (found.group(2).equals("-") ? "\u207b" : "")
                        + found.group(3)
                                .chars()
                                .mapToObj(digit -> SUPERSCRIPTS.substring(digit - '0', digit - '0' + 1))
                                .collect(Collectors.joining()));
    }

    /** A row of fields as a page shows it. */
    static List<String> typeset(List<String> row) {
        return row.stream().map(CheckWords::typeset).toList();
    }

    /** The outcome, what the steps say, and which faults there are. */
    static String title(DensitometerVerdict verdict) {
        String outcome = switch (verdict.outcome()) {
            case PASSED -> "The densitometer passes";
            case FAILED -> "The densitometer does not pass";
            case UNDECIDED -> "The densitometer is undecided";
        };
        String faults = verdict.findings().stream()
                .filter(finding -> finding.severity() == Severity.FAULT)
                .map(CheckWords::kind)
                .distinct()
                .collect(Collectors.joining(", "));
        return (verdict.isSoFar() ? "So far: " : "") + outcome + ": " + steps(verdict)
                + (faults.isEmpty() ? "" : "; faults: " + faults);
    }

    private static String steps(DensitometerVerdict verdict) {
        int all = verdict.steps().size();
        long passed = count(verdict, StepOutcome.PASS);
        if (passed == all) {
            return "every step is within the tolerance";
        }
        long failed = count(verdict, StepOutcome.FAIL);
        long undecided = count(verdict, StepOutcome.UNDECIDED);
        List<String> parts = new ArrayList<>();
        part(parts, failed, "of " + all + " steps outside the tolerance");
        part(parts, undecided, parts.isEmpty() ? "of " + all + " steps undecided" : "undecided");
        part(parts, all - passed - failed - undecided, parts.isEmpty() ? "of " + all + " steps not read" : "not read");
        return String.join(", ", parts);
    }

    private static void part(List<String> parts, long count, String what) {
        if (count > 0) {
            parts.add(count + " " + what);
        }
    }

    private static long count(DensitometerVerdict verdict, StepOutcome outcome) {
        return verdict.steps().stream()
                .filter(step -> step.outcome() == outcome)
                .count();
    }

    private static String kind(Finding finding) {
        return finding.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    /** The findings, what to do about each, and the names that programs know them by, small. */
    static String findings(List<Finding> findings) {
        if (findings.isEmpty()) {
            return "<p>Nothing found.</p>\n";
        }
        StringBuilder markup = new StringBuilder("<dl>\n");
        for (Finding finding : findings) {
            String severity = finding.severity().name();
            markup.append("<dt>" + severity.charAt(0) + severity.substring(1).toLowerCase(Locale.ROOT) + "</dt><dd>")
                    .append(sentence(finding.message()) + ". " + sentence(finding.remedy()) + ".")
                    .append(" <code class=\"code\">" + finding.kind() + "</code></dd>\n");
        }
        return markup.append("</dl>\n").toString();
    }

    private static String sentence(String text) {
        return escape(typeset(Character.toUpperCase(text.charAt(0)) + text.substring(1)));
    }
}
