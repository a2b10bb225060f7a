// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Tables of readings in spreadsheets: XLSX and ODS as rows for {@link org.tonewedge.core.strip.ReadingsReader}, and files
 * to fill in.
 *
 * <p>Both formats are zip archives of XML. They are read in one pass in memory of fixed size, so that neither a file of
 * gigabytes nor one that unpacks to more than it should fills the machine.
 */
package org.tonewedge.examples.spreadsheet;
