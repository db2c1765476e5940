package dev.cupwarden.board;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A kernel with GPIO chips as {@code linux/gpio.h} of Linux 6.1 describes them, told by bytes: all
 * offsets and request numbers here are what a C compiler printed of that header (sizeof, offsetof
 * and the macros, on x86_64 with gcc). Like the kernel it refuses what is not zero and should be.
 * The machine that builds this has no simulated chips of the kernel's own ({@code gpio-sim}).
 */
final class ConstructedGpioKernel implements GpioKernel {
  private record Chip(String label, int lines) {}

  private record Taken(int chip, int line, boolean output) {}

  private final Map<String, Chip> chips = new TreeMap<>();
  private final Map<Integer, String> open = new HashMap<>();
  private final Map<Integer, Taken> taken = new HashMap<>();
  private final Map<Integer, Boolean> levels = new HashMap<>();
  private int next = 3;

  /** What was asked, in order, in words. */
  final List<String> asked = new ArrayList<>();

  /** The last request for a line, byte by byte. */
  byte[] lastRequest;

  /** What an open of that device answers. */
  final Map<String, String> unusable = new HashMap<>();

  ConstructedGpioKernel with(String name, String label, int lines) {
    chips.put(name, new Chip(label, lines));
    return this;
  }

  void drive(int line, boolean high) {
    levels.put(line, high);
  }

  boolean level(int line) {
    return levels.getOrDefault(line, false);
  }

  int stillOpen() {
    return open.size() + taken.size();
  }

  @Override
  public int open(Path device) throws IOException {
    String name = device.getFileName().toString();
    if (unusable.containsKey(name)) {
      throw new IOException(unusable.get(name));
    }
    open.put(next, name);
    return next++;
  }

  @Override
  public void close(int fd) throws IOException {
    Taken line = taken.remove(fd);
    if (line != null) {
      asked.add("free " + line.line());
    } else if (open.remove(fd) == null) {
      throw new IOException("[9] Bad file descriptor");
    }
  }

  @Override
  public void ioctl(int fd, int request, ByteBuffer argument) throws IOException {
    switch (request) {
      case 0x8044B401 -> info(chips.get(open.get(fd)), argument);
      case 0xC250B407 -> take(chips.get(open.get(fd)), argument);
      case 0xC010B40E -> argument.putLong(0, level(taken.get(fd).line()) ? 1 : 0);
      case 0xC010B40F -> set(taken.get(fd), argument);
      default -> throw new IOException("[25] Inappropriate ioctl for device");
    }
  }

  private static void info(Chip chip, ByteBuffer argument) throws IOException {
    size(argument, 68);
    for (int i = 0; i < chip.label().length(); i++) {
      argument.put(32 + i, (byte) chip.label().charAt(i));
    }
    argument.putInt(64, chip.lines());
  }

  private void take(Chip chip, ByteBuffer argument) throws IOException {
    size(argument, 592);
    lastRequest = new byte[592];
    argument.get(0, lastRequest);
    int line = argument.getInt(0);
    long flags = argument.getLong(288);
    int attributes = argument.getInt(296);
    for (int zero : new int[] {300, 304, 308, 312, 316, 568, 572, 576, 580, 584}) {
      if (argument.getInt(zero) != 0) {
        throw new IOException("[22] Invalid argument");
      }
    }
    boolean output = (flags & 8) != 0;
    boolean input = (flags & 4) != 0;
    if (line >= chip.lines() || argument.getInt(560) != 1 || output == input || attributes > 1) {
      throw new IOException("[22] Invalid argument");
    }
    if (taken.values().stream().anyMatch(other -> other.line() == line)) {
      throw new IOException("[16] Device or resource busy");
    }
    String how = "";
    if (attributes == 1 && argument.getLong(336) == 1) {
      int id = argument.getInt(320);
      if (id == 2) {
        levels.put(line, (argument.getLong(328) & 1) != 0);
        how = level(line) ? " high" : " low";
      } else if (id == 3) {
        how = " " + argument.getInt(328) + " us";
      }
    }
    String bias =
        (flags & 0x100) != 0
            ? " up"
            : (flags & 0x200) != 0 ? " down" : (flags & 0x400) != 0 ? " none" : "";
    asked.add((output ? "output " : "input ") + line + bias + how);
    taken.put(next, new Taken(0, line, output));
    argument.putInt(588, next++);
  }

  private void set(Taken line, ByteBuffer argument) throws IOException {
    size(argument, 16);
    if (!line.output()) {
      throw new IOException("[1] Operation not permitted");
    }
    if ((argument.getLong(8) & 1) != 0) {
      levels.put(line.line(), (argument.getLong(0) & 1) != 0);
      asked.add("set " + line.line() + (level(line.line()) ? " high" : " low"));
    }
  }

  private static void size(ByteBuffer argument, int bytes) throws IOException {
    if (!argument.isDirect() || argument.capacity() != bytes) {
      throw new IOException("[14] Bad address");
    }
  }
}
