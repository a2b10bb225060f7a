// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Processing;

/**
 * The strips of one film that were developed alike, taken together: the mean of each figure. Its uncertainty includes
 * the variation from strip to strip, mainly of exposure and development. A film with a single strip keeps the figures
 * of that strip, whose uncertainties do not include it.
 *
 * <p>The standard uncertainty of a mean of n strips is s / √n with n − 1 degrees of freedom, where s is the standard
 * deviation of the figure among them; the scatter of the readings is thus counted once. Where strips agree by chance,
 * s says too little: it is then the root mean square of what the readings of each strip give. Two strips give an interval
 * of ± 12.7 standard uncertainties, three of ± 4.3.
 *
 * <p>Where the same wrong family of curves is drawn through all strips, its error does not become less with their number. The
 * mean of the signed distances {@linkplain org.tonewedge.fitting.parametric.StripFit#disagreement d} from curves of no family
 * is therefore added, u² = s²/n + d²; it counts as exactly known.
 *
 * <p>Stated errors that strips have in common, such as those of a densitometer's correction, do not show in the scatter of
 * these strips and are added. Where some of the strips share errors that others do not, as films read with two
 * instruments, s is that of the strips that share the same errors, with n − g degrees of freedom for g such groups.
 * Of 1,000 simulated pairs of films of four strips each, two read with either of two instruments that were corrected by
 * one tablet of nine steps (u = 0.005), 95 % intervals contained the true speed point in 95.6 %, the stops between the
 * films in 96.2 %, the difference of gamma in 96.4 % and gamma in 94.9 %; where all steps of the certificate are
 * wrong by the same amount, in 93.9, 95.9, 97.3 and 96.1 % ({@code TwoInstrumentsTest} in the tests, run as a program
 * with {@code 500 9 4 0.005 1} and {@code 500 9 4 0.005 2}).
 *
 * <p>For 300 simulated films each of two layers, on which families of curves disagree, 95 % intervals of the mean gamma
 * contained the truth for 100, 99.3, 98.3 and 99.0 % of the films with 2, 3, 5 and 12 strips, and two standard uncertainties for
 * 98.3, 99.0, 97.7 and 99.0 %; with 12 strips the least is the contrast index, with 88.0 and 84.3 %. For films of the fitted
 * family, with 2, 5 and 12 strips, all intervals of gamma did so, and two standard uncertainties for 99.0, 100 and 100 %: where
 * strips differ by their readings alone, intervals are wider than they need be, half of one being 12, 5 and 6 times the root
 * mean square error ({@code FilmMeanTest} in the tests, run as a program with {@code 300 12 11 TWO_LAYERS} or {@code 300 12 11
 * FAMILY}, and with fewer strips).
 *
 * <p>For 10,000 simulated films each, whose strips differ by 0.03 log units of exposure, 95 % intervals of the mean speed
 * point, from the spread of the strips alone, contained the truth for 95.2, 94.5 and 95.3 % of the films with 2, 3 and 5
 * strips; the intervals of a single strip did so for 75 to 76 %. One mean and one strip of all these reached no speed point ({@code FilmMeanTest} in the
 * tests, run as a program with {@code 10000 2 101}, {@code 10000 3 102} and {@code 10000 5 103}).
 *
 * <p>Immutable and thread safe.
 *
 * @source JCGM 100:2008, 4.2.3 and G.3.2
 */
public final class FilmMean implements Recorded {

    private final List<StripFigures> strips;
    private final List<StripFigures> reference;
    private final StripComparison.Assumption assumption;

    FilmMean(List<StripFigures> strips, List<StripFigures> reference, StripComparison.Assumption assumption) {
        this.strips = List.copyOf(strips);
        this.reference = List.copyOf(reference);
        this.assumption = assumption;
    }

    /**
     * Returns the label of the film.
     *
     * @return the label
     */
    public String film() {
        return strips.get(0).strip().film();
    }

    /**
     * Returns the development of the strips.
     *
     * @return the processing that they share
     */
    public Processing processing() {
        return strips.get(0).strip().processing();
    }

    /**
     * Returns the strips.
     *
     * @return the strips, in the order given
     */
    public List<StripFigures> strips() {
        return strips;
    }

    /**
     * Tells whether the uncertainties include the variation from strip to strip.
     *
     * @return false for a film with a single strip
     */
    public boolean includesStripToStrip() {
        return strips.size() > 1;
    }

