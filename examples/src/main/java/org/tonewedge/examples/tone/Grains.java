// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.NoisePower;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;

/** The granularity and the noise power of each film with a scan. */
final class Grains {

    private Grains() {}

    /** What a scan gives; the ratio is that of the Selwyn forms. */
    private record Row(Bracket bracket, Granularity grain, Finding<Estimate> ratio, Finding<NoisePower> noise) {

        double densityAboveBase() {
            return grain.meanDensity().minus(bracket.basePlusFog()).value();
        }
    }

    /** The ratio of two granularities; relative variances add up (JCGM 100:2008, 5.1.6). */
    private static Estimate ratio(Estimate own, Estimate reference) {
        double ratio = own.value() / reference.value();
        Estimate relative = relative(own).minus(relative(reference));
        return Estimate.of(ratio, ratio * relative.standardUncertainty(), relative.degreesOfFreedom());
    }

    private static Estimate relative(Estimate of) {
        return Estimate.of(1, of.standardUncertainty() / of.value(), of.degreesOfFreedom());
    }

    private static Cell cell(Estimate found) {
        return Cell.estimate(found, EstimateFormat.withDefaults().format(found));
    }

    static Section section(MatchedFrames frames, Map<String, Granularity> grain, Map<String, NoisePower> noise) {
        Optional<Estimate> reference =
                Optional.ofNullable(grain.get(frames.reference().film())).map(Granularity::selwyn);
        List<Row> rows = frames.brackets().stream()
                .filter(bracket -> grain.containsKey(bracket.film()))
                .map(bracket -> {
                    Granularity own = grain.get(bracket.film());
                    return new Row(
                            bracket,
                            own,
                            Finding.ofNullable(
                                    reference
                                            .map(of -> bracket.equals(frames.reference())
                                                    ? Estimate.of(1, 0)
                                                    : ratio(own.selwyn(), of))
                                            .orElse(null),
                                    "there is no scan of the reference film"),
                            Finding.ofNullable(noise.get(bracket.film()), "the scan has too few pixels"));
                })
                .toList();
        List<Column<Row>> columns = List.of(
                Column.text("film", "Film", row -> Cell.text(row.bracket().film())),
                Column.number(
                        "density_above_base_plus_fog",
                        "Density above base + fog",
                        row -> Words.twoDecimalsCell(row.densityAboveBase())),
                Column.number("aperture_micrometres", "Aperture, µm", row -> {
                    double aperture = row.grain().aperture();
                    return Cell.number(aperture, Words.oneDecimal(aperture));
                }),
                Column.estimate(
                        "granularity_x1000",
                        "Granularity × 1000",
                        row -> cell(row.grain().timesThousand())),
                Column.estimate(
                        "selwyn_micrometres",
                        "σ √(2A), µm",
                        row -> cell(row.grain().selwyn())),
                Column.estimate(
                        "ratio_vs_reference",
                        "Against the reference",
                        row -> row.ratio().cell(Grains::cell)),
                Column.estimate(
                        "noise_power_square_micrometres",
                        "Noise power, µm²",
                        row -> row.noise()
                                .map(NoisePower::power)
                                .cell(found ->
                                        Cell.estimate(found, String.format(Locale.ROOT, "%.2g", found.value())))),
                Column.number(
                        "noise_power_to_cycles_per_millimetre",
                        "",
                        row -> row.noise().cell(found -> Words.twoDecimalsCell(found.highestFrequency()))));
        return Section.of(
                "granularity",
                "Granularity",
                "Root mean square deviation of density, times 1000, with its standard uncertainty; the Selwyn form"
                        + " \u03c3 \u221a(2A) does not depend on the aperture. The noise power is that of low frequencies, "
                        + ToneOptions.NOISE_SPAN
                        + "; if it is well above half the square of the Selwyn form, the scan has large-scale"
                        + " unevenness. Compare figures only at like densities; 1.0 above base plus fog is usual.",
                columns,
                rows);
    }
}
