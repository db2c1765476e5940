package dev.cupwarden.host.web;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;

/**
 * A photo as it is kept: its picture elements alone, drawn and encoded anew, so that nothing else
 * that a camera writes into a file (place, time, owner) is stored.
 */
final class PlainPhoto {
  /** As the page sends them: 1280 picture elements along the longer side, and some more. */
  static final long MOST_PIXELS = 2_000_000;

  static final int MOST_BYTES = 1024 * 1024;

  private PlainPhoto() {}

  /**
   * The same picture as a JPEG without anything beside it.
   *
   * @param written JPEG or PNG
   * @throws IOException with one sentence where it is no such picture, or too large a one
   */
  static byte[] of(byte[] written) throws IOException {
    if (written.length > MOST_BYTES) {
      throw new IOException("photo: at most " + MOST_BYTES / 1024 + " KiB.");
    }
    BufferedImage seen = read(written);
    BufferedImage plain =
        new BufferedImage(seen.getWidth(), seen.getHeight(), BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = plain.createGraphics();
    try {
      pen.drawImage(seen, 0, 0, Color.WHITE, null);
    } finally {
      pen.dispose();
    }
    ByteArrayOutputStream encoded = new ByteArrayOutputStream();
    if (!ImageIO.write(plain, "jpeg", encoded)) {
      throw new IOException("photo: it cannot be encoded here.");
    }
    return encoded.toByteArray();
  }

  /** Its size is known before room is made for it. */
  private static BufferedImage read(byte[] written) throws IOException {
    ImageIO.setUseCache(false);
    try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(written))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        throw new IOException("photo: expected a JPEG or PNG picture.");
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        long pixels = (long) reader.getWidth(0) * reader.getHeight(0);
        if (pixels > MOST_PIXELS) {
          throw new IOException(
              "photo: at most %d picture elements, not %d.".formatted(MOST_PIXELS, pixels));
        }
        return reader.read(0);
      } finally {
        reader.dispose();
      }
    } catch (IllegalArgumentException | IndexOutOfBoundsException broken) {
      throw new IOException("photo: the picture is broken.", broken);
    }
  }
}
