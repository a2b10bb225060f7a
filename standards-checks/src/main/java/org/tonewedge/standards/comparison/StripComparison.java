// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleBinaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.SystematicUncertainty;

/**
 * One strip compared with the reference: its own figures, how much faster it is, and how much more printing exposure it
 * needs.
 *
 * <p>Immutable and thread safe.
 */
public final class StripComparison implements Recorded {

    private final StripFigures figures;
    private final StripFigures reference;
    private final Assumption assumption;
    /** What a difference of exposures between the two rests on, if their exposures rest on different things. */
    private final String between;

    private StripComparison(StripFigures figures, StripFigures reference, Assumption assumption, String between) {
        this.figures = figures;
        this.reference = reference;
        this.assumption = assumption;
        this.between = between;
    }

    /** That a strip has the speed that its exposures were anchored by; the words are empty where nothing is assumed. */
    record Assumption(String words, StripFigures anchor) {

        static final Assumption NONE = new Assumption("", null);
    }

    /**
     * Compares a strip with a reference.
     *
     * @param strip the figures of the strip
     * @param reference the figures of the reference
     * @return the comparison
     * @throws IllegalArgumentException if the two strips are on different exposure axes
     */
    public static StripComparison of(StripFigures strip, StripFigures reference) {
        return of(strip, reference, Assumption.NONE);
    }

    /** Compares two strips whose exposures rest on the same assumption, if any. */
    static StripComparison of(StripFigures strip, StripFigures reference, Assumption assumption) {
        reference.strip().axis().requireSame(strip.strip().axis(), "compare " + strip.strip() + " with the reference");
        return new StripComparison(strip, reference, assumption, "");
    }

    /** Compares the strips of two rows with each other. */
    static StripComparison between(StripComparison one, StripComparison other) {
        if (one.assumption.equals(other.assumption)) {
            return of(one.figures, other.figures, one.assumption);
        }
        one.figures.strip().axis().requireSame(other.figures.strip().axis(), "compare " + one.figures.strip());
        return new StripComparison(
                one.figures,
                other.figures,
                one.assumption,
                Stream.of(one, other)
                        .map(row -> row.assumption.words())
                        .filter(words -> !words.isEmpty())
                        .distinct()
                        .collect(Collectors.joining("; ")));
    }

    /**
     * Returns the figures of the strip.
     *
     * @return the figures
     */
    public StripFigures figures() {
        return figures;
    }

    /**
     * Returns what the strip is compared with.
     *
     * @return the figures of the reference
     */
    public StripFigures reference() {
        return reference;
    }

    /**
     * Returns the assumption on which the absolute exposures of the strip rest.
     *
     * @return the assumption; empty if they were measured, or are relative
     */
    public String assumption() {
        return assumption.words();
    }

    /** The assumption with the strip that it is about. */
    Assumption anchoring() {
        return assumption;
    }

    /**
     * Returns a figure of the strip, or of its comparison with the reference. The uncertainty of a comparison includes
     * that of the reference, which all strips share; {@link FilmComparison#between FilmComparison.between} compares two strips without it.
     *
     * @param figure which one
     * @return the figure, or the reason why it is missing
     */
    public Figure get(FilmFigure figure) {
        Figure own = figures.read(figure);
        if (own.value().isPresent()
                && figure.isAbsolute()
                && !assumption.words().isEmpty()) {
            return figures == assumption.anchor()
                    ? Figure.of(own.value().getAsDouble()).assuming(assumption.words())
                    : assumed(own, figures.read(FilmFigure.SPEED_POINT), assumption);
        }
        if (!figure.isBesideReference() || own.value().isEmpty()) {
            return own;
        }
        if (figures == reference) {
            return Figure.of(0);
        }
        if (!DensityKinds.holdsAcross(figure) && unlikeDensities().isPresent()) {
            return DensityKinds.refused(unlikeDensities().get());
        }
        Figure beside = besideReference(figure, own, reference.read(figure));
        return between.isEmpty()
                        || figure != FilmFigure.STOPS_FROM_REFERENCE
                        || beside.value().isEmpty()
                ? beside
                : Figure.of(beside.value().getAsDouble()).assuming(between);
    }

    /**
     * Returns how the kinds of density of the strip and the reference differ. Where they do, each strip keeps its own figures
     * and its speed, whose criterion is a density above base plus fog of the same kind; differences of densities and of
     * contrast are not given, because they would mix the film with the way it was read.
     *
     * @return the difference in words, such as {@code its densities are status M blue, those of the reference visual}; nothing
     *     if both are of one kind, or a strip does not state its own
     */
    public Optional<String> unlikeDensities() {
        return DensityKinds.difference(figures.strip(), reference.strip());
    }

