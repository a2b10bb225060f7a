// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package consumer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * Results as JSON and back, without loss. The format, written down in {@code results.schema.json}:
 *
 * <pre>
 * {"schema": "tonewedge-results-1",
 *  "results": {
 *    "S01": [
 *      {"name": "film", "text": "Alder 50", "unit": ""},
 *      {"name": "speed", "value": 61.6616, "unit": "1/(lx·s)", "u": 1.7064, "freedom": 9},
 *      {"name": "gamma", "text": "the reason why there is none", "unit": ""}]}}
 * </pre>
 *
 * <p>{@code value}, {@code u} (the standard uncertainty) and {@code freedom} (its degrees of freedom) are left out where
 * they are not known, {@code freedom} also where it is infinite. Numbers are written with as many digits as give them
 * back to the last bit. Unknown members are passed over, so that the schema can grow.
 */
public final class ResultsJson {

    private static final String SCHEMA = "tonewedge-results-1";

    private ResultsJson() {}

    public static void write(Map<String, List<ResultRecord>> results, Writer out) throws IOException {
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.writeStartObject();
            json.writeStringField("schema", SCHEMA);
            json.writeObjectFieldStart("results");
            for (Map.Entry<String, List<ResultRecord>> result : results.entrySet()) {
                json.writeArrayFieldStart(result.getKey());
                for (ResultRecord each : result.getValue()) {
                    write(each, json);
                }
                json.writeEndArray();
            }
            json.writeEndObject();
            json.writeEndObject();
        }
    }

    private static void write(ResultRecord each, JsonGenerator json) throws IOException {
        json.writeStartObject();
        json.writeStringField("name", each.name());
        if (each.value().isPresent()) {
            json.writeNumberField("value", each.value().getAsDouble());
        } else {
            json.writeStringField("text", each.text());
        }
        json.writeStringField("unit", each.unit());
        if (each.estimate().isPresent()) {
            Estimate estimate = each.estimate().get();
            json.writeNumberField("u", estimate.standardUncertainty());
            if (Double.isFinite(estimate.degreesOfFreedom())) {
                json.writeNumberField("freedom", estimate.degreesOfFreedom());
            }
        }
        json.writeEndObject();
    }

    public static Map<String, List<ResultRecord>> read(Reader in) throws IOException {
        Map<String, List<ResultRecord>> results = new LinkedHashMap<>();
        boolean named = false;
        try (JsonParser json = new JsonFactory().createParser(in)) {
            require(json.nextToken() == JsonToken.START_OBJECT, json, "an object");
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String name = json.currentName();
                json.nextToken();
                if (name.equals("schema")) {
                    named = json.getText().equals(SCHEMA);
                } else if (name.equals("results")) {
                    while (json.nextToken() == JsonToken.FIELD_NAME) {
                        results.put(json.currentName(), records(json));
                    }
                } else {
                    json.skipChildren();
                }
            }
            require(named, json, "the schema " + SCHEMA);
        }
        return results;
    }

    private static List<ResultRecord> records(JsonParser json) throws IOException {
        List<ResultRecord> records = new ArrayList<>();
        require(json.nextToken() == JsonToken.START_ARRAY, json, "an array of records");
        while (json.nextToken() == JsonToken.START_OBJECT) {
            records.add(record(json));
        }
        return records;
    }

    private static ResultRecord record(JsonParser json) throws IOException {
        String name = null;
        String unit = "";
        String text = null;
        Double value = null;
        Double u = null;
        double freedom = Double.POSITIVE_INFINITY;
        while (json.nextToken() == JsonToken.FIELD_NAME) {
            String field = json.currentName();
            json.nextToken();
            switch (field) {
                case "name" -> name = json.getText();
                case "unit" -> unit = json.getText();
                case "text" -> text = json.getText();
                case "value" -> value = json.getDoubleValue();
                case "u" -> u = json.getDoubleValue();
                case "freedom" -> freedom = json.getDoubleValue();
                default -> json.skipChildren();
            }
        }
        require(name != null && (value != null || text != null), json, "a record with a name and a value or a text");
        if (value == null) {
            return unit.isEmpty() ? ResultRecord.ofText(name, text) : ResultRecord.ofMissing(name, unit, text);
        }
        return u == null
                ? ResultRecord.ofNumber(name, value, unit)
                : ResultRecord.ofEstimate(name, Estimate.of(value, u, freedom), unit);
    }

    private static void require(boolean holds, JsonParser json, String wanted) throws IOException {
        if (!holds) {
            throw new IOException("line " + json.currentLocation().getLineNr() + ": here should be " + wanted);
        }
    }
}
