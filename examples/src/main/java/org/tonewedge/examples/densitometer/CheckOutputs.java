// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.examples.command.PlotOptions;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/** The files of a check; a check that could not be made leaves an error result in place of any earlier one. */
final class CheckOutputs {

    static final String PAGE = "report.html";

    private static final String PLOT = "residuals";
    private static final String TESTS = "junit.xml";
    private static final String SUMMARY = "summary.json";

    private CheckOutputs() {}

    static void writeError(String message, Instant begun, Instant when, Path directory) throws IOException {
        Files.writeString(directory.resolve(TESTS), JUnitFile.ofError(message, begun, Duration.between(begun, when)));
        Files.writeString(directory.resolve(SUMMARY), SummaryFile.ofError(message, when));
        Files.writeString(
                directory.resolve(PAGE),
                new Page("The densitometer could not be checked", "", List.of(), Set.of())
                        .paragraph(message)
                        .finished());
    }

    static void writeStatement(CheckReport statement, Provenance provenance, Path directory) throws IOException {
        Files.writeString(directory.resolve("statement.txt"), statement.asText());
        Files.writeString(directory.resolve("statement.html"), statement.asHtml("statement", provenance));
    }

    /** The reason why a correction is withheld is empty if it is not. */
    static void write(
            DensitometerVerdict verdict,
            CheckReport report,
            Optional<DensityCorrection> correction,
            String withheld,
            int rows,
            PlotOptions plots,
            Provenance provenance,
            Instant begun,
            Instant when,
            Path directory)
            throws IOException {
        Optional<DensityCorrection> safe = withheld.isEmpty() ? correction : Optional.empty();
        plots.files(directory).write(ResidualChart.of(verdict, correction), PLOT);
        Files.writeString(directory.resolve(PAGE), report.asHtml(PLOT, plots.formats(), provenance));
        if (safe.isPresent()) {
            CorrectionFiles.writeCsv(safe.get(), rows, directory.resolve("correction.csv"));
            CorrectionFiles.writeHeader(verdict, safe.get(), rows, when, directory.resolve("correction.h"));
        }
        Files.writeString(directory.resolve(SUMMARY), SummaryFile.of(verdict, safe, withheld, when));
        Files.writeString(directory.resolve(TESTS), JUnitFile.of(verdict, begun, Duration.between(begun, when)));
    }
}
