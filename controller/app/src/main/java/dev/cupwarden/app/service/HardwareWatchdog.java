package dev.cupwarden.app.service;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * The board's own watchdog, {@code /dev/watchdog} (kernel documentation, "The Linux Watchdog driver
 * API"): once opened it resets the board unless it is written to in time. A {@code V} before
 * closing says that the end is meant; a process that dies says nothing, and the board is reset.
 */
public final class HardwareWatchdog implements AutoCloseable {
  private static final byte[] ALIVE = {'1'};
  private static final byte[] END_IS_MEANT = {'V'};

  private final OutputStream device;

  private HardwareWatchdog(OutputStream device) {
    this.device = device;
  }

  /** Opens the device, which starts it. */
  public static HardwareWatchdog open(Path device) throws IOException {
    return new HardwareWatchdog(Files.newOutputStream(device, StandardOpenOption.WRITE));
  }

  void feed() throws IOException {
    device.write(ALIVE);
  }

  @Override
  public void close() throws IOException {
    device.write(END_IS_MEANT);
    device.close();
  }
}
