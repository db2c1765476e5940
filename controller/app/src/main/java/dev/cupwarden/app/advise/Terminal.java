package dev.cupwarden.app.advise;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Whether a person reads along. Java's own console wants its input from a keyboard, too. */
final class Terminal {
  private static final Path OUTPUT = Path.of("/proc/self/fd/1");

  private Terminal() {}

  static boolean takesOutput() {
    try {
      String to = Files.readSymbolicLink(OUTPUT).toString();
      return to.startsWith("/dev/pts/") || to.startsWith("/dev/tty");
    } catch (IOException unknown) {
      return false;
    }
  }
}
