package dev.cupwarden.core.setup;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** Bench files for tests. */
public final class BenchTexts {
  private BenchTexts() {}

  /** Two cups, two tanks, every section but the board. */
  public static String backRoom() {
    return text("back-room.yaml");
  }

  /** Two cups on a board, only the mandatory sections besides. */
  public static String wired() {
    return text("wired.yaml");
  }

  /** The bench of {@link #backRoom}. */
  public static Bench backRoomBench() {
    try {
      return BenchFile.read("bench.yaml", backRoom());
    } catch (SetupException refused) {
      throw new IllegalStateException(refused);
    }
  }

  private static String text(String name) {
    try (InputStream in = BenchTexts.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
