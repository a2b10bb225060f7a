// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Numerical helpers of this module; not exported. */
package org.tonewedge.standards.internal;
