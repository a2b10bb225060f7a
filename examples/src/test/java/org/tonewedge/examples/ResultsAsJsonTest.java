// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.Writer;
import java.lang.reflect.Modifier;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.DoubleFunction;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.parametric.ModelFit;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.film.DevelopedCurve;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.radiography.AirKerma;
import org.tonewedge.standards.radiography.RadiographicSpeed;

/**
 * The records of every type of result go through JSON and back without loss, and follow the written schema. The code that
 * does it is that of the project under {@code examples/consumer}, compiled here.
 */
class ResultsAsJsonTest {

    private static final Path CONSUMER = ProjectFiles.root().resolve("examples/consumer/src/main");
    private static final String[] SOURCES = {"ResultsJson.java", "ResultsSchema.java"};

    @TempDir
    static Path scratch;

    @TempDir
    static Path classes;

    private static URLClassLoader consumer;
    private static String schema;

    @BeforeAll
    static void compile() throws IOException, InterruptedException {
        List<String> arguments = new ArrayList<>(List.of("-cp", Processes.testPath(), "-d", classes.toString()));
        for (String source : SOURCES) {
            arguments.add(CONSUMER.resolve("java/consumer/" + source).toString());
        }
        Processes.Result compiled = Processes.run(scratch, scratch, "javac", arguments.toArray(String[]::new));
        assertEquals(0, compiled.status(), compiled.errors());
        consumer = new URLClassLoader(new URL[] {classes.toUri().toURL()}, ResultsAsJsonTest.class.getClassLoader());
        schema = Files.readString(CONSUMER.resolve("resources/consumer/results.schema.json"));
        Samples.make();
    }

    @AfterAll
    static void close() throws IOException {
        consumer.close();
    }

    private static String write(Map<String, List<ResultRecord>> results) throws ReflectiveOperationException {
        StringWriter json = new StringWriter();
        consumer.loadClass("consumer.ResultsJson")
                .getMethod("write", Map.class, Writer.class)
                .invoke(null, results, json);
        return json.toString();
    }

    private static Object read(String json) throws ReflectiveOperationException {
        return consumer.loadClass("consumer.ResultsJson")
                .getMethod("read", Reader.class)
                .invoke(null, new StringReader(json));
    }

    private static Object errors(String json) throws ReflectiveOperationException {
        return consumer.loadClass("consumer.ResultsSchema")
                .getMethod("errors", String.class, String.class)
                .invoke(null, schema, json);
    }

    private static void assertRoundTrip(Map<String, List<ResultRecord>> results) throws ReflectiveOperationException {
        String json = write(results);
        assertEquals(results, read(json));
        assertEquals(List.of(), errors(json));
    }

    /** A new type of result is tried without being named here; one of which no sample can be made is reported. */
    @Test
    void everyTypeOfResultGoesThroughJsonAndBack() throws IOException, ReflectiveOperationException {
        Map<String, List<ResultRecord>> results = new LinkedHashMap<>();
        TreeSet<String> without = new TreeSet<>();
        Map<Class<?>, Object> samples = byHand();
        for (Class<?> type : PublicTypes.all()) {
            if (!Recorded.class.isAssignableFrom(type) || Modifier.isAbstract(type.getModifiers())) {
                continue;
            }
            if (samples.getOrDefault(type, Samples.sample(type)) instanceof Recorded result) {
                assertFalse(result.records().isEmpty(), type.getName());
                results.put(type.getSimpleName(), result.records());
            } else {
                without.add(type.getName());
            }
        }
        assertEquals(new TreeSet<String>(), without);
        assertRoundTrip(results);
    }

