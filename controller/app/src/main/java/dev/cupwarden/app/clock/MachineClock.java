package dev.cupwarden.app.clock;

import com.sun.jna.Function;
import com.sun.jna.Memory;
import dev.cupwarden.core.setup.BoardWiring.ClockChip;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What Linux knows of its clock. A time source has set it where systemd-timesyncd says so by a file
 * that does not outlive a boot, or where the kernel's own flag says so (adjtimex(2)), which every
 * time daemon clears. Clock chips stand below {@code /sys/class/rtc}, seconds of the epoch each.
 */
final class MachineClock implements ClockEvidence {
  private static final Path HEARD = Path.of("/run/systemd/timesync/synchronized");
  private static final Path CHIPS = Path.of("/sys/class/rtc");

  /** {@code TIME_ERROR} of adjtimex(2): the clock is not synchronised. */
  private static final int TIME_ERROR = 5;

  /** More than any kernel's {@code struct timex}; all zero, it only asks. */
  private static final int TIMEX_BYTES = 512;

  /** Reading both is not one act, and a chip counts whole seconds. */
  private static final Duration READING = Duration.ofSeconds(2);

  private static final Duration MONTH = Duration.ofDays(30);
  private static final Logger log = LoggerFactory.getLogger(MachineClock.class);

  private final Optional<ClockChip> named;
  private final Path heard;
  private final BooleanSupplier kernel;
  private final Path chips;

  /**
   * @param named in the bench file
   */
  MachineClock(Optional<ClockChip> named) {
    this(named, HEARD, MachineClock::kernelSaysSo, CHIPS);
  }

  MachineClock(Optional<ClockChip> named, Path heard, BooleanSupplier kernel, Path chips) {
    this.named = named;
    this.heard = heard;
    this.kernel = kernel;
    this.chips = chips;
  }

  @Override
  public boolean synchronised() {
    return Files.exists(heard) || kernel.getAsBoolean();
  }

  private static boolean kernelSaysSo() {
    try (Memory timex = new Memory(TIMEX_BYTES)) {
      timex.clear();
      int answer = Function.getFunction("c", "adjtimex").invokeInt(new Object[] {timex});
      return answer >= 0 && answer != TIME_ERROR;
    } catch (UnsatisfiedLinkError | RuntimeException none) {
      log.debug("The kernel cannot be asked about its clock: {}", none.getMessage());
      return false;
    }
  }

  @Override
  public boolean chipAgrees(Instant wall, Instant last) {
    if (named.isEmpty()) {
      return false;
    }
    Optional<Instant> shown = chip();
    if (shown.isEmpty() || !shown.get().isAfter(last)) {
      return false;
    }
    Duration drift =
        Duration.ofMillis(
            (long)
                (named.get().driftPer30Days().toMillis()
                    * ((double) Duration.between(last, shown.get()).toMillis()
                        / MONTH.toMillis())));
    Duration apart = Duration.between(shown.get(), wall).abs();
    boolean agrees = apart.compareTo(READING.plus(drift)) <= 0;
    log.info(
        "The clock chip {} shows {}, the clock {}: {}",
        named.get().chip(),
        shown.get(),
        wall,
        agrees ? "within its drift" : "too far apart");
    return agrees;
  }

  /** The one that the kernel took the time from at the boot, or the first. */
  private Optional<Instant> chip() {
    Optional<Instant> first = Optional.empty();
    try (DirectoryStream<Path> all = Files.newDirectoryStream(chips, "rtc*")) {
      for (Path chip : all) {
        Optional<Instant> shown = shown(chip);
        if (shown.isPresent() && "1".equals(line(chip.resolve("hctosys")))) {
          return shown;
        }
        first = first.isPresent() ? first : shown;
      }
    } catch (IOException none) {
      log.warn("There is no clock chip below {}, though the bench file names one", chips);
    }
    return first;
  }

  private static Optional<Instant> shown(Path chip) {
    try {
      return Optional.of(Instant.ofEpochSecond(Long.parseLong(line(chip.resolve("since_epoch")))));
    } catch (IOException | NumberFormatException unreadable) {
      log.warn("The clock chip {} cannot be read: {}", chip, unreadable.getMessage());
      return Optional.empty();
    }
  }

  private static String line(Path file) throws IOException {
    return Files.exists(file) ? Files.readString(file).strip() : "";
  }
}
