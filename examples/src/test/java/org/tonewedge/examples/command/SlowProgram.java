// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Writes two results and waits between them until its input ends. */
@Command(name = "slow")
final class SlowProgram extends CommandProgram {

    @Option(names = "--out", required = true)
    private Path out;

    @Option(names = "--text", required = true)
    private String text;

    @SuppressWarnings("UnusedVariable") // an input is guarded by being an option
    @Option(names = "--input")
    private Path input;

    public static void main(String[] args) {
        runAndExit(new SlowProgram(), args);
    }

    @Override
    protected int work() throws IOException {
        publish(out, directory -> {
            Files.writeString(directory.resolve("a.txt"), text);
            output().println("half");
            while (System.in.read() >= 0) {
                // goes on when the input ends
            }
            Files.writeString(directory.resolve("b.txt"), text);
        });
        return DONE;
    }
}
