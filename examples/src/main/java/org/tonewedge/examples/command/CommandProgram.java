package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.List;
import java.util.concurrent.Callable;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.Spec;

/** A program of the command line; whatever keeps it from its work becomes one line and the exit status 2. */
public abstract class CommandProgram implements Callable<Integer> {

    /** The exit status when every result is there, or a check passed. */
    protected static final int DONE = 0;

    /** The exit status when some results are missing, or a check did not pass. */
    protected static final int INCOMPLETE = 1;

    private static final int COULD_NOT_RUN = 2;
    private static final int HELP_WIDTH = 100;

    @Spec
    private CommandSpec spec;

    /** Leaves the options to the command line. */
    protected CommandProgram() {}

    /**
     * Runs a program and leaves the virtual machine with its exit status.
     *
     * @param program the program
     * @param args the command line
     */
    protected static void runAndExit(CommandProgram program, String[] args) {
        System.setProperty("java.awt.headless", "true");
        Charset terminal = Charset.defaultCharset();
        System.exit(run(
                program,
                args,
                new PrintWriter(System.out, true, terminal),
                new PrintWriter(System.err, true, terminal)));
    }

    /**
     * Runs a program without leaving the virtual machine.
     *
     * @param program the program
     * @param args the command line
     * @param output where help and results go
     * @param messages where progress and errors go
     * @return the exit status
     */
    protected static int run(CommandProgram program, String[] args, PrintWriter output, PrintWriter messages) {
        return new CommandLine(program)
                .setOut(output)
                .setErr(messages)
                .setUsageHelpWidth(HELP_WIDTH)
                .setCaseInsensitiveEnumValuesAllowed(true)
                .execute(args);
    }

    /**
     * Does the work.
     *
     * @return the exit status
     * @throws IOException if a file cannot be read or written
     */
    protected abstract int work() throws IOException;

    @Override
    public final Integer call() {
        try {
            return work();
        } catch (ReadingsException
                | DensitometerInputException
                | NotDeterminableException
                | IllegalArgumentException e) {
            return fail(e.getMessage());
        } catch (NoSuchFileException e) {
            return fail("there is no file " + e.getFile() + "; check its name and directory");
        } catch (FileAlreadyExistsException e) {
            return fail(e.getFile() + " is a file; --out takes a directory");
        } catch (FileSystemException e) {
            return fail("could not read or write " + e.getFile() + ": "
                    + (e.getReason() == null ? "access denied" : e.getReason()));
        } catch (CharacterCodingException e) {
            return fail("an input has bytes that are not UTF-8; save it as UTF-8");
        } catch (IOException e) {
            return fail("could not read or write: " + e.getMessage());
        } catch (OutOfMemoryError e) {
            return fail("the memory is too small; start java with a greater -Xmx, or compare fewer strips");
        } catch (RuntimeException e) {
            return fail("a fault of the program, please report it: " + e);
        }
    }

    private int fail(String message) {
        say(spec.name() + ": " + message);
        return COULD_NOT_RUN;
    }

    /**
     * Refuses options that would have no effect.
     *
     * @param needed the option without which they have none
     * @param options the options that need it
     * @throws IllegalArgumentException if one of them is on the command line without the one it needs
     */
    protected final void refuseWithout(String needed, List<String> options) {
        ParseResult given = spec.commandLine().getParseResult();
        for (String option : options) {
            if (given.hasMatchedOption(option) && !given.hasMatchedOption(needed)) {
                throw new IllegalArgumentException(
                        option + " has no effect without " + needed + "; add " + needed + " or take out " + option);
            }
        }
    }

    /**
     * Returns where results go that are not written to files.
     *
     * @return the standard output, or what stands for it
     */
    protected final PrintWriter output() {
        return spec.commandLine().getOut();
    }

    /**
     * Tells the user something.
     *
     * @param message a line of text
     */
    protected final void say(String message) {
        spec.commandLine().getErr().println(message);
        spec.commandLine().getErr().flush();
    }
}
