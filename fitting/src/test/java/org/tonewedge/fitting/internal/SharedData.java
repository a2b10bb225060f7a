package org.tonewedge.fitting.internal;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** Data files too large to be kept with the code: tests that need them are skipped by name where they are not at hand. */
public final class SharedData {

    private static final Path FOLDER = Path.of("shared", "check-values");

    private SharedData() {}

    /** A file or folder below {@code shared/check-values}, looked for beside this folder and all folders above it. */
    public static Path path(String name) {
        Path path = find(name);
        Assumptions.assumeTrue(path != null, () -> "skipped: " + FOLDER.resolve(name) + " is not at hand");
        return path;
    }

    static Path find(String name) {
        for (Path above = Path.of("").toAbsolutePath(); above != null; above = above.getParent()) {
            Path candidate = above.resolve(FOLDER).resolve(name);
            if (Files.exists(candidate)) {
                return candidate;
            }
        }
        return null;
    }
}
