// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.standards.densitometer.verdict.Logs;

class CertificateTest {

    private static final String COLOURS = """
            # kind: reflection
            # geometry: annular 45/0
            # date: 2026-01-31
            step,density_red,density_green,expanded_uncertainty_red,expanded_uncertainty,coverage_factor
            1,0.052,0.062,0.006,0.010,2
            2,0.201,0.211,0.006,0.010,2
            """;

    private static Certificate read(String text) {
        try {
            return Certificate.read("tablet.csv", Logs.stream(text));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String refused(Fault fault, Runnable use) {
        DensitometerInputException refused = assertThrows(DensitometerInputException.class, use::run);
        assertEquals(fault, refused.fault(), refused.getMessage());
        return refused.getMessage();
    }

    @Test
    void readsATabletForEachChannel() {
        Certificate certificate = read(COLOURS);

        assertEquals(List.of("red", "green"), certificate.channels());
        StepTablet red = certificate.tablet("red");
        StepTablet green = certificate.tablet("green");
        assertEquals(0.201, red.steps().get(1).density().value());
        assertEquals(0.003, red.steps().get(0).standardUncertainty(), 1e-12);
        assertEquals(0.211, green.steps().get(1).density().value());
        assertEquals(0.005, green.steps().get(0).standardUncertainty(), 1e-12);
        assertTrue(refused(Fault.AMBIGUOUS, certificate::tablet)
                .contains("2 columns of densities: density_red, density_green"));
        assertTrue(
                refused(Fault.UNKNOWN_NAME, () -> certificate.tablet("blue")).contains("the channels are red, green"));
    }

    @Test
    void readsAPlainTable() {
        Certificate certificate = read("step,density,expanded_uncertainty\n1,0.05,0.006\n2,0.20,0.006\n");

        assertEquals(List.of(), certificate.channels());
        assertEquals(2, certificate.tablet().steps().size());
        assertTrue(certificate.kind().isEmpty());
        assertTrue(refused(Fault.UNKNOWN_NAME, () -> certificate.tablet("red")).contains("add a column density_red"));
    }

    @Test
    void keepsItsRemarks() {
        assertEquals("2026-01-31", read(COLOURS).remarks().get("date"));
        assertEquals("reflection, annular 45/0", read(COLOURS).kind().toString());
    }

    @Test
    void refusesReadingsOfAnotherKind() {
        Certificate certificate = read(COLOURS);
        assertDoesNotThrow(() -> certificate.checkKind(StatedKind.ofRemarks(List.of(), "log")));
        assertDoesNotThrow(() ->
                certificate.checkKind(StatedKind.ofRemarks(List.of("# Kind: Reflection", "response: visual"), "log")));
        String kind = refused(
                Fault.CONTRADICTION,
                () -> certificate.checkKind(StatedKind.ofRemarks(List.of("// kind: transmission"), "log")));
        assertTrue(kind.contains("kind transmission, not reflection as certified"), kind);
        String geometry = refused(
                Fault.CONTRADICTION,
                () -> certificate.checkKind(StatedKind.ofRemarks(List.of("geometry: sphere"), "log")));
        assertTrue(geometry.contains("geometry sphere, not annular 45/0"), geometry);
    }

    @Test
    void refusesAKindThatIsNotKnownOrNotOne() {
        assertTrue(refused(Fault.UNKNOWN_NAME, () -> StatedKind.ofRemarks(List.of("kind: opacity"), "log"))
                .contains("state transmission or reflection"));
        assertTrue(refused(
                        Fault.CONTRADICTION,
                        () -> StatedKind.ofRemarks(List.of("response: red", "response: green"), "log"))
                .contains("stated as red and as green"));
    }

    @Test
    void takesADensityInAnotherPlace() {
        LogLayout layout = LogLayout.parse("comma step=step density=r sample=raw dark=fixed:0 open=o");

        assertEquals("comma step=step density=g", layout.withDensity("g").toString());
        assertThrows(IllegalArgumentException.class, () -> layout.withDensity("step"));
    }

    private static String row(String expanded, String factor) {
        return "step,density,expanded_uncertainty,coverage_factor\n1,0.05,0.006,2\n2,0.20," + expanded + "," + factor
                + "\n";
    }

    /** u = U / k (JCGM 100:2008, 6.2.1) with a factor from 1 to 10. */
    @ParameterizedTest
    @CsvSource({"0.006, 1, 0.006", "0.02, 10, 0.002", "0, 2, 0"})
    void uncertaintiesAreDividedByTheirFactor(String expanded, String factor, double standard) {
        assertEquals(
                standard, read(row(expanded, factor)).tablet().steps().get(1).standardUncertainty(), 1e-12);
    }

    @ParameterizedTest
    @CsvSource({"0.006, 0.99", "0.006, 10.01", "-0.001, 2"})
    void impossibleUncertaintiesAreRefusedWithTheirLine(String expanded, String factor) {
        String message =
                refused(Fault.OUT_OF_RANGE, () -> read(row(expanded, factor)).tablet());
        assertTrue(message.contains("line 3"), message);
    }

    @Test
    void aByteOrderMarkIsSkippedBeforeTheFirstLineOnly() throws IOException {
        String table = row("0.006", "2");
        assertEquals(
                2,
                CertificateTable.read("tablet", new StringReader("\uFEFF" + table))
                        .steps()
                        .size());
        assertTrue(refused(Fault.MISSING, () -> {
                    try {
                        CertificateTable.read("tablet", new StringReader("# note\n\uFEFF" + table));
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                })
                .contains("line 2"));
    }

    @Test
    void otherSeparatorsAreTold() {
        Map.of(";", "semicolons (;)", "\t", "tabs", "|", "bars (|)").forEach((separator, words) -> {
            String message = refused(
                    Fault.WRONG_FORMAT,
                    () -> read(row("0.006", "2").replace(",", separator)).tablet());
            assertTrue(message.contains("the fields are separated by " + words + ", not by commas"), message);
        });
    }

    /** One column alone is not a table with another separator. */
    @Test
    void whatIsLackingIsTold() {
        assertTrue(refused(Fault.MISSING, () -> read("step\n1\n").tablet()).contains("lacks the column density"));
    }
}
