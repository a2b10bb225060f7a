// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.recorder;

import java.io.BufferedReader;
import java.io.Closeable;
import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.regex.Pattern;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.InputFiles;
import org.tonewedge.examples.command.TableOptions;
import org.tonewedge.examples.spreadsheet.Spreadsheets;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * Records readings of many strips as they are taken, from a densitometer or the keyboard, into a readings table.
 *
 * <p>Exit status: 0 if everything was read, 1 if the session ended earlier, 2 if nothing could be recorded.
 */
@Command(
        name = "recorder",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        sortOptions = false,
        description = {
            "Asks for the readings of each strip, step by step, and saves each in a table before it asks for the next.",
            "Run it again with the same options to continue where it ended.",
            ""
        },
        optionListHeading = "Options:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {"0:everything was read", "1:the session ended earlier", "2:nothing could be recorded"},
        footerHeading = "%nWhile it runs:%n",
        footer = {
            "  u undo, s skip this step, n next strip, a accept the last value as it is, p plot, q quit",
            "  A line is a density (0.42), has one after D= or density:, or has one number with decimals.",
            "  Set up a serial device first: stty -F /dev/ttyUSB0 9600 raw -echo"
        })
public final class RecorderProgram extends CommandProgram {

    @Option(
            names = "--plan",
            paramLabel = "FILE",
            description =
                    "the strips: CSV, XLSX or ODS with one row per strip and the columns strip, film, minutes, exposure …")
    private Optional<Path> plan = Optional.empty();

    @Option(names = "--strip", paramLabel = "ID=FILM", description = "a strip, instead of a plan; may be repeated")
    private Map<String, String> strips = new LinkedHashMap<>();

    @Option(
            names = "--tablet",
            paramLabel = "TABLET",
            defaultValue = "21x0.15",
            description = "the file of the tablet's certificate, or nominal steps (default: ${DEFAULT-VALUE})")
    private String tablet;

    @Option(
            names = "--device",
            paramLabel = "PATH",
            description = "a serial device or pipe that sends readings; commands stay on the keyboard")
    private Optional<Path> device = Optional.empty();

    @Option(names = "--pattern", paramLabel = "REGEX", description = "finds the density in a line, in its first group")
    private Optional<Pattern> pattern = Optional.empty();

    @Option(names = "--from-dense-end", description = "ask for the last step of the tablet first")
    private boolean fromDenseEnd;

