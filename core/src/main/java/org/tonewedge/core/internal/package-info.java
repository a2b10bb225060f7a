// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Argument checks and number formats shared by the modules of this project; not part of the published API. */
package org.tonewedge.core.internal;
