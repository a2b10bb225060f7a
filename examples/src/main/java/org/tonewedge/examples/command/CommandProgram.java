// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.Closeable;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.examples.page.Provenance;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.Spec;
import picocli.CommandLine.TypeConversionException;

/** A program of the command line; whatever keeps it from its work becomes one line and the exit status 2. */
public abstract class CommandProgram implements Callable<Integer> {

    /** The exit status when every result is there, or a check passed. */
    protected static final int DONE = 0;

    /** The exit status when some results are missing, or a check did not pass. */
    protected static final int INCOMPLETE = 1;

    private static final int COULD_NOT_RUN = 2;
    private static final int HELP_WIDTH = 100;
    private static final String OUT = "--out";
    private static final String DRAWING = "java.desktop";

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
        Charset terminal = Terminal.charset();
        System.exit(run(program, args, new Terminal(System.out, terminal), new Terminal(System.err, terminal)));
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
                // A remark that begins with @ is a remark, not a file of arguments.
                .setExpandAtFiles(false)
                .registerConverter(Double.class, CommandProgram::number)
                .registerConverter(double.class, CommandProgram::number)
                .registerConverter(Integer.class, CommandProgram::wholeNumber)
                .registerConverter(int.class, CommandProgram::wholeNumber)
                .registerConverter(Pattern.class, CommandProgram::pattern)
                .setParameterExceptionHandler(CommandProgram::refuseArguments)
                .execute(args);
    }

    private static double number(String text) {
        try {
            return Double.parseDouble(text.strip());
        } catch (NumberFormatException e) {
            throw refusedValue(text, "a number; write it with a decimal point, such as 1.5", e);
        }
    }

    private static int wholeNumber(String text) {
        try {
            return Integer.parseInt(text.strip());
        } catch (NumberFormatException e) {
            throw refusedValue(text, "a whole number, such as 12", e);
        }
    }

    private static Pattern pattern(String text) {
        try {
            return Pattern.compile(text);
        } catch (PatternSyntaxException e) {
            throw refusedValue(text, "a regular expression of Java: " + e.getDescription(), e);
        }
    }

    private static TypeConversionException refusedValue(String text, String meant, RuntimeException cause) {
        TypeConversionException refused = new TypeConversionException("'" + text + "' is not " + meant);
        refused.initCause(cause);
        return refused;
    }

    private static int refuseArguments(ParameterException refused, String[] args) {
        CommandLine command = refused.getCommandLine();
        String name = command.getCommandSpec().name();
        String message = refused.getMessage()
                .replace("option option", "option")
                .replaceFirst(
                        "(?s)^Value for option '(\\S+)' \\((.+?)\\) should be in KEY=VALUE\\S* format but was (.*)$",
                        "$1 must be given as $2, was '$3'");
        command.getErr().println(name + ": " + message + "; " + name + " --help lists the options");
        command.getErr().flush();
        return COULD_NOT_RUN;
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
            refuseEmptyOrRepeated();
            return work();
        } catch (ReadingsException
                | DensitometerInputException
                | NotDeterminableException
                | IllegalArgumentException e) {
            return fail(e.getMessage());
        } catch (NoSuchFileException e) {
            return fail("there is no file " + e.getFile() + "; check its name and directory");
        } catch (FileAlreadyExistsException e) {
            return fail(e.getFile() + " is a file; give a directory to --out");
        } catch (FileSystemException e) {
            return fail("could not read or write " + e.getFile() + ": "
                    + (e.getReason() == null
                            ? "access denied; change its permissions, or give another"
                            : e.getReason()));
        } catch (CharacterCodingException e) {
            return fail("an input has bytes that are not UTF-8; save it as UTF-8");
        } catch (UncheckedIOException e) {
            return fail("could not read or write: " + e.getCause().getMessage());
        } catch (IOException e) {
            return fail("could not read or write: " + e.getMessage());
        } catch (LinkageError e) {
            if (ModuleLayer.boot().findModule(DRAWING).isPresent()) {
                throw e;
            }
            return fail("charts need the module " + DRAWING + ", which this Java lacks; use a whole JDK"
                    + (spec.findOption(PlotOptions.NO_PLOTS) == null ? "" : ", or add " + PlotOptions.NO_PLOTS));
        } catch (OutOfMemoryError e) {
            return fail("there is not enough memory; start java with a larger -Xmx, or compare fewer strips");
        } catch (RuntimeException e) {
            return fail("this is a fault of the program, please report it: " + e);
        }
    }

    /** Refuses a file without a name, and a second value for a name, which would take the place of the first. */
    private void refuseEmptyOrRepeated() {
        for (OptionSpec option : spec.commandLine().getParseResult().matchedOptions()) {
            String name = option.longestName();
            if (option.getValue() instanceof Path file && file.toString().isEmpty()) {
                throw new IllegalArgumentException(name + " is empty; give it the name of a "
                        + (option.paramLabel().equals("DIR") ? "directory" : "file"));
            }
            if (!(option.getValue() instanceof Map)) {
                continue;
            }
            Set<String> keys = new HashSet<>();
            for (String text : option.originalStringValues()) {
                String key = text.substring(0, Math.max(0, text.indexOf('='))).strip();
                if (key.isEmpty()) {
                    throw new IllegalArgumentException(
                            name + " '" + text + "' has no name; write " + option.paramLabel());
                }
                if (!keys.add(key)) {
                    throw new IllegalArgumentException(
                            name + " has the name " + key + " twice; give each its own name");
                }
            }
        }
    }

    private int fail(String message) {
        say(spec.name() + ": " + message);
        failed(message);
        return COULD_NOT_RUN;
    }

    /**
     * Takes notice that the work could not be done; does nothing unless overridden.
     *
     * @param message what kept the program from its work
     */
    protected void failed(String message) {
        // most programs leave nothing behind
    }

    /**
     * Refuses options that would have no effect.
     *
     * @param needed the option without which they have none
     * @param options the options that need it
     * @throws IllegalArgumentException if one of them is on the command line without the one it needs
     */
    protected final void refuseWithout(String needed, List<String> options) {
        for (String option : options) {
            refuseWithout(needed, option, "leave out " + option);
        }
    }

    /**
     * Refuses an option that has no effect without another.
     *
     * @param needed the other option
     * @param option the option
     * @param remedy what to do unless the other is added
     * @throws IllegalArgumentException if the option is on the command line without the other
     */
    protected final void refuseWithout(String needed, String option, String remedy) {
        ParseResult given = spec.commandLine().getParseResult();
        if (given.hasMatchedOption(option) && !given.hasMatchedOption(needed)) {
            throw new IllegalArgumentException(
                    option + " has no effect without " + needed + "; add " + needed + " or " + remedy);
        }
    }

    /** Writes the results of a run to files. */
    @FunctionalInterface
    protected interface Results {

        /**
         * Writes all results.
         *
         * @param directory where they go for now
         * @throws IOException if a file cannot be written
         */
        void writeTo(Path directory) throws IOException;
    }

    /**
     * Writes results all or nothing: they replace those of an earlier run of this program, and nothing else.
     *
     * @param directory where the results go; made if it is not there
     * @param results writes them
     * @throws IOException if a file cannot be written; nothing was changed then
     * @throws IllegalArgumentException if a file is in the way, such as an input; nothing was changed then
     */
    @SuppressWarnings("try") // closed at the end, used by nobody
    protected final void publish(Path directory, Results results) throws IOException {
        try (ResultFolder folder = ResultFolder.open(directory, spec.name(), inputs())) {
            try (Closeable stop =
                    sayIfStopped("stopped before all results were written; those of an earlier run are as they"
                            + " were. The next run takes away " + directory.resolve(ResultFolder.UNFINISHED)
                            + ", or delete it")) {
                results.writeTo(folder.unpublished());
                folder.publish();
            }
        }
    }

    /**
     * Tells the user how things stand if the program is stopped, as by Ctrl-C.
     *
     * @param message a line of text
     * @return to be closed when it holds no longer
     */
    protected final Closeable sayIfStopped(String message) {
        // What was typed, such as ^C, ends its line first.
        Thread hook = new Thread(() -> say(System.lineSeparator() + spec.name() + ": " + message));
        try {
            Runtime.getRuntime().addShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The machine is stopping already: a verdict on the log so far is written then.
            return () -> {};
        }
        return () -> {
            try {
                Runtime.getRuntime().removeShutdownHook(hook);
            } catch (IllegalStateException e) {
                // The machine is stopping, and the hook has run or runs.
            }
        };
    }

    /** The files on the command line that this run reads: positional ones, and those of every option but --out. */
    private List<Path> inputs() {
        ParseResult given = spec.commandLine().getParseResult();
        List<Path> files = new ArrayList<>();
        for (PositionalParamSpec positional : given.matchedPositionals()) {
            addPaths(positional, files);
            positional.stringValues().forEach(text -> files.add(Path.of(text)));
        }
        for (OptionSpec option : given.matchedOptions()) {
            if (!option.longestName().equals(OUT)) {
                addPaths(option, files);
            }
            if (option.longestName().equals(TableOptions.TABLET)) {
                option.stringValues().forEach(text -> files.add(Path.of(text)));
            }
        }
        return files;
    }

    /**
     * Tells whether an option stands on the command line.
     *
     * @param option its name
     * @return true if it was given, also with its default
     */
    protected final boolean isGiven(String option) {
        return spec.commandLine().getParseResult().hasMatchedOption(option);
    }

    private static void addPaths(ArgSpec argument, List<Path> files) {
        Object value = argument.getValue();
        Collection<?> values = value instanceof Map<?, ?> map
                ? map.values()
                : value instanceof Collection<?> several ? several : value == null ? List.of() : List.of(value);
        values.stream().filter(Path.class::isInstance).map(Path.class::cast).forEach(files::add);
    }

    /**
     * Returns what a page of this run is made of.
     *
     * @return date, version, command and inputs
     * @throws IOException if an input cannot be read
     */
    protected final Provenance provenance() throws IOException {
        return Provenance.of(
                spec.name(),
                String.join(" ", spec.version()),
                spec.commandLine().getParseResult().originalArgs());
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
