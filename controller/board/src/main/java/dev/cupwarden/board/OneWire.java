package dev.cupwarden.board;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Where the text of a one-wire sensor comes from: the kernel clocks the wire and keeps a file. */
public interface OneWire {
  /**
   * What the sensor said, as the kernel writes it.
   *
   * @param id such as 28-0316a2795aff
   */
  byte[] read(String id) throws IOException;

  /** The kernel's own files; needs the device tree's one-wire overlay and no root. */
  static OneWire ofKernel() {
    return id -> Files.readAllBytes(Path.of("/sys/bus/w1/devices", id, "w1_slave"));
  }
}
