package dev.cupwarden.app;

import java.util.Optional;

/** Which version of the program this is. */
public final class ProgramVersion {
  private ProgramVersion() {}

  /** From the jar's manifest; {@code unpacked} where there is none. */
  public static String text() {
    return Optional.ofNullable(ProgramVersion.class.getPackage().getImplementationVersion())
        .orElse("unpacked");
  }
}
