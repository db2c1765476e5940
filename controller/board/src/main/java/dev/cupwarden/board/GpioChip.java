package dev.cupwarden.board;

import com.pi4j.exception.ShutdownException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/**
 * A chip of GPIO lines by Linux's character device, {@code /dev/gpiochipN}, in the second version
 * of its interface (since Linux 5.10; {@code linux/gpio.h}, whose names stand beside the numbers
 * here). A line belongs to whoever asked for it until it is given back or the process ends. Levels
 * are those of the wire: {@code ACTIVE_LOW} is not used.
 */
final class GpioChip implements AutoCloseable {
  // _IOR and _IOWR of type 0xB4: direction, size of the argument, type, number.
  private static final int GPIO_GET_CHIPINFO_IOCTL = 0x8044B401;
  private static final int GPIO_V2_GET_LINE_IOCTL = 0xC250B407;
  private static final int GPIO_V2_LINE_GET_VALUES_IOCTL = 0xC010B40E;
  private static final int GPIO_V2_LINE_SET_VALUES_IOCTL = 0xC010B40F;

  private static final int GPIO_MAX_NAME_SIZE = 32;

  /** struct gpiochip_info: name, label, lines. */
  private static final int CHIP_INFO_BYTES = 68;

  private static final int CHIP_LABEL = 32;
  private static final int CHIP_LINES = 64;

  /** struct gpio_v2_line_request: 64 offsets, consumer, config, num_lines, padding, fd. */
  private static final int REQUEST_BYTES = 592;

  private static final int REQUEST_CONSUMER = 256;
  private static final int REQUEST_FLAGS = 288;
  private static final int REQUEST_NUM_ATTRS = 296;

  /** The one attribute that is asked for: its id, its value, and the mask of its lines. */
  private static final int ATTRIBUTE_ID = 320;

  private static final int ATTRIBUTE_VALUE = 328;
  private static final int ATTRIBUTE_MASK = 336;
  private static final int REQUEST_NUM_LINES = 560;
  private static final int REQUEST_FD = 588;

  /** struct gpio_v2_line_values: bits, mask. */
  private static final int VALUES_BYTES = 16;

  private static final int VALUES_MASK = 8;

  private static final long FLAG_INPUT = 1L << 2;
  private static final long FLAG_OUTPUT = 1L << 3;

  private static final int ATTR_ID_OUTPUT_VALUES = 2;
  private static final int ATTR_ID_DEBOUNCE = 3;

  /** How a line that is read is held while nothing drives it. */
  enum Bias {
    PULL_UP(1L << 8),
    PULL_DOWN(1L << 9),
    NONE(1L << 10);

    private final long flag;

    Bias(long flag) {
      this.flag = flag;
    }
  }

  private final GpioKernel kernel;
  private final int fd;
  private final Path device;
  private final String label;
  private final int lines;

  private GpioChip(GpioKernel kernel, int fd, Path device, ByteBuffer info) {
    this.kernel = kernel;
    this.fd = fd;
    this.device = device;
    this.label = text(info, CHIP_LABEL);
    this.lines = info.getInt(CHIP_LINES);
  }

  /** Opens a chip and asks what it is; no line is touched. */
  static GpioChip open(GpioKernel kernel, Path device) throws IOException {
    int fd = kernel.open(device);
    try {
      ByteBuffer info = buffer(CHIP_INFO_BYTES);
      kernel.ioctl(fd, GPIO_GET_CHIPINFO_IOCTL, info);
      return new GpioChip(kernel, fd, device, info);
    } catch (IOException noChip) {
      kernel.close(fd);
      throw noChip;
    }
  }

  /** Its name below /dev, such as gpiochip0. */
  String name() {
    return device.getFileName().toString();
  }

  /** How its driver calls it, such as pinctrl-bcm2711. */
  String label() {
    return label;
  }

  /** How many lines it has. */
  int lines() {
    return lines;
  }

