// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Marks on a sheet, laid out once and then written as SVG or painted as an image. Units are those of the SVG, y runs
 * downwards. Not thread safe while marks are added.
 */
public final class Drawing {

    /** The deviation from a line, in units, below which its points are left out. */
    private static final double UNSEEN = 0.06;

    private static final double HALO = 3;

    private final String title;
    private final double width;
    private final double height;
    private final List<Mark> marks = new ArrayList<>();

    /**
     * Begins a drawing.
     *
     * @param title what it shows, for those who cannot see it
     * @param width its width
     * @param height its height
     */
    public Drawing(String title, double width, double height) {
        this.title = title;
        this.width = Math.ceil(width);
        this.height = Math.ceil(height);
    }

    /** A mark knows both ways to be drawn. */
    private interface Mark {

        Optional<Color> ownColour();

        void write(StringBuilder svg);

        void paint(Graphics2D graphics);
    }

    /**
     * Adds a line through points; points that make no visible difference are left out.
     *
     * @param xs the places to the right
     * @param ys the places downwards, as many
     * @param line how it is drawn
     */
    public void line(double[] xs, double[] ys, Line line) {
        boolean[] kept = Thinning.kept(xs, ys, UNSEEN);
        marks.add(new LineMark(new Points(Thinning.select(xs, kept), Thinning.select(ys, kept)), line));
    }

    /**
     * Adds a filled area.
     *
     * @param xs the corners to the right
     * @param ys the corners downwards, as many
     * @param colour the colour, which may be translucent
     */
    public void area(double[] xs, double[] ys, Color colour) {
        marks.add(new AreaMark(new Points(xs, ys), colour));
    }

    /**
     * Adds points.
     *
     * @param xs the places to the right
     * @param ys the places downwards, as many
     * @param symbol their form
     * @param radius their size
     * @param colour their colour
     * @param filled whether they are filled
     */
    public void points(double[] xs, double[] ys, Symbol symbol, double radius, Color colour, boolean filled) {
        marks.add(new PointsMark(new Points(xs, ys), symbol, radius, colour, filled));
    }

    /**
     * Adds a text.
     *
     * @param text the text
     * @param x its place to the right
     * @param y its baseline
     * @param size the size of its letters
     * @param anchor which part of it lies at the place
     * @param colour its colour
     */
    public void text(String text, double x, double y, double size, Anchor anchor, Color colour) {
        marks.add(new TextMark(text, x, y, size, anchor, colour, 0, false, 0));
    }

    /**
     * Adds a text that is as wide as the letters of charts make it, whatever font a viewer of the SVG has, so that what
     * stands to its right stays clear.
     *
     * @param text the text
     * @param x its left end
     * @param y its baseline
     * @param size the size of its letters
     * @param colour its colour
     */
    public void fittedText(String text, double x, double y, double size, Color colour) {
        marks.add(new TextMark(text, x, y, size, Anchor.START, colour, 0, false, Lettering.width(text, size)));
    }

    /**
     * Adds a text with a margin of the paper's colour, which keeps it clear of lines.
     *
     * @param text the text
     * @param x its place to the right
     * @param y its baseline
     * @param size the size of its letters
     * @param anchor which part of it lies at the place
     * @param colour its colour
     */
    public void clearText(String text, double x, double y, double size, Anchor anchor, Color colour) {
        marks.add(new TextMark(text, x, y, size, anchor, colour, 0, true, 0));
    }

    /**
     * Adds a text that reads upwards.
     *
     * @param text the text
     * @param x the place of its baseline
     * @param y the place of its anchor
     * @param size the size of its letters
     * @param anchor which part of it lies at the place
     * @param colour its colour
     */
    public void upwardText(String text, double x, double y, double size, Anchor anchor, Color colour) {
        marks.add(new TextMark(text, x, y, size, anchor, colour, -90, false, 0));
    }

    /**
     * Shows what follows only within a rectangle, until {@link #unclip}.
     *
     * @param x its left side
     * @param y its upper side
     * @param w its width
     * @param h its height
     */
    public void clip(double x, double y, double w, double h) {
        marks.add(new ClipMark(new Rectangle2D.Double(x, y, w, h), "clip" + marks.size()));
    }

    /** Ends the last clip. */
    public void unclip() {
        marks.add(new UnclipMark());
    }

