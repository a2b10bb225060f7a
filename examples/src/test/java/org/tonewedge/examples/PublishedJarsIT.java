// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.lang.module.ModuleDescriptor;
import java.lang.module.ModuleFinder;
import java.lang.module.ModuleReference;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The three jars as others get them: no library beside them, on the class path, the module path and in an image. */
class PublishedJarsIT {

    private static final List<String> MODULES = List.of("core", "fitting", "standards-checks");

    /** Uses core, fitting and standards, and through them the CSV library, Commons Math and EJML. */
    private static final String PROGRAM = """
            package consumer;

            import java.nio.file.Path;
            import org.tonewedge.core.curve.CharacteristicCurve;
            import org.tonewedge.core.strip.ReadingsTable;
            import org.tonewedge.core.strip.Strip;
            import org.tonewedge.fitting.parametric.CurveFamily;
            import org.tonewedge.fitting.parametric.CurveFit;
            import org.tonewedge.fitting.parametric.FittedCurve;
            import org.tonewedge.standards.film.Iso6;

            public final class Main {
                public static void main(String[] args) throws Exception {
                    Strip strip = ReadingsTable.read(Path.of(args[0])).strip("mine");
                    System.out.println(Iso6.withDefaults()
                            .determine(CharacteristicCurve.through(strip)).rounded().degrees());
                    FittedCurve fit = CurveFit.of(CurveFamily.CUMULATIVE_NORMAL).fit(strip);
                    System.out.println(Iso6.withDefaults().determine(fit.curve()).rounded().degrees());
                    System.out.println(fit.conditionNumber() >= 1);
                }
            }
            """;

    /** D = 0.20 + 2 Φ((log H + 1)/0.8), by SciPy 1.17.1: 0.2 + 2 * scipy.stats.norm.cdf((x + 1) / 0.8). */
    private static final String READINGS = """
            strip,log_exposure,density
            mine,,0.2000
            mine,-3.55,0.2014
            mine,-3.25,0.2049
            mine,-2.95,0.2148
            mine,-2.65,0.2392
            mine,-2.35,0.2915
            mine,-2.05,0.3894
            mine,-1.75,0.5485
            mine,-1.45,0.7738
            mine,-1.15,1.0513
            mine,-0.85,1.3487
            mine,-0.55,1.6262
            mine,-0.25,1.8515
            mine,0.05,2.0106
            mine,0.35,2.1085
            mine,0.65,2.1608
            mine,0.95,2.1852
            """;

    /** D = 0.30 where Φ = 0.05, at log H −1 − 0.8 · 1.64485 = −2.31588: S = 0.8 / 10^−2.31588 = 165.6, 23°. */
    private static final String EXPECTED = "23\n23\ntrue\n";

    @TempDir
    Path scratch;

    private static Path jar(String module, String kind) {
        return ProjectFiles.root()
                .resolve(module + "/target/tonewedge-" + module + "-" + System.getProperty("tonewedge.version") + kind
                        + ".jar");
    }

    private static String path() {
        return MODULES.stream()
                .map(module -> jar(module, "").toString())
                .collect(Collectors.joining(File.pathSeparator));
    }

    private static Set<String> entries(Path jar) throws IOException {
        try (JarFile file = new JarFile(jar.toFile())) {
            return file.stream().map(ZipEntry::getName).collect(Collectors.toCollection(TreeSet::new));
        }
    }

