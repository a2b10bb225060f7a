// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Writes the guide of the Javadoc: one page per chapter, with the code of a program of this package, what it prints, and a
 * picture. Run it in the root of the project after a change of any of these:
 *
 * <pre>java -cp examples/target/tonewedge-examples-all.jar org.tonewedge.examples.guide.GuidePages .</pre>
 */
public final class GuidePages {

    /** Where the pages lie, from the root of the project. */
    static final String FOLDER =
            "standards-checks/src/main/javadoc/org.tonewedge.standards/org/tonewedge/standards/doc-files";

    private static final String SOURCES = "examples/src/main/java/org/tonewedge/examples/guide/";

    /** A program of the guide. */
    @FunctionalInterface
    interface Program {

        /**
         * Runs it.
         *
         * @param args the folder of the demo data
         * @throws IOException if a file cannot be read
         */
        void run(String[] args) throws IOException;
    }

    private record Chapter(
            String title, String words, String output, String source, Program program, List<String> figures) {}

    private static final List<Chapter> CHAPTERS = List.of(
            new Chapter(
                    "A first curve",
                    "Readings become a strip, a strip becomes a curve, and a method reads a figure off it. One table contains all"
                            + " strips. Here a curve is drawn through the readings of one strip, and four strips are compared"
                            + " in stops, one of them the reference.",
                    "The speed is an ISO speed only where the strip meets the conditions of the standard; the "
                            + "brackets list those that readings cannot show. Then the mean gradient, with the two "
                            + "points between which it lies. A film's distance from the reference has its standard "
                            + "uncertainty; that of the reference is 0 by definition.",
                    "FirstLook",
                    FirstLook::run,
                    List.of("speed-point")),
            new Chapter(
                    "A fit and its uncertainty",
                    "A fitted curve gives the uncertainty of its parameters and of any figure read off it, and names the readings"
                            + " that lie far off it.",
                    "Each ± is one standard uncertainty (k = 1). The reading far off the curve is named with "
                            + "its strip, its place in the file and its distance; the robust fit gave it almost no "
                            + "weight. Last comes the family of curves that describes the strip best for the number of "
                            + "its parameters.",
                    "FitAStrip",
                    FitAStrip::run,
                    List.of("residuals")),
            new Chapter(
                    "A published method",
                    "Each method is a class named after its standard or author. Its result gives the points read, the source,"
                            + " the conditions of the standard, and what to change if one is not met. State the"
                            + " repeatability of the readings, and the result has an uncertainty.",
                    "This strip alone misses the contrast condition, so its figure is not called an ISO "
                            + "speed, and the result says by how much the condition is missed. Two strips developed for "
                            + "different times enclose the condition: between them lies the speed, and the developing "
                            + "time that belongs to it.",
                    "LookUpAMethod",
                    LookUpAMethod::run,
                    List.of("curve-parts")),
            new Chapter(
                    "A development plan",
                    "Strips developed for different times give the time for a target contrast, with its uncertainty. Times beyond"
                            + " those tested are predicted only if you ask.",
                    "The first line is the time for the contrast of the ISO condition, with its uncertainty "
                            + "by the readings and the fit. It says “confirm it with a test strip” because nothing in "
                            + "the readings shows how well the next development repeats these. The second line tells "
                            + "how to change a time in use.",
                    "PlanDevelopment",
                    PlanDevelopment::run,
                    List.of("development")),
            new Chapter(
                    "Matching prints",
                    "Bracketed frames show which exposure of a film gives the shadow density of the reference. The difference in"
                            + " base plus fog tells how to change the printing exposure.",
                    "The frame closest to the reference's shadow is named, with the difference that remains, "
                            + "and the exact interval between frames. The last line is a printing time of 10 s, changed "
                            + "for the difference in base plus fog.",
                    "MatchPrints",
                    MatchPrints::run,
                    List.of("shadow-match", "tone-reproduction")),
            new Chapter(
                    "A densitometer check",
                    "Readings of a certified step tablet show what is wrong with a densitometer, and give its correction.",
                    "A finding has a level, a name that programs can test, the step where it shows most, and "
                            + "what to do. A FAULT fails the check; a NOTE is worth knowing. The last line is a reading of "
                            + "2.780, corrected.",
                    "CheckADensitometer",
                    CheckADensitometer::run,
                    List.of("densitometer")),
            new Chapter(
                    "Whole images",
                    "A look-up table made from a curve converts millions of samples, in place and in parallel. Where the curve"
                            + " is too flat to be inverted, samples are refused, marked or moved to the nearest end, as you"
                            + " choose.",
                    "All samples are counted: those below and above the densities that the curve can tell "
                            + "apart were marked as asked, not dropped. The second line gives these densities.",
                    "WholeImages",
                    WholeImages::run,
                    List.of("inverse")),
            new Chapter(
                    "Results as data",
                    "Every determination, fit, comparison and verdict lists its results as named values with unit and uncertainty.",
                    "Every name has one meaning and one unit, in tables, files and programs alike. The format "
                            + "rounds a value to the digits that its uncertainty leaves.",
                    "ResultsAsData",
                    ResultsAsData::run,
                    List.of("comparison")),
            new Chapter(
                    "A model of your own",
                    "Write a formula and its derivatives, and fit it and compare it like the models of the library. It is checked"
                            + " before it is used.",
                    "The first line is a parameter of the new model, the second the speed by its curve. The "
                            + "last is its weight of evidence beside the library's toe and shoulder, between 0 and 1: "
                            + "near 0, the other formula describes this strip better.",
                    "OwnModel",
                    OwnModel::run,
                    List.of("own-model")),
            new Chapter(
                    "A method of your own",
                    "A method is a class that reads points off a curve and returns a figure with its evidence. The library adds"
                            + " the uncertainty and the records.",
                    "The library found the uncertainty by repeating the method on perturbed readings. The "
                            + "records are the figure, its evidence and its conditions, as for the published methods.",
                    "OwnMethod",
                    OwnMethod::run,
                    List.of("own-method")));

