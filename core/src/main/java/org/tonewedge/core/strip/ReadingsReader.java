// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.quantity.Density;

/**
 * Reads tables of readings in any form: with one row for each reading, or as a grid with steps down and strips across.
 * Rows come from CSV or any other {@link RowSource}. Exposures are stated in the table, computed from a tablet and one
 * exposure of each strip, or computed from the stops of a bracket. {@link ReadingsTable} describes the forms.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 */
public final class ReadingsReader {

    private static final ReadingsReader DEFAULTS = new ReadingsReader(CsvDialect.guessed(), null, null, null);

    private final CsvDialect dialect;
    private final StepTablet tablet;
    private final ExposureAtFilm camera;
    private final ReadingCorrection correction;

    private ReadingsReader(CsvDialect dialect, StepTablet tablet, ExposureAtFilm camera, ReadingCorrection correction) {
        this.dialect = dialect;
        this.tablet = tablet;
        this.camera = camera;
        this.correction = correction;
    }

    /**
     * Returns a reader that finds the dialect of CSV from the file and has no tablet.
     *
     * @return the reader
     */
    public static ReadingsReader withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with a dialect of CSV.
     *
     * @param csv the dialect of files
     * @return the copy
     */
    public ReadingsReader with(CsvDialect csv) {
        return new ReadingsReader(Objects.requireNonNull(csv, "csv"), tablet, camera, correction);
    }

    /**
     * Returns a copy that knows the tablet, for tables that give step numbers.
     *
     * @param exposedThrough the tablet; the uncertainty of its steps becomes an
     *     {@linkplain Strip#statedErrors() stated error} that all strips share
     * @return the copy
     */
    public ReadingsReader with(StepTablet exposedThrough) {
        return new ReadingsReader(
                dialect, Objects.requireNonNull(exposedThrough, "exposedThrough"), camera, correction);
    }

    /**
     * Returns a copy that computes the exposure at the film from camera settings.
     *
     * @param method computes the exposure
     * @return the copy
     */
    public ReadingsReader with(ExposureAtFilm method) {
        return new ReadingsReader(dialect, tablet, Objects.requireNonNull(method, "method"), correction);
    }

    /**
     * Returns a copy that corrects every density it reads.
     *
     * @param ofInstrument the correction of the densitometer; its {@linkplain ReadingCorrection#commonErrors() common errors}
     *     become {@linkplain Strip#statedErrors() stated errors} that all strips share
     * @return the copy
     */
    public ReadingsReader with(ReadingCorrection ofInstrument) {
        return new ReadingsReader(dialect, tablet, camera, Objects.requireNonNull(ofInstrument, "ofInstrument"));
    }

    /**
     * Reads a CSV file.
     *
     * @param file the file
     * @return the table
     * @throws IOException if the file cannot be read
     * @throws ReadingsException if its content is not a table of readings; the message names the place of the fault
     */
    public ReadingsTable read(Path file) throws IOException {
        return read(dialect.open(file));
    }

    /**
     * Reads rows.
     *
     * @param source the rows
     * @return the table
     * @throws IOException if the rows cannot be read
     * @throws ReadingsException if they are not a table of readings; the message names the place of the fault
     */
    public ReadingsTable read(RowSource source) throws IOException {
        TableStart start = new TableStart(this, source);
        source.read(start);
        ReadingsTable table = start.finish();
        if (correction == null) {
            return table;
        }
        List<String> notices = new ArrayList<>(table.notices());
        notices.add(source.name() + ": densities corrected by " + correction.name()
                + (correction.commonErrors().values().stream().noneMatch(SameSignError.class::isInstance)
                        ? ""
                        : "; its error is taken to have the same sign at all densities, so gamma and other differences of density"
                                + " may be less certain than stated: give a correction with its common errors"));
        return new ReadingsTable(table.name(), table.strips(), notices);
    }

    /** A form of table: it takes the rows, then makes the strips. */
    interface Form {

        void row(long row, List<String> fields);

        ReadingsTable finish();
    }

    /** The density of a reading. */
    Density density(double reading) {
        Density read = Density.of(reading);
        return correction == null ? read : correction.correct(read);
    }

    Optional<ReadingCorrection> correction() {
        return Optional.ofNullable(correction);
    }

    Optional<StepTablet> tablet() {
        return Optional.ofNullable(tablet);
    }

    Optional<ExposureAtFilm> cameraExposure() {
        return Optional.ofNullable(camera);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return what was stated
     */
    @Override
    public String toString() {
        return "reader of readings, " + dialect + (tablet == null ? "" : ", " + tablet)
                + (camera == null ? "" : ", camera exposures")
                + (correction == null ? "" : ", corrected by " + correction.name());
    }
}
