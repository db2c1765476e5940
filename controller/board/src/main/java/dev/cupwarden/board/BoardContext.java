package dev.cupwarden.board;

import com.pi4j.Pi4J;
import com.pi4j.boardinfo.definition.BoardModel;
import com.pi4j.boardinfo.util.BoardInfoHelper;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalInputProvider;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.i2c.LinuxFsI2CProvider;
import com.pi4j.provider.Provider;
import dev.cupwarden.core.setup.Bench;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The Pi4J context a board runs on. */
public final class BoardContext {
  private BoardContext() {}

  private static final Logger log = LoggerFactory.getLogger(BoardContext.class);

  /**
   * A context of the machine's own lines and buses.
   *
   * <p>Outputs by way of the kernel's GPIO character device: Pi4J's provider on the boards that it
   * knows, ours where a bench file names the chip or Pi4J knows the board no more. It works on
   * current kernels, where the old sysfs files are gone, needs no root but the group {@code gpio},
   * and the kernel frees a line when the process dies. I2C by way of {@code /dev/i2c-*}: the group
   * {@code i2c}, and a read after a register's address in one message with a repeated start.
   * Providers that need a daemon or root are left out on purpose. That a line is freed does not
   * mean that it goes low: what stops a pump when the process is dead must be hardware.
   *
   * @param bench which may name the chip whose lines its numbers are
   * @throws BoardException when the machine has none of these, or nobody knows its lines
   */
  public static Context real(Bench bench) throws BoardException {
    Optional<String> gpioChip = bench.board().flatMap(board -> board.more().gpioChip());
    try {
      if (gpioChip.isEmpty() && isKnownToPi4j()) {
        return with(
            GpioDDigitalOutputProvider.newInstance(),
            GpioDDigitalInputProvider.newInstance(),
            LinuxFsI2CProvider.newInstance());
      }
      GpioChips chips = new GpioChips(GpioKernel.real(), Path.of("/"));
      GpioChip chip = chips.open(gpioChip);
      log.info("The lines of {} are those of {} ({})", chips.model(), chip.name(), chip.label());
      return with(
          new GpioChipOutputs(chip), new GpioChipInputs(chip), LinuxFsI2CProvider.newInstance());
    } catch (Pi4JException | UnsatisfiedLinkError e) {
      throw new BoardException(
          "This machine's lines and buses cannot be opened: %s".formatted(e.getMessage()), e);
    }
  }

  /** Its provider opens no line on any other board. */
  private static boolean isKnownToPi4j() {
    return BoardInfoHelper.current().getBoardModel() != BoardModel.UNKNOWN;
  }

  /**
   * Has Pi4J open a part. What its provider refuses comes as an {@code IllegalStateException} about
   * it, the reason below; a machine that it has no native part for, as a {@code LinkageError}.
   *
   * @param what begins the sentence, such as "Output 17 (the pump)"
   */
  static <T> T open(String what, Supplier<T> opening) throws BoardException {
    try {
      return opening.get();
    } catch (Pi4JException | IllegalStateException | LinkageError e) {
      Throwable reason = e;
      while (reason.getCause() != null) {
        reason = reason.getCause();
      }
      throw new BoardException("%s cannot be opened: %s".formatted(what, reason.getMessage()), e);
    }
  }

  /**
   * A context of these providers and no others. It has no shutdown hook: whoever opened it switches
   * the outputs off first and then shuts it down, in that order.
   */
  public static Context with(Provider<?, ?, ?>... providers) {
    return Pi4J.newContextBuilder()
        .noAutoDetectPlatforms()
        .noAutoDetectProviders()
        .noAutoInject()
        .disableShutdownHook()
        .add(providers)
        .build();
  }
}