    /**
     * Returns the mean of a figure.
     *
     * @param figure the figure; one that compares with the reference uses the mean of those strips of the reference
     *     film that were developed like the reference; one that rests on an assumed speed is marked so
     * @return the mean over the strips that give the figure, or the reason why there is none
     */
    public Figure get(FilmFigure figure) {
        Figure own = mean(strips, figure);
        if (own.value().isPresent()
                && figure.isAbsolute()
                && !assumption.words().isEmpty()) {
            return strips.equals(List.of(assumption.anchor()))
                    ? Figure.of(own.value().getAsDouble()).assuming(assumption.words())
                    : StripComparison.assumed(own, mean(strips, FilmFigure.SPEED_POINT), assumption);
        }
        if (!figure.isBesideReference() || own.value().isEmpty()) {
            return own;
        }
        if (strips.equals(reference)) {
            return Figure.of(0);
        }
        Optional<String> unlike =
                DensityKinds.difference(strips.get(0).strip(), reference.get(0).strip());
        if (unlike.isPresent() && !DensityKinds.holdsAcross(figure)) {
            return DensityKinds.refused(unlike.get());
        }
        return StripComparison.besideReference(figure, own, mean(reference, figure));
    }

    /**
     * Returns how much a figure varies from strip to strip, beyond what the readings of each strip explain.
     *
     * @param figure which one
     * @return a standard deviation in the unit of the figure as read on one strip; 0 if the readings explain all of it;
     *     empty if fewer than two strips give the figure
     */
    public OptionalDouble stripToStripDeviation(FilmFigure figure) {
        List<Figure> given = given(strips, figure);
        if (given.size() < 2) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(Math.sqrt(Math.max(0, StripScatter.of(given).variance() - explained(given))));
    }

    /** The mean variance that the readings of each strip explain. */
    private static double explained(List<Figure> given) {
        return given.stream()
                .filter(figure -> figure.fromReadings().isPresent())
                .mapToDouble(FilmMean::ownVariance)
                .average()
                .orElse(0);
    }

    /** The variance that the readings give, without the disagreement of families, which strips of one film share. */
    private static double ownVariance(Figure figure) {
        double all = figure.fromReadings().orElseThrow().standardUncertainty();
        return Math.max(0, all * all - figure.disagreement() * figure.disagreement());
    }

    private static List<Figure> given(List<StripFigures> strips, FilmFigure figure) {
        return strips.stream()
                .map(strip -> strip.read(figure))
                .filter(read -> read.value().isPresent())
                .toList();
    }

    private static Figure mean(List<StripFigures> strips, FilmFigure figure) {
        if (strips.size() == 1) {
            return strips.get(0).read(figure);
        }
        List<Figure> given = given(strips, figure);
        if (given.isEmpty()) {
            return strips.get(0).read(figure);
        }
        if (given.size() == 1) {
            return Figure.missing("only one of the " + strips.size() + " strips gives it; a mean needs two");
        }
        StripScatter scatter = StripScatter.of(given);
        double variance = Math.max(scatter.variance(), explained(given));
        double random = Math.sqrt(variance / given.size());
        double disagreement =
                given.stream().mapToDouble(Figure::disagreement).average().orElseThrow();
        double uncertainty = Math.hypot(random, disagreement);
        double share = disagreement == 0 ? 1 : Math.pow(random / uncertainty, 2);
        return Figure.of(Estimate.of(
                        average(given), uncertainty, StudentT.besideStated(scatter.degreesOfFreedom(), share)))
                .withStatedErrors(scatter.common());
    }

    private static double average(List<Figure> given) {
        return given.stream()
                .mapToDouble(figure -> figure.value().orElseThrow())
                .average()
                .orElseThrow();
    }

    /**
     * Returns the film in words.
     *
     * @return the film, its strips and its stops from the reference
     */
    @Override
    public String toString() {
        return film() + ", " + strips.size() + (strips.size() == 1 ? " strip" : " strips") + ": against the reference "
                + get(FilmFigure.STOPS_FROM_REFERENCE);
    }

    /**
     * Returns the means as named values: {@code film}, {@code strips}, then each {@link FilmFigure} by its identifier.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("film", film()));
        records.add(ResultRecord.ofNumber("strips", strips.size(), ""));
        records.addAll(FigureRecords.figures(this::get, figure -> true));
        return List.copyOf(records);
    }
}
