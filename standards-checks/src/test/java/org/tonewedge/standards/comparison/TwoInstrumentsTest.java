// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ReadingCorrection;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.ParametricForm;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/** Films read with two instruments, both corrected by one tablet, whose certificate is wrong as far as it says. */
class TwoInstrumentsTest {

    private static final double NOISE = 0.003;
    private static final double BASE = 0.25;
    private static final double LOWEST = -3;

    /** How the certificate is wrong. */
    private enum Wrong {
        STEPS,
        COMMON
    }

    /** Reads offset + slope · D, with noise. */
    private record Instrument(String name, double offset, double slope, Random random) {

        double read(double density) {
            return offset + slope * density + NOISE * random.nextGaussian();
        }

        DensityCorrection check(StepTablet certified, double[] truth) {
            return DensityCorrection.of(ReadingsSummary.of(certified, readings(truth)));
        }

        List<LogReading> readings(double[] truth) {
            List<LogReading> readings = new ArrayList<>();
            for (int repeat = 0; repeat < 3; repeat++) {
                for (int i = 0; i < truth.length; i++) {
                    readings.add(LogReading.of(Density.of(read(truth[i])), 9).withStep(i + 1));
                }
            }
            return readings;
        }
    }

    /** A tablet and two instruments checked against it. */
    private static final class Bench {

        private final Map<Instrument, DensityCorrection> instruments = new LinkedHashMap<>();
        private final Map<Instrument, ReadingCorrection> corrections = new LinkedHashMap<>();

        Bench(int steps, double uncertainty, Wrong error, boolean onOneTablet, Random random) {
            double[] truth = new double[steps];
            double[] certified = new double[steps];
            double common = random.nextGaussian();
            for (int i = 0; i < steps; i++) {
                truth[i] = 0.05 + 3.0 * i / (steps - 1);
                certified[i] = truth[i] + uncertainty * (error == Wrong.COMMON ? common : random.nextGaussian());
            }
            Instrument first = new Instrument("first", 0.02, 0.98, random);
            Instrument second = new Instrument("second", -0.01, 1.03, random);
            for (Instrument each : List.of(first, second)) {
                String name = onOneTablet ? "T 1" : "T of " + each.name();
                DensityCorrection correction = each.check(StepTablet.calibrated(name, uncertainty, certified), truth);
                instruments.put(each, correction);
                corrections.put(each, correction.forReadings(each.name()));
            }
        }

        Strip strip(String id, String film, ParametricForm form, double moreExposure, int instrument) {
            Instrument by = List.copyOf(instruments.keySet()).get(instrument);
            DensityCorrection correction = instruments.get(by);
            Strip.Builder strip = Strip.builder(id).film(film);
            for (int i = 0; i < 3; i++) {
                strip.basePlusFog(correction.correct(Density.of(by.read(BASE))).value());
            }
            for (int i = 0; i <= 20; i++) {
                double x = LOWEST + 0.15 * i;
                strip.reading(
                        LogExposure.ofLogLuxSeconds(x),
                        Density.of(correction
                                .correct(Density.of(by.read(form.density(x + moreExposure))))
                                .value()));
            }
            corrections.get(by).commonErrors().forEach(strip::densityError);
            return strip.build();
        }
    }

    private static ParametricForm film(double gamma, double start) {
        return CurveFamily.TOE_SHOULDER.form(BASE, gamma, start, 0.15, start + 1.3, 0.08);
    }

    /** What the curve itself gives, whatever strip it is drawn for. */
    private static StripFigures truth(ParametricForm form, Strip strip) {
        return StripFigures.of(
                strip,
                CurveDrawing.of(any -> CharacteristicCurve.of(
                        "truth",
                        form,
                        LogExposure.ofLogLuxSeconds(LOWEST),
                        LogExposure.ofLogLuxSeconds(0),
                        Density.of(BASE))));
    }

    /** How often an interval of 95 % contains the truth, and the mean square of u beside that of the error. */
    private static final class Count {

        private int told;
        private int contained;
        private double stated;
        private double squares;

