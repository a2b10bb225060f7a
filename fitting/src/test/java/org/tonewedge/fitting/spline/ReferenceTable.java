// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** A table of reference values from the test resources: comment lines, a header, numbers. */
final class ReferenceTable {

    private final List<String> header;
    private final List<String[]> rows;

    private ReferenceTable(List<String> header, List<String[]> rows) {
        this.header = header;
        this.rows = rows;
    }

    static ReferenceTable read(String name) {
        try (InputStream in = ReferenceTable.class.getResourceAsStream(name)) {
            List<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .toList();
            return new ReferenceTable(
                    List.of(lines.get(0).split(",", -1)),
                    lines.stream().skip(1).map(line -> line.split(",", -1)).toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    double[] column(String name) {
        int column = header.indexOf(name);
        return rows.stream().mapToDouble(row -> Double.parseDouble(row[column])).toArray();
    }
}
