package dev.cupwarden.app;

import java.util.Optional;

/** Which version of the program this is. */
final class Version {
  private Version() {}

  /** From the jar's manifest; {@code unpacked} where there is none. */
  static String text() {
    return Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
        .orElse("unpacked");
  }
}
