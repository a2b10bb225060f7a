// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.scan;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.awt.image.ColorModel;
import java.awt.image.ComponentColorModel;
import java.awt.image.ComponentSampleModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferByte;
import java.awt.image.DataBufferUShort;
import java.awt.image.IndexColorModel;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.event.IIOReadUpdateListener;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.ImageInputStream;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.examples.command.InputFiles;
import org.w3c.dom.NodeList;

/**
 * A scan in a PNG or TIFF file of 8 or 16 bits, grey or RGB, of which regions are read without loading the whole. A large
 * PNG file is decoded in one pass, a row at a time; a TIFF file in bands, which takes the memory of one strip or tile of the
 * file at least.
 *
 * <p>Not thread safe; close it after use.
 */
public final class ScanFile implements AutoCloseable {

    /** The most pixels of a region that is held in memory. */
    public static final long MOST_PIXELS = 16_000_000;

    /** The most pixels of a scan. */
    private static final long MOST_ON_SCAN = 1_000_000_000;

    /** So many pixels are decoded at a time where a region is read row by row. */
    private static final long BAND = 4_000_000;

    private static final String STANDARD_METADATA = "javax_imageio_1.0";

    private final Path file;
    private final ImageInputStream stream;
    private final ImageReader reader;
    private final int width;
    private final int height;
    private String trouble = "";

    private ScanFile(Path file, ImageInputStream stream, ImageReader reader) throws IOException {
        this.file = file;
        this.stream = stream;
        this.reader = reader;
        reader.addIIOReadWarningListener((source, warning) -> trouble = warning);
        reader.setInput(stream, true, false);
        width = reader.getWidth(0);
        height = reader.getHeight(0);
        if ((long) width * height >= MOST_ON_SCAN) {
            throw new TooLargeException(file + " says it is " + width + " by " + height
                    + " pixels, a billion or more; scan in parts, or crop it to the film");
        }
    }

    /** A scan of more pixels than any film has detail for, or one that lies. */
    private static final class TooLargeException extends IllegalArgumentException {

        private static final long serialVersionUID = 1L;

        TooLargeException(String message) {
            super(message);
        }
    }

    /**
     * Opens a scan.
     *
     * @param file a PNG or TIFF file
     * @return the scan, to be closed after use
     * @throws IOException if the file cannot be opened
     * @throws IllegalArgumentException if it is no PNG or TIFF image, is damaged, or says that it has a billion pixels
     */
    public static ScanFile open(Path file) throws IOException {
        ImageInputStream stream =
                ImageIO.createImageInputStream(InputFiles.existing(file).toFile());
        if (stream == null) {
            throw new AccessDeniedException(file.toString());
        }
        Iterator<ImageReader> readers = ImageIO.getImageReaders(stream);
        if (!readers.hasNext()) {
            stream.close();
            throw new IllegalArgumentException(file + " is not a PNG or TIFF image; save the scan as one of these");
        }
        ImageReader reader = readers.next();
        try {
            return new ScanFile(file, stream, reader);
        } catch (IOException | RuntimeException e) {
            reader.dispose();
            stream.close();
            throw e instanceof TooLargeException tooLarge ? tooLarge : damaged(file, e);
        }
    }

    private static IllegalArgumentException damaged(Path file, Exception cause) {
        return new IllegalArgumentException(
                file + " is damaged or cut short (" + cause.getMessage() + "); scan or copy it again", cause);
    }

    /**
     * Returns the width.
     *
     * @return the number of columns
     */
    public int width() {
        return width;
    }

    /**
     * Returns the height.
     *
     * @return the number of rows
     */
    public int height() {
        return height;
    }

    /**
     * Returns the resolution that the file states.
     *
     * @return the resolution in pixels per millimetre; empty if the file states none
     * @throws IOException if the file cannot be read
     */
    public OptionalDouble pixelsPerMillimetre() throws IOException {
        IIOMetadata metadata = reader.getImageMetadata(0);
        if (metadata == null || !metadata.isStandardMetadataFormatSupported()) {
            return OptionalDouble.empty();
        }
        NodeList found =
                ((IIOMetadataNode) metadata.getAsTree(STANDARD_METADATA)).getElementsByTagName("HorizontalPixelSize");
        if (found.getLength() == 0) {
            return OptionalDouble.empty();
        }
        double size = Double.parseDouble(((IIOMetadataNode) found.item(0)).getAttribute("value"));
        return size > 0 ? OptionalDouble.of(1 / size) : OptionalDouble.empty();
    }

