// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.StringReader;
import java.util.Arrays;
import java.util.Locale;

/**
 * Time to read a table of readings, against the CSV library alone going through the same text and adding up the lengths
 * of the fields; both in turn in one run. Run by hand: {@code main}.
 */
final class ReadingsTableBenchmark {

    private static final int STRIPS = 4000;
    private static final int STEPS = 50;
    private static final int ROUNDS = 25;

    private ReadingsTableBenchmark() {}

    /** Prints the median ratio over the rounds after the first five. */
    public static void main(String[] args) throws IOException {
        StringBuilder table =
                new StringBuilder("strip,film,developer,minutes,celsius,box_speed,log_exposure,density\n");
        for (int s = 0; s < STRIPS; s++) {
            for (int i = 0; i < STEPS; i++) {
                table.append(String.format(
                        Locale.ROOT,
                        "S%04d,Invented %d,bath 1+1,8.0,20.0,125.0,%.3f,%.3f%n",
                        s,
                        s,
                        -3 + 0.075 * i,
                        0.2 + 0.04 * i));
            }
        }
        String text = table.toString();
        double[] ratios = new double[ROUNDS];
        long sink = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long start = System.nanoTime();
            try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(new StringReader(text))) {
                for (CsvRecord row : csv) {
                    for (int i = 0; i < row.getFieldCount(); i++) {
                        sink += row.getField(i).length();
                    }
                }
            }
            long library = System.nanoTime() - start;
            start = System.nanoTime();
            sink += ReadingsTable.read("table.csv", new StringReader(text))
                    .strips()
                    .size();
            long own = System.nanoTime() - start;
            ratios[round] = (double) own / library;
            System.out.printf(
                    Locale.ROOT,
                    "library %.0f ms, readings table %.0f ms, ratio %.2f%n",
                    library / 1e6,
                    own / 1e6,
                    ratios[round]);
        }
        double[] warm = Arrays.copyOfRange(ratios, 5, ROUNDS);
        Arrays.sort(warm);
        System.out.printf(
                Locale.ROOT,
                "%d rows, %.1f MB: median ratio %.2f (%d)%n",
                STRIPS * STEPS,
                text.length() / 1e6,
                warm[warm.length / 2],
                sink % 10);
    }
}