    /** Results that need readings of their own. */
    private static Map<Class<?>, Object> byHand() throws IOException {
        Map<Class<?>, Object> samples = new HashMap<>();
        List<Strip> development = ReadingsTable.read(ProjectFiles.demoStrips().resolveSibling("development.csv"))
                .strips();
        List<Object> results = List.of(
                Iso2240.withDefaults().determine(curve(LogExposure::ofLogLuxSeconds, 3.25, -3)),
                RadiographicSpeed.DENTAL.determine(curve(x -> AirKerma.ofGray(Math.pow(10, x - 3)), 0.2, 3)),
                Iso6.withDefaults()
                        .determine(development.subList(1, 3).stream()
                                .map(DevelopedCurve::through)
                                .toList()),
                DevelopmentSeries.of(development)
                        .contrast(ContrastMeasure.RISE_OVER_130)
                        .best()
                        .timeFor(ContrastTarget.isoContrastCondition(), Temperature.ofCelsius(20)),
                ModelFit.of(new TasksTest.Straight()).fit(development.get(0)));
        results.forEach(result -> samples.put(result.getClass(), result));
        return samples;
    }

    /** A logistic curve from 0.15 to 3.25, read exactly. */
    private static CharacteristicCurve curve(DoubleFunction<LogExposure> axis, double basePlusFog, double slope) {
        Strip.Builder strip = Strip.builder("logistic").basePlusFog(basePlusFog);
        for (int i = 0; i < 24; i++) {
            double x = -3 + 0.15 * i;
            strip.reading(axis.apply(x), Density.of(0.15 + 3.1 / (1 + Math.exp(-slope * (x + 1.2)))));
        }
        return CharacteristicCurve.through(strip.build());
    }

    @Test
    void everyStripOfTheDemoGoesThroughJsonAndBack() throws IOException, ReflectiveOperationException {
        List<Strip> strips = ReadingsTable.read(ProjectFiles.demoStrips()).strips();
        Map<String, List<ResultRecord>> results = new LinkedHashMap<>();
        for (StripComparison row :
                FilmComparison.of(strips.subList(0, 4), strips.get(0).id()).rows()) {
            results.put(row.figures().strip().id(), row.records());
        }
        assertRoundTrip(results);
    }

    @Test
    void everyKindOfRecordAndTheHardestNumbersComeBack() throws ReflectiveOperationException {
        assertRoundTrip(Map.of(
                "kinds",
                List.of(
                        ResultRecord.ofNumber("third", 1.0 / 3, "density"),
                        ResultRecord.ofNumber("minus zero", -0.0, ""),
                        ResultRecord.ofNumber("least", Double.MIN_VALUE, ""),
                        ResultRecord.ofNumber("greatest", -Double.MAX_VALUE, ""),
                        ResultRecord.ofEstimate("few", Estimate.of(0.1 + 0.2, 1e-17, 1.5), "log10 lx·s"),
                        ResultRecord.ofEstimate("many", Estimate.of(2, 0), "stops"),
                        ResultRecord.ofText("text", "quotes \" and\nlines, ± − Δ"),
                        ResultRecord.ofText("empty", ""),
                        ResultRecord.ofMissing("missing", "density", "not reached: read denser steps"))));
    }

    @Test
    void theSchemaRefusesWhatIsNoResult() throws ReflectiveOperationException {
        for (String record : new String[] {
            "{\"name\": \"a\"}",
            "{\"name\": \"\", \"unit\": \"\", \"value\": 1}",
            "{\"name\": \"a\", \"unit\": \"\", \"value\": \"1\"}",
            "{\"name\": \"a\", \"unit\": \"\", \"value\": 1, \"text\": \"b\"}",
            "{\"name\": \"a\", \"unit\": \"\", \"text\": \"b\", \"u\": 1}",
            "{\"name\": \"a\", \"unit\": \"\", \"value\": 1, \"u\": -1}",
            "{\"name\": \"a\", \"unit\": \"\", \"value\": 1, \"freedom\": 3}"
        }) {
            String json = "{\"schema\": \"tonewedge-results-1\", \"results\": {\"S1\": [" + record + "]}}";
            assertNotEquals(List.of(), errors(json), json);
        }
        assertNotEquals(List.of(), errors("{\"schema\": \"tonewedge-results-2\", \"results\": {}}"));
        assertEquals(List.of(), errors("{\"schema\": \"tonewedge-results-1\", \"results\": {}}"));
    }
}
