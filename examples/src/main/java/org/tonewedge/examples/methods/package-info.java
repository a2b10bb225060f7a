// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Questions of the darkroom beside the film test, one at a time: {@link org.tonewedge.examples.methods.MethodsProgram}
 * answers each from a small table, and {@link org.tonewedge.examples.methods.DemoMethods} invents the demo tables.
 */
package org.tonewedge.examples.methods;
