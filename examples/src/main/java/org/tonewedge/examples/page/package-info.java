// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Pages that open from disk without a network: one style for the reports of all programs. */
package org.tonewedge.examples.page;