        void add(Figure figure, double truth) {
            if (figure.estimate().isEmpty()) {
                return;
            }
            Estimate estimate = figure.estimate().get();
            told++;
            contained += estimate.interval(0.95).contains(truth) ? 1 : 0;
            stated += estimate.standardUncertainty() * estimate.standardUncertainty();
            squares += (estimate.value() - truth) * (estimate.value() - truth);
        }

        double coverage() {
            return contained / (double) told;
        }

        /** The stated uncertainty over the true one. */
        double size() {
            return Math.sqrt(stated / squares);
        }

        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%d told, %.3f contained, u %.2f of the true", told, coverage(), size());
        }
    }

    /**
     * Two equal films, each read with its instrument. The certificate moves gamma of both alike, and nothing of it is left in
     * their difference; if it counted as two, it would be √2 times that of one film.
     */
    @Test
    void theCertificateOfOneTabletIsNotCountedTwice() {
        Bench one = new Bench(9, 0.02, Wrong.STEPS, true, new Random(4));
        Figure first = gamma(one, 0);
        Figure second = gamma(one, 1);
        double ofFilm = ofTablets(first);
        // so that the shares below mean something (own limit, no source)
        assertTrue(ofFilm > 0.003, first::toString);
        assertEquals(ofFilm, ofTablets(second), 0.1 * ofFilm);
        assertEquals(0, ofTablets(StripComparison.besideReference(FilmFigure.GAMMA, first, second)), 0.1 * ofFilm);

        Bench two = new Bench(9, 0.02, Wrong.STEPS, false, new Random(4));
        Figure difference = StripComparison.besideReference(FilmFigure.GAMMA, gamma(two, 0), gamma(two, 1));
        assertEquals(Math.sqrt(2) * ofFilm, ofTablets(difference), 0.1 * ofFilm);
    }

    /** Each film of two strips, one by each instrument: the mean has all of the certificate's error, the difference none. */
    @Test
    void aMeanOfTwoInstrumentsKeepsTheCertificatesError() {
        Bench bench = new Bench(9, 0.02, Wrong.STEPS, true, new Random(4));
        List<Strip> strips = new ArrayList<>();
        for (String film : List.of("R", "A")) {
            for (int instrument = 0; instrument < 2; instrument++) {
                strips.add(bench.strip(film + instrument, film, film(0.7, -2.2), 0, instrument));
            }
        }
        List<FilmMean> films = FilmComparison.of(strips, "R0").films();
        Figure reference = films.get(0).get(FilmFigure.GAMMA);
        Figure other = films.get(1).get(FilmFigure.GAMMA);
        double ofFilm = ofTablets(gamma(bench, 0));
        assertEquals(ofFilm, ofTablets(other), 0.1 * ofFilm);
        Figure difference = StripComparison.besideReference(FilmFigure.GAMMA, other, reference);
        assertEquals(0, ofTablets(difference), 0.1 * ofFilm);
    }

    /**
     * One of the counts that {@link #main} prints with the arguments {@code 60 9 4 0.02}, with a certificate that is
     * wrong by more than the strips scatter. The limits are our own, no source. Nine such steps would not show a bend, so that gamma
     * includes one that these instruments do not have; speeds differ by little of it.
     */
    @Test
    void intervalsContainTheTruth() {
        Pairs pairs = Pairs.of(60, 9, 4, 0.02, Wrong.STEPS, true, 1);
        for (Count count : List.of(pairs.speedPoint, pairs.stops, pairs.gamma, pairs.differenceOfGamma)) {
            assertEquals(60, count.told);
            assertTrue(count.coverage() > 0.9 && count.size() > 0.8, pairs::toString);
        }
        assertTrue(pairs.speedPoint.size() < 1.5 && pairs.stops.size() < 1.5, pairs::toString);
        assertTrue(pairs.gamma.size() < 3 && pairs.differenceOfGamma.size() < 2, pairs::toString);
    }

    private static Figure gamma(Bench bench, int instrument) {
        return StripFigures.of(bench.strip("S", "S", film(0.7, -2.2), 0, instrument))
                .get(FilmFigure.GAMMA);
    }

    /** What the certificates of tablets contribute. */
    private static double ofTablets(Figure figure) {
        return Math.sqrt(figure.statedErrors().contributions().entrySet().stream()
                .filter(each -> each.getKey().contains("tablet"))
                .mapToDouble(each -> each.getValue() * each.getValue())
                .sum());
    }

    /** Pairs of films, each of one strip or of four, the instruments shared out between the films or within them. */
    private static final class Pairs {

        private final Count speedPoint = new Count();
        private final Count stops = new Count();
        private final Count gamma = new Count();
        private final Count differenceOfGamma = new Count();

        static Pairs of(
                int pairs, int steps, int strips, double uncertainty, Wrong error, boolean onOneTablet, long seed) {
            Pairs found = new Pairs();
            SplittableRandom seeds = new SplittableRandom(seed); // neighbouring seeds of Random begin alike
            for (int i = 0; i < pairs; i++) {
                Random random = new Random(seeds.nextLong());
                found.add(new Bench(steps, uncertainty, error, onOneTablet, random), strips, random);
            }
            return found;
        }

        private void add(Bench bench, int strips, Random random) {
            ParametricForm reference = film(0.6 + 0.3 * random.nextDouble(), -2.2);
            ParametricForm other = film(0.6 + 0.3 * random.nextDouble(), -2.4 + 0.4 * random.nextDouble());
            List<Strip> all = new ArrayList<>();
            for (int i = 0; i < strips; i++) {
                all.add(bench.strip("R" + i, "R", reference, spread(strips, random), 2 * i < strips ? 0 : 1));
                all.add(bench.strip("A" + i, "A", other, spread(strips, random), 2 * i + 1 < strips ? 0 : 1));
            }
            CurveDrawing drawing = strips == 1
                    ? CurveDrawing.fitted()
                    : CurveDrawing.of(strip -> CurveFits.toeShoulder(strip).curve());
            List<FilmMean> films = FilmComparison.of(all, "R0", drawing).films();
            StripFigures ofReference = truth(reference, all.get(0));
            StripFigures ofOther = truth(other, all.get(0));
            speedPoint.add(films.get(1).get(FilmFigure.SPEED_POINT), value(ofOther, FilmFigure.SPEED_POINT));
            stops.add(
                    films.get(1).get(FilmFigure.STOPS_FROM_REFERENCE),
                    (value(ofReference, FilmFigure.SPEED_POINT) - value(ofOther, FilmFigure.SPEED_POINT))
                            / Math.log10(2));
            Figure ownGamma = films.get(1).get(FilmFigure.GAMMA);
            Figure referenceGamma = films.get(0).get(FilmFigure.GAMMA);
            double trueGamma = value(ofOther, FilmFigure.GAMMA);
            gamma.add(ownGamma, trueGamma);
            if (ownGamma.value().isPresent()) {
                differenceOfGamma.add(
                        StripComparison.besideReference(FilmFigure.GAMMA, ownGamma, referenceGamma),
                        trueGamma - value(ofReference, FilmFigure.GAMMA));
            }
        }

        /** Strips of one film differ by a tenth of a stop; a single strip says nothing of it. */
        private static double spread(int strips, Random random) {
            return strips == 1 ? 0 : 0.03 * random.nextGaussian();
        }

        private static double value(StripFigures figures, FilmFigure figure) {
            return figures.read(figure).value().orElseThrow();
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "speed point: %s%n  stops between films: %s%n  gamma: %s%n  difference of gamma: %s",
                    speedPoint,
                    stops,
                    gamma,
                    differenceOfGamma);
        }
    }

    /**
     * Prints the coverage: the number of pairs of films, the steps of the tablet, the strips of each film, 1 or 4, and the
     * uncertainty of the certificate.
     *
     * @param args four numbers, and perhaps the seed
     */
    public static void main(String[] args) {
        for (Wrong error : Wrong.values()) {
            for (boolean onOneTablet : new boolean[] {true, false}) {
                System.out.printf(
                        Locale.ROOT,
                        "%s, certificate wrong in %s, %s%n  %s%n",
                        Arrays.toString(args),
                        error,
                        onOneTablet ? "one tablet" : "the tablets count as two",
                        Pairs.of(
                                Integer.parseInt(args[0]),
                                Integer.parseInt(args[1]),
                                Integer.parseInt(args[2]),
                                Double.parseDouble(args[3]),
                                error,
                                onOneTablet,
                                args.length > 4 ? Long.parseLong(args[4]) : 1));
            }
        }
    }
}
