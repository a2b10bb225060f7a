// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.tone.PrintTime;
import org.tonewedge.examples.page.Cell;
import org.tonewedge.examples.page.Column;
import org.tonewedge.standards.density.CallierFactor;
import org.tonewedge.standards.density.PrintingChannel;

/** How to change the printing exposure against the reference, by the densities closest to what paper sees. */
final class PrintExposures {

    private static final PrintTime REFERENCE_TIME = PrintTime.of(Duration.ofSeconds(10));

    private final MatchedFrames frames;
    private final Optional<CallierFactor> callier;
    private final List<Row> rows;
    private final Set<String> cautions = new LinkedHashSet<>();

    /**
     * The changes for a film.
     *
     * @param response by which response base plus fog is compared; empty if it is not stated
     */
    private record Row(
            Bracket bracket,
            String response,
            Density basePlusFog,
            Finding<ExposureInterval> forBasePlusFog,
            Density grey,
            Finding<ExposureInterval> forGrey) {}

    PrintExposures(MatchedFrames frames, Optional<CallierFactor> callier, Notices notices) {
        this.frames = frames;
        this.callier = callier;
        if (callier.isPresent()) {
            frames.brackets().forEach(PrintExposures::requireDiffuse);
        }
        rows = frames.brackets().stream().map(bracket -> row(bracket, notices)).toList();
        List<String> visual = frames.brackets().stream()
                .filter(bracket -> Set.of(SpectralResponse.VISUAL)
                        .equals(bracket.basePlusFogByResponse().keySet()))
                .map(Bracket::film)
                .toList();
        if (!visual.isEmpty()) {
            cautions.add("Base plus fog is known to the eye alone for " + String.join(", ", visual)
                    + ". If the base is tinted or the developer stains, paper sees it denser: read it in blue too.");
        }
        frames.brackets().forEach(this::addCautions);
    }

    private static void requireDiffuse(Bracket bracket) {
        bracket.densityGeometry()
                .filter(geometry -> geometry != TransmissionGeometry.DIFFUSE)
                .ifPresent(geometry -> {
                    throw new IllegalArgumentException("--callier is for diffuse densities, but those of '"
                            + bracket.film() + "' are " + geometry.description() + "; leave out --callier");
                });
    }

    private Row row(Bracket bracket, Notices notices) {
        Bracket reference = frames.reference();
        Optional<PrintingChannel> channel = PrintingChannel.commonTo(bracket, reference);
        Finding<ExposureInterval> base = notices.determine(
                bracket.film() + ", printing exposure", () -> PrintingChannel.forBasePlusFog(bracket, reference));
        Density grey = frames.grey(bracket).density();
        double net = grey.minus(bracket.basePlusFog()).value()
                - frames.grey(reference)
                        .density()
                        .minus(reference.basePlusFog())
                        .value();
        DensityDifference ofImage = DensityDifference.of(net);
        return new Row(
                bracket,
                channel.map(PrintingChannel::response)
                        .or(bracket::densityResponse)
                        .map(SpectralResponse::description)
                        .orElse(""),
                channel.map(PrintingChannel::density).orElseGet(bracket::basePlusFog),
                base,
                grey,
                base.map(change -> change.plus(callier.map(factor -> factor.printExposure(ofImage))
                        .orElse(ExposureInterval.ofLogUnits(net)))));
    }

    private void addCautions(Bracket bracket) {
        Map<SpectralResponse, Density> own = bracket.basePlusFogByResponse();
        if (own.isEmpty()) {
            return;
        }
        PrintingChannel best = PrintingChannel.closest(own);
        if (best.response() != SpectralResponse.VISUAL) {
            best.finding().ifPresent(finding -> cautions.add(bracket.film() + ": " + finding));
        }
        Row row = rows.get(frames.brackets().indexOf(bracket));
        if (!best.response().description().equals(row.response())) {
            cautions.add(bracket.film() + ": base plus fog was read by "
                    + best.response().description() + " too, but not that of the reference, "
                    + frames.reference().film()
                    + ", so that the printing exposure is by " + row.response() + ".");
        }
    }

    /** What to mind before printing by the figures, each once. */
    List<String> cautions() {
        return List.copyOf(cautions);
    }

    Section section() {
        List<Column<Row>> columns = new ArrayList<>();
        columns.add(Column.text("film", "Film", row -> Cell.text(row.bracket().film())));
        boolean stated = rows.stream().anyMatch(row -> !row.response().isEmpty());
        if (stated) {
            columns.add(Column.text("base_plus_fog_response", "Read by", row -> Cell.text(row.response())));
        }
        columns.add(Column.number(
                "base_plus_fog",
                "Base + fog",
                row -> Words.twoDecimalsCell(row.basePlusFog().value())));
        columns.add(stops("base_plus_fog_stops", "For base + fog", Row::forBasePlusFog));
        columns.add(factor("base_plus_fog_factor", Row::forBasePlusFog));
        columns.add(time("base_plus_fog_seconds", Row::forBasePlusFog));
        columns.add(Column.number(
                "grey_density",
                "Grey density",
                row -> Words.twoDecimalsCell(row.grey().value())));
        columns.add(stops("grey_stops", "For the grey", Row::forGrey));
        columns.add(factor("grey_factor", Row::forGrey));
        columns.add(time("grey_seconds", Row::forGrey));
        return Section.of("print-exposure", "Printing exposure", note(stated), columns, rows);
    }

    private String note(boolean stated) {
        StringBuilder note = new StringBuilder("Change against the reference, so that unexposed film, or the patch '"
                + frames.grey(frames.reference()).patch().label() + "' of the matched frames, prints alike; times for "
                + REFERENCE_TIME + " with the reference, on a paper without reciprocity failure.");
        callier.ifPresent(factor -> note.append(" Densities of the image count ")
                .append(Words.twoDecimals(factor.factor().value()))
                .append(" times, as the condenser sees them (Callier factor)."));
        if (!stated) {
            note.append(
                    " The table does not state by what densities were read. If they are visual and a base is tinted or a"
                            + " developer stains, paper sees it denser: state density_response, and read base plus fog in blue too.");
        }
        cautions.forEach(caution -> note.append(' ').append(caution));
        return note.toString();
    }

    private static Column<Row> stops(String name, String heading, Function<Row, Finding<ExposureInterval>> change) {
        return Column.number(
                name, heading, row -> change.apply(row).cell(found -> Cell.number(found.stops(), found.toString())));
    }

    private static Column<Row> factor(String name, Function<Row, Finding<ExposureInterval>> change) {
        return Column.number(
                name, "Factor", row -> change.apply(row).cell(found -> Words.twoDecimalsCell(found.ratio())));
    }

    private static Column<Row> time(String name, Function<Row, Finding<ExposureInterval>> change) {
        return Column.number(
                name,
                "Time",
                row -> change.apply(row).cell(found -> {
                    PrintTime time = REFERENCE_TIME.changedBy(found);
                    return Cell.number(time.seconds(), time.toString());
                }));
    }
}
