// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package consumer;

import com.networknt.schema.InputFormat;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.util.List;

/** Whether JSON follows a schema, by a general library. */
public final class ResultsSchema {

    private ResultsSchema() {}

    /** What is wrong, one sentence each; empty if nothing is. */
    public static List<String> errors(String schema, String json) {
        return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                .getSchema(schema)
                .validate(json, InputFormat.JSON)
                .stream()
                .map(Object::toString)
                .toList();
    }
}
