// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.nio.file.Files;
import java.nio.file.Path;

/** Where the project lies; tests run with the module as working directory, or with the root. */
public final class ProjectFiles {

    private ProjectFiles() {}

    /** The root of the project. */
    public static Path root() {
        Path here = Path.of("").toAbsolutePath();
        while (!Files.exists(here.resolve("DEVELOPERS.md"))) {
            here = here.getParent();
        }
        return here;
    }

    /** The demo readings. */
    public static Path demoStrips() {
        return root().resolve("examples/demo/strips.csv");
    }
}
