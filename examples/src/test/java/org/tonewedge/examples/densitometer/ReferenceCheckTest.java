// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The golden vectors and a correction, compiled by a C compiler as a firmware would carry them. Without a compiler these
 * tests are skipped by name, except where {@code TONEWEDGE_COMPILER=required} is set.
 */
class ReferenceCheckTest {

    private static final List<String> STRICT =
            List.of("-std=c99", "-pedantic", "-Wall", "-Wextra", "-Wconversion", "-Werror");

    @TempDir
    private Path directory;

    private String compiler;

    private record Ended(int status, String said) {}

    @BeforeEach
    void findCompiler() {
        compiler = "";
        for (String name : List.of("gcc", "cc", "clang")) {
            for (String folder :
                    System.getenv().getOrDefault("PATH", "").split(Pattern.quote(File.pathSeparator), -1)) {
                if (compiler.isEmpty() && Files.isExecutable(Path.of(folder, name))) {
                    compiler = Path.of(folder, name).toString();
                }
            }
        }
        if (compiler.isEmpty() && !"required".equals(System.getenv("TONEWEDGE_COMPILER"))) {
            abort("there is no C compiler");
        }
        assertTrue(!compiler.isEmpty(), "a C compiler is required");
    }

    private Ended run(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command)
                .directory(directory.toFile())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS), command.toString());
        return new Ended(process.exitValue(), said);
    }

    /** Compiles with every warning as an error and runs. */
    private Ended compiled(String source) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(compiler));
        command.addAll(STRICT);
        command.addAll(List.of("-o", "check", source, "-lm"));
        Ended ended = run(command);
        assertEquals(new Ended(0, ""), ended);
        return run(List.of(directory.resolve("check").toString()));
    }

    private void writeVectors() {
        PrintWriter nowhere = new PrintWriter(new StringWriter());
        assertEquals(0, GoldenVectorsProgram.run(new String[] {"--out", directory.toString()}, nowhere, nowhere));
    }

    private void replace(String file, String text, String other) throws IOException {
        Path path = directory.resolve(file);
        String before = Files.readString(path);
        assertTrue(before.contains(text), text);
        Files.writeString(path, before.replace(text, other));
    }

    @Test
    void meetsEveryVectorInSinglePrecision() throws Exception {
        writeVectors();

        assertEquals(new Ended(0, "95 vectors, 0 failed\n"), compiled("reference-check.c"));
    }

    @Test
    void noticesFaultsOfVectorsAndOfFirmware() throws Exception {
        writeVectors();
        replace("golden-vectors.h", "0.30103f", "0.30104f");
        replace("golden-vectors.h", "{1.0f, 10.0f, 0}", "{1.0f, 10.001f, 0}");
        replace("reference-check.c", "if (!(net_sample > 0.0f) ||", "if (net_sample == 0.0f ||");

        Ended ended = compiled("reference-check.c");

        assertEquals(1, ended.status());
        assertTrue(ended.said().contains("counts-to-density 2: 0.30103 given, 0.30104 expected"), ended.said());
        assertTrue(ended.said().contains("a refusal expected: the sample is not above the dark"), ended.said());
    }

    @Test
    void theHeaderOfACorrectionIsTheClosedForm() throws Exception {
        PrintWriter nowhere = new PrintWriter(new StringWriter());
        Path demo = Path.of("demo", "densitometer");
        int status = DensitometerCheckProgram.run(
                new String[] {
                    demo.resolve("stray-light.csv").toString(),
                    "--tablet",
                    demo.resolve("tablet.csv").toString(),
                    "--out",
                    directory.resolve("out").toString(),
                    "--no-plots"
                },
                InputStream.nullInputStream(),
                nowhere,
                nowhere);
        assertEquals(1, status);
        Files.writeString(directory.resolve("header.c"), """
                #include <math.h>
                #include <stdio.h>
                #include "out/correction.h"
                int main(void)
                {
                    int i;
                    float worst = 0.0f;
                    for (i = 0; i < DENSITY_CORRECTION_ROWS; i++) {
                        float reading = density_correction_reading[i];
                        float light = powf(10.0f, -(reading - DENSITY_CORRECTION_OFFSET) / DENSITY_CORRECTION_SLOPE)
                                      - DENSITY_CORRECTION_LEAK;
                        float error = fabsf(-log10f(light) - density_correction_density[i]);
                        worst = error > worst ? error : worst;
                        if (!(density_correction_uncertainty[i] > 0.0f)) {
                            return 2;
                        }
                    }
                    printf("%d\\n", worst <= 2e-5f);
                    return 0;
                }
                """);

        assertEquals(new Ended(0, "1\n"), compiled("header.c"));
    }
}
