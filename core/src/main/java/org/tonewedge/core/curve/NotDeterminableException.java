package org.tonewedge.core.curve;

/**
 * A figure that the curve at hand cannot give; the message names the curve, the value and what to do. The sub-classes
 * tell why.
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
