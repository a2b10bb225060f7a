// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;
import java.util.function.Function;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.Iso6Speed;

/**
 * The figures of a film comparison. Each contains everything that there is to say about it: its name, unit, definition
 * and source, how it is read off a strip, and how it is compared with the reference. Tables, pages and uncertainties
 * derive from this list, in this order; to add a figure, add one entry here.
 *
 * <pre>{@code
 * for (FilmFigure figure : FilmFigure.values()) {
 *     System.out.println(figure.heading() + ": " + row.get(figure));
 * }
 * }</pre>
 */
public enum FilmFigure {

    /**
     * The mean gross density of the unexposed, processed film. Its uncertainty is that of a reading, as the curve's drawing
     * knows it, divided by the square root of their number.
     */
    BASE_PLUS_FOG(
            "base_plus_fog",
            "Base + fog",
            "density",
            Style.PLAIN,
            "Mean density of the unexposed, processed film.",
            "common practice, no source",
            Reading.ofStrip(StripReading::basePlusFog)),

    /**
     * The greatest mean gross density of a step, with the uncertainty of its readings. It does not include that the greatest of
     * several steps on a level shoulder is likely to be one read too dense. A fitted curve knows one standard deviation for all
     * readings; where errors grow with density, the uncertainty here is too small.
     */
    MAXIMUM_DENSITY(
            "d_max",
            "Greatest density",
            "density",
            Style.PLAIN,
            "Greatest mean density of a step; the film may become denser beyond the readings.",
            "common practice, no source",
            Reading.ofStrip(StripReading::greatestDensity)),

    /** The log exposure of the speed point, 0.10 above base plus fog; on an absolute axis only. */
    SPEED_POINT(
            "log_h_m",
            "log H of speed point",
            "log10 lx·s",
            Style.PLAIN,
            "Log exposure Hₘ where density is 0.10 above base plus fog.",
            "ISO 6:1993, through secondary sources",
            Reading.ofAbsoluteCurve(StripReading::absoluteSpeedPoint)),

    /** The speed before rounding, S = 0.8 / H<sub>m</sub>. */
    EXACT_SPEED(
            "speed_exact",
            "Exact speed",
            "1/(lx·s)",
            Style.THREE_DIGITS,
            "0.8 / Hₘ before rounding; an ISO speed only if the contrast condition is met.",
            "ISO 6:1993, through secondary sources",
            Reading.ofAbsoluteCurve(reading -> reading.fromSpeed(Iso6Speed::exact))),

    /** How much faster the film is than the speed on its box. */
    STOPS_FROM_BOX_SPEED(
            "stops_vs_box",
            "Against box",
            "stops",
            Style.STOPS,
            "log₂ of the exact speed over the box speed; positive is faster.",
            "a stop is a factor of two in exposure: common practice, no source",
            Reading.ofAbsoluteCurve(StripReading::stopsFromBoxSpeed)),

    /** How much faster the film is than the reference, on an absolute or a shared relative axis. */
    STOPS_FROM_REFERENCE(
            "stops_vs_reference",
            "Against reference",
            "stops",
            Style.STOPS,
            "Stops from the speed point to that of the reference; positive is faster.",
            "a stop is a factor of two in exposure: common practice, no source",
            Reading.ofCurve(StripReading::speedPoint)
                    .besideReference((own, reference) ->
                            ExposureInterval.ofLogUnits(reference - own).stops())),

    /** How much denser the film is 1.30 log units beyond the speed point. */
    CONTRAST_OVER_130(
            "delta_d_1_30",
            "ΔD over 1.30",
            "density",
            Style.PLAIN,
            "Rise of density over the 1.30 log units beyond the speed point; the contrast condition asks for 0.80 ± 0.05.",
            "ISO 6:1993, through secondary sources",
            Reading.ofCurve(reading -> reading.fromContrast(found -> found.contrast()
                    .orElseThrow(() -> new NotDeterminableException(
                            reading.strip() + ": " + found.conditions().get(0)))
                    .value()))),

    /** The slope of the chord from 0.10 above base plus fog over 1.50 log units. */
    AVERAGE_GRADIENT(
            "average_gradient",
            "Average gradient",
            "",
            Style.PLAIN,
            "Slope of the chord from the speed point to the point 1.50 log units to its right.",
            "common practice, no source",
            Reading.ofCurve(reading -> reading.fromCurve(curve ->
                    AverageGradient.withDefaults().determine(curve).gradient().value()))),

    /** The slope of the line from base plus fog through two points 2.0 apart. */
    CONTRAST_INDEX(
            "contrast_index",
            "Contrast index",
            "",
            Style.PLAIN,
            "Slope of a line from base plus fog through two points of the curve, 0.2 and 2.2 from its start.",
            "arcs about a point on base plus fog: secondary sources named in the method",
            // A strip that never reaches the speed point has a line through its noise, but no contrast.
            Reading.ofCurve(reading -> reading.fromContrast(found -> ContrastIndex.withDefaults()
                    .determine(reading.drawn())
                    .gradient()
                    .value()))),