    /**
     * Returns how the strip differs from the reference, in the order of the figures.
     *
     * @return a difference for each figure of shape, contrast and speed that both strips give with an uncertainty; none
     *     for the reference itself; only the speed where {@link #unlikeDensities() densities are of different kinds}
     */
    public List<FigureDifference> differences() {
        return figures == reference
                ? List.of()
                : Arrays.stream(FilmFigure.values())
                        .filter(FigureDifference::isSaid)
                        .filter(figure -> DensityKinds.holdsAcross(figure)
                                || unlikeDensities().isEmpty())
                        .flatMap(figure -> difference(figure).stream())
                        .toList();
    }

    private Optional<FigureDifference> difference(FilmFigure figure) {
        Figure own = figures.read(figure);
        return own.value().isEmpty()
                ? Optional.empty()
                : besideReference(figure, own, reference.read(figure))
                        .estimate()
                        .map(estimate -> new FigureDifference(figure, estimate));
    }

    /**
     * A figure of absolute exposures that were anchored at the speed point of a strip, which is the assumption. Its
     * uncertainty includes that of this point.
     */
    static Figure assumed(Figure own, Figure point, Assumption assumption) {
        double value = own.value().orElseThrow();
        Figure anchor = assumption.anchor().read(FilmFigure.SPEED_POINT);
        if (own.fromReadings().isEmpty()
                || point.fromReadings().isEmpty()
                || anchor.fromReadings().isEmpty()) {
            return Figure.of(value).assuming(assumption.words());
        }
        Estimate alone = point.fromReadings().get();
        if (alone.standardUncertainty() == 0) {
            return Figure.of(value).assuming(assumption.words());
        }
        double perPoint = own.fromReadings().get().standardUncertainty() / alone.standardUncertainty();
        Estimate together = alone.minus(anchor.fromReadings().get());
        return Figure.of(Estimate.of(value, perPoint * together.standardUncertainty(), together.degreesOfFreedom()))
                .withStatedErrors(stated(point, anchor, (one, other) -> perPoint * (one - other)))
                .assuming(assumption.words());
    }

    /** Compares a figure of a film, which is present, with that of the reference. */
    static Figure besideReference(FilmFigure figure, Figure own, Figure reference) {
        if (reference.value().isEmpty()) {
            return Figure.missing("the reference lacks it: " + reference.reason());
        }
        double difference =
                figure.difference(own.value().getAsDouble(), reference.value().getAsDouble());
        SystematicUncertainty stated = stated(own, reference, figure::difference);
        if (own.fromReadings().isEmpty() || reference.fromReadings().isEmpty()) {
            return Figure.of(difference).withStatedErrors(stated);
        }
        Estimate apart = own.fromReadings().get().minus(reference.fromReadings().get());
        return Figure.of(Estimate.of(
                        difference,
                        Math.abs(figure.difference(0, apart.standardUncertainty())),
                        apart.degreesOfFreedom()))
                .withStatedErrors(stated);
    }

    /** What stated errors contribute to a difference, which is linear in both: one that both share moves both alike. */
    private static SystematicUncertainty stated(Figure own, Figure reference, DoubleBinaryOperator difference) {
        Map<String, Double> ofOwn = own.statedErrors().contributions();
        Map<String, Double> ofReference = reference.statedErrors().contributions();
        Set<String> sources = new LinkedHashSet<>(ofOwn.keySet());
        sources.addAll(ofReference.keySet());
        Map<String, Double> contributions = new LinkedHashMap<>();
        for (String source : sources) {
            contributions.put(
                    source,
                    difference.applyAsDouble(ofOwn.getOrDefault(source, 0.0), ofReference.getOrDefault(source, 0.0)));
        }
        return SystematicUncertainty.ofContributions(contributions);
    }

    /**
     * Returns the strip's own part of the uncertainty of a figure, without that of the reference.
     *
     * @param figure which one
     * @return its standard uncertainty in the unit of the figure; empty if it is not known
     */
    public OptionalDouble ownUncertainty(FilmFigure figure) {
        Optional<Estimate> own = figures.read(figure).estimate();
        if (own.isEmpty()) {
            return OptionalDouble.empty();
        }
        double uncertainty = own.get().standardUncertainty();
        return OptionalDouble.of(
                figure.isBesideReference() ? Math.abs(figure.difference(0, uncertainty)) : uncertainty);
    }

    /**
     * Returns the comparison in words.
     *
     * @return the figures of the strip and how many stops faster it is than the reference; a speed that rests on an
     *     assumption is not called an ISO speed
     */
    @Override
    public String toString() {
        return (assumption().isEmpty()
                        ? figures.toString()
                        : figures.inWords(get(FilmFigure.EXACT_SPEED).toString()))
                + "; against the reference " + get(FilmFigure.STOPS_FROM_REFERENCE);
    }

    /**
     * Returns the comparison as named values: {@code strip}, {@code film}, {@code density_response} and {@code
     * density_geometry} if they are stated, then each {@link FilmFigure} by its identifier;
     * one that cannot be had has the reason as its text.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return FigureRecords.of(figures.strip(), this::get, figure -> true);
    }
}
