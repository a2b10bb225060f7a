/**
 * Speed, average gradient and class of radiographic films, on an axis of air kerma.
 *
 * <p>Only what a source could be found for is here. Left out for want of one: the classes C1 to C6 of ISO 11699-1 (known
 * from memory only; three of them equal classes of ASTM E1815), the ISO speed table and the radiation qualities of ISO
 * 7004, the speeds of aerial films (ISO 7829) and of direct-exposing medical film other than dental.
 */
package org.tonewedge.standards.radiography;