    /** The slope of the straight line. */
    GAMMA(
            "gamma",
            "Gamma",
            "",
            Style.PLAIN,
            "Slope of the straight line: the greatest that is sustained over three tenths of the straight part; not given"
                    + " if the gradient still rises at the last reading.",
            "US Navy NAVEDTRA 14208, Photography (Advanced), chapter 2",
            Reading.ofAnatomy(
                    List.of(),
                    reading -> reading.fromAnatomy(
                            parts -> parts.requireStraightLine().gamma().value()))),

    /** The length of the toe by the default {@link org.tonewedge.core.curve.AnatomyCriterion}. */
    TOE_LENGTH(
            "toe_length",
            "Toe length",
            "log units",
            Style.PLAIN,
            "Log units from where the gradient is a tenth of its greatest value to the start of the straight line; named if"
                    + " the readings show it at 95 %.",
            "the default criterion of the project",
            Reading.ofAnatomy(
                    List.of(CurveEnd.WHOLE_TOE),
                    reading -> reading.fromAnatomy(parts -> reading.length(
                            parts.requireStraightLine().toe(),
                            "the toe is not measured from its beginning; read steps of less exposure")))),

    /** The length of the straight line by the default {@link org.tonewedge.core.curve.AnatomyCriterion}. */
    STRAIGHT_LINE_LENGTH(
            "straight_line_length",
            "Straight line",
            "log units",
            Style.PLAIN,
            "Log units over which the gradient stays within four fifths of its greatest value; named if the readings show"
                    + " both ends at 95 %.",
            "the default criterion of the project",
            Reading.ofAnatomy(
                    List.of(CurveEnd.TOE, CurveEnd.SHOULDER),
                    reading -> reading.fromAnatomy(parts -> reading.length(
                            Optional.of(parts.straightLine()),
                            "the straight line runs on beyond the readings; it is at least "
                                    + Figures.plain(
                                            parts.straightLine().length().logUnits()) + " log units long")))),

    /** The gross density at the dense end of the straight line. */
    SHOULDER_START_DENSITY(
            "shoulder_start_density",
            "Shoulder from density",
            "density",
            Style.PLAIN,
            "Density at which the gradient falls below four fifths of its greatest value; named if the readings show it at"
                    + " 95 %.",
            "the default criterion of the project",
            Reading.ofAnatomy(
                    List.of(CurveEnd.SHOULDER),
                    reading -> reading.fromAnatomy(parts -> parts.shoulder()
                            .orElseThrow(() -> new OutsideMeasuredRangeException(
                                    reading.strip() + ": no shoulder is reached up to "
                                            + reading.drawn().maximumDensity() + "; read steps of more exposure"))
                            .thinEnd()
                            .density()
                            .value()))),

    /** The change of printing exposure for the difference of base plus fog; see {@link PrintExposure}. */
    PRINT_STOPS_FROM_REFERENCE(
            "print_stops_vs_reference",
            "Print exposure",
            "stops",
            Style.STOPS,
            "Change of printing exposure that prints unexposed film to the tone of the reference's: 10 to the power"
                    + " of the difference of base plus fog.",
            "transmittance is 10 to the power of minus density: ISO 5-2",
            Reading.ofStrip(StripReading::basePlusFog)
                    .besideReference(
                            (own, reference) -> PrintExposure.forBasePlusFog(Density.of(own), Density.of(reference))
                                    .stops()));

    /** How a figure is written. */
    private enum Style {
        PLAIN,
        STOPS,
        THREE_DIGITS
    }

    /**
     * How a figure is obtained.
     *
     * @param from what it depends on
     * @param ends the ends of the readings that must show before the figure is named
     * @param own reads the figure, or the quantity that is compared with the reference
     * @param difference compares it with the reference; null for a figure of the strip alone
     */
    private record Reading(
            From from, List<CurveEnd> ends, Function<StripReading, Figure> own, DoubleBinaryOperator difference) {

        /** What a figure is read from. */
        private enum From {
            STRIP,
            CURVE,
            ABSOLUTE_CURVE,
            ANATOMY
        }

        static Reading ofStrip(Function<StripReading, Figure> own) {
            return new Reading(From.STRIP, List.of(), own, null);
        }

        static Reading ofCurve(Function<StripReading, Figure> own) {
            return new Reading(From.CURVE, List.of(), own, null);
        }

        static Reading ofAbsoluteCurve(Function<StripReading, Figure> own) {
            return new Reading(From.ABSOLUTE_CURVE, List.of(), own, null);
        }

        static Reading ofAnatomy(List<CurveEnd> ends, Function<StripReading, Figure> own) {
            return new Reading(From.ANATOMY, ends, own, null);
        }

        Reading besideReference(DoubleBinaryOperator asFarApart) {
            return new Reading(from, ends, own, asFarApart);
        }
    }

    private final String id;
    private final String heading;
    private final String unit;
    private final Style style;
    private final String definition;
    private final String source;

    @SuppressWarnings("ImmutableEnumChecker") // functions without state
    private final Reading reading;

    FilmFigure(String id, String heading, String unit, Style style, String definition, String source, Reading reading) {
        this.id = id;
        this.heading = heading;
        this.unit = unit;
        this.style = style;
        this.definition = definition;
        this.source = source;
        this.reading = reading;
    }

