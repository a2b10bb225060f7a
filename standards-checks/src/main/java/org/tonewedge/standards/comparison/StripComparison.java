package org.tonewedge.standards.comparison;

/**
 * One strip beside the reference: its own figures, how much faster it is, and how much more printing exposure it needs.
 *
 * <p>Immutable and thread safe.
 */
public final class StripComparison {

    private final StripFigures figures;
    private final StripFigures reference;

    private StripComparison(StripFigures figures, StripFigures reference) {
        this.figures = figures;
        this.reference = reference;
    }

    /**
     * Sets a strip beside a reference.
     *
     * @param strip the figures of the strip
     * @param reference the figures of the reference
     * @return the comparison
     * @throws IllegalArgumentException if the two strips are on different exposure axes
     */
    public static StripComparison of(StripFigures strip, StripFigures reference) {
        reference.strip().axis().requireSame(strip.strip().axis(), "compare " + strip.strip() + " with the reference");
        return new StripComparison(strip, reference);
    }

    /**
     * Returns the figures of the strip.
     *
     * @return the figures
     */
    public StripFigures figures() {
        return figures;
    }

    /**
     * Returns a figure of the strip or of the strip beside the reference.
     *
     * @param figure which one
     * @return the figure, or why it cannot be had
     */
    public Figure get(FilmFigure figure) {
        Figure own = figures.read(figure);
        if (!figure.isBesideReference() || own.value().isEmpty()) {
            return own;
        }
        Figure other = reference.read(figure);
        if (other.value().isEmpty()) {
            return Figure.missing("the reference lacks it: " + other.reason());
        }
        return Figure.of(
                figure.difference(own.value().getAsDouble(), other.value().getAsDouble()));
    }

    /**
     * Returns the comparison in words.
     *
     * @return the figures of the strip and how many stops faster it is than the reference
     */
    @Override
    public String toString() {
        return figures + "; against the reference " + get(FilmFigure.STOPS_FROM_REFERENCE);
    }
}
