package org.tonewedge.core.curve;

/**
 * The curve at hand cannot give this figure. The message names the curve, the value and what to do; subclasses say why.
 */
public class NotDeterminableException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /**
     * Creates the exception.
     *
     * @param message the curve, the value and what to do
     */
    public NotDeterminableException(String message) {
        super(message);
    }
}
