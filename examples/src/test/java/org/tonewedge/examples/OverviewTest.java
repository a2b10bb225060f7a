// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The first page of the Javadoc of all modules. Only {@code .ci/stage} builds that site; here its links are followed and
 * its headings are counted, on which the build would fail.
 */
class OverviewTest {

    private static String overview;

    @BeforeAll
    static void read() throws Exception {
        overview = Files.readString(ProjectFiles.root().resolve("core/src/main/overview.html"));
    }

    private static List<String> found(String pattern) {
        return Pattern.compile(pattern)
                .matcher(overview)
                .results()
                .map(match -> match.group(1))
                .toList();
    }

    @Test
    void typesThatItNamesArePublic() {
        Set<String> types = PublicTypes.all().stream().map(Class::getName).collect(Collectors.toSet());
        List<String> named = found("\\{@link(?:plain)? ([\\w.]+)");
        assertEquals(
                List.of(), named.stream().filter(name -> !types.contains(name)).toList());
        assertTrue(named.size() > 20, "links were found");
    }

    @Test
    void pagesThatItLinksExistAndNoChapterIsMissing() throws Exception {
        Set<String> pages = new TreeSet<>();
        Set<String> chapters = new TreeSet<>();
        for (String module : List.of("fitting", "standards-checks")) {
            Path folder = ProjectFiles.root().resolve(module).resolve("src/main/javadoc");
            try (Stream<Path> files = Files.walk(folder)) {
                files.filter(Files::isRegularFile)
                        .map(file -> folder.relativize(file).toString().replace('\\', '/'))
                        .forEach(pages::add);
            }
        }
        pages.stream().filter(page -> page.matches(".*/guide-\\d+\\.html")).forEach(chapters::add);
        List<String> linked = found("href=\"([^\"]+)\"");
        assertEquals(
                List.of(), linked.stream().filter(link -> !pages.contains(link)).toList());
        assertTrue(linked.containsAll(chapters), () -> chapters + " are not all in " + linked);
    }

    /** The doclet refuses an overview whose headings do not begin with the first level, or leave one out. */
    @Test
    void headingsFollowEachOther() {
        int before = 0;
        for (String level : found("<h(\\d)>")) {
            int now = Integer.parseInt(level);
            assertTrue(now <= before + 1, "h" + now + " after h" + before);
            before = now;
        }
        assertTrue(before > 0, "there are headings");
    }
}
