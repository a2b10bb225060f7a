// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Quantities of photographic sensitometry, strips of film or paper with their readings, characteristic curves, and what
 * a printer does with curves.
 *
 * <p>Read in the order of the work: {@link org.tonewedge.core.strip} (readings come in and become strips),
 * {@link org.tonewedge.core.curve} (a curve is drawn and read), {@link org.tonewedge.core.tone} (one material is
 * printed beside another). {@link org.tonewedge.core.quantity} holds the types that keep their figures apart.
 */
@SuppressWarnings("module") // the qualified exports name modules that are compiled after this one
module org.tonewedge.core {
    exports org.tonewedge.core.quantity;
    exports org.tonewedge.core.strip;
    exports org.tonewedge.core.curve;
    exports org.tonewedge.core.tone;
    exports org.tonewedge.core.scan;
    exports org.tonewedge.core.internal to
            org.tonewedge.fitting,
            org.tonewedge.standards,
            org.tonewedge.examples;
}
