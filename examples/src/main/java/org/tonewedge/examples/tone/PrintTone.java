package org.tonewedge.examples.tone;

import java.awt.Color;
import org.tonewedge.core.curve.NotDeterminableException;
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

    private final double[] densities;
    private final int first;
    private final int last;

    PrintTone(ToneReproduction road) {
        int count = (int) Math.round((LIGHTEST - DARKEST) / STEP) + 1;
        densities = new double[count];
        int from = -1;
        int to = -1;
        for (int i = 0; i < count; i++) {
            try {
                densities[i] = road.tone(new SubjectTone(DARKEST + i * STEP))
                        .printDensity()
                        .value();
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
    }

    /** Whether the curves were measured where a tone lies. */
    boolean isMeasured(double logLuminance) {
        double place = (logLuminance - DARKEST) / STEP;
        return place >= first && place <= last;
    }

    /** The density of the print, that of the nearest measured tone beyond the measured ones. */
    double density(double logLuminance) {
        double place = Math.max(first, Math.min(last, (logLuminance - DARKEST) / STEP));
        int i = Math.min((int) place, last - 1);
        if (i < first) {
            return densities[first];
        }
        return densities[i] + (place - i) * (densities[i + 1] - densities[i]);
    }

    /**
     * The grey of a print in sRGB (IEC 61966-2-1:1999): its reflectance, 10 to the power of minus its density, as the
     * luminance, with a perfect white as white; the light of the room reflected by the surface is left out.
     *
     * @return a code of 16 bits
     */
    static int code(double printDensity) {
        double luminance = Math.pow(10, -Math.max(0, printDensity));
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
