// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the programs print and write for the demo logs, letter by letter, as kept in the test resources. After a change that
 * is meant, {@link #main} writes the files anew; read the difference before it is committed. They hold against a change that
 * nobody meant, and are no evidence that a figure is right.
 */
class GoldenFilesTest {

    private static final Path DEMO = Path.of("demo", "densitometer");
    private static final Path KEPT = Path.of("src/test/resources/org/tonewedge/examples/densitometer/golden");
    private static final List<String> LOGS = List.of("healthy.log", "stray-light.csv", "firmware-fault.tsv");
    private static final List<String> WRITTEN = List.of("junit.xml", "summary.json", "correction.csv", "correction.h");
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2030-01-02T03:04:05Z"), ZoneOffset.UTC);

    @TempDir
    private Path directory;

    /** Run in the folder of the module. */
    public static void main(String[] args) throws IOException {
        Files.createDirectories(KEPT);
        for (Map.Entry<String, String> file :
                outputs(Files.createTempDirectory("golden")).entrySet()) {
            Files.writeString(KEPT.resolve(file.getKey()), file.getValue());
        }
    }

    private static Map<String, String> outputs(Path directory) throws IOException {
        System.setProperty("java.awt.headless", "true");
        Map<String, String> outputs = new TreeMap<>();
        for (String log : LOGS) {
            Path out = directory.resolve(log);
            StringWriter report = new StringWriter();
            StringWriter messages = new StringWriter();
            String[] args = {
                DEMO.resolve(log).toString(),
                "--tablet",
                DEMO.resolve("tablet.csv").toString(),
                "--out",
                out.toString()
            };
            int status = DensitometerCheckProgram.run(
                    args, InputStream.nullInputStream(), new PrintWriter(report), new PrintWriter(messages), CLOCK);
            String said = messages.toString().replace(out.toString(), "OUT");
            outputs.put(log + ".txt", (report + said + "exit status " + status + "\n").replace("\r\n", "\n"));
            for (String name : WRITTEN) {
                if (Files.exists(out.resolve(name))) {
                    outputs.put(log + "." + name, Files.readString(out.resolve(name)));
                }
            }
        }
        Path vectors = directory.resolve("vectors");
        PrintWriter nowhere = new PrintWriter(new StringWriter());
        GoldenVectorsProgram.run(new String[] {"--out", vectors.toString()}, nowhere, nowhere);
        try (var files = Files.list(vectors)) {
            for (Path file : files.filter(file -> file.toString().matches(".*\\.(csv|json|h)"))
                    .toList()) {
                outputs.put(String.valueOf(file.getFileName()), Files.readString(file, StandardCharsets.UTF_8));
            }
        }
        return outputs;
    }

    @Test
    void keepsEveryLetterOfItsOutputs() throws IOException {
        Map<String, String> kept = new TreeMap<>();
        try (var files = Files.list(KEPT)) {
            for (Path file : files.toList()) {
                kept.put(String.valueOf(file.getFileName()), Files.readString(file));
            }
        }
        Map<String, String> written = outputs(directory);

        assertEquals(kept.keySet(), written.keySet());
        kept.forEach((name, text) -> assertEquals(text, written.get(name), name));
    }
}