    @Option(
            names = "--repeats",
            paramLabel = "N",
            defaultValue = "1",
            description = "readings of each step and of base plus fog (default: ${DEFAULT-VALUE})")
    private int repeats;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "FILE",
            description = "the table of readings; created or continued")
    private Path out;

    private final InputStream keyboard;

    private RecorderProgram(InputStream keyboard) {
        this.keyboard = keyboard;
    }

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new RecorderProgram(System.in), args);
    }

    /**
     * Runs the program without leaving the virtual machine.
     *
     * @param args the command line
     * @param keyboard what the user types
     * @param output where questions go
     * @param messages where errors go
     * @return the exit status
     */
    static int run(String[] args, InputStream keyboard, PrintWriter output, PrintWriter messages) {
        return run(new RecorderProgram(keyboard), args, output, messages);
    }

    @Override
    @SuppressWarnings("try") // closed at the end, used by nobody
    protected int work() throws IOException {
        if (!(repeats >= 1 && repeats <= 100)) {
            throw new IllegalArgumentException("--repeats must be from 1 to 100, was " + repeats);
        }
        if (pattern.isPresent() && pattern.get().matcher("").groupCount() == 0) {
            throw new IllegalArgumentException("--pattern " + pattern.get()
                    + " has no group to find the density in; put it in parentheses, such as D=([0-9.]+)");
        }
        RecorderPlan strips = plan();
        List<Integer> order = order();
        if (device.isPresent()) {
            InputFiles.existing(device.get());
        }
        refuseOut();
        try (ReadingsRecord readings = ReadingsRecord.open(out, strips);
                Closeable stop =
                        sayIfStopped("stopped; what was read is in " + out + ", run the same command to continue")) {
            Recorder recorder = new Recorder(strips, readings, order, repeats, pattern, output());
            boolean goesOn = !recorder.isFinished();
            BlockingQueue<Optional<String>> lines = goesOn ? lines() : new LinkedBlockingQueue<>();
            while (goesOn) {
                recorder.ask();
                Optional<String> line = lines.take();
                goesOn = line.isPresent() && recorder.take(line.get());
            }
            output().println();
            int missing = recorder.missing();
            say(
                    missing == 0
                            ? "all strips are read: " + out + "; compare them with --tablet " + tablet
                            : "what was read is in " + out + ", " + missing + (missing == 1 ? " step is" : " steps are")
                                    + " missing; run the same command to continue");
            return missing == 0 ? DONE : INCOMPLETE;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return INCOMPLETE;
        }
    }

    /** Refuses a place where no record can be, before anything is made there. */
    private void refuseOut() throws IOException {
        if (Files.isDirectory(out)) {
            throw new IllegalArgumentException(out + " is a directory; give the name of a file in it to --out");
        }
        Path folder = out.toAbsolutePath().getParent();
        if (!Files.isDirectory(folder)) {
            throw new IllegalArgumentException(
                    "there is no directory " + folder + " for --out " + out + "; make it first");
        }
        if (isOut(plan)) {
            throw new IllegalArgumentException(out + " is the plan; give another file to --out");
        }
        if (isOut(device)) {
            throw new IllegalArgumentException(out + " is the device; give another file to --out");
        }
    }

    private boolean isOut(Optional<Path> input) throws IOException {
        return input.isPresent() && Files.exists(out) && Files.isSameFile(out, input.get());
    }

    private RecorderPlan plan() throws IOException {
        if (plan.isPresent() == !strips.isEmpty()) {
            throw new IllegalArgumentException("name the strips by either --plan or --strip");
        }
        if (plan.isPresent()) {
            Path file = InputFiles.rereadable(plan.get());
            return RecorderPlan.read(Spreadsheets.open(file, Optional.empty(), CsvDialect.guessed()));
        }
        List<List<String>> rows = new ArrayList<>();
        strips.forEach((id, film) -> rows.add(List.of(id, film)));
        return new RecorderPlan(List.of("strip", "film"), rows);
    }

    private List<Integer> order() throws IOException {
        List<Integer> steps = new ArrayList<>();
        TableOptions.tablet(tablet).steps().forEach(step -> steps.add(step.number()));
        if (fromDenseEnd) {
            Collections.reverse(steps);
        }
        steps.add(0, ReadingsRecord.BASE_PLUS_FOG);
        return steps;
    }

    /** The lines of device and keyboard as they come; an empty one at the end of either. */
    private BlockingQueue<Optional<String>> lines() throws IOException {
        BlockingQueue<Optional<String>> lines = new LinkedBlockingQueue<>();
        follow(keyboard, lines);
        if (device.isPresent()) {
            // A device cannot be positioned, which the streams of java.nio try.
            follow(new FileInputStream(InputFiles.existing(device.get()).toFile()), lines);
        }
        return lines;
    }

    private void follow(InputStream source, BlockingQueue<Optional<String>> lines) {
        Thread reader = new Thread(() -> {
            try {
                BufferedReader text = new BufferedReader(new InputStreamReader(source, StandardCharsets.UTF_8));
                for (String line = text.readLine(); line != null; line = text.readLine()) {
                    lines.add(Optional.of(line));
                }
            } catch (IOException e) {
                say("the input ended: " + e.getMessage());
            }
            // With a device, the keyboard may be closed from the beginning.
            if (device.isEmpty() || source != keyboard) {
                lines.add(Optional.empty());
            }
        });
        reader.setDaemon(true);
        reader.start();
    }
}
