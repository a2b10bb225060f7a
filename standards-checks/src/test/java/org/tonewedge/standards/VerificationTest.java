// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Runs every row of the verification table, and keeps the table in the documentation equal to what the build gives. */
class VerificationTest {

    private static final Path BUILT = Path.of("target", "verification.html");
    private static final Path DOCUMENTED =
            Path.of("src/main/javadoc/org.tonewedge.standards/org/tonewedge/standards/doc-files/verification.html");

    private static final Path SOURCES = Path.of("src/main/java/org/tonewedge/standards");
    private static final Pattern ENTRY = Pattern.compile(
            "public (static )?(?!DensitometerLogReader)\\w+ (withDefaults\\(\\)|determine\\(|correctedTime\\()");

    private static final Map<VerificationRow.Group, String> INTRODUCTIONS = Map.of(
            VerificationRow.Group.METHOD,
            "A curve or a spectrum goes in, the figure of a method comes out. No published readings of a strip together"
                    + " with the figure that a method gave for them were found: the rows were worked out from the"
                    + " definitions by other software, on curves of closed form and on published points.",
            VerificationRow.Group.CONSTANT,
            "Constants, limits and tables of the library against the printed ones.",
            VerificationRow.Group.ARITHMETIC,
            "One formula or conversion each, with its input; they show that a constant, a unit or a sign is right, and no"
                    + " more.");

    @TestFactory
    Stream<DynamicTest> rows() {
        return PublishedChecks.rows().stream()
                .map(row -> DynamicTest.dynamicTest(row.method() + ": " + row.input(), () -> {
                    if (row.isNumber()) {
                        assertEquals(row.publishedNumber(), (Double) row.ours().get(), row.tolerance(), row.source());
                    } else {
                        assertEquals(row.published(), row.ours().get(), row.source());
                    }
                }));
    }

    /** Every class with a method that takes a curve, readings or a strip, by the words that all of them use. */
    @Test
    void everyMethodSaysWhatItIsComparedWith() throws IOException {
        Set<String> told = MethodEvidence.all().stream()
                .flatMap(evidence -> evidence.methods().stream())
                .collect(Collectors.toSet());
        Set<String> methods;
        try (Stream<Path> files = Files.walk(SOURCES)) {
            methods = files.filter(VerificationTest::isMethod)
                    .map(file -> file.getFileName().toString().replace(".java", ""))
                    .collect(Collectors.toCollection(TreeSet::new));
        }
        assertTrue(methods.size() > 15, methods.toString());
        methods.removeAll(told);
        assertEquals(Set.of(), methods);
    }

    private static boolean isMethod(Path file) {
        try {
            return Files.isRegularFile(file)
                    && ENTRY.matcher(Files.readString(file)).find();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Test
    void theDocumentedTableIsTheOneTheBuildProduces() throws IOException {
        String table = table(PublishedChecks.rows());
        Files.createDirectories(BUILT.getParent());
        Files.writeString(BUILT, table);
        String documented = Files.exists(DOCUMENTED) ? Files.readString(DOCUMENTED) : "";
        assertEquals(
                table,
                documented,
                "the documented table is out of date; look through standards-checks/" + BUILT
                        + " and copy it to standards-checks/" + DOCUMENTED);
    }

    private static String byStatus(List<VerificationRow> rows) {
        return Stream.of(VerificationRow.Status.values())
                .map(status -> {
                    long count =
                            rows.stream().filter(row -> row.status() == status).count();
                    return count == 0 ? "" : count + " &#8220;" + status.words + "&#8221;";
                })
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining(", "));
    }

    private static String table(List<VerificationRow> rows) {
        StringBuilder html = new StringBuilder();
        html.append(
                "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<title>Verification table</title>\n</head>\n<body>\n");
        html.append("<h1>Verification table</h1>\n");
        List<VerificationRow> published =
                rows.stream().filter(VerificationRow::isPublished).toList();
        List<VerificationRow> own =
                rows.stream().filter(row -> !row.isPublished()).toList();
        html.append("<p>")
                .append(published.size())
                .append(" checks against figures that were read outside the project.\n")
                .append(own.size())
                .append(
                        " more against arithmetic done by the project beside the library, from published formulas, tables"
                                + " or points, or against memory: ")
                .append(byStatus(own))
                .append(
                        ".\nEach row is a test; a row for a table stands for all its entries. The build writes this page and fails"
                                + " if it differs.</p>\n");
        html.append(
                "<p>Most sources are secondary: the standards&#8217; own clauses were not read unless the row says");
        html.append(" so. Where a number rests on memory, the row says so too.</p>\n");
        html.append(MethodEvidence.html());
        for (VerificationRow.Group group : VerificationRow.Group.values()) {
            List<VerificationRow> ofGroup =
                    rows.stream().filter(row -> row.group() == group).toList();
            html.append("<h2>").append(group.words).append("</h2>\n<p>").append(ofGroup.size());
            html.append(" rows: ").append(byStatus(ofGroup)).append(". ").append(INTRODUCTIONS.get(group));
            html.append("</p>\n<table border=\"1\">\n<caption>").append(group.words);
            html.append("</caption>\n<thead>\n<tr>");
            for (String head : List.of("Method", "Source", "Status", "Input", "Expected", "Ours", "Difference")) {
                html.append("<th scope=\"col\">").append(head).append("</th>");
            }
            html.append("</tr>\n</thead>\n<tbody>\n");
            ofGroup.forEach(row -> html.append(row.html()));
            html.append("</tbody>\n</table>\n");
        }
        html.append("</body>\n</html>\n");
        return html.toString();
    }
}