    /**
     * Reads a region of one channel into memory.
     *
     * @param region a region within the scan
     * @param channel the channel, which counts only on an RGB scan
     * @return the codes, row by row
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if the region is larger than {@link #MOST_PIXELS} or not within the scan, or the
     *     file is damaged
     */
    public int[] read(ScanRegion region, Channel channel) throws IOException {
        region.requireWithin(file.toString(), width, height);
        if (region.pixels() > MOST_PIXELS) {
            throw new IllegalArgumentException("region " + region + " has " + region.pixels() + " pixels, more than "
                    + MOST_PIXELS + "; choose a smaller one");
        }
        int[] codes = new int[Math.toIntExact(region.pixels())];
        rows(channel)
                .read(
                        region,
                        (y, line) ->
                                System.arraycopy(line, 0, codes, (y - region.y()) * region.width(), region.width()));
        return codes;
    }

    /**
     * Returns one channel, to be read row by row.
     *
     * @param channel the channel, which counts only on an RGB scan
     * @return the rows
     * @throws IllegalArgumentException if the file is neither grey nor RGB of 8 or 16 bits
     */
    public ScanRows rows(Channel channel) {
        ImageTypeSpecifier type = type();
        ColorModel colours = type.getColorModel();
        if (colours instanceof IndexColorModel) {
            throw new IllegalArgumentException(file + " has a palette of colours; save the scan as grey or RGB");
        }
        int bits = colours.getComponentSize(0);
        int bands = type.getNumBands() - (colours.hasAlpha() ? 1 : 0);
        if ((bits != 8 && bits != 16) || (bands != 1 && bands != 3)) {
            throw new IllegalArgumentException(file + " has " + bands + " channels of " + bits
                    + " bits; save the scan as grey or RGB of 8 or 16 bits");
        }
        return new Rows(bands == 1 ? 0 : channel.band, bits);
    }

    private ImageTypeSpecifier type() {
        try {
            ImageTypeSpecifier raw = reader.getRawImageType(0);
            Iterator<ImageTypeSpecifier> types = reader.getImageTypes(0);
            if (raw == null && !types.hasNext()) {
                throw new IOException("its pixels are of no kind that Java reads");
            }
            return raw == null ? types.next() : raw;
        } catch (IOException | RuntimeException e) {
            throw damaged(file, e);
        }
    }

    /** One channel of this file. */
    private final class Rows implements ScanRows {

        private final int band;
        private final int bits;

        Rows(int band, int bits) {
            this.band = band;
            this.bits = bits;
        }

        @Override
        public int width() {
            return width;
        }

        @Override
        public int height() {
            return height;
        }

        @Override
        public int highestCode() {
            return (1 << bits) - 1;
        }

        @Override
        public void read(ScanRegion region, Row row) throws IOException {
            region.requireWithin(file.toString(), width, height);
            if (region.pixels() > BAND && reader.getFormatName().equalsIgnoreCase("png")) {
                readInOnePass(region, row);
                return;
            }
            int[] line = new int[region.width()];
            int rows = (int) Math.max(1, Math.min(region.height(), BAND / region.width()));
            for (int top = 0; top < region.height(); top += rows) {
                int count = Math.min(rows, region.height() - top);
                ImageReadParam param = reader.getDefaultReadParam();
                param.setSourceRegion(new Rectangle(region.x(), region.y() + top, region.width(), count));
                Raster raster = decoded(param).getRaster();
                for (int y = 0; y < count; y++) {
                    raster.getSamples(0, y, region.width(), 1, band, line);
                    row.accept(region.y() + top + y, line);
                }
            }
        }

        /** The reader decodes into an image whose rows all lie in the same place, and tells after each that it is there. */
        private void readInOnePass(ScanRegion region, Row row) throws IOException {
            int[] line = new int[region.width()];
            ImageReadParam param = reader.getDefaultReadParam();
            param.setSourceRegion(new Rectangle(region.x(), region.y(), region.width(), region.height()));
            int type = bits == 8 ? DataBuffer.TYPE_BYTE : DataBuffer.TYPE_USHORT;
            ColorModel colours = type().getColorModel();
            int bands = colours.getNumComponents();
            int[] offsets = IntStream.range(0, bands).toArray();
            int length = region.width() * bands;
            WritableRaster oneRow = Raster.createWritableRaster(
                    new ComponentSampleModel(type, region.width(), region.height(), bands, 0, offsets),
                    bits == 8 ? new DataBufferByte(length) : new DataBufferUShort(length),
                    null);
            param.setDestination(new BufferedImage(
                    new ComponentColorModel(
                            colours.getColorSpace(), colours.hasAlpha(), false, colours.getTransparency(), type),
                    oneRow,
                    false,
                    null));
            RowListener listener = new RowListener(y -> {
                oneRow.getSamples(0, y, region.width(), 1, band, line);
                row.accept(region.y() + y, line);
            });
            reader.addIIOReadUpdateListener(listener);
            try {
                decoded(param);
            } finally {
                reader.removeIIOReadUpdateListener(listener);
            }
            if (listener.rows != region.height()) {
                throw new IllegalArgumentException(
                        file + " is interlaced or cut short; save it again without interlacing");
            }
        }
    }