    /** The beginning of a page, readable on a desk and on a phone. */
    private static final String HEAD = """
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <style>
            body { max-width: 60rem; margin: 1rem auto; padding: 0 1rem; font-family: sans-serif; line-height: 1.5; }
            img { max-width: 100%; height: auto; }
            pre { overflow-x: auto; padding: 0.75rem; background: #f4f4f4; line-height: 1.35; }
            a { margin-right: 1rem; }
            @media print { pre { white-space: pre-wrap; } }
            </style>
            <title>""";

    private GuidePages() {}

    /**
     * Writes the pages.
     *
     * @param args the root of the project
     * @throws IOException if a file cannot be read or written
     */
    public static void main(String[] args) throws IOException {
        Path root = Path.of(args[0]);
        for (Map.Entry<String, String> page : pages(root).entrySet()) {
            Files.writeString(root.resolve(FOLDER).resolve(page.getKey()), page.getValue());
        }
    }

    /**
     * Makes the pages and their pictures.
     *
     * @param root the root of the project
     * @return the text of each file by its name
     */
    static Map<String, String> pages(Path root) throws IOException {
        Map<String, String> pages = new TreeMap<>();
        Path demo = root.resolve("examples/demo");
        GuideFigures.draw(demo).forEach((name, svg) -> pages.put("guide-" + name + ".svg", svg));
        for (int i = 0; i < CHAPTERS.size(); i++) {
            pages.put(file(i), page(root, demo, i));
        }
        return pages;
    }

    private static String file(int chapter) {
        return "guide-" + (chapter < 9 ? "0" : "") + (chapter + 1) + ".html";
    }

    private static String page(Path root, Path demo, int number) throws IOException {
        Chapter chapter = CHAPTERS.get(number);
        StringBuilder html = new StringBuilder();
        html.append(HEAD)
                .append(number + 1)
                .append(". ")
                .append(chapter.title)
                .append("</title>\n</head>\n<body>\n<h1>")
                .append(number + 1)
                .append(". ")
                .append(chapter.title)
                .append("</h1>\n<p>")
                .append(chapter.words)
                .append("</p>\n");
        for (String figure : chapter.figures) {
            html.append("<p><img src=\"guide-")
                    .append(figure)
                    .append(".svg\" alt=\"")
                    .append(figure.replace('-', ' '))
                    .append("\"></p>\n");
        }
        html.append("<pre><code>")
                .append(escaped(code(Files.readString(root.resolve(SOURCES + chapter.source + ".java")))))
                .append("</code></pre>\n<p>It prints:</p>\n<pre>")
                .append(escaped(output(chapter.program, demo)))
                .append("</pre>\n<p>")
                .append(chapter.output)
                .append("</p>\n<p><a href=\"../../../../../index.html\">Overview</a> ");
        if (number > 0) {
            html.append("<a href=\"").append(file(number - 1)).append("\">Previous</a> ");
        }
        if (number + 1 < CHAPTERS.size()) {
            html.append("<a href=\"").append(file(number + 1)).append("\">Next: ");
            html.append(CHAPTERS.get(number + 1).title).append("</a>");
        }
        return html.append("</p>\n</body>\n</html>\n").toString();
    }

    /** The types that a program makes, and the body of its method run. */
    private static String code(String source) {
        Matcher own = Pattern.compile(
                        "\n    (?:/\\*\\* [^\n]*\\*/\n    )?private (?:static final class|record) .*?\n    }\n",
                        Pattern.DOTALL)
                .matcher(source);
        StringBuilder code = new StringBuilder();
        while (own.find()) {
            code.append(own.group().substring(1).replaceAll("(?m)^    ", "")).append('\n');
        }
        Matcher main = Pattern.compile("void run\\(String\\[] args\\).*?\\{\n(.*?)\n    }\n", Pattern.DOTALL)
                .matcher(source);
        if (!main.find()) {
            throw new IllegalStateException("there is no method run in " + source);
        }
        return code.append(main.group(1).replaceAll("(?m)^        ", "")).toString();
    }

    private static String output(Program program, Path demo) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        PrintStream before = System.out;
        System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
        try {
            program.run(new String[] {demo.toString()});
        } finally {
            System.setOut(before);
        }
        return bytes.toString(StandardCharsets.UTF_8).replace("\r\n", "\n");
    }

    /** Escaped for a page of the doclet, which reads tags in it. */
    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("@", "&#64;");
    }
}
