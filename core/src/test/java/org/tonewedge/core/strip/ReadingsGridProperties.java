// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Temperature;

/** Strips of any readings come back from a table and from a grid as they were. */
class ReadingsGridProperties {

    private static final Arbitrary<String> LABELS = Arbitraries.of(
                    "Alder 50",
                    "8.0",
                    "007",
                    "1e3",
                    "a,b;c",
                    "\"quoted\"",
                    "=1+1",
                    "-3",
                    "3,5",
                    "Ö 東 🙂",
                    "step",
                    "100/21°")
            .edgeCases(config -> config.none());

    @Provide
    Arbitrary<List<Strip>> strips() {
        Arbitrary<Double> exposures = Arbitraries.doubles().between(-4, 1).ofScale(9);
        Arbitrary<Double> densities = Arbitraries.doubles().between(0, 4).ofScale(6);
        Arbitrary<List<Double>> readings = densities.list().ofMinSize(1).ofMaxSize(3);
        Arbitrary<List<Double>> own =
                exposures.list().ofMinSize(1).ofMaxSize(8).uniqueElements(e -> Math.round(e * 1e5));
        Arbitrary<Strip> strip = Combinators.combine(
                        own,
                        readings,
                        readings,
                        LABELS,
                        Arbitraries.doubles().between(1, 30).ofScale(3),
                        Arbitraries.integers().between(1, 6400),
                        conditions())
                .as((at, base, repeats, label, minutes, speed, conditions) -> {
                    Strip.Builder builder = Strip.builder("x")
                            .film(label)
                            .boxSpeed(speed)
                            .testConditions(conditions)
                            .processing(Processing.unknown()
                                    .withDeveloper(label)
                                    .withMinutes(minutes)
                                    .withTemperature(Temperature.ofCelsius(20)));
                    base.forEach(builder::basePlusFog);
                    at.forEach(exposure -> repeats.forEach(
                            density -> builder.reading(LogExposure.ofLogLuxSeconds(exposure), Density.of(density))));
                    return builder.build();
                });
        return strip.list().ofMinSize(1).ofMaxSize(4).map(ReadingsGridProperties::numbered);
    }

    /** Any of the four may be not stated. */
    private static Arbitrary<TestConditions> conditions() {
        Arbitrary<Duration> exposures =
                Arbitraries.longs().between(1, 10_000_000_000_000L).map(Duration::ofNanos);
        Arbitrary<Duration> holds =
                Arbitraries.longs().between(0, 100_000_000_000L).map(Duration::ofMillis);
        return Combinators.combine(
                        LABELS.injectNull(0.5),
                        exposures.injectNull(0.5),
                        holds.injectNull(0.5),
                        LABELS.injectNull(0.5))
                .as((light, exposure, hold, storage) -> {
                    TestConditions stated = TestConditions.notStated();
                    stated = light == null ? stated : stated.withIlluminant(light);
                    stated = exposure == null ? stated : stated.withExposureTime(exposure);
                    stated = hold == null ? stated : stated.withHold(hold);
                    return storage == null ? stated : stated.withStorage(storage);
                });
    }

    private static List<Strip> numbered(List<Strip> strips) {
        List<Strip> numbered = new ArrayList<>();
        for (Strip strip : strips) {
            Strip.Builder copy = Strip.builder("S" + numbered.size())
                    .film(strip.film())
                    .boxSpeed(strip.boxSpeed().orElseThrow())
                    .testConditions(strip.testConditions())
                    .processing(strip.processing());
            strip.basePlusFogReadings().forEach(density -> copy.basePlusFog(density.value()));
            strip.steps().forEach(step -> step.readings().forEach(density -> copy.reading(step.exposure(), density)));
            numbered.add(copy.build());
        }
        return numbered;
    }

    private static void assertSame(List<Strip> expected, List<Strip> found) {
        assertEquals(expected.size(), found.size());
        for (int i = 0; i < expected.size(); i++) {
            Strip one = expected.get(i);
            Strip other = found.get(i);
            assertEquals(one.id(), other.id());
            assertEquals(one.film(), other.film());
            assertEquals(one.processing(), other.processing());
            assertEquals(one.testConditions(), other.testConditions());
            assertEquals(one.boxSpeed(), other.boxSpeed());
            assertEquals(one.basePlusFogReadings(), other.basePlusFogReadings());
            assertEquals(one.steps(), other.steps());
            assertEquals(ExposureAxis.LUX_SECONDS, other.axis());
        }
    }

    @Property(tries = 200)
    void tableToGridToTable(@ForAll("strips") List<Strip> strips) throws IOException {
        StringWriter table = new StringWriter();
        ReadingsTable.write(strips, table);
        List<Strip> read = ReadingsTable.read("table.csv", new StringReader(table.toString()))
                .strips();
        assertSame(strips, read);
        assertSame(strips, ReadingsTable.read(ReadingsGrid.of("grid", read)).strips());
    }
}
