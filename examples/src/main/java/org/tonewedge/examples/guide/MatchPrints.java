// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.core.tone.PrintTime;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.examples.command.Terminal;

/** Which frame matches the reference, and how to change the printing exposure. */
public final class MatchPrints {

    private MatchPrints() {}

    /**
     * Runs the program on a terminal, where signs that it lacks are spelt.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void main(String[] args) throws IOException {
        Terminal.spellOut();
        run(args);
    }

    /**
     * Prints what the README shows.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        BracketTable frames = BracketTable.read(demo.resolve("frames.csv"));
        Bracket reference = frames.bracket("Ostwick Reference 125");
        Bracket film = frames.bracket("Bellmarsh 400");
        ShadowMatch match = ShadowMatch.of(film, "shadow", reference, "metered");
        System.out.println(match + "; exactly " + match.interval());
        ExposureInterval change = PrintExposure.forBasePlusFog(film.basePlusFog(), reference.basePlusFog());
        System.out.println(PrintTime.of(Duration.ofSeconds(10)).changedBy(change));
    }
}
