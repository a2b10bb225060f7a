/** The code shown in the README, compiled and run by the tests. */
package org.tonewedge.examples.guide;
