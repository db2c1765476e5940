package dev.cupwarden.app;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The wired bench that comes with the program, as tests take it. */
public final class BackRoom {
  private BackRoom() {}

  /** The bench file's text. */
  public static String text() {
    try (InputStream in = ControllerCommand.class.getResourceAsStream("back-room.yaml")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  /** The bench as the file sets it up. */
  public static Bench bench() {
    try {
      return BenchFile.read("back-room.yaml", text());
    } catch (SetupException broken) {
      throw new IllegalStateException(broken);
    }
  }
}
