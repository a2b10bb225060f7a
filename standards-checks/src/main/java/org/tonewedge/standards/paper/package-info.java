/**
 * The speed and the range of black-and-white papers: {@link org.tonewedge.standards.paper.Iso6846}, and the
 * {@link org.tonewedge.standards.paper.PaperGrade} a range corresponds to by common practice.
 */
package org.tonewedge.standards.paper;
