// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import org.tonewedge.examples.chart.ChartFiles;
import picocli.CommandLine.Option;

/** Which plots a program draws. */
public final class PlotOptions {

    /** The option that leaves out all plots. */
    public static final String NO_PLOTS = "--no-plots";

    @Option(names = NO_PLOTS, description = "draw no plots")
    private boolean noPlots;

    @Option(names = "--no-png", description = "draw plots as SVG only, not as PNG too")
    private boolean noPng;

    /** Draws both kinds of plots unless the command line says otherwise. */
    public PlotOptions() {}

    /**
     * Returns the kinds of files to draw.
     *
     * @return both, one or none
     */
    public Set<ChartFiles.Format> formats() {
        Set<ChartFiles.Format> formats = EnumSet.allOf(ChartFiles.Format.class);
        if (noPng) {
            formats.remove(ChartFiles.Format.PNG);
        }
        if (noPlots) {
            formats.clear();
        }
        return formats;
    }

    /**
     * Returns what writes the plots.
     *
     * @param folder where they go
     * @return the files to be
     */
    public ChartFiles files(Path folder) {
        return new ChartFiles(folder, formats());
    }
}
