// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** The development plan: test strips in, times for stated contrasts out, as a table, plots and a page. */
package org.tonewedge.examples.development;
