// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package consumer;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.standards.comparison.FilmComparison;

/** All results of a comparison as JSON, and back. */
public final class Main {

    private Main() {}

    public static void main(String[] args) throws IOException {
        FilmComparison comparison = FilmComparison.of(ReadingsTable.read(Path.of(args[0])).strips(), args[1]);
        Map<String, List<ResultRecord>> results = new LinkedHashMap<>();
        comparison.rows().forEach(row -> results.put(row.figures().strip().id(), row.records()));
        StringWriter json = new StringWriter();
        ResultsJson.write(results, json);
        System.out.println(results.size() + " strips, equal: " + ResultsJson.read(new StringReader(json.toString())).equals(results));
    }
}
