// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Scanned film: regions of a scan, what its codes mean, and tables that turn codes into densities or log exposures. The
 * caller reads the image file and passes the pixels as an array, or row by row as {@link org.tonewedge.core.scan.ScanRows}
 * where the scan is large. A step tablet scanned alongside calibrates the codes: {@code ScanCalibration} in the module of
 * published methods.
 *
 * <p>A null argument is refused with a {@link NullPointerException} that names the parameter.
 */
package org.tonewedge.core.scan;
