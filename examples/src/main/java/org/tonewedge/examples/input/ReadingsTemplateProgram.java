// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.input;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import org.tonewedge.core.strip.ReadingsGrid;
import org.tonewedge.examples.command.CommandProgram;
import org.tonewedge.examples.command.TableOptions;
import org.tonewedge.examples.spreadsheet.SheetWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * Writes an empty grid of readings, steps down and strips across, to be filled in: as CSV, XLSX and ODS.
 *
 * <p>Exit status: 0 if the files were written, 2 if they could not be.
 */
@Command(
        name = "readings-template",
        mixinStandardHelpOptions = true,
        version = "Tonewedge 0.1.0-SNAPSHOT",
        description = {"Writes an empty grid of readings to fill in: readings.csv, readings.xlsx and readings.ods.", ""
        },
        optionListHeading = "Options:%n",
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {"0:the files were written", "2:they could not be written"},
        footerHeading = "%nHow to fill it in:%n",
        footer = {
            "  strip          an identifier for each piece of film; columns without readings are ignored",
            "  minutes        time of development, 8.5 or 8:30",
            "  box_speed      the speed on the box, 100 or 100/21°",
            "  exposure       log10 of the exposure in lux seconds that the film would receive without",
            "                 the tablet; or rows lux and seconds; or rows f_number, seconds and luminance",
            "                 (cd/m²) of an evenly lit target, with flare as a fraction of it. Leave it",
            "                 empty if only ratios are known.",
            "  base_plus_fog  readings of the unexposed, processed part",
            "  step           below it, one row for each step of the tablet; a step read twice gets a second row.",
            "                 Add a row read_from with the word dense if step 1 is the dense end."
        })
public final class ReadingsTemplateProgram extends CommandProgram {

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "where the files go; made if it does not exist")
    private Path out;

    @Option(
            names = "--strips",
            paramLabel = "N",
            defaultValue = "12",
            description = "the number of columns for strips (default: ${DEFAULT-VALUE})")
    private int strips;

    @Option(
            names = "--tablet",
            paramLabel = "TABLET",
            defaultValue = "21x0.15",
            description = "the file of a tablet's certificate, or nominal steps (default: ${DEFAULT-VALUE})")
    private String tablet;

    private ReadingsTemplateProgram() {}

    /**
     * Runs the program.
     *
     * @param args the command line; {@code --help} explains it
     */
    public static void main(String[] args) {
        runAndExit(new ReadingsTemplateProgram(), args);
    }

    /**
     * Runs the program without leaving the virtual machine.
     *
     * @param args the command line
     * @param output where help goes
     * @param messages where progress and errors go
     * @return the exit status
     */
    static int run(String[] args, PrintWriter output, PrintWriter messages) {
        return run(new ReadingsTemplateProgram(), args, output, messages);
    }

    @Override
    protected int work() throws IOException {
        ReadingsGrid grid = ReadingsGrid.blank("readings", strips, TableOptions.tablet(tablet));
        publish(out, directory -> {
            for (SheetWriter format : SheetWriter.values()) {
                format.write(grid, directory.resolve("readings." + format.name().toLowerCase(Locale.ROOT)));
            }
        });
        say("wrote " + out.resolve("readings.xlsx") + ", .ods and .csv; fill in one of them");
        return DONE;
    }
}
