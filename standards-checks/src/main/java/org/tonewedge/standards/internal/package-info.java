/** Numerical helpers of this module; not exported. */
package org.tonewedge.standards.internal;
