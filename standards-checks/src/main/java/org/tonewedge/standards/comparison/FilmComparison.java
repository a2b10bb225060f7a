// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import java.util.stream.Collectors;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.StripComparison.Assumption;
import org.tonewedge.standards.film.Iso6;

/**
 * A set of strips compared with a reference film.
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
public final class FilmComparison implements Recorded {

    private final StripFigures reference;
    private final List<StripComparison> rows;
    private final CurveDrawing drawing;

    private FilmComparison(StripFigures reference, List<StripComparison> rows, CurveDrawing drawing) {
        this.reference = reference;
        this.rows = rows;
        this.drawing = drawing;
    }

    /**
     * Compares strips by their {@linkplain CurveDrawing#fitted() fitted curves}.
     *
     * @param strips the strips, including the reference
     * @param referenceId the identifier of the reference
     * @return the comparison
     * @throws IllegalArgumentException if no strip has the identifier or two have the same, or the strips are on different
     *     exposure axes
     */
    public static FilmComparison of(List<Strip> strips, String referenceId) {
        return of(strips, referenceId, CurveDrawing.fitted());
    }

    /**
     * Compares strips by curves drawn as you choose.
     *
     * @param strips the strips, including the reference
     * @param referenceId the identifier of the reference
     * @param drawing how the curve of a strip is drawn
     * @return the comparison
     * @throws IllegalArgumentException if no strip has the identifier or two have the same, or the strips are on different
     *     exposure axes
     */
    public static FilmComparison of(List<Strip> strips, String referenceId, CurveDrawing drawing) {
        return of(strips, referenceId, drawing, "");
    }

    /**
     * Compares many strips, whose curves are drawn on the threads of an executor.
     *
     * @param strips the strips, including the reference
     * @param referenceId the identifier of the reference
     * @param drawing how the curve of a strip is drawn; one of your own must be thread safe
     * @param executor runs one task for each strip; may be a fixed thread pool, which the caller shuts down
     * @return the comparison, its rows in the order of the strips, identical to the last bit to that without an executor
     * @throws IllegalArgumentException if no strip has the identifier or two have the same, or the strips are on different
     *     exposure axes
     */
    public static FilmComparison of(List<Strip> strips, String referenceId, CurveDrawing drawing, Executor executor) {
        Objects.requireNonNull(referenceId, "referenceId");
        Objects.requireNonNull(drawing, "drawing");
        Objects.requireNonNull(executor, "executor");
        List<CompletableFuture<StripFigures>> tasks = strips.stream()
                .map(strip -> CompletableFuture.supplyAsync(() -> StripFigures.of(strip, drawing), executor))
                .toList();
        return ofFigures(tasks.stream().map(FilmComparison::join).toList(), referenceId, drawing, "");
    }

    private static StripFigures join(CompletableFuture<StripFigures> task) {
        try {
            return task.join();
        } catch (CompletionException e) {
            if (e.getCause() instanceof RuntimeException failure) {
                throw failure;
            }
            throw e;
        }
    }

    private static FilmComparison of(List<Strip> strips, String referenceId, CurveDrawing drawing, String assumption) {
        Objects.requireNonNull(referenceId, "referenceId");
        Objects.requireNonNull(drawing, "drawing");
        return ofFigures(
                strips.stream().map(strip -> StripFigures.of(strip, drawing)).toList(),
                referenceId,
                drawing,
                assumption);
    }

    private static FilmComparison ofFigures(
            List<StripFigures> figures, String referenceId, CurveDrawing drawing, String assumption) {
        requireOwnIdentifiers(figures);
        StripFigures reference = find(figures, referenceId);
        Assumption made = assumption.isEmpty() ? Assumption.NONE : new Assumption(assumption, reference);
        return new FilmComparison(
                reference,
                figures.stream()
                        .map(own -> StripComparison.of(own, reference, made))
                        .toList(),
                drawing);
    }

    private static void requireOwnIdentifiers(List<StripFigures> figures) {
        Set<String> seen = new HashSet<>();
        for (StripFigures each : figures) {
            if (!seen.add(each.strip().id())) {
                throw new IllegalArgumentException("two strips are called '"
                        + each.strip().id() + "'; give each piece of film its own identifier");
            }
        }
    }

    /**
     * Adds strips that were exposed elsewhere, beside another strip of the reference film. So measured exposures combine
     * with relative ones, {@linkplain #withReferenceSpeed anchored} by the reference film among them. Each strip stays
     * compared with the reference that it was exposed with, and marked as assumed if it was.
     *
     * @param other a comparison with a strip of the same film
     * @return the strips of both, the reference of this one first
     * @throws IllegalArgumentException if the reference films differ, a strip is in both, or exposures are relative
     */
    public FilmComparison combinedWith(FilmComparison other) {
        String film = reference.strip().film();
        String otherFilm = other.reference.strip().film();
        if (!film.equals(otherFilm)) {
            throw new IllegalArgumentException("comparisons to combine must have one reference film, had '" + film
                    + "' and '" + otherFilm + "'; compare both with strips of one film");
        }
        if (!reference.strip().axis().isAbsolute()
                || !other.reference.strip().axis().isAbsolute()) {
            throw new IllegalArgumentException(
                    "comparisons to combine must have exposures in lux seconds, had relative ones;"
                            + " assume a speed of the reference first");
        }
        List<StripComparison> all = new ArrayList<>(rows);
        all.addAll(other.rows);
        requireOwnIdentifiers(all.stream().map(StripComparison::figures).toList());
        return new FilmComparison(reference, List.copyOf(all), drawing);
    }

    /**
     * Anchors relative exposures by assuming the speed of the reference. The comparison then gives speeds and stops
     * from the box speed for every strip, each {@linkplain Figure#assumption() marked as assumed}. Their uncertainties
     * include that of the reference's speed point, but not that of the assumption. The strips of the result have
     * absolute exposures.
     *
     * @param speed the assumed arithmetic speed of the reference, such as the speed on its box
     * @return the comparison on absolute exposures
     * @throws IllegalArgumentException if the speed is not a finite number above 0, or exposures are absolute already
     * @throws NotDeterminableException if the reference has no speed point
     */
    public FilmComparison withReferenceSpeed(double speed) {
        Checks.positive("assumed speed of the reference", speed);
        if (reference.strip().axis().isAbsolute()) {
            throw new IllegalArgumentException(
                    "exposures are in lux seconds, so the speed of the reference is measured and cannot be assumed");
        }
        LogExposure point = reference
                .iso6Contrast()
                .orElseThrow(() -> new NotDeterminableException("no speed can be assumed: "
                        + reference.read(FilmFigure.STOPS_FROM_REFERENCE).reason()))
                .speedPoint()
                .logExposure();
        LogExposure assumed = LogExposure.ofLogLuxSeconds(Math.log10(Iso6.SPEED_CONSTANT / speed));
        List<Strip> anchored = rows.stream()
                .map(row -> row.figures().strip().anchored(point, assumed))
                .toList();
        return of(
                anchored,
                reference.strip().id(),
                drawing,
                "the reference, " + reference.strip().film() + ", is assumed to have a speed of " + inWords(speed));
    }

    /** Four digits of it, without zeros at the end. */
    private static String inWords(double speed) {
        return new BigDecimal(speed, new MathContext(4)).stripTrailingZeros().toPlainString();
    }

    /**
     * Returns the assumption on which absolute exposures rest.
     *
     * @return the assumption of {@link #withReferenceSpeed}; empty if none was made
     */
    public String assumption() {
        return rows.stream()
                .map(StripComparison::assumption)
                .filter(words -> !words.isEmpty())
                .distinct()
                .collect(Collectors.joining("; "));
    }

    private static StripFigures find(List<StripFigures> figures, String id) {
        return figures.stream()
                .filter(candidate -> candidate.strip().id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no strip is called '" + id + "'; there are "
                        + String.join(
                                ", ",
                                figures.stream()
                                        .map(each -> each.strip().id())
                                        .limit(50)
                                        .toList())));
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
     * Compares one strip with another, so that their difference has the uncertainties of these two strips and not that
     * of the reference.
     *
     * @param id the identifier of a strip
     * @param other the identifier of the strip to compare with
     * @return the two strips, the other in the place of the reference
     * @throws IllegalArgumentException if no strip has one of the identifiers
     */
    public StripComparison between(String id, String other) {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(other, "other");
        List<StripFigures> figures = rows.stream().map(StripComparison::figures).toList();
        return StripComparison.between(
                rows.get(figures.indexOf(find(figures, id))), rows.get(figures.indexOf(find(figures, other))));
    }

    /**
     * Returns one row for each strip, including the reference, in the order given.
     *
     * @return the rows
     */
    public List<StripComparison> rows() {
        return rows;
    }

    /**
     * Groups the strips of each film that were developed alike. Strips whose exposures were anchored by different strips of
     * the reference are not put together: the errors of their anchors differ.
     *
     * @return a mean for each film and development, in the order of their first strips; a film with one strip keeps the
     *     figures of that strip
     */
    public List<FilmMean> films() {
        Map<List<Object>, List<StripComparison>> groups = new LinkedHashMap<>();
        for (StripComparison row : rows) {
            groups.computeIfAbsent(alike(row.figures(), row.anchoring()), any -> new ArrayList<>())
                    .add(row);
        }
        List<FilmMean> films = new ArrayList<>();
        for (List<StripComparison> group : groups.values()) {
            StripComparison first = group.get(0);
            films.add(new FilmMean(
                    figures(group),
                    figures(groups.get(alike(first.reference(), first.anchoring()))),
                    first.anchoring()));
        }
        return List.copyOf(films);
    }

    private static List<StripFigures> figures(List<StripComparison> group) {
        return group.stream().map(StripComparison::figures).toList();
    }

    private static List<Object> alike(StripFigures figures, Assumption assumption) {
        Processing processing = figures.strip().processing();
        return List.of(
                figures.strip().film(),
                processing.developer(),
                processing.time(),
                processing.temperature(),
                figures.strip().densityResponse(),
                figures.strip().densityGeometry(),
                assumption);
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

    /**
     * Returns every row as named values, each under the identifier of its strip, as in {@code S07.speed_exact}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return rows.stream()
                .flatMap(row -> row.records().stream()
                        .map(each -> each.under(row.figures().strip().id())))
                .toList();
    }
}
