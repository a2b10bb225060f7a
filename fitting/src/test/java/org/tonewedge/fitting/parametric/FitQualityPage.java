// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The page that tells how good the fits are: its figures are held to what the tests measure. */
final class FitQualityPage {

    static final Path PAGE = Path.of(
            "src/main/javadoc/org.tonewedge.fitting/org/tonewedge/fitting/parametric/doc-files/fit-quality.html");

    private FitQualityPage() {}

    /** A figure may differ a little from machine to machine, whose exponentials differ in the last bit. */
    static void assertTells(String row, int column, double measured, double tolerance) throws IOException {
        Matcher matcher = Pattern.compile(
                        Pattern.quote(">" + row + "</th>") + "(?:<td>[^<]*</td>){" + column + "}<td>([-0-9.]+)")
                .matcher(Files.readString(PAGE));
        assertTrue(matcher.find(), () -> PAGE + " has no figure in column " + column + " of " + row);
        assertEquals(measured, Double.parseDouble(matcher.group(1)), tolerance, () -> row + " on " + PAGE);
    }
}