  /** Takes a line as an output that is at that level from the first moment on. */
  Line output(int line, String consumer, boolean high) throws IOException {
    return take(line, consumer, FLAG_OUTPUT, ATTR_ID_OUTPUT_VALUES, high ? 1 : 0);
  }

  /**
   * Takes a line to be read.
   *
   * @param debounceMicros how long a level must last to count; 0: at once
   */
  Line input(int line, String consumer, Bias bias, int debounceMicros) throws IOException {
    int attribute = debounceMicros > 0 ? ATTR_ID_DEBOUNCE : 0;
    return take(line, consumer, FLAG_INPUT | bias.flag, attribute, debounceMicros);
  }

  private Line take(int line, String consumer, long flags, int attribute, long value)
      throws IOException {
    if (line < 0 || line >= lines) {
      throw new IOException(
          "%s (%s) has the lines 0 to %d, and no line %d"
              .formatted(name(), label, lines - 1, line));
    }
    ByteBuffer request = buffer(REQUEST_BYTES);
    request.putInt(0, line);
    byte[] words = consumer.getBytes(StandardCharsets.US_ASCII);
    request.put(REQUEST_CONSUMER, words, 0, Math.min(words.length, GPIO_MAX_NAME_SIZE - 1));
    request.putLong(REQUEST_FLAGS, flags);
    if (attribute != 0) {
      request.putInt(REQUEST_NUM_ATTRS, 1);
      request.putInt(ATTRIBUTE_ID, attribute);
      // A union of 32 and 64 bits: the debounce period is its first 32.
      if (attribute == ATTR_ID_DEBOUNCE) {
        request.putInt(ATTRIBUTE_VALUE, (int) value);
      } else {
        request.putLong(ATTRIBUTE_VALUE, value);
      }
      request.putLong(ATTRIBUTE_MASK, 1L);
    }
    request.putInt(REQUEST_NUM_LINES, 1);
    kernel.ioctl(fd, GPIO_V2_GET_LINE_IOCTL, request);
    int taken = request.getInt(REQUEST_FD);
    if (taken <= 0) {
      throw new IOException("line %d of %s was not given".formatted(line, name()));
    }
    return new Line(kernel, taken);
  }

  /** Lines that were taken stay taken. */
  @Override
  public void close() throws IOException {
    kernel.close(fd);
  }

  /** A line that was taken. */
  static final class Line implements AutoCloseable {
    private final GpioKernel kernel;
    private final int fd;
    private final ByteBuffer values = buffer(VALUES_BYTES);

    private Line(GpioKernel kernel, int fd) {
      this.kernel = kernel;
      this.fd = fd;
    }

    synchronized void set(boolean high) throws IOException {
      values.putLong(0, high ? 1L : 0L).putLong(VALUES_MASK, 1L);
      kernel.ioctl(fd, GPIO_V2_LINE_SET_VALUES_IOCTL, values);
    }

    synchronized boolean high() throws IOException {
      values.putLong(0, 0L).putLong(VALUES_MASK, 1L);
      kernel.ioctl(fd, GPIO_V2_LINE_GET_VALUES_IOCTL, values);
      return (values.getLong(0) & 1L) != 0;
    }

    /** Gives it back, as Pi4J's parts do at their end. */
    void giveBack() throws ShutdownException {
      try {
        close();
      } catch (IOException e) {
        throw new ShutdownException(e.getMessage(), e);
      }
    }

    @Override
    public synchronized void close() throws IOException {
      kernel.close(fd);
    }
  }

  private static ByteBuffer buffer(int bytes) {
    return ByteBuffer.allocateDirect(bytes).order(ByteOrder.nativeOrder());
  }

  private static String text(ByteBuffer from, int at) {
    StringBuilder text = new StringBuilder(GPIO_MAX_NAME_SIZE);
    for (int i = at; i < at + GPIO_MAX_NAME_SIZE && from.get(i) != 0; i++) {
      text.append((char) (from.get(i) & 0xFF));
    }
    return text.toString();
  }
}
