// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Words and sketches for a JShell prompt. */
package org.tonewedge.examples.shell;
