// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Pictures and scans from PNG and TIFF files. */
package org.tonewedge.examples.scan;
