// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.tonewedge.examples.page.Provenance;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** A program that reads readings and writes a report to a directory. */
public abstract class ReportProgram extends CommandProgram {

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR",
            description = "where the results go; made if it does not exist")
    private Path out;

    @Option(names = "--note", paramLabel = "TEXT", description = "a remark for the top of the report; may be repeated")
    private List<String> notes = new ArrayList<>();

    @Option(
            names = "--densitometer",
            paramLabel = "TEXT",
            defaultValue = "",
            description = "the densitometer of the readings, for the page")
    private String densitometer;

    @Option(
            names = "--light-source",
            paramLabel = "TEXT",
            defaultValue = "",
            description = "the light source of the exposures, for the page")
    private String lightSource;

    @Mixin
    private TableOptions tables;

    @Mixin
    private PlotOptions plots;

    /** Leaves the options to the command line. */
    protected ReportProgram() {}

    /**
     * Returns where the results go.
     *
     * @return the directory, which may not be there yet
     */
    protected final Path out() {
        return out;
    }

    /**
     * Returns which plots are drawn.
     *
     * @return the options
     */
    protected final PlotOptions plots() {
        return plots;
    }

    /**
     * Returns the remarks of the user.
     *
     * @return those of {@code --note}, in the order given
     */
    protected final List<String> givenNotes() {
        return List.copyOf(notes);
    }

    /**
     * Returns the remarks for the top of the report.
     *
     * @return the remarks of the user in the order given, then those on how readings were made into strips
     */
    protected final List<String> notes() {
        List<String> all = new ArrayList<>(notes);
        all.addAll(tables.remarks());
        return all;
    }

    /**
     * Returns what a page of this run is made of, with the instruments of the test.
     *
     * @return date, version, command, inputs, and the instruments as far as they are stated
     * @throws IOException if an input cannot be read
     */
    protected final Provenance origin() throws IOException {
        return provenance()
                .with("Tablet", tables.tablet().orElse(""))
                .with("Densitometer", densitometer)
                .with("Light source", lightSource);
    }

    /**
     * Returns how tables are read.
     *
     * @return the options of the command line
     */
    protected final TableOptions tables() {
        return tables;
    }
}
