// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanCorners;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.examples.scan.ScanFile;
import org.tonewedge.standards.detail.PatchGrid;
import org.tonewedge.standards.detail.ScanCalibration;
import org.tonewedge.standards.detail.StepFinder;

/** A scan that is being measured: its codes as densities, by a tablet where one was scanned. Not thread safe. */
final class OpenScan {

    private static final String MILLIMETRES = "mm";

    private final String name;
    private final ScanFile file;
    private final ScanFile.Channel channel;
    private final ScanRows rows;
    private final ScanEncoding nominal;
    private final ScanCodeTable nominalDensities;
    private final Optional<Double> pixelsPerMillimetre;
    private Optional<ScanCalibration> calibration = Optional.empty();
    private ScanCodeTable densities;

    private final List<ScanCorners> taken = new ArrayList<>();

    /** The resolution is that of the file unless another is given; the open gate is the highest code unless given. */
    OpenScan(
            String name,
            ScanFile file,
            ScanFile.Channel channel,
            double dark,
            Optional<Double> openGate,
            Optional<Double> pixelsPerMillimetre) {
        this.name = name;
        this.file = file;
        this.channel = channel;
        this.pixelsPerMillimetre = pixelsPerMillimetre;
        rows = file.rows(channel);
        double open = openGate.orElse((double) rows.highestCode());
        if (!(open > dark)) {
            throw new IllegalArgumentException("--open-gate must be above --dark, were " + open + " and " + dark);
        }
        nominal = ScanEncoding.ofTransmittanceSteps(dark, open, rows.highestCode());
        nominalDensities = ScanCodeTable.densities(nominal);
        densities = nominalDensities;
    }

    String name() {
        return name;
    }

    ScanFile file() {
        return file;
    }

    /** The parts of steps and patches that were read so far. */
    List<ScanCorners> taken() {
        return List.copyOf(taken);
    }

    void calibrate(ScanCalibration by) {
        calibration = Optional.of(by);
        densities = ScanCodeTable.densities(by.encoding(nominal));
    }

    /** A calibration by a tablet in a rough box on this scan. */
    ScanCalibration calibration(StepTablet tablet, String box) throws IOException {
        return ScanCalibration.of(tablet, found(tablet.steps().size(), region(box)));
    }

    double resolution() throws IOException {
        if (pixelsPerMillimetre.isPresent()) {
            return pixelsPerMillimetre.get();
        }
        return file.pixelsPerMillimetre()
                .orElseThrow(() -> new IllegalArgumentException(
                        name + " does not state its resolution; give it with --pixels-per-mm"));
    }

    /** A region in pixels, or in millimetres such as 2,1.5,10,6mm. */
    ScanRegion region(String text) throws IOException {
        ScanRegion region = ScanRegion.parse(text, text.strip().endsWith(MILLIMETRES) ? resolution() : 1);
        region.requireWithin(name, file.width(), file.height());
        return region;
    }

    /** The outline of a region, or of the corners of a chart. */
    ScanCorners outline(String text) throws IOException {
        if (!ScanCorners.isMeantBy(text)) {
            return ScanCorners.of(region(text));
        }
        ScanCorners corners = ScanCorners.parse(text, text.strip().endsWith(MILLIMETRES) ? resolution() : 1);
        ScanRegion bounds = corners.bounds();
        if (bounds.x() + bounds.width() > file.width() || bounds.y() + bounds.height() > file.height()) {
            throw new IllegalArgumentException("corners " + corners + " reach beyond " + name + ", which is "
                    + file.width() + " by " + file.height() + " pixels");
        }
        return corners;
    }

    DensityImage image(ScanRegion region) throws IOException {
        int[] codes = file.read(region, channel);
        double[] found = new double[codes.length];
        for (int i = 0; i < found.length; i++) {
            int code = codes[i];
            if (!densities.covers(code)) {
                throw new IllegalArgumentException(name + ", region " + region + ", column "
                        + (region.x() + i % region.width()) + ", row " + (region.y() + i / region.width()) + ": code "
                        + code
                        + (nominalDensities.covers(code)
                                ? " is beyond the tablet on the scan; take a tablet that reaches further or leave the"
                                        + " place out"
                                : " is black, beyond the range of the scanner; scan with more exposure or leave the place"
                                        + " out"));
            }
            found[i] = densities.value(code);
        }
        return DensityImage.of(found, region.width(), 1000 / resolution());
    }

    /** The patches that a grid fills, from a region or from corners; those beyond the tablet are missing, with the reason. */
    List<ReadPatch> patches(PatchGrid grid, String text) throws IOException {
        ScanCorners outline = outline(text);
        if (!ScanCorners.isMeantBy(text)) {
            return corrected(noted(grid.read(rows, outline.bounds(), nominalDensities)));
        }
        List<PatchGrid.Area> areas = grid.read(rows, outline, nominalDensities);
        taken.addAll(grid.interiors(outline));
        return corrected(areas);
    }

    List<ReadPatch> steps(int count, ScanRegion box) throws IOException {
        return corrected(found(count, box));
    }

    List<ReadPatch> even(ScanRegion region) throws IOException {
        return corrected(noted(PatchGrid.readEach(rows, List.of(region), nominalDensities)));
    }

    private List<PatchGrid.Area> found(int count, ScanRegion box) throws IOException {
        List<ScanRegion> regions = StepFinder.of(count).find(rows, box, nominalDensities);
        return noted(PatchGrid.readEach(rows, regions, nominalDensities));
    }

    private List<PatchGrid.Area> noted(List<PatchGrid.Area> areas) {
        areas.forEach(area -> taken.add(ScanCorners.of(area.region())));
        return areas;
    }

    private List<ReadPatch> corrected(List<PatchGrid.Area> areas) {
        Function<PatchGrid.Area, PatchGrid.Area> correction = calibration
                .<Function<PatchGrid.Area, PatchGrid.Area>>map(by -> by::corrected)
                .orElse(area -> area);
        return areas.stream()
                .map(area -> {
                    try {
                        return new ReadPatch(area, Optional.of(correction.apply(area)), "");
                    } catch (NotDeterminableException e) {
                        return new ReadPatch(area, Optional.<PatchGrid.Area>empty(), e.getMessage());
                    }
                })
                .toList();
    }

    /** A patch as it was read, in densities, or why it has none. */
    record ReadPatch(PatchGrid.Area nominal, Optional<PatchGrid.Area> density, String reason) {}
}
