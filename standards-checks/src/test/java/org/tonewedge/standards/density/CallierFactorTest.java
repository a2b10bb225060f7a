// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.density;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.density.CallierFactor.Pair;

class CallierFactorTest {

    private static final Density BASE = Density.of(0.25);

    private static List<Pair> pairs(double factor, double noise, Random random) {
        List<Pair> pairs = new ArrayList<>();
        for (double net = 0.2; net < 1.7; net += 0.2) {
            double specular = 0.26 + factor * net + noise * random.nextGaussian();
            pairs.add(new Pair(Density.of(0.25 + net), Density.of(specular)));
        }
        return pairs;
    }

    @Test
    void exactPairsGiveTheirFactor() {
        CallierFactor found = CallierFactor.measured(pairs(1.3, 0, new Random(1)), BASE, Density.of(0.26));
        assertEquals(1.3, found.factor().value(), 1e-9);
        // By hand: 0.25 + 1.3 · 0.80.
        assertEquals(1.29, found.projected(Density.of(1.05), BASE).value(), 1e-9);
        assertEquals(0.26, found.printExposure(DensityDifference.of(0.2)).logUnits(), 1e-9);
    }

    @Test
    @Tag("slow")
    void intervalsIncludeTheTruth() {
        Random random = new Random(8);
        int cases = 3000;
        int held = 0;
        for (int i = 0; i < cases; i++) {
            CallierFactor found = CallierFactor.measured(pairs(1.25, 0.01, random), BASE, Density.of(0.26));
            held += found.factor().interval(0.95).contains(1.25) ? 1 : 0;
        }
        assertTrue(held >= 0.935 * cases && held <= 0.965 * cases, held + " of " + cases);
    }

    @Test
    void statedFactorsCarryTheirUncertainty() {
        CallierFactor stated = CallierFactor.of(Estimate.of(1.2, 0.05));
        assertEquals(0.04, stated.projected(Density.of(1.05), BASE).standardUncertainty(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> CallierFactor.of(Estimate.of(0.8, 0.05)));
    }

    @Test
    void swappedColumnsAndBareBaseAreRefused() {
        List<Pair> swapped = pairs(1.3, 0, new Random(1)).stream()
                .map(pair -> new Pair(pair.specular(), pair.diffuse()))
                .toList();
        assertThrows(IllegalArgumentException.class, () -> CallierFactor.measured(swapped, BASE, BASE));
        assertThrows(
                IllegalArgumentException.class,
                () -> CallierFactor.measured(List.of(new Pair(BASE, BASE), new Pair(BASE, BASE)), BASE, BASE));
        assertThrows(IllegalArgumentException.class, () -> CallierFactor.measured(List.of(), BASE, BASE));
    }

    /** Two pairs are enough; a factor of 1.5 from net densities of 0.5 and 1, specular 0.75 and 1.5. */
    @Test
    void twoPairsAreEnough() {
        Density base = Density.of(0.25);
        List<Pair> two =
                List.of(new Pair(Density.of(0.75), Density.of(1.0)), new Pair(Density.of(1.25), Density.of(1.75)));
        assertEquals(1.5, CallierFactor.measured(two, base, base).factor().value(), 1e-12);
        List<Pair> bare = List.of(two.get(0), new Pair(base, base));
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> CallierFactor.measured(bare, base, base));
        assertTrue(e.getMessage().startsWith("pair 2: "), e.getMessage());
    }

    @Test
    void theRecordsTellTheFactorAndWhetherPairsScatter() {
        CallierFactor measured = CallierFactor.measured(pairs(1.3, 0.01, new Random(1)), BASE, Density.of(0.26));
        ResultRecord ofStated =
                CallierFactor.of(Estimate.of(1.3, 0.02)).records().get(1);

        assertTrue(measured.records().contains(ResultRecord.ofEstimate("factor", measured.factor(), "")));
        assertTrue(measured.records().contains(ResultRecord.ofNumber("scatter", measured.scatter(), "density")));
        assertTrue(ofStated.value().isEmpty() && ofStated.text().contains("stated"), ofStated::toString);
    }
}
