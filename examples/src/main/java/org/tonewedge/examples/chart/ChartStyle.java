// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;
import java.util.List;

/** The look that charts share: plain, with colours that colour-blind readers can tell apart. */
public final class ChartStyle {

    /** The colour of text and axes. */
    public static final Color INK = new Color(0x22, 0x22, 0x22);

    /** The colour of lines that matter less. */
    public static final Color PALE = new Color(0x99, 0x99, 0x99);

    /** The colour of grids. */
    public static final Color GRID = new Color(0xdd, 0xdd, 0xdd);

    /** The size of letters for axis names. */
    public static final double TEXT = 12;

    /** The size of letters for ticks and legends. */
    public static final double SMALL = 11;

    /** The size of letters for titles. */
    static final double HEADING = 16;

    /** The radius of the symbols of films. */
    public static final double SYMBOL = 3.6;

    /** Colours for films after the reference, from a palette made for colour-blind readers (Okabe and Ito, 2008). */
    private static final List<Color> FILMS = List.of(
            new Color(0x00, 0x72, 0xB2),
            new Color(0xD5, 0x5E, 0x00),
            new Color(0x00, 0x9E, 0x73),
            new Color(0xCC, 0x79, 0xA7),
            new Color(0xE6, 0x9F, 0x00),
            new Color(0x56, 0xB4, 0xE9));

    private static final List<Symbol> SYMBOLS = List.of(Symbol.values());

    private ChartStyle() {}

    /**
     * Returns the colour of a film.
     *
     * @param index 0 for the reference, then from 1
     * @return black for the reference, else a colour; colours repeat after six films
     */
    public static Color film(int index) {
        return index == 0 ? Color.BLACK : FILMS.get((index - 1) % FILMS.size());
    }

    /**
     * Returns the symbol of a film.
     *
     * @param index 0 for the reference, then from 1
     * @return the form; forms repeat after four films
     */
    public static Symbol symbol(int index) {
        return SYMBOLS.get(index % SYMBOLS.size());
    }

    /**
     * Returns the line of a film.
     *
     * @param index 0 for the reference, then from 1
     * @return dashed for the reference, else solid
     */
    public static Line line(int index) {
        return index == 0 ? Line.dashed(film(0), 1.8) : Line.solid(film(index), 2.2);
    }
}
