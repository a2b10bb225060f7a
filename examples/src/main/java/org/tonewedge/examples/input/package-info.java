/** Getting readings into tables: files to fill in. */
package org.tonewedge.examples.input;
