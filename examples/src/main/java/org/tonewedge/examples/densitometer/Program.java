package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.util.concurrent.Callable;
import org.tonewedge.standards.densitometer.DensitometerInputException;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A program whose faults of input become one line and the exit status 2. */
abstract class Program implements Callable<Integer> {

    static final int DONE = 0;
    static final int NOT_PASSED = 1;
    static final int COULD_NOT_RUN = 2;

    private static final int HELP_WIDTH = 100;

    @Spec
    private CommandSpec spec;

    static int run(Program program, String[] args, PrintWriter output, PrintWriter messages) {
        return new CommandLine(program)
                .setOut(output)
                .setErr(messages)
                .setUsageHelpWidth(HELP_WIDTH)
                .execute(args);
    }

    @Override
    public final Integer call() {
        try {
            return work();
        } catch (DensitometerInputException | IllegalArgumentException e) {
            return fail(e.getMessage());
        } catch (NoSuchFileException e) {
            return fail("there is no file " + e.getFile());
        } catch (FileAlreadyExistsException e) {
            return fail(e.getFile() + " is a file; --out takes a directory");
        } catch (IOException e) {
            return fail("could not read or write: " + e);
        }
    }

    abstract int work() throws IOException;

    final PrintWriter output() {
        return spec.commandLine().getOut();
    }

    final void say(String message) {
        spec.commandLine().getErr().println(message);
        spec.commandLine().getErr().flush();
    }

    private int fail(String message) {
        say(spec.name() + ": " + message);
        return COULD_NOT_RUN;
    }
}
