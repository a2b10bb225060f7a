package org.tonewedge.examples.chart;

import de.erichseifert.vectorgraphics2d.Document;
import de.erichseifert.vectorgraphics2d.Processors;
import de.erichseifert.vectorgraphics2d.VectorGraphics2D;
import de.erichseifert.vectorgraphics2d.util.PageSize;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.jfree.chart.ChartRenderingInfo;
import org.jfree.chart.JFreeChart;

/** Writes a chart as SVG and PNG whose data area has a stated size, so that both axes can have equal units. */
public final class ChartFiles {

    /** Pixels of the PNG for each unit of the SVG, enough for print at 300 dots per inch and 10 cm width. */
    private static final int PNG_SCALE = 2;

    private ChartFiles() {}

    /**
     * Writes a chart.
     *
     * @param chart the chart
     * @param dataWidth the width of the area between the axes, in SVG units
     * @param dataHeight its height
     * @param directory where the files go
     * @param name the file name without its ending
     * @throws IOException if a file cannot be written
     */
    public static void write(JFreeChart chart, double dataWidth, double dataHeight, Path directory, String name)
            throws IOException {
        double width = dataWidth + 120;
        double height = dataHeight + 150;
        // The room that axes and legend need is known only after drawing; a second pass settles wrapped legends.
        for (int pass = 0; pass < 2; pass++) {
            Rectangle2D data = drawnDataArea(chart, (int) Math.round(width), (int) Math.round(height));
            width += dataWidth - data.getWidth();
            height += dataHeight - data.getHeight();
        }
        int w = (int) Math.round(width);
        int h = (int) Math.round(height);
        Files.createDirectories(directory);
        writeSvg(chart, w, h, directory.resolve(name + ".svg"));
        BufferedImage image = chart.createBufferedImage(w * PNG_SCALE, h * PNG_SCALE, w, h, new ChartRenderingInfo());
        ImageIO.write(image, "png", directory.resolve(name + ".png").toFile());
    }

    private static Rectangle2D drawnDataArea(JFreeChart chart, int width, int height) {
        ChartRenderingInfo info = new ChartRenderingInfo();
        chart.createBufferedImage(width, height, info);
        return info.getPlotInfo().getDataArea();
    }

    private static void writeSvg(JFreeChart chart, int width, int height, Path file) throws IOException {
        VectorGraphics2D graphics = new VectorGraphics2D();
        chart.draw(graphics, new Rectangle2D.Double(0, 0, width, height));
        Document document =
                Processors.get("svg").getDocument(graphics.getCommands(), new PageSize(0, 0, width, height));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        document.writeTo(bytes);
        // The font of this machine may be missing on the reader's, and the size is left out where it is 12.
        String svg = bytes.toString(StandardCharsets.UTF_8)
                .replaceAll("font-family:(&quot;[^&]*&quot;);", "font-family:$1,sans-serif;")
                .replaceFirst("<svg ", "<svg font-size=\"12px\" ");
        Files.writeString(file, svg);
    }
}
