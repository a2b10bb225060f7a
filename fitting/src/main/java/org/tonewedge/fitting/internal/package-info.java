// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Least squares and the shapes of curves; not part of the published API. */
package org.tonewedge.fitting.internal;
