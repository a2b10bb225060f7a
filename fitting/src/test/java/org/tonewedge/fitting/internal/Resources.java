// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** Tables beside the tests. */
public final class Resources {

    private Resources() {}

    /** The lines of a table beside a test class; those that begin with # tell where it comes from and are left out. */
    public static List<String> lines(Class<?> beside, String name) throws IOException {
        try (InputStream stream = beside.getResourceAsStream(name);
                BufferedReader reader = new BufferedReader(
                        new InputStreamReader(Objects.requireNonNull(stream, name), StandardCharsets.UTF_8))) {
            return reader.lines().filter(line -> !line.startsWith("#")).toList();
        }
    }
}
