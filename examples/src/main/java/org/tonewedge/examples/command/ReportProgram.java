package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.ReadingsException;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** A program that reads readings and writes a report to a directory; faults of the input end it with a message. */
public abstract class ReportProgram implements Callable<Integer> {

    /** The exit status when every result is there. */
    protected static final int DONE = 0;

    /** The exit status when some results are missing, with their reasons in the report. */
    protected static final int INCOMPLETE = 1;

    private static final int COULD_NOT_RUN = 2;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "where the results go; made if it is not there")
    private Path out;

    @Option(names = "--note", paramLabel = "TEXT", description = "a remark at the top of the report; may be repeated")
    private List<String> notes = new ArrayList<>();

    @Spec
    private CommandSpec spec;

    /** Leaves the options to the command line. */
    protected ReportProgram() {}

    /**
     * Runs a program and leaves the virtual machine with its exit status.
     *
     * @param program the program
     * @param args the command line
     */
    protected static void runAndExit(ReportProgram program, String[] args) {
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
     * @param output where help goes
     * @param messages where progress and errors go
     * @return the exit status
     */
    protected static int run(ReportProgram program, String[] args, PrintWriter output, PrintWriter messages) {
        return new CommandLine(program)
                .setOut(output)
                .setErr(messages)
                .setUsageHelpWidth(100)
                .setCaseInsensitiveEnumValuesAllowed(true)
                .execute(args);
    }

    /**
     * Makes the report.
     *
     * @return the exit status
     * @throws IOException if a file cannot be read or written
     */
    protected abstract int report() throws IOException;

    @Override
    public final Integer call() {
        try {
            return report();
        } catch (ReadingsException | IllegalArgumentException | NotDeterminableException e) {
            return fail(e.getMessage());
        } catch (NoSuchFileException e) {
            return fail("there is no file " + e.getFile());
        } catch (FileAlreadyExistsException e) {
            return fail(e.getFile() + " is a file; --out takes a directory");
        } catch (IOException e) {
            return fail("could not read or write: " + e);
        }
    }

    private int fail(String message) {
        say(spec.name() + ": " + message);
        return COULD_NOT_RUN;
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

    /**
     * Returns where the results go.
     *
     * @return the directory, which may not be there yet
     */
    protected final Path out() {
        return out;
    }

    /**
     * Returns the remarks for the top of the report.
     *
     * @return the remarks, in the order given
     */
    protected final List<String> notes() {
        return List.copyOf(notes);
    }
}
