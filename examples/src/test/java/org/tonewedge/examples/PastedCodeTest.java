// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Code in the documents can be pasted into JShell, which reads line by line and runs a statement once it is complete. */
class PastedCodeTest {

    @TempDir
    Path scratch;

    private static List<String> blocks(String text, String begin, String end) {
        return Pattern.compile(begin + "(.*?)" + end, Pattern.DOTALL)
                .matcher(text)
                .results()
                .map(match -> match.group(1))
                .toList();
    }

    private static List<String> readme(String language) throws Exception {
        return blocks(Files.readString(ProjectFiles.root().resolve("README.md")), "```" + language + "\n", "```");
    }

    /** The lines of a block that go on with a statement that was complete without them. */
    private static List<String> lateLines(String block) {
        List<String> late = new ArrayList<>();
        int open = 0;
        for (String line : block.lines().toList()) {
            if (open == 0 && line.strip().startsWith(".")) {
                late.add(line.strip());
            }
            open += line.replaceAll("[^(\\[{]", "").length()
                    - line.replaceAll("[^)\\]}]", "").length();
        }
        return late;
    }

    @Test
    void aLineThatJShellCannotReadIsFound() {
        assertEquals(List.of(".b()"), lateLines("a\n    .b()\n"));
        assertEquals(List.of(), lateLines("f(a\n    .b());\na.\n    b()\n"));
    }

    @Test
    void noLineGoesOnWithAStatementThatIsComplete() throws Exception {
        List<String> blocks = new ArrayList<>(readme("java"));
        for (String module : List.of("core", "fitting", "standards-checks", "examples")) {
            try (Stream<Path> files =
                    Files.walk(ProjectFiles.root().resolve(module).resolve("src/main"))) {
                for (Path file :
                        files.filter(path -> path.toString().endsWith(".java")).toList()) {
                    blocks(Files.readString(file), "<pre>\\{@code\n", "</pre>")
                            .forEach(block -> blocks.add(block.replaceAll("(?m)^ *\\* ?", "")));
                }
            }
        }
        try (Stream<Path> guide = Files.list(
                ProjectFiles.root()
                        .resolve(
                                "standards-checks/src/main/javadoc/org.tonewedge.standards/org/tonewedge/standards/doc-files"))) {
            for (Path page : guide.filter(path -> path.toString().matches(".*guide-\\d+\\.html"))
                    .toList()) {
                blocks.addAll(blocks(Files.readString(page), "<pre><code>", "</code></pre>"));
            }
        }
        assertTrue(blocks.size() > 50, "only " + blocks.size() + " blocks");
        for (String block : blocks) {
            assertEquals(List.of(), lateLines(block), block);
        }
    }

    /** The blocks of code after one another at one prompt print what the README shows. */
    @Test
    @Tag("slow")
    void theCodeOfTheReadmeRunsAtThePrompt() throws Exception {
        List<String> code = readme("java");
        List<String> shown = readme("text");
        StringBuilder script = new StringBuilder(
                        Files.readString(ProjectFiles.root().resolve("examples/src/main/jshell/tonewedge.jsh")))
                .append("var demo = Path.of(\"examples/demo\")\n");
        for (int i = 0; i < shown.size(); i++) {
            script.append(code.get(i)).append("System.out.println(\"----\")\n");
        }
        Processes.Result result = Processes.jshell(
                scratch,
                "UTF-8",
                Processes.testPath(),
                Files.writeString(scratch.resolve("readme.jsh"), script + "/exit\n")
                        .toString());
        assertEquals("", result.errors());
        String[] printed = result.output().split("----\r?\n", -1);
        assertEquals(shown.size() + 1, printed.length, result.output());
        for (int i = 0; i < shown.size(); i++) {
            assertTrue(printed[i].replace("\r\n", "\n").endsWith(shown.get(i)), printed[i]);
        }
    }
}
