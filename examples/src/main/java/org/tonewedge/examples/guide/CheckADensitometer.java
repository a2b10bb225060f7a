// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;

/** Whether a densitometer tells the truth, and the correction if not. */
public final class CheckADensitometer {

    private CheckADensitometer() {}

    /**
     * Runs the program on a terminal, where signs that it lacks are spelt.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void main(String[] args) throws IOException {
        Terminal.spellOut();
        run(args);
    }

    /**
     * Prints what the README shows.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        Path files = demo.resolve("densitometer");
        try (Reader certificate = Files.newBufferedReader(files.resolve("tablet.csv"));
                InputStream log = Files.newInputStream(files.resolve("stray-light.csv"))) {
            StepTablet tablet = CertificateTable.read("tablet.csv", certificate);
            LogLayout layout = LogLayout.parse("comma step=1 density=2 decimals=3");
            ReadingsSummary summary = ReadingsSummary.read(log, layout, tablet);
            DensitometerVerdict verdict = DensitometerCheck.withDefaults().judge(summary);
            verdict.findings().forEach(System.out::println);
            System.out.println(verdict.correction().correct(Density.of(2.780)));
        }
    }
}
