/** Words and sketches for a JShell prompt. */
package org.tonewedge.examples.shell;
