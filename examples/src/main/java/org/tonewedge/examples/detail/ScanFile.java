package org.tonewedge.examples.detail;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.OptionalDouble;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.ImageInputStream;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.examples.command.InputFiles;
import org.w3c.dom.NodeList;

/**
 * A scan in a PNG or TIFF file of 8 or 16 bits, grey or RGB, of which regions are read without loading the whole.
 *
 * <p>Not thread safe; close it after use.
 */
final class ScanFile implements AutoCloseable {

    /** The most pixels of one region. */
    static final long MOST_PIXELS = 100_000_000;

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
    }

    static ScanFile open(Path file) throws IOException {
        ImageInputStream stream =
                ImageIO.createImageInputStream(InputFiles.existing(file).toFile());
        if (stream == null) {
            throw new IOException(file + " cannot be opened");
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
            throw damaged(file, e);
        }
    }

    private static IllegalArgumentException damaged(Path file, Exception cause) {
        return new IllegalArgumentException(
                file + " is damaged or cut short (" + cause.getMessage() + "); scan or copy it again", cause);
    }

    int width() {
        return width;
    }

    int height() {
        return height;
    }

    /** The resolution the file states, in pixels per millimetre. */
    OptionalDouble pixelsPerMillimetre() throws IOException {
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

    /** A region of one channel. */
    Codes read(ScanRegion region, Channel channel) throws IOException {
        if ((long) region.x() + region.width() > width || (long) region.y() + region.height() > height) {
            throw new IllegalArgumentException("region " + region + " reaches beyond " + file + ", which is " + width
                    + " by " + height + " pixels; regions are X,Y,WIDTH,HEIGHT from the top left corner");
        }
        if (region.pixels() > MOST_PIXELS) {
            throw new IllegalArgumentException("region " + region + " has " + region.pixels() + " pixels, more than "
                    + MOST_PIXELS + "; choose a smaller one");
        }
        ImageReadParam param = reader.getDefaultReadParam();
        param.setSourceRegion(new Rectangle(region.x(), region.y(), region.width(), region.height()));
        BufferedImage image = decoded(param);
        Raster raster = image.getRaster();
        int bits = image.getColorModel().getComponentSize(0);
        int bands = Math.min(3, raster.getNumBands() - (image.getColorModel().hasAlpha() ? 1 : 0));
        if ((bits != 8 && bits != 16) || (bands != 1 && bands != 3)) {
            throw new IllegalArgumentException(file + " has " + bands + " channels of " + bits
                    + " bits; save the scan as grey or RGB of 8 or 16 bits");
        }
        if (image.getColorModel() instanceof IndexColorModel) {
            throw new IllegalArgumentException(file + " has a palette of colours; save the scan as grey or RGB");
        }
        int[] codes = new int[Math.toIntExact(region.pixels())];
        int[] row = new int[region.width()];
        int band = bands == 1 ? 0 : channel.band;
        for (int y = 0; y < region.height(); y++) {
            raster.getSamples(0, y, region.width(), 1, band, row);
            System.arraycopy(row, 0, codes, y * region.width(), row.length);
        }
        return new Codes(codes, region, (1 << bits) - 1, bands);
    }

    /** Every n-th pixel of every n-th row, for a small picture of the whole. */
    Raster everyNth(int step) {
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
    enum Channel {
        RED(0),
        GREEN(1),
        BLUE(2);

        private final int band;

        Channel(int band) {
            this.band = band;
        }
    }

    /** The codes of a region, row by row, and the highest code there can be. */
    @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
    record Codes(int[] values, ScanRegion region, int highest, int bands) {}

    @Override
    public void close() throws IOException {
        reader.dispose();
        stream.close();
    }
}