    private static String text(Path jar, String entry) throws IOException {
        try (JarFile file = new JarFile(jar.toFile())) {
            return new String(file.getInputStream(file.getEntry(entry)).readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /** Every JDK of this machine that can read the jars. */
    static List<Path> runtimes() throws IOException {
        List<Path> homes = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"))));
        Path installed = Path.of("/usr/lib/jvm");
        if (Files.isDirectory(installed)) {
            try (Stream<Path> found = Files.list(installed)) {
                found.filter(home -> !Files.isSymbolicLink(home) && isRecent(home))
                        .sorted()
                        .forEach(homes::add);
            }
        }
        return homes;
    }

    private static boolean isRecent(Path home) {
        try {
            return Files.readAllLines(home.resolve("release")).stream()
                    .anyMatch(line -> line.matches("JAVA_VERSION=\"(1[89]|[2-9]\\d)\\b.*"));
        } catch (IOException e) {
            return false;
        }
    }

    private Path compiledProgram() throws Exception {
        Path source = Files.createDirectories(scratch.resolve("source/consumer"));
        Files.writeString(
                scratch.resolve("source/module-info.java"),
                "module consumer { requires org.tonewedge.standards; requires org.tonewedge.fitting; }");
        Files.writeString(source.resolve("Main.java"), PROGRAM);
        Files.writeString(scratch.resolve("readings.csv"), READINGS);
        run(
                Path.of(System.getProperty("java.home")),
                "javac",
                "-Xlint:all",
                "-Werror",
                "--release",
                "17",
                "--module-path",
                path(),
                "-d",
                "classes",
                "source/module-info.java",
                "source/consumer/Main.java");
        return scratch.resolve("classes");
    }

    private String run(Path home, String tool, String... arguments) throws Exception {
        Processes.Result result = Processes.run(home, scratch, scratch, tool, arguments);
        assertEquals("", result.errors());
        assertEquals(0, result.status());
        return result.output();
    }

    @Test
    void modulesRequireNothingButEachOther() {
        Set<ModuleReference> found = ModuleFinder.of(
                        MODULES.stream().map(module -> jar(module, "")).toArray(Path[]::new))
                .findAll();
        assertEquals(3, found.size());
        for (ModuleReference module : found) {
            assertFalse(module.descriptor().isAutomatic(), module.toString());
            for (ModuleDescriptor.Requires required : module.descriptor().requires()) {
                assertTrue(
                        required.name().equals("java.base") || required.name().startsWith("org.tonewedge."),
                        module + " requires " + required.name());
            }
            for (ModuleDescriptor.Exports exported : module.descriptor().exports()) {
                assertFalse(exported.source().contains(".bundled"), module + " exports " + exported.source());
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"core", "fitting"})
    void theirPomsNameNoLibrary(String module) throws IOException {
        String pom = Files.readString(ProjectFiles.root().resolve(module + "/dependency-reduced-pom.xml"));
        String published = pom.replaceAll(
                        "(?s)<dependency>(?:(?!</dependency>).)*<scope>test</scope>.*?</dependency>", "")
                .replaceAll("(?s)<build>.*</build>", "");
        for (String library : List.of("commons-math3", "ejml", "fastcsv")) {
            assertFalse(published.contains(library), () -> module + " depends on " + library + ":\n" + published);
        }
    }

    @ParameterizedTest
    @MethodSource("runtimes")
    void aProgramRunsOnClassPathAndModulePath(Path home) throws Exception {
        Path classes = compiledProgram();
        assertEquals(
                EXPECTED,
                run(home, "java", "-cp", path() + File.pathSeparator + classes, "consumer.Main", "readings.csv"));
        assertEquals(
                EXPECTED,
                run(
                        home,
                        "java",
                        "-p",
                        path() + File.pathSeparator + classes,
                        "-m",
                        "consumer/consumer.Main",
                        "readings.csv"));
    }

    /** The project under {@code examples/consumer}: all results of the demo as JSON and back, by a library of its own. */
    @Test
    void anotherProjectWritesResultsAsJsonAndReadsThem() throws Exception {
        String json = Path.of(Class.forName("com.fasterxml.jackson.core.JsonFactory")
                        .getProtectionDomain()
                        .getCodeSource()
                        .getLocation()
                        .toURI())
                .toString();
        Path home = Path.of(System.getProperty("java.home"));
        Path sources = ProjectFiles.root().resolve("examples/consumer/src/main/java/consumer");
        String libraries = path() + File.pathSeparator + json;
        run(
                home,
                "javac",
                "--release",
                "17",
                "-cp",
                libraries,
                "-d",
                "others",
                sources.resolve("ResultsJson.java").toString(),
                sources.resolve("Main.java").toString());
        assertEquals(
                "39 strips, equal: true\n",
                run(
                        home,
                        "java",
                        "-cp",
                        libraries + File.pathSeparator + scratch.resolve("others"),
                        "consumer.Main",
                        ProjectFiles.demoStrips().toString(),
                        "R00"));
    }

    @Test
    void anImageOfAllThreeRuns() throws Exception {
        Path classes = compiledProgram();
        Path home = Path.of(System.getProperty("java.home"));
        run(
                home,
                "jlink",
                "--module-path",
                path() + File.pathSeparator + classes + File.pathSeparator + home.resolve("jmods"),
                "--add-modules",
                "consumer",
                "--output",
                "image");
        Path image = scratch.resolve("image");
        assertEquals(EXPECTED, run(image, "java", "-m", "consumer/consumer.Main", "readings.csv"));
        Set<String> modules = run(image, "java", "--list-modules")
                .lines()
                .map(line -> line.replaceFirst("@.*", ""))
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(
                Set.of(
                        "consumer",
                        "java.base",
                        "org.tonewedge.core",
                        "org.tonewedge.fitting",
                        "org.tonewedge.standards"),
                modules);
    }

    @ParameterizedTest
    @ValueSource(strings = {"core", "fitting", "standards-checks"})
    void everyJarCarriesLicenceAndNotice(String module) throws IOException {
        for (String kind : List.of("", "-sources", "-javadoc")) {
            Path jar = jar(module, kind);
            if (kind.isEmpty() || Files.exists(jar)) {
                assertTrue(text(jar, "META-INF/LICENSE").contains("Apache License"), jar.toString());
                assertTrue(text(jar, "META-INF/NOTICE").startsWith("Tonewedge\n"), jar.toString());
            }
        }
    }

    /** A link to a method without its parameters and without a label shows their full names. */
    @ParameterizedTest
    @ValueSource(strings = {"core", "fitting", "standards-checks"})
    void noLinkOfTheJavadocSpellsOutPackages(String module) throws IOException {
        Path jar = jar(module, "-javadoc");
        if (!Files.exists(jar)) {
            return;
        }
        Pattern spelt = Pattern.compile("<code>[\\w.]+\\([^<]*(org\\.tonewedge|java)\\.[^<]*</code>");
        try (JarFile pages = new JarFile(jar.toFile())) {
            for (JarEntry entry : Collections.list(pages.entries())) {
                if (entry.getName().endsWith(".html")) {
                    Matcher link = spelt.matcher(
                            new String(pages.getInputStream(entry).readAllBytes(), StandardCharsets.UTF_8));
                    assertFalse(link.find(), () -> entry + ": " + link.group());
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"core", "fitting", "standards-checks"})
    void everyClassLiesInARoomOfItsModule(String module) throws IOException {
        String root = "org/tonewedge/" + module.replace("-checks", "") + "/";
        for (String entry : entries(jar(module, ""))) {
            assertTrue(
                    !entry.endsWith(".class") || entry.startsWith(root) || entry.equals("module-info.class"),
                    module + " carries " + entry);
        }
    }

    @Test
    void licencesOfWhatIsCarriedInside() throws IOException {
        assertTrue(text(jar("core", ""), "META-INF/third-party/fastcsv/LICENSE").contains("MIT License"));
        assertTrue(text(jar("fitting", ""), "META-INF/third-party/commons-math3/LICENSE.txt")
                .contains("APACHE COMMONS MATH DERIVATIVE WORKS"));
        assertTrue(text(jar("fitting", ""), "META-INF/third-party/commons-math3/NOTICE.txt")
                .contains("The Apache Software Foundation"));
        assertTrue(text(jar("fitting", ""), "META-INF/NOTICE").contains("EJML"));
    }

    /** Where the classes of each library in the runnable jar lie, what NOTICE calls it and its licence, if it has a file. */
    @Test
    void theRunnableJarNamesEveryLibrary() throws IOException {
        Path all = ProjectFiles.root().resolve("examples/target/tonewedge-examples-all.jar");
        Map<String, String> libraries = Map.of(
                "org/apache/commons/logging/", "Commons Logging",
                "org/apache/fontbox/", "FontBox",
                "org/apache/pdfbox/", "PDFBox",
                "de/siegmar/fastcsv/", "FastCSV",
                "picocli/", "picocli");
        String notice = text(all, "META-INF/NOTICE");
        Set<String> entries = entries(all);
        for (String entry : entries) {
            if (entry.endsWith(".class") && !entry.startsWith("org/tonewedge/")) {
                String name = libraries.entrySet().stream()
                        .filter(library -> entry.replaceFirst("META-INF/versions/\\d+/", "")
                                .startsWith(library.getKey()))
                        .map(Map.Entry::getValue)
                        .findFirst()
                        .orElseThrow(() -> new AssertionError("no library is named for " + entry));
                assertTrue(notice.contains(name), () -> "NOTICE does not name " + name);
            }
        }
        assertTrue(text(all, "META-INF/LICENSE").contains("Apache License"));
        for (String licence : List.of(
                "commons-logging/LICENSE.txt",
                "commons-math3/LICENSE.txt",
                "fastcsv/LICENSE",
                "fontbox/LICENSE",
                "pdfbox/LICENSE")) {
            assertTrue(entries.contains("META-INF/third-party/" + licence), () -> "no " + licence + " in " + all);
        }
    }
}
