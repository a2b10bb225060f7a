package org.tonewedge.standards.comparison;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.Strip;

/**
 * A set of strips beside a reference film.
 *
 * <pre>{@code
 * ReadingsTable table = ReadingsTable.read(Path.of("strips.csv"));
 * for (StripComparison row : FilmComparison.of(table.strips(), "R00").rows()) {
 *     System.out.println(row.figures().strip().film() + "  " + row.get(FilmFigure.STOPS_FROM_REFERENCE));
 * }
 * }</pre>
 *
 * <p>Immutable and thread safe.
 */
public final class FilmComparison {

    private final StripFigures reference;
    private final List<StripComparison> rows;

    private FilmComparison(StripFigures reference, List<StripComparison> rows) {
        this.reference = reference;
        this.rows = rows;
    }

    /**
     * Compares strips by the monotone cubics through their readings.
     *
     * @param strips the strips, the reference among them
     * @param referenceId the identifier of the reference
     * @return the comparison
     * @throws IllegalArgumentException if no strip has the identifier or two have the same, or the strips are on different exposure axes
     */
    public static FilmComparison of(List<Strip> strips, String referenceId) {
        return of(referenceId, strips.stream().map(StripFigures::of).toList());
    }

    /**
     * Compares strips by curves of the caller's choice.
     *
     * @param strips the strips, the reference among them
     * @param referenceId the identifier of the reference
     * @param drawing how the curve of a strip is made
     * @return the comparison
     * @throws IllegalArgumentException if no strip has the identifier or two have the same, or the strips are on different exposure axes
     */
    public static FilmComparison of(
            List<Strip> strips, String referenceId, Function<Strip, CharacteristicCurve> drawing) {
        return of(
                referenceId,
                strips.stream().map(strip -> StripFigures.of(strip, drawing)).toList());
    }

    private static FilmComparison of(String referenceId, List<StripFigures> figures) {
        Set<String> seen = new HashSet<>();
        for (StripFigures each : figures) {
            if (!seen.add(each.strip().id())) {
                throw new IllegalArgumentException("two strips are called '"
                        + each.strip().id() + "'; give each piece of film an identifier of its own");
            }
        }
        StripFigures reference = figures.stream()
                .filter(candidate -> candidate.strip().id().equals(referenceId))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no strip is called '" + referenceId + "'; there are "
                        + String.join(
                                ", ",
                                figures.stream()
                                        .map(each -> each.strip().id())
                                        .limit(50)
                                        .toList())));
        return new FilmComparison(
                reference,
                figures.stream().map(own -> StripComparison.of(own, reference)).toList());
    }

    /**
     * Returns the figures of the reference.
     *
     * @return the figures
     */
    public StripFigures reference() {
        return reference;
    }

    /**
     * Returns one row for each strip, the reference included, in the order given.
     *
     * @return the rows
     */
    public List<StripComparison> rows() {
        return rows;
    }

    /**
     * Returns the comparison in words.
     *
     * @return a line for each strip
     */
    @Override
    public String toString() {
        return String.join("\n", rows.stream().map(StripComparison::toString).toList());
    }
}