    /** Passes on rows that are complete. */
    private static final class RowListener implements IIOReadUpdateListener {

        private final IntConsumer row;
        private int rows;

        RowListener(IntConsumer row) {
            this.row = row;
        }

        @Override
        public void imageUpdate(
                ImageReader source,
                BufferedImage image,
                int minX,
                int minY,
                int width,
                int height,
                int periodX,
                int periodY,
                int[] bands) {
            if (periodX == 1 && periodY == 1) {
                row.accept(minY);
                rows++;
            }
        }

        @Override
        public void passStarted(
                ImageReader source,
                BufferedImage image,
                int pass,
                int minPass,
                int maxPass,
                int minX,
                int minY,
                int periodX,
                int periodY,
                int[] bands) {
            // only rows count
        }

        @Override
        public void passComplete(ImageReader source, BufferedImage image) {
            // only rows count
        }

        @Override
        public void thumbnailPassStarted(
                ImageReader source,
                BufferedImage image,
                int pass,
                int minPass,
                int maxPass,
                int minX,
                int minY,
                int periodX,
                int periodY,
                int[] bands) {
            // thumbnails are not read
        }

        @Override
        public void thumbnailUpdate(
                ImageReader source,
                BufferedImage image,
                int minX,
                int minY,
                int width,
                int height,
                int periodX,
                int periodY,
                int[] bands) {
            // thumbnails are not read
        }

        @Override
        public void thumbnailPassComplete(ImageReader source, BufferedImage image) {
            // thumbnails are not read
        }
    }

    /**
     * Reads a whole picture of 16 bits whose values are in proportion to light.
     *
     * @param channels the numbers of channels allowed
     * @param mostPixels the most pixels allowed
     * @param remedy what to do about a file of another kind
     * @return its pixels
     * @throws IllegalArgumentException if the file has another number of channels, or other than 16 bits, or more pixels,
     *     or is damaged
     */
    public Raster linear(Set<Integer> channels, long mostPixels, String remedy) {
        ColorModel colours = type().getColorModel();
        int bits = colours.getComponentSize(0);
        int bands = type().getNumBands();
        if (colours instanceof IndexColorModel || bits != 16 || !channels.contains(bands)) {
            throw new IllegalArgumentException(file + " has " + bands + " channels of " + bits + " bits; " + remedy);
        }
        if ((long) width * height > mostPixels) {
            throw new IllegalArgumentException(file + " has " + width + " × " + height + " pixels; the most is "
                    + mostPixels / 1_000_000 + " million: cut or scale it");
        }
        return decoded(reader.getDefaultReadParam()).getRaster();
    }

    /**
     * Reads every n-th pixel of every n-th row, for a small picture of the whole.
     *
     * @param step n, at least 1
     * @return the pixels
     * @throws IllegalArgumentException if the file is damaged
     */
    public Raster everyNth(int step) {
        ImageReadParam param = reader.getDefaultReadParam();
        param.setSourceSubsampling(step, step, 0, 0);
        return decoded(param).getRaster();
    }

    private BufferedImage decoded(ImageReadParam param) {
        trouble = "";
        BufferedImage image;
        try {
            image = reader.read(0, param);
        } catch (IOException | RuntimeException e) {
            throw damaged(file, e);
        }
        if (!trouble.isEmpty()) {
            throw damaged(file, new IOException(trouble));
        }
        return image;
    }

    /** Which channel of a colour scan is read. */
    public enum Channel {
        /** Red. */
        RED(0),
        /** Green. */
        GREEN(1),
        /** Blue. */
        BLUE(2);

        private final int band;

        Channel(int band) {
            this.band = band;
        }
    }

    @Override
    public void close() throws IOException {
        reader.dispose();
        stream.close();
    }
}
