/** What the programs of this module share on the command line. */
package org.tonewedge.examples.command;
