// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Getting readings into tables: files to fill in. */
package org.tonewedge.examples.input;
