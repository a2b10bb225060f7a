// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A program of somebody else's, compiled and run on a plain module path against what this project exports. */
class ConsumerTest {

    @TempDir
    Path scratch;

    @Test
    void anotherModuleUsesTheLibrary() throws Exception {
        Path source = Files.createDirectories(scratch.resolve("source/consumer"));
        Files.writeString(
                scratch.resolve("source/module-info.java"),
                "module consumer { requires org.tonewedge.standards; requires org.tonewedge.fitting; }");
        Files.writeString(source.resolve("Main.java"), """
                package consumer;

                import org.tonewedge.core.curve.CharacteristicCurve;
                import org.tonewedge.core.quantity.*;
                import org.tonewedge.core.strip.*;
                import org.tonewedge.standards.film.Iso6;

                public final class Main {
                    public static void main(String[] args) {
                        StepTablet tablet = StepTablet.nominal(11, Density.of(0.05), 0.30);
                        Strip strip = Strip.builder("mine")
                                .basePlusFog(0.20)
                                .readings(
                                        tablet.exposedAt(LogExposure.ofLogLuxSeconds(0), ReadingOrder.FROM_DENSE_END),
                                        0.20, 0.21, 0.25, 0.34, 0.49, 0.67, 0.86, 1.05, 1.24, 1.43, 1.61)
                                .build();
                        System.out.print(Iso6.withDefaults()
                                .determine(CharacteristicCurve.through(strip)).rounded().degrees());
                    }
                }
                """);
        String path = Processes.modulePath();
        Processes.Result compiled = Processes.run(
                scratch,
                scratch,
                "javac",
                "--module-path",
                path,
                "-d",
                "classes",
                "source/module-info.java",
                "source/consumer/Main.java");
        assertEquals("", compiled.errors());
        Processes.Result ran = Processes.run(
                scratch,
                scratch,
                "java",
                "--module-path",
                path + java.io.File.pathSeparator + "classes",
                "--module",
                "consumer/consumer.Main");
        assertEquals("", ran.errors());
        // Base plus fog + 0.10 = 0.30 lies between 0.25 at log H −2.45 and 0.34 at −2.15: S = 0.8 / 10^−2.28, 23°.
        assertEquals("23", ran.output());
    }
}
