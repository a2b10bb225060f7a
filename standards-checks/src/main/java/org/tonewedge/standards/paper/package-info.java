// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * The speed and the range of black-and-white papers: {@link org.tonewedge.standards.paper.Iso6846}, and the
 * {@link org.tonewedge.standards.paper.PaperGrade} that corresponds to a range by common practice.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.paper;
