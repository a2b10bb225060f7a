// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** What the programs of this module share on the command line. */
package org.tonewedge.examples.command;
