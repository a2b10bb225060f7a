// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** The code shown in the README and in the guide of the Javadoc, compiled and run by the tests. */
package org.tonewedge.examples.guide;
