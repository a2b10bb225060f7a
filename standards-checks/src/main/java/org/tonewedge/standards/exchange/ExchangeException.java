// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exchange;

import org.tonewedge.core.strip.UnusableInputException;

/** A file of density data cannot be used; the message names the file, the line, the fault and the remedy. */
public final class ExchangeException extends UnusableInputException {

    private static final long serialVersionUID = 1L;

    ExchangeException(Fault kind, String file, int line, String fault, String remedy) {
        super(kind, file + ", line " + line + ": " + fault + "; " + remedy);
    }
}
