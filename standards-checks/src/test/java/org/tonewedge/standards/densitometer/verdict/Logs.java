// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/** Logs and tablets for the tests. */
public final class Logs {

    /** An invented certificate of 21 steps about 0.15 apart, U = 0.006 (k = 2). */
    public static final StepTablet TABLET = tablet(21);

    private Logs() {}

    public static StepTablet tablet(int steps) {
        double[] densities = new double[steps];
        for (int i = 0; i < steps; i++) {
            densities[i] = 0.05 + 0.15 * i + 0.004 * Math.sin(3.0 * i);
        }
        return StepTablet.calibrated("invented tablet of " + steps + " steps", 0.003, densities);
    }

    public static InputStream stream(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    /** The readings of a log and what its lines were. */
    public record Read(List<LogReading> readings, LogTally tally) {

        public double[] densities() {
            return readings.stream()
                    .mapToDouble(reading -> reading.density().orElseThrow().value())
                    .toArray();
        }
    }

    public static Read read(String layout, String text) {
        List<LogReading> readings = new ArrayList<>();
        try {
            LogTally tally = DensitometerLogReader.of(LogLayout.parse(layout)).read(stream(text), readings::add);
            return new Read(readings, tally);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public static ReadingsSummary summarise(String layout, StepTablet tablet, String text) {
        try {
            return ReadingsSummary.read(stream(text), LogLayout.parse(layout), tablet);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
