package dev.cupwarden.app.check;

import dev.cupwarden.core.setup.BoardWiring;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What the machine must give: device files with their groups, a folder to write to, the time. */
final class MachineCheck {
  /** systemd's time service leaves this file once a server has set the clock. */
  private static final Path SYNCHRONISED = Path.of("run/systemd/timesync/synchronized");

  private static final long LEAST_FREE_MB = 64;

  private final Path root;

  /**
   * @param root of the file system; another one in tests
   */
  MachineCheck(Path root) {
    this.root = root;
  }

  /** Device files that the wiring needs, for this user. */
  List<Finding> devices(BoardWiring wiring) {
    List<Finding> findings = new ArrayList<>();
    findings.add(device("dev/i2c-" + wiring.i2cBus(), "i2c", "Switch the I2C bus on."));
    findings.add(device("dev/" + gpioDevice(wiring), "gpio", "This machine has no GPIO lines."));
    Stream.of(wiring.more().root(), wiring.more().outdoor())
        .flatMap(Optional::stream)
        .forEach(thermometer -> findings.add(oneWire(thermometer.id())));
    return findings;
  }

  /** A chip that is named by its label may have any number. */
  private static String gpioDevice(BoardWiring wiring) {
    return wiring.more().gpioChip().filter(chip -> chip.startsWith("gpiochip")).orElse("gpiochip0");
  }

  private Finding oneWire(String id) {
    Path file = root.resolve("sys/bus/w1/devices").resolve(id);
    return Files.exists(file)
        ? Finding.ok("permissions", "one-wire " + id + " is there")
        : Finding.fail(
            "permissions",
            "There is no one-wire sensor %s: see the names below /%s."
                .formatted(id, root.relativize(file.getParent())));
  }

  private Finding device(String name, String group, String whenMissing) {
    Path file = root.resolve(name);
    if (!Files.exists(file)) {
      return Finding.fail("permissions", "There is no /%s. %s".formatted(name, whenMissing));
    }
    if (!Files.isReadable(file) || !Files.isWritable(file)) {
      return Finding.fail(
          "permissions",
          "/%s may not be used by this user: add the user to the group %s.".formatted(name, group));
    }
    return Finding.ok("permissions", "/" + name + " may be used");
  }

  /** Whether a board that hangs can be reset; that it is armed shows only while it runs. */
  Finding watchdog() {
    Path file = root.resolve("dev/watchdog");
    if (!Files.exists(file)) {
      return Finding.note(
          "watchdog", "There is no /dev/watchdog, so nothing resets a board that hangs.");
    }
    return Files.isWritable(file)
        ? Finding.ok("watchdog", "/dev/watchdog may be used: run --watchdog /dev/watchdog arms it")
        : Finding.note(
            "watchdog",
            "/dev/watchdog may not be used by this user, so nothing resets a board that hangs.");
  }

  /** Whether the clock was set by a time server since the start of the machine. */
  Finding clock() {
    return Files.exists(root.resolve(SYNCHRONISED))
        ? Finding.ok("clock", "set by a time server")
        : Finding.note(
            "clock",
            "It is not known that a time server has set the clock; until it is right only rescues"
                + " are given.");
  }

  /** Whether the journal can be kept in that folder; a file is written there and deleted. */
  Finding folder(Path folder) {
    try {
      Path probe = Files.createTempFile(folder, "check", ".tmp");
      Files.write(probe, new byte[4096]);
      Files.delete(probe);
      long freeMb = folder.toFile().getUsableSpace() / 1_000_000;
      return freeMb < LEAST_FREE_MB
          ? Finding.fail(
              "data", "%s has %d MB left: %d are needed.".formatted(folder, freeMb, LEAST_FREE_MB))
          : Finding.ok("data", "%s can be written, %d MB left".formatted(folder, freeMb));
    } catch (IOException e) {
      return Finding.fail(
          "data", "%s cannot be written by this user (%s).".formatted(folder, e.getMessage()));
    }
  }
}
