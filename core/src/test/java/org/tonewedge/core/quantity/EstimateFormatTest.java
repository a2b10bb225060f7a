// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Figures with as many digits as their uncertainty leaves, and records that carry them. */
class EstimateFormatTest {

    /** The first row is JCGM 100:2008, 7.2.2, in units of grams: 100.02147 with 0.35 mg is 100.02147 ± 0.00035. */
    @ParameterizedTest
    @CsvSource({
        "100.02147, 0.00035, 100.02147 ± 0.00035, 100.0215 +/- 0.0004",
        // JCGM 100:2008, 7.2.6: 10.057 62 with 27 mΩ is 10.058.
        "10.05762, 0.027, 10.058 ± 0.027, 10.06 +/- 0.03",
        "61.6616, 1.7064, 61.7 ± 1.7, 62 +/- 2",
        "0.0001, 0.00004, 0.000100 ± 0.000040, 0.00010 +/- 0.00004",
        "-0.0004, 0.0996, 0.00 ± 0.10, 0.0 +/- 0.1",
        "-2.1645, 0.0083, −2.1645 ± 0.0083, -2.164 +/- 0.008",
        "123456, 1706.4, 123500 ± 1700, 123000 +/- 2000",
        "0.62, 0, 0.62 ± 0, 0.62 +/- 0",
        "125, 0, 125 ± 0, 125 +/- 0",
    })
    void figuresAreRoundedToTheirUncertainty(double value, double uncertainty, String two, String asciiOne) {
        Estimate estimate = Estimate.of(value, uncertainty);
        assertEquals(two, EstimateFormat.withDefaults().format(estimate));
        assertEquals(
                asciiOne,
                EstimateFormat.withDefaults().withAscii().withDigits(1).format(estimate));
    }

    @Test
    void intervalsAreRoundedToTheirWidth() {
        assertEquals("58.3 to 65.1", EstimateFormat.withDefaults().format(new CoverageInterval(58.312, 65.097, 0.95)));
        assertEquals("0.5", EstimateFormat.withDefaults().format(new CoverageInterval(0.5, 0.5, 0.95)));
        assertThrows(
                IllegalArgumentException.class,
                () -> EstimateFormat.withDefaults().withDigits(0));
    }

    @Test
    void recordsKeepWhatTheyAreGiven() throws Exception {
        ResultRecord speed = ResultRecord.ofEstimate("speed", new Estimate(61.6616, 1.7064, 9), "");
        assertEquals("speed 61.7 ± 1.7", speed.toString());
        assertEquals(new Estimate(61.6616, 1.7064, 9), speed.estimate().orElseThrow());
        ResultRecord missing = ResultRecord.ofMissing("gamma", "", "no straight line; read more steps");
        assertTrue(missing.value().isEmpty());
        assertEquals(
                "toe_length no toe; read more steps",
                ResultRecord.ofMissing("toe_length", "log units", "no toe; read more steps")
                        .toString());
        assertEquals(
                "toe_length 0.5 log units",
                ResultRecord.ofNumber("toe_length", 0.5, "log units").toString());
        assertEquals("S1.gamma", missing.under("S1").name());
        for (ResultRecord each : new ResultRecord[] {
            speed, missing, ResultRecord.ofText("film", "Alder 50"), ResultRecord.ofNumber("density", 0.42, "density")
        }) {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
                out.writeObject(each);
            }
            try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
                Object read = in.readObject();
                assertEquals(each, read);
                assertEquals(each.hashCode(), read.hashCode());
            }
        }
        assertThrows(IllegalArgumentException.class, () -> ResultRecord.ofNumber("x", Double.NaN, ""));
        assertThrows(IllegalArgumentException.class, () -> ResultRecord.ofMissing("x", "", " "));
    }

    /** Two digits of the width: 0.052 needs three decimals, 0.52 two, 5.2 one and 52 none. */
    @Test
    void intervalsShowTwoDigitsOfTheirWidth() {
        EstimateFormat format = EstimateFormat.withDefaults();
        assertEquals("0.574 to 0.626", format.format(new CoverageInterval(0.5742, 0.6261, 0.95)));
        assertEquals("0.57 to 1.09", format.format(new CoverageInterval(0.5742, 1.0942, 0.95)));
        assertEquals("5.7 to 10.9", format.format(new CoverageInterval(5.7420, 10.9420, 0.95)));
        assertEquals("57 to 109", format.format(new CoverageInterval(57.42, 109.42, 0.95)));
    }
}
