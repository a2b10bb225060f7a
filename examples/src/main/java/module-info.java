// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Runnable programs on invented demo data. Not a published API. */
module org.tonewedge.examples {
    requires transitive org.tonewedge.core;
    requires org.tonewedge.fitting;
    requires transitive org.tonewedge.standards;
    requires info.picocli;
    requires transitive de.siegmar.fastcsv;
    requires transitive java.desktop;
    requires java.xml;
    requires org.apache.fontbox;
    requires org.apache.pdfbox;

    exports org.tonewedge.examples.chart;
    exports org.tonewedge.examples.command;
    exports org.tonewedge.examples.comparison;
    exports org.tonewedge.examples.densitometer;
    exports org.tonewedge.examples.page;
    exports org.tonewedge.examples.development;
    exports org.tonewedge.examples.input;
    exports org.tonewedge.examples.recorder;
    exports org.tonewedge.examples.spreadsheet;
    exports org.tonewedge.examples.tone;
    exports org.tonewedge.examples.detail;
    exports org.tonewedge.examples.methods;

    opens org.tonewedge.examples.command to
            info.picocli;
    opens org.tonewedge.examples.comparison to
            info.picocli;
    opens org.tonewedge.examples.densitometer to
            info.picocli;
    opens org.tonewedge.examples.development to
            info.picocli;
    opens org.tonewedge.examples.input to
            info.picocli;
    opens org.tonewedge.examples.detail to
            info.picocli;
    opens org.tonewedge.examples.methods to
            info.picocli;
    opens org.tonewedge.examples.recorder to
            info.picocli;
    opens org.tonewedge.examples.tone to
            info.picocli;
}
