/** Numerics shared by the rooms of the densitometer; not exported. */
package org.tonewedge.standards.densitometer.internal;
