// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Speed, average gradient and class of radiographic films, on an axis of air kerma.
 *
 * <p>This package contains only what a source was found for. Left out for lack of a source are: the classes C1 to C6 of
 * ISO 11699-1 (known from memory only; three of them equal classes of ASTM E1815), the ISO speed table and the
 * radiation qualities of ISO 7004, the speeds of aerial films (ISO 7829), and those of direct-exposing medical film
 * other than dental.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.standards.radiography;
