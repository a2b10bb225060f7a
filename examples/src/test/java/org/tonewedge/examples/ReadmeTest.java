package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.tonewedge.examples.guide.FirstLook;

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

    @Test
    void theJavaExampleIsTheProgram() throws Exception {
        String source = Files.readString(
                ProjectFiles.root().resolve("examples/src/main/java/org/tonewedge/examples/guide/FirstLook.java"));
        assertTrue(withoutIndent(source).contains(withoutIndent(blocks("java").get(0))), source);
    }

    @Test
    void theJShellExampleIsTheScript() throws Exception {
        String script = Files.readString(ProjectFiles.root().resolve("examples/src/main/jshell/first-look.jsh"));
        assertTrue(script.contains(blocks("java").get(1)), script);
    }

    @Test
    void theOutputIsWhatTheProgramPrints() throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        PrintStream before = System.out;
        System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
        try {
            FirstLook.main(new String[] {ProjectFiles.demoStrips().toString()});
        } finally {
            System.setOut(before);
        }
        assertEquals(
                blocks("text").get(0), bytes.toString(StandardCharsets.UTF_8).replace("\r\n", "\n"));
    }

    @Test
    void theTestCommandIsWhatCiRuns() throws Exception {
        String ci = Files.readString(ProjectFiles.root().resolve(".ci/run"));
        assertTrue(ci.endsWith("\nmvn -B verify\n"), ci);
        assertTrue(blocks("").contains("mvn -B verify\n"));
    }
}