    /**
     * Returns the identifier of the figure, which is the name of its column in CSV tables.
     *
     * @return for example {@code speed_exact}
     */
    public String id() {
        return id;
    }

    /**
     * Finds a figure by its identifier.
     *
     * @param id the identifier, such as {@code speed_exact}
     * @return the figure
     * @throws IllegalArgumentException if no figure has the identifier
     */
    public static FilmFigure of(String id) {
        Objects.requireNonNull(id, "id");
        return Arrays.stream(values())
                .filter(figure -> figure.id.equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no figure is called '" + id + "'; there are "
                        + String.join(
                                ", ",
                                Arrays.stream(values()).map(FilmFigure::id).toList())));
    }

    /**
     * Returns the heading for readers.
     *
     * @return for example {@code Average gradient}
     */
    public String heading() {
        return heading;
    }

    /**
     * Returns the unit.
     *
     * @return for example {@code log units}; empty for a figure without one
     */
    public String unit() {
        return unit;
    }

    /**
     * Returns the definition of the figure.
     *
     * @return a sentence
     */
    public String definition() {
        return definition;
    }

    /**
     * Returns the source of the definition.
     *
     * @return the source, or a statement that there is none
     */
    public String source() {
        return source;
    }

    /**
     * Tells whether the figure compares a strip with the reference.
     *
     * @return false for a figure of one strip alone
     */
    public boolean isBesideReference() {
        return reading.difference() != null;
    }

    /**
     * Tells whether the figure is read off the curve, so that another curve through the same readings changes it.
     *
     * @return false for a figure that is read on the strip itself
     */
    public boolean isReadOffCurve() {
        return reading.from() != Reading.From.STRIP;
    }

    /**
     * Tells whether the figure needs exposures in lux seconds, so that it rests on the assumption where these are assumed.
     *
     * @return false for a figure that relative exposures give too
     */
    public boolean isAbsolute() {
        return reading.from() == Reading.From.ABSOLUTE_CURVE;
    }

    /** Whether the figure is read off the parts of the curve, which only a smooth curve has. */
    boolean isOfAnatomy() {
        return reading.from() == Reading.From.ANATOMY;
    }

    /** The ends of the readings that must show before the figure is named. */
    List<CurveEnd> mustShow() {
        return reading.ends();
    }

    /** Reads the figure, or the quantity that is compared with the reference. */
    Figure read(StripReading of) {
        return reading.own().apply(of);
    }

    /** Compares the readings of two strips. */
    double difference(double own, double reference) {
        return isBesideReference() ? reading.difference().applyAsDouble(own, reference) : own - reference;
    }

    /**
     * Writes a value of the figure for readers: two decimals, stops with their sign, a speed with three digits.
     *
     * @param value the value
     * @return the text, without the unit
     */
    public String inWords(double value) {
        return switch (style) {
            case PLAIN -> decimals(2, value, false);
            case STOPS -> decimals(2, value, true);
            case THREE_DIGITS -> decimals(value >= 100 ? 0 : value >= 10 ? 1 : 2, value, false);
        };
    }

    /**
     * Writes a value of the figure with as many decimals as its uncertainty justifies. The standard uncertainty has two
     * significant digits if it begins with 1 or 2, otherwise one.
     *
     * @param estimate the value with its standard uncertainty
     * @return for example {@code 0.62 ± 0.03}, without the unit; without an uncertainty as {@link #inWords(double)}
     * @source at most two significant digits of an uncertainty: JCGM 100:2008, 7.2.6; when one suffices: common practice,
     *     no source
     */
    public String inWords(Estimate estimate) {
        return inWords(estimate, style == Style.STOPS);
    }

    /** Writes how large a difference is, without its sign. */
    String amount(Estimate difference) {
        return inWords(
                Estimate.of(
                        Math.abs(difference.value()), difference.standardUncertainty(), difference.degreesOfFreedom()),
                false);
    }

    private String inWords(Estimate estimate, boolean signed) {
        double uncertainty = estimate.standardUncertainty();
        if (uncertainty == 0) {
            return style == Style.STOPS ? decimals(2, estimate.value(), signed) : inWords(estimate.value());
        }
        int exponent = (int) Math.floor(Math.log10(uncertainty));
        boolean two = uncertainty / Math.pow(10, exponent) < 3;
        String text = EstimateFormat.withDefaults().withDigits(two ? 2 : 1).format(estimate);
        boolean zero = text.matches("[0.]+ .*");
        return signed && estimate.value() > 0 && !zero ? "+" + text : text;
    }

    private static String decimals(int places, double value, boolean signed) {
        String text = String.format(Locale.ROOT, "%." + places + "f", value);
        boolean zero = Double.parseDouble(text) == 0;
        text = zero ? text.replace("-", "") : text.replace('-', '\u2212');
        return signed && value > 0 && !zero ? "+" + text : text;
    }

    /**
     * Returns the figure as it is headed.
     *
     * @return the heading
     */
    @Override
    public String toString() {
        return heading;
    }
}
