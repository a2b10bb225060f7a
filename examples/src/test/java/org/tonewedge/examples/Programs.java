// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import org.tonewedge.examples.command.CommandProgram;

/** Runs programs of any package as their own tests do, in this virtual machine. */
final class Programs {

    /** How a run ended, and what it said. */
    record Run(int status, String messages) {}

    private Programs() {}

    static Run run(Class<? extends CommandProgram> program, String... args) {
        StringWriter said = new StringWriter();
        PrintWriter messages = new PrintWriter(said);
        try {
            Method run = program.getDeclaredMethod("run", String[].class, PrintWriter.class, PrintWriter.class);
            run.setAccessible(true);
            return new Run((int) run.invoke(null, args, messages, messages), said.toString());
        } catch (NoSuchMethodException | IllegalAccessException e) {
            throw new LinkageError("a program has a static method run(args, output, messages)", e);
        } catch (InvocationTargetException e) {
            throw new AssertionError(said.toString(), e.getCause());
        }
    }
}
