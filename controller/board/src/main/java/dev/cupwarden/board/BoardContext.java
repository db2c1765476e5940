package dev.cupwarden.board;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalInputProvider;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.i2c.LinuxFsI2CProvider;
import com.pi4j.provider.Provider;

/** The Pi4J context a board runs on. */
public final class BoardContext {
  private BoardContext() {}

  /**
   * A context of the machine's own lines and buses.
   *
   * <p>Outputs by way of the kernel's GPIO character device: it works on current kernels, where the
   * old sysfs files are gone, needs no root but the group {@code gpio}, and the kernel frees a line
   * when the process dies. I2C by way of {@code /dev/i2c-*}: the group {@code i2c}, and a read
   * after a register's address in one message with a repeated start. Providers that need a daemon
   * or root are left out on purpose. That a line is freed does not mean that it goes low: what
   * stops a pump when the process is dead must be hardware.
   *
   * @throws BoardException when the machine has none of these
   */
  public static Context real() throws BoardException {
    try {
      return with(
          GpioDDigitalOutputProvider.newInstance(),
          GpioDDigitalInputProvider.newInstance(),
          LinuxFsI2CProvider.newInstance());
    } catch (Pi4JException | UnsatisfiedLinkError e) {
      throw new BoardException(
          "This machine's lines and buses cannot be opened: %s".formatted(e.getMessage()), e);
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
