// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.tonewedge.examples.guide.CheckADensitometer;
import org.tonewedge.examples.guide.FirstLook;
import org.tonewedge.examples.guide.FitAStrip;
import org.tonewedge.examples.guide.LookUpAMethod;
import org.tonewedge.examples.guide.MatchPrints;
import org.tonewedge.examples.guide.PlanDevelopment;

/** Keeps the README true: its code is the code of this module, its output what that code prints. */
class ReadmeTest {

    private static String readme;

    @BeforeAll
    static void read() throws Exception {
        readme = Files.readString(ProjectFiles.root().resolve("README.md"));
    }

    private static List<String> blocks(String language) {
        return Pattern.compile("```" + language + "\n(.*?)```", Pattern.DOTALL)
                .matcher(readme)
                .results()
                .map(match -> match.group(1))
                .toList();
    }

    private static String withoutIndent(String text) {
        return text.replaceAll("(?m)^\\s+", "");
    }

    /** A program of the guide, as its main method. */
    private interface Program {
        void run(String[] args) throws Exception;
    }

    /** The programs in the order in which the README shows them. */
    private static final Map<String, Program> GUIDE = new LinkedHashMap<>();

    static {
        GUIDE.put("FirstLook", FirstLook::run);
        GUIDE.put("FitAStrip", FitAStrip::run);
        GUIDE.put("PlanDevelopment", PlanDevelopment::run);
        GUIDE.put("LookUpAMethod", LookUpAMethod::run);
        GUIDE.put("MatchPrints", MatchPrints::run);
        GUIDE.put("CheckADensitometer", CheckADensitometer::run);
    }

    @Test
    void theJavaExamplesAreThePrograms() throws Exception {
        List<String> shown = blocks("java");
        int index = 0;
        for (String name : GUIDE.keySet()) {
            String source = Files.readString(ProjectFiles.root()
                    .resolve("examples/src/main/java/org/tonewedge/examples/guide/" + name + ".java"));
            String block = shown.get(index++);
            assertTrue(withoutIndent(source).contains(withoutIndent(block)), name + " is not\n" + block);
        }
    }

    @Test
    void theOutputsAreWhatTheProgramsPrint() throws Exception {
        List<String> shown = blocks("text");
        assertEquals(GUIDE.size(), shown.size());
        int index = 0;
        for (Map.Entry<String, Program> program : GUIDE.entrySet()) {
            assertEquals(shown.get(index++), outputOf(program.getValue()), program.getKey());
        }
    }

    private static String outputOf(Program program) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        PrintStream before = System.out;
        System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
        try {
            program.run(new String[] {ProjectFiles.demoStrips().getParent().toString()});
        } finally {
            System.setOut(before);
        }
        return bytes.toString(StandardCharsets.UTF_8).replace("\r\n", "\n");
    }

    @Test
    void theJShellExampleIsTheScript() throws Exception {
        String script = Files.readString(ProjectFiles.root().resolve("examples/src/main/jshell/first-look.jsh"));
        List<String> shown = blocks("java");
        assertTrue(script.contains(shown.get(shown.size() - 1)), script);
    }

    @Test
    void theProgramsAreShownWithWhereTheirResultsGo() {
        List<String> rows = readme.lines()
                .filter(line -> line.startsWith("| `org.tonewedge"))
                .toList();
        assertEquals(11, rows.size());
        rows.forEach(row -> assertTrue(row.matches("\\| `[^`]+Program [^`]*--out target/[a-z.]+` \\|.*"), row));
    }

    @Test
    void theTestCommandIsWhatCiRuns() throws Exception {
        String ci = Files.readString(ProjectFiles.root().resolve(".ci/run"));
        assertTrue(ci.endsWith("\nmvn -B verify\n"), ci);
        assertTrue(blocks("").contains("mvn -B verify\n"));
    }
}
