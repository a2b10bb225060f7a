// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.Proxy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/** No figure is printed with other digits than its uncertainty. The pages of the programs are tried where they are made. */
class PrintedDigitsTest {

    @Test
    void findsWhatIsNotRounded() {
        assertEquals(
                List.of("61.6616 ± 1.7064", "0.0001 ± 0.00", "0.62 ± 0.031", "1.5 +/- 0.05", "12 ± 0.5", "0.4 ± 0.02"),
                PrintedDigits.faults(
                        "61.6616 ± 1.7064, 0.0001 ± 0.00; 0.62 ± 0.031 1.5 +/- 0.05, 12 ± 0.5 or 0.4 ± 0.02."));
        assertEquals(
                List.of(),
                PrintedDigits.faults(
                        "61.7 ± 1.7, 120 ± 30, <td>−0.62</td> ± 0.03, 2 ± 0, 0.80 ± 0.05 and 0.200 ± 0.010."));
    }

    @Test
    void everyResultInWordsIsRoundedToItsUncertainty() throws IOException {
        Samples.make();
        List<String> faults = new ArrayList<>();
        int tried = 0;
        for (Class<?> type : PublicTypes.all()) {
            Object sample = Samples.sample(type);
            if (sample == null || Proxy.isProxyClass(sample.getClass())) {
                continue;
            }
            tried++;
            StringBuilder text = new StringBuilder(sample.toString());
            if (sample instanceof Recorded result) {
                result.records().stream()
                        .map(ResultRecord::toString)
                        .forEach(each -> text.append('\n').append(each));
            }
            PrintedDigits.faults(text.toString()).forEach(fault -> faults.add(type.getSimpleName() + ": " + fault));
        }
        assertEquals(List.of(), faults);
        assertTrue(tried > 200, "only " + tried);
    }

    @Test
    void everyPageOfTheGuideAndEveryKeptOutputIsRounded() throws IOException {
        Path root = ProjectFiles.root();
        List<String> faults = new ArrayList<>(PrintedDigits.faults(Files.readString(root.resolve("README.md"))));
        for (String folder : List.of("standards-checks/src/main/javadoc", "examples/src/test/resources")) {
            faults.addAll(PrintedDigits.faultsOf(root.resolve(folder)));
        }
        assertEquals(List.of(), faults);
    }
}
