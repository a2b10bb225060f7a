// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

/**
 * PNG of charts (ISO/IEC 15948:2004): with a palette where there are few colours, as in most charts, else in RGB. The
 * rows are not filtered, which suits lines on white, and the packing is light: a chart takes a few milliseconds where
 * the writer of the platform, which tries five filters on every row, takes fifty and more.
 */
final class PngImage {

    private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    /** Three times as fast as the next level, which makes the files of charts a tenth smaller. */
    private static final int PACKING = 3;

    private static final int GREY = 0;
    private static final int RGB = 2;
    private static final int INDEXED = 3;

    private final int width;
    private final int height;
    private final int[] pixels;

    /** An image of the type that {@link Drawing#image} paints. */
    PngImage(BufferedImage image) {
        width = image.getWidth();
        height = image.getHeight();
        pixels = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
    }

    /**
     * Writes the image.
     *
     * @param exact colours that a palette must keep as they are; mixtures at the edges of lines may lose their last bits
     */
    void write(OutputStream out, Collection<Color> exact) throws IOException {
        Optional<Palette> palette = Palette.of(new Colours(pixels, width, height), exact);
        out.write(SIGNATURE);
        chunk(out, "IHDR", header(width, height, 8, palette.isPresent() ? INDEXED : RGB));
        if (palette.isPresent()) {
            chunk(out, "PLTE", palette.get().bytes());
        }
        chunk(out, "IDAT", packed(palette));
        chunk(out, "IEND", new byte[0]);
    }

