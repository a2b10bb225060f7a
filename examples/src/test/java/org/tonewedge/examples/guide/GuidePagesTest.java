// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.tonewedge.examples.ProjectFiles;

/** The guide in the Javadoc shows the code of this module, what it prints and what its plots draw. */
class GuidePagesTest {

    @Test
    void pagesAreWhatTheProgramsGive() throws Exception {
        Path folder = ProjectFiles.root().resolve(GuidePages.FOLDER);
        Map<String, String> pages = GuidePages.pages(ProjectFiles.root());
        try (Stream<Path> files = Files.list(folder)) {
            Set<String> kept = files.map(file -> file.getFileName().toString())
                    .filter(name -> name.startsWith("guide-"))
                    .collect(Collectors.toCollection(TreeSet::new));
            assertEquals(new TreeSet<>(pages.keySet()), kept);
        }
        for (Map.Entry<String, String> page : pages.entrySet()) {
            assertEquals(
                    page.getValue(),
                    Files.readString(folder.resolve(page.getKey())),
                    () -> page.getKey() + ": run GuidePages and look at what changed");
        }
    }
}
