package dev.cupwarden.board;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Which of a machine's GPIO chips the numbers in a bench file mean: the one that it names, else the
 * one whose lines 0 to 27 are those of the header with 40 pins that the hardware notes are drawn
 * for. On any other board a number by itself means nothing, and to guess might switch what is not
 * ours.
 */
final class GpioChips {
  /**
   * What the drivers of that header's processors call their lines: BCM2835 to BCM2837, BCM2711, and
   * RP1 beside BCM2712 (Linux, drivers/pinctrl; from memory but for the second).
   */
  private static final Set<String> OF_THE_HEADER =
      Set.of("pinctrl-bcm2835", "pinctrl-bcm2711", "pinctrl-rp1");

  private final GpioKernel kernel;
  private final Path root;

  /**
   * @param root of the file system; another one in tests
   */
  GpioChips(GpioKernel kernel, Path root) {
    this.kernel = kernel;
    this.root = root;
  }

  /**
   * Opens the chip.
   *
   * @param named by the bench file: its name below /dev, or its label
   * @throws BoardException with a sentence that says what board this is and which chips it has
   */
  GpioChip open(Optional<String> named) throws BoardException {
    List<String> seen = new ArrayList<>();
    List<GpioChip> fit = new ArrayList<>();
    for (Path device : devices()) {
      try {
        GpioChip chip = GpioChip.open(kernel, device);
        seen.add("%s (%s, %d lines)".formatted(chip.name(), chip.label(), chip.lines()));
        if (named.isPresent()
            ? isCalled(chip, named.get())
            : OF_THE_HEADER.contains(chip.label())) {
          fit.add(chip);
        } else {
          chip.close();
        }
      } catch (IOException e) {
        seen.add("%s, which cannot be used (%s)".formatted(device.getFileName(), e.getMessage()));
      }
    }
    if (fit.size() == 1) {
      return fit.get(0);
    }
    closeAll(fit);
    throw new BoardException(refusal(named, seen, fit.size()));
  }

  private static boolean isCalled(GpioChip chip, String named) {
    return chip.name().equals(named) || chip.label().equals(named);
  }

  private static void closeAll(List<GpioChip> chips) throws BoardException {
    try {
      for (GpioChip chip : chips) {
        chip.close();
      }
    } catch (IOException e) {
      throw new BoardException("A GPIO chip cannot be closed: " + e.getMessage(), e);
    }
  }

  private String refusal(Optional<String> named, List<String> seen, int fit) {
    String there =
        seen.isEmpty()
            ? "it has no GPIO chip (/dev/gpiochip0 and so on)"
            : "it has " + String.join(", ", seen);
    if (named.isPresent()) {
      return fit > 1
          ? "board.gpio_chip: %d chips of %s are called %s; name one as below /dev: %s."
              .formatted(fit, model(), named.get(), there)
          : "board.gpio_chip: %s has no chip %s; %s.".formatted(model(), named.get(), there);
    }
    return ("The lines of %s are not known: %s. Supported without more are boards whose 40-pin header"
            + " hangs on a BCM2835 to BCM2837, BCM2711 or RP1; on others name the chip"
            + " (board.gpio_chip) and its own line numbers.")
        .formatted(model(), there);
  }

  /** What the firmware calls this board. */
  String model() {
    Path file = root.resolve("proc/device-tree/model");
    try {
      String told = Files.readString(file, StandardCharsets.ISO_8859_1).replace("\0", "").strip();
      return "this board (" + told + ")";
    } catch (IOException unknown) {
      return "this machine";
    }
  }

  private Set<Path> devices() throws BoardException {
    Set<Path> devices = new TreeSet<>();
    Path folder = root.resolve("dev");
    try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, "gpiochip*")) {
      found.forEach(devices::add);
    } catch (IOException e) {
      throw new BoardException("The machine's devices cannot be listed: " + e.getMessage(), e);
    }
    return devices;
  }
}