    /** Writes a picture in greys of 16 bits. */
    static void writeGrey(int width, int height, char[] codes, OutputStream out) throws IOException {
        out.write(SIGNATURE);
        chunk(out, "IHDR", header(width, height, 16, GREY));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 16);
        Deflater deflater = new Deflater(PACKING);
        try (DeflaterOutputStream packing = new DeflaterOutputStream(bytes, deflater, 1 << 15)) {
            byte[] row = new byte[1 + 2 * width];
            for (int y = 0; y < height; y++) {
                for (int x = 0; x < width; x++) {
                    char code = codes[y * width + x];
                    row[1 + 2 * x] = (byte) (code >> 8);
                    row[2 + 2 * x] = (byte) code;
                }
                packing.write(row);
            }
        } finally {
            deflater.end();
        }
        chunk(out, "IDAT", bytes.toByteArray());
        chunk(out, "IEND", new byte[0]);
    }

    private static byte[] header(int width, int height, int bits, int type) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DataOutputStream data = new DataOutputStream(bytes);
        data.writeInt(width);
        data.writeInt(height);
        // bits of a channel, type, packing, filter method, no interlacing
        data.write(new byte[] {(byte) bits, (byte) type, 0, 0, 0});
        return bytes.toByteArray();
    }

    private static void chunk(OutputStream out, String name, byte[] content) throws IOException {
        byte[] type = name.getBytes(StandardCharsets.US_ASCII);
        CRC32 check = new CRC32();
        check.update(type);
        check.update(content);
        DataOutputStream data = new DataOutputStream(out);
        data.writeInt(content.length);
        data.write(type);
        data.write(content);
        data.writeInt((int) check.getValue());
        data.flush();
    }

    private byte[] packed(Optional<Palette> palette) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(1 << 16);
        Deflater deflater = new Deflater(PACKING);
        try (DeflaterOutputStream packing = new DeflaterOutputStream(bytes, deflater, 1 << 15)) {
            // A row begins with its filter: none.
            byte[] row = new byte[1 + width * (palette.isPresent() ? 1 : 3)];
            for (int y = 0; y < height; y++) {
                if (isRepeated(pixels, y, width)) {
                    packing.write(row);
                    continue;
                }
                if (palette.isPresent()) {
                    palette.get().indices(pixels, y * width, row, width);
                } else {
                    copy(y * width, row);
                }
                packing.write(row);
            }
        } finally {
            deflater.end();
        }
        return bytes.toByteArray();
    }

    /** Whether a row is that above, as most are between curves. */
    private static boolean isRepeated(int[] pixels, int y, int width) {
        int from = y * width;
        return y > 0 && Arrays.equals(pixels, from, from + width, pixels, from - width, from);
    }

    private void copy(int from, byte[] row) {
        int at = 1;
        for (int x = 0; x < width; x++) {
            int pixel = pixels[from + x];
            row[at++] = (byte) (pixel >> 16);
            row[at++] = (byte) (pixel >> 8);
            row[at++] = (byte) pixel;
        }
    }

    /** The colours of an image, in the order in which they appear. */
    private static final class Colours {

        private int[] slots = new int[1 << 12];
        private int[] found = new int[1 << 11];
        private int count;

        Colours(int[] pixels, int width, int height) {
            Arrays.fill(slots, -1);
            for (int y = 0; y < height; y++) {
                if (!isRepeated(pixels, y, width)) {
                    addAll(pixels, y * width, (y + 1) * width);
                }
            }
        }

        private void addAll(int[] pixels, int from, int to) {
            int last = -1;
            for (int i = from; i < to; i++) {
                int pixel = pixels[i] & 0xffffff;
                if (pixel != last) {
                    add(pixel);
                    last = pixel;
                }
            }
        }

        private void add(int pixel) {
            int slot = slotOf(pixel);
            if (slots[slot] == pixel) {
                return;
            }
            if (count == found.length) {
                found = Arrays.copyOf(found, 2 * count);
                slots = new int[4 * count];
                Arrays.fill(slots, -1);
                for (int i = 0; i < count; i++) {
                    slots[slotOf(found[i])] = found[i];
                }
                slot = slotOf(pixel);
            }
            slots[slot] = pixel;
            found[count++] = pixel;
        }

        private int slotOf(int pixel) {
            int mask = slots.length - 1;
            int slot = ((pixel * 0x9E3779B1) >>> 8) & mask;
            while (slots[slot] >= 0 && slots[slot] != pixel) {
                slot = (slot + 1) & mask;
            }
            return slot;
        }
    }

    /** At most 256 colours, found by hashing; a mixture stands for those that differ from it in their last bits. */
    private static final class Palette {

        private static final int COLOURS = 256;
        private static final int FINEST = 8;
        private static final int COARSEST = 4;
        private static final int SLOTS = 1 << 12;

        private final int mask;
        private final int[] colourOfSlot = new int[SLOTS];
        private final byte[] indexOfSlot = new byte[SLOTS];
        private final int[] colours = new int[COLOURS];
        private int size;

        private Palette(int bits) {
            int channel = (0xff << (8 - bits)) & 0xff;
            mask = channel << 16 | channel << 8 | channel;
            Arrays.fill(colourOfSlot, -1);
        }

        /** The finest palette that the colours fit in, if one does. */
        static Optional<Palette> of(Colours all, Collection<Color> exact) {
            for (int bits = FINEST; bits >= COARSEST; bits--) {
                Palette palette = new Palette(bits);
                boolean fits = exact.stream().allMatch(colour -> palette.add(colour.getRGB() & 0xffffff));
                if (fits && palette.addAll(all)) {
                    return Optional.of(palette);
                }
            }
            return Optional.empty();
        }

        private boolean addAll(Colours all) {
            for (int i = 0; i < all.count; i++) {
                if (!add(all.found[i])) {
                    return false;
                }
            }
            return true;
        }

        private boolean add(int pixel) {
            int slot = slotOf(pixel & mask);
            if (colourOfSlot[slot] < 0) {
                if (size == COLOURS) {
                    return false;
                }
                colourOfSlot[slot] = pixel & mask;
                indexOfSlot[slot] = (byte) size;
                colours[size++] = pixel;
            }
            return true;
        }

        private int slotOf(int key) {
            int slot = (key * 0x9E3779B1) >>> 20;
            while (colourOfSlot[slot] >= 0 && colourOfSlot[slot] != key) {
                slot = (slot + 1) & (SLOTS - 1);
            }
            return slot;
        }

        void indices(int[] pixels, int from, byte[] row, int width) {
            int last = -1;
            byte index = 0;
            for (int x = 0; x < width; x++) {
                int pixel = pixels[from + x] & mask;
                if (pixel != last) {
                    index = indexOfSlot[slotOf(pixel)];
                    last = pixel;
                }
                row[1 + x] = index;
            }
        }

        byte[] bytes() {
            byte[] bytes = new byte[3 * size];
            for (int i = 0; i < size; i++) {
                bytes[3 * i] = (byte) (colours[i] >> 16);
                bytes[3 * i + 1] = (byte) (colours[i] >> 8);
                bytes[3 * i + 2] = (byte) colours[i];
            }
            return bytes;
        }
    }
}
