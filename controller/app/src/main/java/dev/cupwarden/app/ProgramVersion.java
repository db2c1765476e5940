package dev.cupwarden.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.Optional;
import java.util.Properties;

/** Which version of the program this is. */
public final class ProgramVersion {
  private static final Instant BUILT = read();

  private ProgramVersion() {}

  /** From the jar's manifest; {@code unpacked} where there is none. */
  public static String text() {
    return Optional.ofNullable(ProgramVersion.class.getPackage().getImplementationVersion())
        .orElse("unpacked");
  }

  /** When it was built, as its reproducible build has it. */
  public static Instant built() {
    return BUILT;
  }

  private static Instant read() {
    try (InputStream in = ProgramVersion.class.getResourceAsStream("built.properties")) {
      Properties built = new Properties();
      built.load(in);
      return Instant.parse(built.getProperty("at"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
