/**
 * What all published methods share: the {@link org.tonewedge.standards.Determination} they return, the
 * {@link org.tonewedge.standards.Criterion} they apply and the {@link org.tonewedge.standards.Condition}s they set.
 */
package org.tonewedge.standards;
