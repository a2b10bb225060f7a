// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Font;
import java.awt.Shape;
import java.awt.font.FontRenderContext;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.GlyphData;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.pdmodel.font.PDFont;

/**
 * The letters of charts: an open font that comes with a library, read without asking for the fonts of the machine, so
 * that a chart looks the same and takes as long everywhere. Only a text that the font cannot write, such as one in
 * Chinese, is drawn with the fonts of the machine.
 */
final class Lettering {

    /** The families for SVG: this font, and those of the same widths. */
    static final String FAMILY = "Liberation Sans,Arial,Helvetica,sans-serif";

    private static final String ELLIPSIS = "\u2026";
    private static final Lettering EMBEDDED = read("/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf");

    /** A character: its outline with the baseline at 0 and y downwards, and its advance, both for size 1. */
    private record Glyph(Shape outline, double advance) {}

    private final TrueTypeFont font;
    private final CmapLookup characters;
    private final double unitsPerEm;
    private final Map<Integer, Optional<Glyph>> glyphs = new ConcurrentHashMap<>();

    private Lettering(TrueTypeFont font) throws IOException {
        this.font = font;
        characters = font.getUnicodeCmapLookup();
        unitsPerEm = font.getUnitsPerEm();
    }

    private static Lettering read(String resource) {
        try (InputStream in = PDFont.class.getResourceAsStream(resource)) {
            return new Lettering(new TTFParser(true).parseEmbedded(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The width of a text. */
    static double width(String text, double size) {
        double width = 0;
        for (int character : text.codePoints().toArray()) {
            // A wide guess for what other fonts will write.
            width += EMBEDDED.glyph(character).map(Glyph::advance).orElse(1.0);
        }
        return width * size;
    }

    /** The text, cut with an ellipsis where it is wider than the room for it. */
    static String fitted(String text, double size, double room) {
        if (text.length() < 4 || width(text, size) <= room) {
            return text;
        }
        int[] characters = text.codePoints().toArray();
        double width = width(ELLIPSIS, size);
        int kept = 0;
        while (kept < characters.length && width + width(Character.toString(characters[kept]), size) <= room) {
            width += width(Character.toString(characters[kept]), size);
            kept++;
        }
        return new String(characters, 0, kept).stripTrailing() + ELLIPSIS;
    }

    /** The text in lines no wider than the room, broken at spaces. */
    static List<String> wrapped(String text, double size, double room) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String word : text.split(" ", -1)) {
            String longer = line.isEmpty() ? word : line + " " + word;
            if (!line.isEmpty() && width(longer, size) > room) {
                lines.add(fitted(line, size, room));
                line = word;
            } else {
                line = longer;
            }
        }
        lines.add(fitted(line, size, room));
        return lines;
    }

    /** The outline of a text whose baseline begins at the origin. */
    static Shape outline(String text, double size) {
        return EMBEDDED.outlineOf(text, size).orElseGet(() -> systemOutline(text, size));
    }

    private Optional<Shape> outlineOf(String text, double size) {
        Path2D path = new Path2D.Double();
        double x = 0;
        for (int character : text.codePoints().toArray()) {
            Optional<Glyph> glyph = glyph(character);
            if (glyph.isEmpty()) {
                return Optional.empty();
            }
            AffineTransform place = new AffineTransform(size, 0, 0, size, x, 0);
            path.append(glyph.get().outline().getPathIterator(place), false);
            x += glyph.get().advance() * size;
        }
        return Optional.of(path);
    }

    private static Shape systemOutline(String text, double size) {
        FontRenderContext context = new FontRenderContext(null, true, true);
        Font system = new Font(Font.SANS_SERIF, Font.PLAIN, 1).deriveFont((float) size);
        return new TextLayout(text, system, context).getOutline(null);
    }

    private Optional<Glyph> glyph(int character) {
        return glyphs.computeIfAbsent(character, this::readGlyph);
    }

    /** Reading moves in the font's file, so one thread at a time. */
    private synchronized Optional<Glyph> readGlyph(int character) {
        int id = characters.getGlyphId(character);
        // Letters that are written from right to left need more than a row of glyphs.
        if (id == 0 || Character.getDirectionality(character) == Character.DIRECTIONALITY_RIGHT_TO_LEFT) {
            return Optional.empty();
        }
        try {
            GlyphData data = font.getGlyph().getGlyph(id);
            GeneralPath outline = data == null ? new GeneralPath() : data.getPath();
            AffineTransform toUnit = AffineTransform.getScaleInstance(1 / unitsPerEm, -1 / unitsPerEm);
            return Optional.of(
                    new Glyph(toUnit.createTransformedShape(outline), font.getAdvanceWidth(id) / unitsPerEm));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
