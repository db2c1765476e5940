package dev.cupwarden.app.service;

import dev.cupwarden.board.Pace;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Feeds the service manager's watchdog and the board's own for as long as the loop is alive. When
 * it is not they are left to bite: the service is started anew, or the board is.
 */
public final class Watchdogs implements AutoCloseable {
  private static final Duration EVERY = Duration.ofSeconds(5);
  private static final Logger log = LoggerFactory.getLogger(Watchdogs.class);

  private final LifeSigns signs;
  private final Pace pace;
  private final Optional<NotifySocket> manager;
  private final Optional<HardwareWatchdog> hardware;
  private final Pace.Repeating feeding;
  private boolean starved;

  /**
   * Begins to feed, and tells the manager that the service is ready.
   *
   * @param pace real time, in which the signs are told, and in whose thread they are looked at
   */
  public Watchdogs(
      LifeSigns signs,
      Pace pace,
      Optional<NotifySocket> manager,
      Optional<HardwareWatchdog> hardware) {
    this.signs = signs;
    this.pace = pace;
    this.manager = manager;
    this.hardware = hardware;
    manager.ifPresent(socket -> socket.send("READY=1\nSTATUS=Running"));
    this.feeding = pace.every(EVERY, this::look);
  }

  private void look() {
    if (!signs.alive(pace.nanos())) {
      if (!starved) {
        log.error("The loop has not finished a tick in time: the watchdogs are no longer fed");
        manager.ifPresent(socket -> socket.send("STATUS=The loop hangs"));
      }
      starved = true;
      return;
    }
    starved = false;
    manager.ifPresent(socket -> socket.send("WATCHDOG=1"));
    if (hardware.isPresent()) {
      try {
        hardware.get().feed();
      } catch (IOException e) {
        log.error("The board's watchdog cannot be fed: {}", e.getMessage());
      }
    }
  }

  /** The end is meant: nothing bites any more. */
  @Override
  public void close() throws IOException {
    feeding.close();
    manager.ifPresent(socket -> socket.send("STOPPING=1"));
    if (hardware.isPresent()) {
      hardware.get().close();
    }
  }
}
