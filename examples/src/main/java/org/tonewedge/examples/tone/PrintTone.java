// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.awt.Color;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneReproduction;

/**
 * What a film and a paper make of a subject: the density of the print at any luminance, tabulated, and as a grey of the
 * screen. Tones beyond what was measured take the density of the nearest that was; they are counted where they occur.
 */
final class PrintTone {

    /** Tones from four stops and more below any shadow that prints to well above any light. */
    private static final double DARKEST = -4;

    private static final double LIGHTEST = 3;
    private static final double STEP = 0.002;
    private static final int WHITE = 65_535;

    private static final double LIGHT_STEP = 0.002;

    private final double[] densities;
    private final double[] negatives;
    private final int first;
    private final int last;
    private final double thinnest;
    private final double[] printed;

    PrintTone(ToneReproduction road) {
        int count = (int) Math.round((LIGHTEST - DARKEST) / STEP) + 1;
        densities = new double[count];
        negatives = new double[count];
        int from = -1;
        int to = -1;
        for (int i = 0; i < count; i++) {
            try {
                ReproducedTone tone = road.tone(new SubjectTone(DARKEST + i * STEP));
                densities[i] = tone.printDensity().value();
                negatives[i] = tone.negativeDensity().value();
                from = from < 0 ? i : from;
                to = i;
            } catch (NotDeterminableException e) {
                if (from >= 0) {
                    break;
                }
            }
        }
        if (from < 0) {
            throw new NotDeterminableException("no tone of the subject stays within the curves of film and paper");
        }
        first = from;
        last = to;
        thinnest = negatives[first];
        printed = new double[(int) Math.ceil((negatives[last] - thinnest) / LIGHT_STEP) + 1];
        for (int i = 0; i < printed.length; i++) {
            Density negative = Density.of(Math.min(negatives[last], thinnest + i * LIGHT_STEP));
            printed[i] = road.paper()
                    .densityAt(road.printing().exposureUnder(negative))
                    .value();
        }
    }

    /** Whether the curves were measured where a tone lies. */
    boolean isMeasured(double logLuminance) {
        double place = (logLuminance - DARKEST) / STEP;
        return place >= first && place <= last;
    }

    /** The density of the print, that of the nearest measured tone beyond the measured ones. */
    double density(double logLuminance) {
        return at(densities, first, last, (logLuminance - DARKEST) / STEP);
    }

    /** The density of the film, that of the nearest measured tone beyond the measured ones. */
    double negative(double logLuminance) {
        return at(negatives, first, last, (logLuminance - DARKEST) / STEP);
    }

    /** The density of the print under a density of the film; beyond those of the measured tones that of the nearest. */
    double printed(double negative) {
        return at(printed, 0, printed.length - 1, (negative - thinnest) / LIGHT_STEP);
    }

    private static double at(double[] table, int first, int last, double wanted) {
        double place = Math.max(first, Math.min(last, wanted));
        int i = Math.min((int) place, last - 1);
        return i < first ? table[first] : table[i] + (place - i) * (table[i + 1] - table[i]);
    }

    /**
     * The grey of a print in sRGB (IEC 61966-2-1:1999): its reflectance, 10 to the power of minus its density, as the
     * luminance, with a perfect white as white; the light of the room reflected by the surface is left out.
     *
     * @return a code of 16 bits
     */
    static int code(double printDensity) {
        return code(printDensity, 0);
    }

    /**
     * The grey of a print whose surface reflects light of the room besides, so that blacks are lifted and whites stay.
     *
     * @param flare that light as a part of a perfect white
     */
    static int code(double printDensity, double flare) {
        double luminance = (Math.pow(10, -Math.max(0, printDensity)) + flare) / (1 + flare);
        double code = luminance <= 0.0031308 ? 12.92 * luminance : 1.055 * Math.pow(luminance, 1 / 2.4) - 0.055;
        return (int) Math.round(code * WHITE);
    }

    /** The density whose grey a code is. */
    static double densityOf(int code) {
        double value = (double) code / WHITE;
        double luminance = value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
        return -Math.log10(luminance);
    }

    static Color grey(double printDensity) {
        int code = Math.round(code(printDensity) / 257f);
        return new Color(code, code, code);
    }
}
