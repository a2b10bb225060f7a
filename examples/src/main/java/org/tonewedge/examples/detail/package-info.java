// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Detail of films from their scans: edges, bars, grain and patches. */
package org.tonewedge.examples.detail;