    /**
     * Returns the drawing as a file of its own.
     *
     * @return SVG
     */
    public String svg() {
        StringBuilder svg = new StringBuilder(8192);
        String w = SvgText.number(width);
        String h = SvgText.number(height);
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"")
                .append(w)
                .append("\" height=\"")
                .append(h)
                .append("\" viewBox=\"0 0 ")
                .append(w)
                .append(' ')
                .append(h)
                .append("\" role=\"img\" font-family=\"")
                .append(Lettering.FAMILY)
                .append("\" fill=\"none\" stroke-linejoin=\"round\">\n<title>")
                .append(SvgText.escape(title))
                .append("</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
        marks.forEach(mark -> mark.write(svg));
        return svg.append("</svg>\n").toString();
    }

    /**
     * Paints the drawing.
     *
     * @param scale pixels for each unit
     * @return an image in RGB
     */
    public BufferedImage image(double scale) {
        BufferedImage image = new BufferedImage(
                (int) Math.ceil(width * scale), (int) Math.ceil(height * scale), BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = image.createGraphics();
        try {
            graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
            graphics.setColor(Color.WHITE);
            graphics.fillRect(0, 0, image.getWidth(), image.getHeight());
            graphics.scale(scale, scale);
            marks.forEach(mark -> mark.paint(graphics));
        } finally {
            graphics.dispose();
        }
        return image;
    }

    /** The colours of the marks, without their mixtures. */
    Set<Color> colours() {
        Set<Color> colours = new LinkedHashSet<>(List.of(Color.WHITE));
        marks.forEach(mark -> mark.ownColour().ifPresent(colours::add));
        return colours;
    }

    private static Path2D path(Points points) {
        Path2D path = new Path2D.Double(Path2D.WIND_NON_ZERO, points.count());
        for (int i = 0; i < points.count(); i++) {
            if (i == 0) {
                path.moveTo(points.x(0), points.y(0));
            } else {
                path.lineTo(points.x(i), points.y(i));
            }
        }
        return path;
    }

    private static void writePath(StringBuilder svg, Points points) {
        for (int i = 0; i < points.count(); i++) {
            svg.append(i == 0 ? 'M' : 'L')
                    .append(SvgText.number(points.x(i)))
                    .append(',')
                    .append(SvgText.number(points.y(i)));
        }
    }

    private record LineMark(Points points, Line line) implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return Optional.of(line.colour());
        }

        @Override
        public void write(StringBuilder svg) {
            svg.append("<path stroke=\"")
                    .append(SvgText.colour(line.colour()))
                    .append("\" stroke-width=\"")
                    .append(SvgText.number(line.width()));
            if (line.dash() > 0) {
                svg.append("\" stroke-dasharray=\"")
                        .append(SvgText.number(line.dash()))
                        .append(' ')
                        .append(SvgText.number(line.dash() * Line.GAP));
            }
            svg.append("\" d=\"");
            writePath(svg, points);
            svg.append("\"/>\n");
        }

        /** Whether it runs along or upwards, as rules and ticks do: then it is a rectangle, painted much faster. */
        private boolean isRule() {
            return points.count() == 2
                    && line.dash() == 0
                    && (points.x(0) == points.x(1) || points.y(0) == points.y(1));
        }

