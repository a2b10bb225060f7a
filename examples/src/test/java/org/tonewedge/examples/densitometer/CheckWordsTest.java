// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CheckWordsTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "-26.35 | −26.35",
                "-2.47e-06, u = 8.3e-06 | −2.47 × 10⁻⁶, u = 8.3 × 10⁻⁶",
                "1.0e+12 | 1.0 × 10¹²",
                "3e-10 | 3 × 10⁻¹⁰",
                "D = -log10(10^-((reading -0.0003) / 1.0002) - 3.989e-04) | D = −log10(10^−((reading −0.0003) / 1.0002) − 3.989 × 10⁻⁴)",
                "see --correction correction.csv of 2026-11-26 | see --correction correction.csv of 2026-11-26",
                "file 1.5e-04.csv, key 6c435409e3e4 | file 1.5e-04.csv, key 6c435409e3e4",
                "no-one, step 5-7 | no-one, step 5-7"
            })
    void aPageHasTrueMinusSignsAndPowers(String text, String shown) {
        assertEquals(shown, CheckWords.typeset(text));
    }
}