        @Override
        public void paint(Graphics2D graphics) {
            graphics.setColor(line.colour());
            if (isRule()) {
                double half = line.width() / 2;
                double left = Math.min(points.x(0), points.x(1)) - (points.x(0) == points.x(1) ? half : 0);
                double top = Math.min(points.y(0), points.y(1)) - (points.y(0) == points.y(1) ? half : 0);
                double across = points.x(0) == points.x(1) ? line.width() : Math.abs(points.x(1) - points.x(0));
                double down = points.y(0) == points.y(1) ? line.width() : Math.abs(points.y(1) - points.y(0));
                graphics.fill(new Rectangle2D.Double(left, top, across, down));
                return;
            }
            float[] dash = line.dash() > 0 ? new float[] {(float) line.dash(), (float) (line.dash() * Line.GAP)} : null;
            Stroke stroke =
                    new BasicStroke((float) line.width(), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, dash, 0f);
            graphics.setStroke(stroke);
            graphics.draw(path(points));
        }
    }

    private record AreaMark(Points points, Color colour) implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return colour.getAlpha() < 255 ? Optional.empty() : Optional.of(colour);
        }

        @Override
        public void write(StringBuilder svg) {
            svg.append("<path fill=\"").append(SvgText.colour(colour));
            if (colour.getAlpha() < 255) {
                svg.append("\" fill-opacity=\"").append(SvgText.number(colour.getAlpha() / 255.0));
            }
            svg.append("\" d=\"");
            writePath(svg, points);
            svg.append("Z\"/>\n");
        }

        @Override
        public void paint(Graphics2D graphics) {
            Path2D path = path(points);
            path.closePath();
            graphics.setColor(colour);
            graphics.fill(path);
        }
    }

    private record PointsMark(Points points, Symbol symbol, double radius, Color colour, boolean filled)
            implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return Optional.of(colour);
        }

        @Override
        public void write(StringBuilder svg) {
            String colourText = SvgText.colour(colour);
            svg.append("<path ")
                    .append(filled ? "fill" : "stroke")
                    .append("=\"")
                    .append(colourText)
                    .append("\" d=\"");
            String form = symbol.svgPath(radius);
            for (int i = 0; i < points.count(); i++) {
                svg.append('M')
                        .append(SvgText.number(points.x(i)))
                        .append(',')
                        .append(SvgText.number(points.y(i)))
                        .append(form);
            }
            svg.append("\"/>\n");
        }

        @Override
        public void paint(Graphics2D graphics) {
            graphics.setColor(colour);
            graphics.setStroke(new BasicStroke(1f));
            for (int i = 0; i < points.count(); i++) {
                Shape shape = symbol.shape(points.x(i), points.y(i), radius);
                if (filled) {
                    graphics.fill(shape);
                } else {
                    graphics.draw(shape);
                }
            }
        }
    }

    private record TextMark(
            String text,
            double x,
            double y,
            double size,
            Anchor anchor,
            Color colour,
            int turn,
            boolean clear,
            double length)
            implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return Optional.of(colour);
        }

        @Override
        public void write(StringBuilder svg) {
            svg.append("<text x=\"").append(SvgText.number(x)).append("\" y=\"").append(SvgText.number(y));
            svg.append("\" font-size=\"").append(SvgText.number(size));
            if (anchor != Anchor.START) {
                svg.append("\" text-anchor=\"").append(anchor.svg());
            }
            if (length > 0) {
                svg.append("\" textLength=\"")
                        .append(SvgText.number(length))
                        .append("\" lengthAdjust=\"spacingAndGlyphs");
            }
            if (turn != 0) {
                svg.append("\" transform=\"rotate(")
                        .append(turn)
                        .append(' ')
                        .append(SvgText.number(x))
                        .append(' ')
                        .append(SvgText.number(y))
                        .append(')');
            }
            if (clear) {
                svg.append("\" stroke=\"#fff\" paint-order=\"stroke\" stroke-width=\"")
                        .append(SvgText.number(HALO));
            }
            svg.append("\" fill=\"")
                    .append(SvgText.colour(colour))
                    .append("\">")
                    .append(SvgText.escape(text))
                    .append("</text>\n");
        }

        @Override
        public void paint(Graphics2D graphics) {
            if (text.isBlank()) {
                return;
            }
            AffineTransform place = AffineTransform.getTranslateInstance(x, y);
            place.rotate(Math.toRadians(turn));
            place.translate(-anchor.share() * Lettering.width(text, size), 0);
            Shape outline = place.createTransformedShape(Lettering.outline(text, size));
            if (clear) {
                graphics.setColor(Color.WHITE);
                graphics.setStroke(new BasicStroke((float) HALO, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
                graphics.draw(outline);
            }
            graphics.setColor(colour);
            graphics.fill(outline);
        }
    }

    private record ClipMark(Rectangle2D area, String id) implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return Optional.empty();
        }

        @Override
        public void write(StringBuilder svg) {
            svg.append("<clipPath id=\"")
                    .append(id)
                    .append("\"><rect x=\"")
                    .append(SvgText.number(area.getX()))
                    .append("\" y=\"")
                    .append(SvgText.number(area.getY()))
                    .append("\" width=\"")
                    .append(SvgText.number(area.getWidth()))
                    .append("\" height=\"")
                    .append(SvgText.number(area.getHeight()))
                    .append("\"/></clipPath>\n<g clip-path=\"url(#")
                    .append(id)
                    .append(")\">\n");
        }

        @Override
        public void paint(Graphics2D graphics) {
            graphics.setClip(area);
        }
    }

    private record UnclipMark() implements Mark {

        @Override
        public Optional<Color> ownColour() {
            return Optional.empty();
        }

        @Override
        public void write(StringBuilder svg) {
            svg.append("</g>\n");
        }

        @Override
        public void paint(Graphics2D graphics) {
            graphics.setClip(null);
        }
    }
}
